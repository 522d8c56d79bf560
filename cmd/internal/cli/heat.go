package cli

import (
	"slices"

	"github.com/spf13/cobra"

	"branchwork/cmd/internal/document"
	"branchwork/cmd/internal/render/page"
)

type heatOptions struct {
	output
	code  string
	hours bool
	room  string
}

func newHeat(s *streams) *cobra.Command {
	o := &heatOptions{}
	cmd := &cobra.Command{
		Use: "heat [FILE]",
		Long: "heat works out what each room gives off, sensible and latent, with the lights on and off, and lays it out as the\n" +
			"sheet that an HVAC installer asks for: what is in the room, what it is held at, the design cases,\n" +
			"water, what the stated equipment covers, the power left for more, what was assumed and what is still to be\n" +
			"established.\n\n" +
			"FILE is an inventory, or - for standard input; without one the embedded demo is taken.",
		Example: example(
			"branchwork heat room.toml", "the sheet for the HVAC installer",
			"branchwork heat room.toml --room flower --units metric", "one room, in metric units",
		),
		Args:              cobra.MaximumNArgs(1),
		ValidArgsFunction: completeFile,
		RunE:              func(cmd *cobra.Command, args []string) error { return o.run(s, cmd, args) },
	}
	o.flags(cmd)
	codeFlag(cmd, &o.code)
	cmd.Flags().BoolVar(&o.hours, "hours", false, "add 24 hours of each room on each of the three days")
	cmd.Flags().StringVar(&o.room, "room", "", "the sheet of this room only")
	completeWith(cmd, "room", func(args []string) ([]string, cobra.ShellCompDirective) { return o.names(cmd, args, o.code, roomNames) })
	return cmd
}

func (o *heatOptions) run(s *streams, cmd *cobra.Command, args []string) error {
	inv, p, err := o.site(s, cmd, args, o.code)
	if err != nil {
		return err
	}
	if names := roomNames(inv); o.room != "" && !slices.Contains(names, o.room) {
		return unknownName("room", o.room, names)
	}
	r, err := s.work(inv, p, false)
	if err != nil {
		return err
	}
	d := document.NewHeat(r, o.hours)
	if o.room != "" {
		d = d.Only(o.room)
	}
	return o.print(s, d, func(u page.System) page.Page { return page.Heat(d, u) })
}
