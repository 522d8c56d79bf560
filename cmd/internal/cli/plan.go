package cli

import (
	_ "embed"

	"github.com/spf13/cobra"

	"branchwork/cmd/internal/document"
	"branchwork/cmd/internal/render/page"
	"branchwork/codes"
	"branchwork/loads/inventory"
)

// demo is the inventory that plan and heat take where no file is named.
//
//go:embed demo.toml
var demo []byte

type planOptions struct {
	output
	code string
}

func newPlan(s *streams) *cobra.Command {
	o := &planOptions{}
	cmd := &cobra.Command{
		Use:   "plan [FILE]",
		Short: "plan circuits, breakers, conductors and panels of a site",
		Long: "plan reads an inventory and decides its circuits, breakers, conductors and panel spaces, says what they\n" +
			"carry, judges them by every rule of the code, and gives the heat of each room.\n\n" +
			"FILE is an inventory, or - for standard input; without one the embedded demo is planned.",
		Args:              cobra.MaximumNArgs(1),
		ValidArgsFunction: completeFile,
		RunE:              func(cmd *cobra.Command, args []string) error { return o.run(s, cmd, args) },
	}
	o.flags(cmd)
	codeFlag(cmd, &o.code)
	return cmd
}

func (o *planOptions) run(s *streams, cmd *cobra.Command, args []string) error {
	inv, p, err := o.site(s, cmd, args, o.code)
	if err != nil {
		return err
	}
	r, err := work(inv, p, false)
	if err != nil {
		return err
	}
	return o.answer(s, document.NewPlan(r))
}

// site reads the inventory that the arguments name, or the demo.
func (o *output) site(s *streams, cmd *cobra.Command, args []string, code string) (*inventory.Inventory, *codes.Profile, error) {
	if err := o.check(cmd); err != nil {
		return nil, nil, err
	}
	if len(args) == 0 {
		s.notice("no file named: this is the embedded demo; branchwork new FILE writes an inventory to start from")
		return parseSite(s, "demo.toml", demo, code, o.columns(s))
	}
	o.input = args[0]
	return readSite(s, args[0], code, o.columns(s))
}

// answer prints a plan and ends with its exit status.
func (o *output) answer(s *streams, d document.Plan) error {
	if err := o.print(s, d, func(u page.System) page.Page { return page.Plan(d, u) }); err != nil {
		return err
	}
	if o.file != "" {
		s.notice("%s", d.Verdict.Says)
	}
	if d.Verdict.ExitStatus != statusHolds {
		return errBroken
	}
	return nil
}
