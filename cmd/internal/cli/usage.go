package cli

import (
	"errors"
	"strconv"
	"strings"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"branchwork/loads/inventory"
)

// withUsage lets a command that was given too much or too little say what it takes.
func withUsage(c *cobra.Command) *cobra.Command {
	if takes := c.Args; takes != nil {
		c.Args = func(cmd *cobra.Command, args []string) error {
			if err := takes(cmd, args); err != nil {
				return hint(err, "write: %s", cmd.UseLine())
			}
			return nil
		}
	}
	return c
}

// wrongUse says of a flag that is not there which is near, and of one with a wrong
// value what it takes.
func wrongUse(cmd *cobra.Command, err error) error {
	var missing *pflag.NotExistError
	var number *strconv.NumError
	switch {
	case errors.As(err, &missing):
		var names []string
		cmd.Flags().VisitAll(func(f *pflag.Flag) { names = append(names, f.Name) })
		if near := inventory.Nearest(missing.GetSpecifiedName(), names); near != "" {
			return hint(err, "did you mean --%s?", near)
		}
	case errors.As(err, &number):
		says, _, _ := strings.Cut(err.Error(), ": strconv")
		return hint(errors.New(says), "write %s", map[string]string{"ParseInt": "a whole number", "ParseFloat": "a number", "ParseBool": "true or false"}[number.Func])
	}
	return hint(err, "%s --help lists the flags", cmd.CommandPath())
}
