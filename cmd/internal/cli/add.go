package cli

import (
	"fmt"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"branchwork/circuits/assign"
	"branchwork/cmd/internal/document"
	"branchwork/cmd/internal/render/page"
	"branchwork/codes"
	"branchwork/loads"
	"branchwork/loads/heat"
	"branchwork/loads/inventory"
	"branchwork/loads/units"
)

type addOptions struct {
	output
	adHoc
	code  string
	count int
	on    string
	into  string
}

func newAdd(s *streams) *cobra.Command {
	o := &addOptions{}
	cmd := &cobra.Command{
		Use: "add FILE [ITEM]",
		Long: "add asks every circuit in the file, by every rule and in every state of the day, for room for more units of\n" +
			"an item. It answers yes with where, or no with how short each circuit is and the least thing that would make\n" +
			"it possible. Nothing that is wired is changed, and a larger breaker is never the answer.\n\n" +
			"ITEM is an item of the file. A load that is not in it is described instead; ITEM may then name it:\n" +
			"branchwork add FILE --power \"480 W\" --voltage \"120 V\" --room flower\n\n" +
			"Exit status: 0 yes; 1 no; 2 the input or the command line is wrong; 3 our own fault; 130 interrupted.",
		Example: example(
			"branchwork add built.toml oscillating --count 2", "two more of an item of the file",
			"branchwork add built.toml bar-640 --count 40", "more than there is room for: exit status 1, with what is missing",
			`branchwork add built.toml --power "90 W" --voltage "120 V" --room flower --as fan`, "a load that is not in the file",
			"branchwork add built.toml oscillating --write more.toml", "on a yes, the inventory with it in",
		),
		Args: cobra.RangeArgs(1, 2),
		ValidArgsFunction: func(cmd *cobra.Command, args []string, _ string) ([]string, cobra.ShellCompDirective) {
			if len(args) == 1 {
				return o.names(cmd, args, o.code, itemNames)
			}
			return completeFile(cmd, args, "")
		},
		RunE: func(cmd *cobra.Command, args []string) error { return o.run(s, cmd, args) },
	}
	o.output.flags(cmd)
	codeFlag(cmd, &o.code)
	f := cmd.Flags()
	f.IntVar(&o.count, "count", 1, "how many more")
	f.StringVar(&o.on, "on", "", "ask this circuit only")
	f.StringVar(&o.into, "write", "", "on a yes, write the changed inventory to this new file; over FILE only where it is named the same")
	completeWith(cmd, "on", func(args []string) ([]string, cobra.ShellCompDirective) {
		return o.names(cmd, args, o.code, circuitNames)
	})
	o.adHoc.flags(cmd)
	completeWith(cmd, "room", func(args []string) ([]string, cobra.ShellCompDirective) { return o.names(cmd, args, o.code, roomNames) })
	return cmd
}

func (o *addOptions) run(s *streams, cmd *cobra.Command, args []string) error {
	x, err := o.read(s, cmd, args[:1], o.code)
	if err != nil {
		return err
	}
	if err := o.mayWrite(o.into); err != nil {
		return err
	}
	q, err := o.question(x, cmd, args[1:])
	if err != nil {
		return err
	}
	d, changed, err := q.answer(s, x)
	if err != nil {
		return err
	}
	answer, err := o.rendered(s, d, func(u page.System) page.Page { return page.Add(d, u) })
	if err != nil {
		return err
	}
	switch {
	case o.into == "":
	case !d.Fits:
		s.notice("%q was not written: the answer is no", o.into)
	default:
		if err := o.writeInventory(s, o.into, x.src, changed); err != nil {
			return err
		}
	}
	return o.ended(s, answer, d.Verdict.Says, d.Verdict.ExitStatus)
}

// question is what add was asked, checked against the file.
type question struct {
	assign.Request
	path  string           // of the load
	edits []inventory.Edit // that put the units into the file, no circuit feeding them yet
	grown *inventory.Inventory
	base  *inventory.Inventory // the load in it and none of the units
}

func (o *addOptions) question(x siteText, cmd *cobra.Command, args []string) (question, error) {
	if !o.described(cmd) {
		return moreOf(x, args, o.count, o.on)
	}
	q, err := ask(x, o.count, o.on)
	if err != nil {
		return q, err
	}
	if q.edits, err = o.describe(x, cmd, args, &q); err != nil {
		return q, err
	}
	return q, q.grow(x)
}

