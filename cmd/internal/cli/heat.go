package cli

import (
	"github.com/spf13/cobra"

	"branchwork/cmd/internal/render/page"
)

type heatOptions struct {
	output
	code string
}

func newHeat(s *streams) *cobra.Command {
	o := &heatOptions{}
	cmd := &cobra.Command{
		Use:   "heat [FILE]",
		Short: "the heat of each room, for the installer of the cooling",
		Long: "heat works out what each room gives off, sensible and latent, with the lights on and off.\n\n" +
			"FILE is an inventory, or - for standard input; without one the embedded demo is taken.",
		Args:              cobra.MaximumNArgs(1),
		ValidArgsFunction: completeFile,
		RunE:              func(cmd *cobra.Command, args []string) error { return o.run(s, cmd, args) },
	}
	o.flags(cmd)
	codeFlag(cmd, &o.code)
	return cmd
}

func (o *heatOptions) run(s *streams, cmd *cobra.Command, args []string) error {
	inv, p, err := o.site(s, cmd, args, o.code)
	if err != nil {
		return err
	}
	d := heatOf(inv, p)
	return o.print(s, d, func(u page.System) page.Page { return page.Heat(d, u) })
}
