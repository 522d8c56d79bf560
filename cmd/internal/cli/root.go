// Package cli is the command line: one file per command, each an options struct,
// a constructor and a function that reads, asks the packages that work, and
// prints one document.
package cli

import (
	"io"
	"runtime/debug"

	"github.com/spf13/cobra"
)

// Run runs one command and returns its exit status.
func Run(args []string, in io.Reader, out, err io.Writer) (status int) {
	s := newStreams(in, out, err)
	defer func() {
		if p := recover(); p != nil {
			status = s.panicked(p, debug.Stack())
		}
	}()
	root := newRoot(s)
	root.SetArgs(args)
	root.SetIn(in)
	root.SetOut(out)
	root.SetErr(err)
	return s.status(root.Execute())
}

func newRoot(s *streams) *cobra.Command {
	root := &cobra.Command{
		Use:   "branchwork",
		Short: "plan the electrical loads, circuits and heat of grow rooms",
		Long: "branchwork reads one inventory of a site and works out its circuits, breakers, conductors, panels and heat.\n\n" +
			"It is a planning aid. It does not replace the code adopted where the site stands or a licensed electrician.\n\n" +
			"Exit status: 0 every rule that was checked holds; 1 a rule of the code is broken or cannot be told, or add says no;\n" +
			"2 the input or the command line is wrong; 3 our own fault; 130 interrupted.",
		Args:          noCommand,
		RunE:          func(cmd *cobra.Command, _ []string) error { return cmd.Help() },
		SilenceErrors: true,
		SilenceUsage:  true,
		Version:       version(),
	}
	root.SetVersionTemplate("branchwork {{.Version}}\n")
	root.SetFlagErrorFunc(wrongUse)
	root.AddCommand(withUsage(
		newPlan(s), newCheck(s), newAdd(s), newDiff(s), newAmps(s), newExplain(s), newHeat(s), newDay(s), newReport(s), newView(s), newNew(s),
		newTables(s), newRules(s), newSchema(s), newManual(s),
	)...)
	return root
}

// noCommand refuses a word that is no command, with the nearest that is.
func noCommand(cmd *cobra.Command, args []string) error {
	if len(args) == 0 {
		return nil
	}
	return hint(cobra.NoArgs(cmd, args), "branchwork --help lists the commands")
}
