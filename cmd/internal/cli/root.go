// Package cli is the command line: one file per command, each an options struct,
// a constructor and a function that reads, asks the packages that work, and
// prints one document.
package cli

import (
	"io"
	"runtime/debug"
	"slices"

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
	root := newRoot(s, func(name string) bool { return slices.Contains(args, name) })
	root.SetArgs(args)
	root.SetIn(in)
	root.SetOut(out)
	root.SetErr(err)
	return s.status(root.Execute())
}

// command is one of the program's, and what it is for in a line.
type command struct {
	name, short string
	make        func(*streams) *cobra.Command
}

func commands() []command {
	return []command{
		{"plan", "plan circuits, breakers, conductors and panels of a site", newPlan},
		{"check", "judge the circuits written in a file as they are", newCheck},
		{"add", "can more of an item go on what is built, where, and what would it take if not", newAdd},
		{"diff", "the change order between two inventories: circuits added, changed and freed", newDiff},
		{"amps", "one load without a file: amps at each voltage, how many fit on a breaker, heat", newAmps},
		{"explain", "every figure of a circuit, a panel or a room, worked step by step", newExplain},
		{"heat", "the heat of each room, for the HVAC installer", newHeat},
		{"day", "24 hours: power, amperes by leg, heat, energy and what it costs", newDay},
		{"report", "the hand-over document for those who build, inspect, cool, connect and use", newReport},
		{"view", "the report as a page that follows the file, with what-if questions", newView},
		{"new", "write a commented inventory to start from", newNew},
		{"tables", "the tables of a code profile, with where each value comes from; --evidence: how figures were verified", newTables},
		{"rules", "the rules of a code profile, with clause, reason and remedies", newRules},
		{"schema", "the JSON Schema of the inventory, or of an answer (default: plan)", newSchema},
		{"manual", "write the manual pages, one for each command", newManual},
	}
}

// every command is to be made.
func every(string) bool { return true }

// newRoot makes the commands that are asked for; the others stand in the list of
// commands only, so that a start costs little.
func newRoot(s *streams, asked func(name string) bool) *cobra.Command {
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
	for _, c := range commands() {
		cmd := &cobra.Command{Use: c.name, Run: func(*cobra.Command, []string) { panic("a command that was not asked for runs") }}
		if asked(c.name) {
			cmd = withUsage(c.make(s))
		}
		cmd.Short = c.short
		root.AddCommand(cmd)
	}
	return root
}

// noCommand refuses a word that is no command, with the nearest that is.
func noCommand(cmd *cobra.Command, args []string) error {
	if len(args) == 0 {
		return nil
	}
	return hint(cobra.NoArgs(cmd, args), "branchwork --help lists the commands")
}
