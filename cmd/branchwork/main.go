// Command branchwork plans the electrical loads, circuits and heat of grow rooms.
package main

import (
	"os"

	"branchwork/cmd/internal/cli"
)

func main() { os.Exit(cli.Run(os.Args[1:], os.Stdin, os.Stdout, os.Stderr)) }
