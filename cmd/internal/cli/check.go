package cli

import (
	"fmt"

	"github.com/spf13/cobra"

	"branchwork/circuits/assign"
	"branchwork/cmd/internal/document"
)

type checkOptions struct {
	output
	code string
}

func newCheck(s *streams) *cobra.Command {
	o := &checkOptions{}
	cmd := &cobra.Command{
		Use: "check FILE",
		Long: "check decides nothing: it judges the circuits that the file describes, in every state of the day, and says\n" +
			"how many more of each item each would still take and what stops the next. What a clamp meter showed stands\n" +
			"beside what the loads explain, and the larger of the two is judged.\n\n" +
			"FILE is an inventory with [circuits.X] tables, or - for standard input.",
		Example: example(
			"branchwork check built.toml", "what is built, and how much room is left on each circuit",
			"branchwork check built.toml --code nec-2020", "by another edition",
		),
		Args:              cobra.ExactArgs(1),
		ValidArgsFunction: completeFile,
		RunE:              func(cmd *cobra.Command, args []string) error { return o.run(s, cmd, args) },
	}
	o.flags(cmd)
	codeFlag(cmd, &o.code)
	return cmd
}

func (o *checkOptions) run(s *streams, cmd *cobra.Command, args []string) error {
	inv, p, err := o.site(s, cmd, args, o.code)
	if err != nil {
		return err
	}
	if len(inv.Circuits) == 0 {
		return hint(fmt.Errorf("%q has no circuits to check", inv.File), "describe each as [circuits.NAME], or let branchwork plan decide them")
	}
	r, err := s.work(inv, p, true)
	if err != nil {
		return err
	}
	r.RoomLeft = roomLeft(s, r)
	return o.answer(s, document.NewPlan(r))
}

// roomLeft asks each circuit how many more of each item it would take.
func roomLeft(s *streams, r document.Results) []document.RoomLeft {
	defer s.progress.begin("room left on each circuit")()
	var out []document.RoomLeft
	for _, x := range assign.Rooms(r.Inventory, r.Set, r.Profile, r.Plan) {
		out = append(out, document.RoomLeft{Circuit: x.Circuit, Item: x.Item, More: x.More, Rule: x.Rule, Reason: x.Reason})
	}
	return out
}
