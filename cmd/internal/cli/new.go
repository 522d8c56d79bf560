package cli

import (
	"errors"
	"fmt"

	"github.com/spf13/cobra"

	"branchwork/loads/inventory"
)

func newNew(s *streams) *cobra.Command {
	return &cobra.Command{
		Use: "new [FILE]",
		Long: "new writes a whole small inventory with every key explained. It plans as it stands.\n\n" +
			"Without FILE it goes to the screen. A file that is already there is never replaced.",
		Example: example(
			"branchwork new room.toml", "a file to change until it is yours",
			"branchwork new", "on the screen",
		),
		Args:              cobra.MaximumNArgs(1),
		ValidArgsFunction: completeFile,
		RunE:              func(_ *cobra.Command, args []string) error { return runNew(s, args) },
	}
}

func runNew(s *streams, args []string) error {
	starter := inventory.Starter()
	if len(args) == 0 || args[0] == stdin {
		if _, err := s.out.Write(starter); err != nil {
			return fmt.Errorf("cannot write the answer: %w", reason(err))
		}
		return nil
	}
	err := writeWhole(args[0], starter, false)
	switch {
	case errors.Is(err, errThere):
		return hint(fmt.Errorf("%q is already there", args[0]), "name a new file; nothing was written")
	case err != nil:
		return fmt.Errorf("cannot write %q: %w", args[0], reason(err))
	}
	s.notice("wrote %q; branchwork plan %s plans it", args[0], args[0])
	return nil
}
