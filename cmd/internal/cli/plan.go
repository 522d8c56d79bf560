package cli

import (
	_ "embed"

	"github.com/spf13/cobra"

	"branchwork/circuits"
	"branchwork/circuits/assign"
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
	code    string
	into    string
	proof   bool
	compare bool
}

func newPlan(s *streams) *cobra.Command {
	o := &planOptions{}
	cmd := &cobra.Command{
		Use: "plan [FILE]",
		Long: "plan reads an inventory and decides its circuits, breakers, conductors and panel spaces, says what they\n" +
			"carry, judges them by every rule of the code, and gives the heat of each room.\n\n" +
			"FILE is an inventory, or - for standard input; without one the embedded demo is planned.",
		Example: example(
			"branchwork plan", "the embedded demo: nothing to set up",
			"branchwork plan room.toml", "an inventory of your own",
			"branchwork plan room.toml --compare", "the same loads at every voltage that they accept",
			"branchwork plan room.toml --write built.toml", "once it is built: the circuits go into the file, for check and add",
		),
		Args:              cobra.MaximumNArgs(1),
		ValidArgsFunction: completeFile,
		RunE:              func(cmd *cobra.Command, args []string) error { return o.run(s, cmd, args) },
	}
	o.flags(cmd)
	codeFlag(cmd, &o.code)
	f := cmd.Flags()
	f.StringVar(&o.into, "write", "", "write the inventory with the planned circuits in it to this new file; over FILE only where it is named the same")
	f.BoolVar(&o.proof, "proof", false, "print why no plan can do with fewer panel spaces, to be checked by hand")
	f.BoolVar(&o.compare, "compare", false, "print what the same units would take at every voltage that they accept")
	return cmd
}

func (o *planOptions) run(s *streams, cmd *cobra.Command, args []string) error {
	x, err := o.read(s, cmd, args, o.code)
	if err != nil {
		return err
	}
	if err := o.mayWrite(o.into); err != nil {
		return err
	}
	r, err := s.work(x.inv, x.p, false)
	if err != nil {
		return err
	}
	if o.compare {
		if r.Compared, err = compared(s, x, r); err != nil {
			return err
		}
	}
	d := document.NewPlan(r)
	layout := page.Plan
	if o.proof {
		layout = page.PlanWithProof
	}
	answer, err := o.rendered(s, d, func(u page.System) page.Page { return layout(d, u) })
	if err != nil {
		return err
	}
	if err := o.adopt(s, x, r, d.Verdict); err != nil {
		return err
	}
	return o.ended(s, answer, d.Verdict.Says, d.Verdict.ExitStatus)
}

// compared plans the same units at every voltage that they accept.
func compared(s *streams, x siteText, r document.Results) ([]circuits.VoltageChoice, error) {
	defer s.progress.begin("the same loads at every voltage")()
	list, err := assign.Compare(x.inv, r.Set, x.p)
	if err != nil {
		return nil, fault{says: err.Error()}
	}
	return append([]circuits.VoltageChoice{}, list...), nil // none is a list too: it was asked for
}

// adopt writes the planned circuits into the inventory as circuits that exist. A
// plan that breaks a rule is not written.
func (o *planOptions) adopt(s *streams, x siteText, r document.Results, v document.Verdict) error {
	switch {
	case o.into == "":
		return nil
	case v.Violations > 0:
		s.notice("%q was not written: %s", o.into, v.Says)
		return nil
	}
	src, inv, err := x.rewritten(circuits.Adopt(r.Plan))
	if err != nil {
		return err
	}
	built, err := s.work(inv, x.p, true)
	if err != nil {
		return err
	}
	var wrong []string
	for _, f := range arisen(r.Findings, built.Findings) {
		if f.Severity == codes.Violation && f.State == codes.Broken {
			wrong = append(wrong, f.Subject+": "+f.Rule+": "+f.Message)
		}
	}
	if len(wrong) > 0 {
		return fault{says: "the planned circuits break a rule when they are read as built", complaints: wrong}
	}
	return o.writeInventory(s, o.into, x.src, src)
}

// site reads the inventory that the arguments name, or the demo.
func (o *output) site(s *streams, cmd *cobra.Command, args []string, code string) (*inventory.Inventory, *codes.Profile, error) {
	x, err := o.read(s, cmd, args, code)
	return x.inv, x.p, err
}

// read is site with the text of the file.
func (o *output) read(s *streams, cmd *cobra.Command, args []string, code string) (x siteText, err error) {
	if err := o.check(cmd); err != nil {
		return x, err
	}
	shown := "demo.toml"
	if len(args) == 0 {
		s.notice("no file named: this is the embedded demo; branchwork new FILE writes an inventory to start from")
		x.src = demo
	} else {
		o.input = args[0]
		if err = o.mayPrint(); err != nil {
			return x, err
		}
		if x.src, shown, err = readInput(s, args[0]); err != nil {
			return x, err
		}
	}
	x.inv, x.p, err = parseSite(s, shown, x.src, code, o.columns(s))
	return x, err
}

// answer prints a plan and ends with its exit status.
func (o *output) answer(s *streams, d document.Plan) error {
	answer, err := o.rendered(s, d, func(u page.System) page.Page { return page.Plan(d, u) })
	if err != nil {
		return err
	}
	return o.ended(s, answer, d.Verdict.Says, d.Verdict.ExitStatus)
}

// ended prints an answer and ends with the exit status of its verdict.
func (o *output) ended(s *streams, a answer, says string, status int) error {
	if err := o.write(s, a); err != nil {
		return err
	}
	if !o.toScreen() {
		s.notice("%s", says)
	}
	if status != statusHolds {
		return errBroken
	}
	return nil
}