// moreOf asks for more units of the item of the file that the arguments name.
func moreOf(x siteText, args []string, count int, on string) (question, error) {
	q, err := ask(x, count, on)
	if err != nil {
		return q, err
	}
	if q.edits, err = countUp(x, args, &q); err != nil {
		return q, err
	}
	return q, q.grow(x)
}

// ask begins a question that the file can be asked.
func ask(x siteText, count int, on string) (question, error) {
	q := question{Request: assign.Request{Count: count, On: on}}
	if count < 1 {
		return q, hint(fmt.Errorf("--count %d adds nothing", count), "1 or more")
	}
	if len(x.inv.Circuits) == 0 {
		return q, hint(fmt.Errorf("%q has no circuits to add to", x.inv.File),
			"describe each as [circuits.NAME], or let branchwork plan %s --write NEW.toml write them", x.inv.File)
	}
	if names := circuitNames(x.inv); on != "" && !slices.Contains(names, on) {
		return q, unknownName("circuit", on, names)
	}
	return q, nil
}

// grow reads the file as it is with the units in it.
func (q *question) grow(x siteText) error {
	src, err := inventory.Rewrite(x.src, q.edits)
	if err != nil {
		return fmt.Errorf("cannot add to %q: %w", x.inv.File, err)
	}
	grown, problems := inventory.Read(x.inv.File, src, x.words())
	if len(problems) > 0 {
		return wrongFlag(problems[0])
	}
	q.grown = grown
	q.without()
	return nil
}

// countUp raises the count of an item of the file.
func countUp(x siteText, args []string, q *question) ([]inventory.Edit, error) {
	if len(args) == 0 {
		return nil, hint(fmt.Errorf("nothing to add is named"), "name an item of the file: %s\nor describe a load: --power \"480 W\" --voltage \"120 V\" --room ROOM", listed(itemNames(x.inv)))
	}
	item, ok := itemNamed(x.inv, args[0])
	if !ok {
		return nil, unknownName("item", args[0], itemNames(x.inv))
	}
	if item.Table == inventory.Controllers {
		return nil, hint(fmt.Errorf("%q is a controller, and a file has one of each", item.Name),
			"describe another as a load: --power, --voltage, --room and --as other")
	}
	q.Item, q.path = item.Name, item.Path()
	return []inventory.Edit{{Path: []string{item.Table, item.Name, "count"}, Value: fmt.Sprint(item.Count + q.Count)}}, nil
}

// without takes the units out of the grown inventory again, the load itself
// stays: circuits are asked for room for it as it will be.
func (q *question) without() {
	base := *q.grown
	base.Items = append([]inventory.Item{}, q.grown.Items...)
	for i := range base.Items {
		if base.Items[i].Name == q.Item {
			base.Items[i].Count -= q.Count
		}
	}
	q.base = &base
}

// answer asks the circuits, and works a yes out anew from the changed file.
func (q *question) answer(s *streams, x siteText) (document.Add, []byte, error) {
	before, err := s.work(q.base, x.p, true)
	if err != nil {
		return document.Add{}, nil, err
	}
	// What is shown is the file as it is: its lines, and its heat without the units.
	before.Inventory, before.Heat = x.inv, heat.Balance(x.inv, loads.Build(x.inv, values(x.p)))
	defer s.progress.begin("room on the circuits")()
	a, err := assign.Add(q.base, before.Set, x.p, q.Request)
	if err != nil {
		return document.Add{}, nil, fault{says: err.Error()}
	}
	load, _ := before.Set.Named(q.Item)
	d := document.Addition{
		Before: before, Item: q.Item, Room: load.Room, Path: q.path, Count: q.Count, On: q.On, Panels: load.Panels, Fits: a.Fits, Proved: a.Proved,
		After: a.After, Heat: heat.Balance(q.grown, loads.Build(q.grown, values(x.p))), New: a.New, Needs: a.Needs, Notes: q.notes(before, a),
	}
	for _, r := range a.Refused {
		d.Refused = append(d.Refused, document.Refused{Circuit: r.Circuit, Rule: r.Rule, Reason: r.Reason, ShortAmps: shortOf(r)})
	}
	if m := a.Move; m != nil {
		d.Move = &document.Move{Item: m.Item, Count: m.Count, From: m.From, To: m.To}
	}
	if !a.Fits {
		return document.NewAdd(d), nil, nil
	}
	changed, after, err := q.confirm(s, x, before, a)
	if err != nil {
		return document.Add{}, nil, err
	}
	for _, f := range arisen(before.Findings, after.Findings) {
		if f.Severity != codes.Violation {
			d.Findings = append(d.Findings, f)
		}
	}
	return document.NewAdd(d), changed, nil
}

