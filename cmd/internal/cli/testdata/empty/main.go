// Command empty is a program with a root command and nothing else: what a start
// costs before branchwork adds to it.
package main

import (
	"os"

	"github.com/spf13/cobra"
)

func main() {
	root := &cobra.Command{Use: "empty", Short: "nothing", RunE: func(c *cobra.Command, _ []string) error { return c.Help() }}
	if root.Execute() != nil {
		os.Exit(1)
	}
}
