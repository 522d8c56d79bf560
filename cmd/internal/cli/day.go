package cli

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"branchwork/circuits"
	"branchwork/circuits/assign"
	"branchwork/circuits/verify"
	"branchwork/cmd/internal/document"
	"branchwork/cmd/internal/render/page"
	"branchwork/codes"
	"branchwork/loads"
	"branchwork/loads/clock"
	"branchwork/loads/day"
	"branchwork/loads/inventory"
)

type dayOptions struct {
	output
	code    string
	season  string
	stagger bool
	cost    bool
}

func newDay(s *streams) *cobra.Command {
	o := &dayOptions{}
	cmd := &cobra.Command{
		Use: "day [FILE]",
		Long: "day works out the 24 hours of a site: kW and kVA, amperes on each leg of each panel, heat of each room, energy of\n" +
			"a day and a month, and its cost by the tariff in the file.\n\n" +
			"--stagger chooses when each photoperiod begins, its hours kept, so that the peak demand is least, or with --cost\n" +
			"the bill. A room moves only within its starts_from.\n\n" +
			"FILE is an inventory, or - for standard input; without one the embedded demo is taken.",
		Example: example(
			"branchwork day room.toml", "power, heat and energy through the day",
			"branchwork day room.toml --stagger", "when the photoperiods would best begin",
		),
		Args:              cobra.MaximumNArgs(1),
		ValidArgsFunction: completeFile,
		RunE:              func(cmd *cobra.Command, args []string) error { return o.run(s, cmd, args) },
	}
	o.flags(cmd)
	codeFlag(cmd, &o.code)
	f := cmd.Flags()
	f.StringVar(&o.season, "season", document.Seasons()[0], "mean, summer or winter: the day that heat is of and the month of the bill")
	f.BoolVar(&o.stagger, "stagger", false, "choose the starts of the photoperiods, and show before and after")
	f.BoolVar(&o.cost, "cost", false, "with --stagger: make the cost least, not the peak")
	complete(cmd, "season", document.Seasons)
	return cmd
}

func (o *dayOptions) run(s *streams, cmd *cobra.Command, args []string) error {
	if !slices.Contains(document.Seasons(), o.season) {
		return hint(fmt.Errorf("--season %q is not known", o.season), "one of: %s", strings.Join(document.Seasons(), ", "))
	}
	if o.cost && !o.stagger {
		return hint(errors.New("--cost says what --stagger makes least"), "add --stagger")
	}
	inv, p, err := o.site(s, cmd, args, o.code)
	if err != nil {
		return err
	}
	r, err := s.work(inv, p, false)
	if err != nil {
		return err
	}
	of := document.DayOf{Results: r, Season: o.season, Legs: legsOfDay(inv, r.Set, p, r.Plan)}
	if o.stagger {
		if of.Stagger, err = o.staggered(r, of.Legs); err != nil {
			return err
		}
	}
	d := document.NewDay(of)
	return o.print(s, d, func(u page.System) page.Page { return page.Day(d, u) })
}

// staggered chooses the starts and plans the site again with them: its circuits stay,
// what they carry at which hour does not.
func (o *dayOptions) staggered(r document.Results, legs []document.PanelDay) (*document.StaggerOf, error) {
	objective := day.ForPeak
	if o.cost {
		objective = day.ForCost
	}
	inv, p := r.Inventory, r.Profile
	before := document.PlanOfDay{Plan: r.Plan, Legs: legs}
	out := &document.StaggerOf{Choice: day.Stagger(inv, r.Set, objective, day.Hourly), Before: before, After: before}
	if len(out.Choice.Moves()) == 0 {
		return out, nil
	}
	inv, set := day.Moved(inv, r.Set, out.Choice.Moves())
	plan, err := assign.Plan(inv, set, p)
	if err != nil {
		return nil, fault{says: err.Error()}
	}
	if complaints := verify.Plan(inv, set, p, plan); len(complaints) > 0 {
		return nil, fault{says: "the plan with the photoperiods moved does not hold when it is worked out by another road", complaints: complaints}
	}
	out.After = document.PlanOfDay{Plan: plan, Legs: legsOfDay(inv, set, p, plan)}
	return out, nil
}

// legsOfDay returns what the legs of every panel carry in each hour of the day, at the
// minute of the hour at which its fullest leg is fullest.
func legsOfDay(inv *inventory.Inventory, set loads.Set, p *codes.Profile, plan circuits.Plan) []document.PanelDay {
	out := make([]document.PanelDay, len(plan.Panels))
	for h := range 24 {
		for k, m := range minutesOf(h, set) {
			for i, x := range assign.LegsAt(inv, set, p, plan, m) {
				now := document.PanelMinute{At: m, Legs: x.Legs, Neutral: x.Neutral}
				if k == 0 || now.Most() > out[i][h].Most() {
					out[i][h] = now
				}
			}
		}
	}
	return out
}

// minutesOf lists the minutes of an hour at which anything can change: its first, and
// those at which a load switches.
func minutesOf(hour int, set loads.Set) []clock.Minute {
	from := clock.Minute(hour) * clock.Hour
	out := []clock.Minute{from}
	for _, l := range set.Loads {
		if l.AlwaysOn() {
			continue
		}
		for _, m := range l.Hours.Edges() {
			if m > from && m < from+clock.Hour {
				out = append(out, m)
			}
		}
	}
	slices.Sort(out)
	return slices.Compact(out)
}