func joined(list []loads.Category) string {
	words := make([]string, len(list))
	for i, c := range list {
		words[i] = string(c)
	}
	return strings.Join(words, ", ")
}

func shortOf(r assign.Refused) *float64 {
	i, ok := r.Short.Get()
	if !ok {
		return nil
	}
	short := float64(i)
	return &short
}

// confirm writes a yes into the file and works the site out from there, as if
// somebody else had written it. Whatever is wrong with it then is our fault.
func (q *question) confirm(s *streams, x siteText, before document.Results, a assign.Added) ([]byte, document.Results, error) {
	edits := append([]inventory.Edit{}, q.edits...)
	for _, p := range a.Placed {
		edits = append(edits, inventory.FeedsEdits(p.Circuit, map[string]int{q.Item: fedOn(x.inv, p.Circuit, q.Item) + p.Count})...)
	}
	src, inv, err := x.rewritten(edits)
	if err != nil {
		return nil, before, err
	}
	after, err := s.work(inv, x.p, true)
	if err != nil {
		return nil, after, err
	}
	var wrong []string
	for _, f := range arisen(before.Findings, after.Findings) {
		if f.Severity == codes.Violation {
			wrong = append(wrong, f.Subject+": "+f.Rule+": "+f.Message)
		}
	}
	required := map[string]units.Current{}
	for _, c := range after.Plan.Circuits {
		required[c.Name] = c.Required
	}
	for _, p := range a.Placed {
		if units.Exceeds(required[p.Circuit], p.After) || units.Exceeds(p.After, required[p.Circuit]) {
			wrong = append(wrong, fmt.Sprintf("circuit %s: %s required, %s when worked out anew", p.Circuit, p.After, required[p.Circuit]))
		}
	}
	if len(wrong) > 0 {
		return nil, after, fault{says: "a yes does not hold when the changed inventory is worked out anew", complaints: wrong}
	}
	return src, after, nil
}

func fedOn(inv *inventory.Inventory, circuit, item string) int {
	for _, c := range inv.Circuits {
		if c.Name == circuit {
			return fedBy(c, item)
		}
	}
	return 0
}

// fedBy is how many of an item a circuit feeds.
func fedBy(c inventory.Circuit, item string) int {
	for _, f := range c.Feeds {
		if f.Item == item {
			return f.Count
		}
	}
	return 0
}

// arisen returns the findings that were not there before.
func arisen(before, after []codes.Finding) []codes.Finding {
	was := map[string]bool{}
	for _, f := range before {
		was[f.Rule+" "+f.Subject] = true
	}
	var out []codes.Finding
	for _, f := range after {
		if !was[f.Rule+" "+f.Subject] {
			out = append(out, f)
		}
	}
	return out
}

// notes say what bears on the answer and is no part of it.
func (q *question) notes(before document.Results, a assign.Added) []string {
	var out []string
	if broken := document.NewVerdict(before.Findings, before.Profile); broken.ExitStatus != statusHolds {
		out = append(out, "before anything is added: "+broken.Says+"; branchwork check says which")
	}
	for _, p := range a.Placed {
		for _, f := range before.Findings {
			if f.Severity == codes.Warning && f.Subject == "circuits."+p.Circuit {
				out = append(out, fmt.Sprintf("open warning of %s; before anything is added: %s", f.Message, f.Remedy))
			}
		}
	}
	for _, u := range before.Plan.Unfed {
		if u.Item == q.Item {
			out = append(out, fmt.Sprintf("%d of those in the file have no circuit yet; what is asked here comes on top of them", u.Count))
		}
	}
	if load, _ := before.Set.Named(q.Item); a.Fits && load.Corded {
		out = append(out, "it is connected by cord and plug: whether a receptacle of these circuits is free and within reach of its cord the file does not say")
	} else if a.Fits {
		out = append(out, "it is wired in: connecting it is work for a licensed electrician")
	}
	for _, p := range a.Placed {
		if len(p.Beside) > 0 {
			out = append(out, fmt.Sprintf("circuit %s feeds what is otherwise kept on circuits of its own (%s)", p.Circuit, joined(p.Beside)))
		}
	}
	for _, p := range before.Plan.Panels {
		if p.MeasuredPeak.Known() && a.Fits {
			out = append(out, "the peak of panel "+p.Name+" was measured without these units; measure it again once they run")
		}
	}
	return out
}
