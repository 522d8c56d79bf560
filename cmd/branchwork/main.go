// Command branchwork plans the electrical loads, circuits and heat of grow rooms.
package main

import (
	"os"
	"runtime/debug"

	"branchwork/cmd/internal/cli"
)

// garbage is how much may pile up, in % of what is in use: the largest counted plans
// stay well within 300 MiB, for 3 % of their time.
const garbage = 75

func main() {
	if os.Getenv("GOGC") == "" {
		debug.SetGCPercent(garbage)
	}
	os.Exit(cli.Run(os.Args[1:], os.Stdin, os.Stdout, os.Stderr))
}
