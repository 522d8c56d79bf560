package cli

import (
	"errors"
	"fmt"
	"math"
	"strings"

	"github.com/spf13/cobra"

	"branchwork/cmd/internal/document"
	"branchwork/cmd/internal/render/page"
	"branchwork/codes"
	"branchwork/loads"
	"branchwork/loads/inventory"
	"branchwork/loads/units"
)

type ampsOptions struct {
	output
	code    string
	pf      float64
	voltage string
	phases  int
}

func newAmps(s *streams) *cobra.Command {
	o := &ampsOptions{}
	cmd := &cobra.Command{
		Use: "amps POWER",
		Long: "amps works out the current of one load at the usual voltages, how many whole units a 15, 20 or 30 A\n" +
			"breaker carries as continuous load, and the heat it becomes.\n\n" +
			"POWER is \"640 W\", \"650 VA\", \"1.5 hp\", or a current with the voltage it was read at:\n" +
			"branchwork amps \"5.3 A\" --voltage \"120 V\".",
		Example: example(
			`branchwork amps "640 W" --pf 0.98`, "by power and power factor",
			`branchwork amps "5.3 A" --voltage "120 V"`, "by what a label or a meter says",
			`branchwork amps "1.5 hp" --voltage "208 V" --phases 3`, "a motor",
		),
		Args:              cobra.MinimumNArgs(1),
		ValidArgsFunction: cobra.NoFileCompletions,
		RunE: func(cmd *cobra.Command, args []string) error {
			return o.run(s, cmd, strings.TrimSpace(strings.Join(args, " ")))
		},
	}
	o.flags(cmd)
	codeFlag(cmd, &o.code)
	cmd.Flags().Float64Var(&o.pf, "pf", 0, "power factor, above 0 and up to 1 (default: an assumption, which is listed)")
	cmd.Flags().StringVar(&o.voltage, "voltage", "", "the voltage a current was read at; of a power, the only voltage wanted")
	cmd.Flags().IntVar(&o.phases, "phases", 1, "1 or 3: of the current read, or of --voltage")
	return cmd
}

func (o *ampsOptions) run(s *streams, cmd *cobra.Command, given string) error {
	if err := o.check(cmd); err != nil {
		return err
	}
	p, err := profileNamed(o.code)
	if err != nil {
		return err
	}
	if cmd.Flags().Changed("pf") && !(o.pf > 0 && o.pf <= 1) {
		return hint(fmt.Errorf("--pf %v is not a power factor", o.pf), "above 0 and up to 1")
	}
	if o.phases != 1 && o.phases != 3 {
		return hint(fmt.Errorf("--phases %d is not known", o.phases), "1 or 3")
	}
	d, err := o.answer(p, given)
	if err != nil {
		return err
	}
	return o.print(s, d, func(u page.System) page.Page { return page.Amps(d, u) })
}

// supplies are the voltages that amps answers for.
func (o *ampsOptions) supplies(volts units.Voltage, ofPower bool) []inventory.Supply {
	if volts > 0 && ofPower {
		return []inventory.Supply{supply(volts, o.phases)}
	}
	list := []inventory.Supply{supply(120, 1), supply(208, 1), supply(240, 1), supply(277, 1), supply(208, 3), supply(480, 3)}
	for _, x := range list {
		if volts == 0 || x.Volts == volts && x.Phases == o.phases {
			return list
		}
	}
	return append([]inventory.Supply{supply(volts, o.phases)}, list...)
}

func supply(v units.Voltage, phases int) inventory.Supply {
	return inventory.Supply{Volts: v, Poles: max(1, phases), Phases: phases}
}

func (o *ampsOptions) answer(p *codes.Profile, given string) (document.Amps, error) {
	item, err := o.item(given)
	if err != nil {
		return document.Amps{}, err
	}
	var volts units.Voltage
	if o.voltage != "" {
		volts, err = positive[units.Voltage](o.voltage)
		if err != nil {
			return document.Amps{}, err
		}
	}
	set := loads.Build(&inventory.Inventory{Items: []inventory.Item{item}}, values(p))
	load := set.Loads[0]
	d := document.NewAmps(given, p, load, ampsAssumptions(set))
	for _, x := range o.supplies(volts, !o.isCurrent(given)) {
		load.Phases = x.Phases
		draw, ok := load.At(x)
		d.Rows = append(d.Rows, document.NewAmpsAt(x, draw, ok, p.Continuous))
	}
	return d, nil
}

// most is the largest load that amps takes; beyond it a figure is a slip.
const most = 10e6

// item reads the load as the inventory would hold it.
func (o *ampsOptions) item(given string) (inventory.Item, error) {
	wide := units.VoltageSet{Low: 1, High: math.MaxFloat32}
	item := inventory.Item{Table: inventory.Fixtures, Name: "load", Count: 1, Voltage: units.Is(wide)}
	if o.pf > 0 {
		item.PowerFactor = units.Is(units.Ratio(o.pf))
	}
	watts, errW := units.Parse[units.Power](given)
	va, errVA := units.Parse[units.Apparent](given)
	hp, errHP := units.Parse[units.Horsepower](given)
	switch {
	case errW == nil:
		item.Power = units.Is(watts)
		return item, inRange(given, float64(watts))
	case errVA == nil:
		item.Apparent = units.Is(va)
		return item, inRange(given, float64(va))
	case errHP == nil:
		item.Table, item.Kind, item.Motor = inventory.Equipment, inventory.Other, units.Is(hp)
		return item, inRange(given, float64(hp.Watts()))
	case o.isCurrent(given):
		return o.readCurrent(item, given)
	}
	return item, hint(fmt.Errorf("%q is not a load", given), "write a power as %s,\nan apparent power as %s,\na motor rating as %s,\nor a current as \"5.3 A\" with --voltage \"120 V\"",
		units.Form[units.Power](), units.Form[units.Apparent](), units.Form[units.Horsepower]())
}

func (o *ampsOptions) isCurrent(given string) bool {
	_, err := units.Parse[units.Current](given)
	return err == nil
}

// readCurrent turns a current read at a voltage into the apparent power that the
// load keeps at every voltage.
func (o *ampsOptions) readCurrent(item inventory.Item, given string) (inventory.Item, error) {
	i, err := positive[units.Current](given)
	if err != nil {
		return item, err
	}
	if o.voltage == "" {
		return item, hint(fmt.Errorf("%q is a current, and a current says nothing without its voltage", given), "add --voltage \"120 V\"")
	}
	v, err := positive[units.Voltage](o.voltage)
	if err != nil {
		return item, err
	}
	va := loads.ApparentPower(i, v, o.phases)
	item.Apparent = units.Is(va)
	return item, inRange(given, float64(va))
}

func positive[T units.Quantity](s string) (T, error) {
	v, err := units.Parse[T](s)
	if err == nil && v <= 0 {
		err = fmt.Errorf("%q is not above zero", s)
	}
	var pe *units.ParseError
	if errors.As(err, &pe) {
		return v, hint(errors.New(pe.Says), "%s", strings.ReplaceAll(pe.Remedy, "; ", "\n"))
	}
	return v, err
}

func inRange(given string, x float64) error {
	switch {
	case x <= 0:
		return fmt.Errorf("%q is not above zero", given)
	case x > most:
		return fmt.Errorf("%q is more than 10 MW", given)
	}
	return nil
}

// ampsAssumptions keeps what was assumed about the load itself: the rest is
// about circuits, which amps has none of.
func ampsAssumptions(set loads.Set) []loads.Assumption {
	var out []loads.Assumption
	for _, a := range set.Assumptions {
		key := a.Subject[strings.LastIndex(a.Subject, ".")+1:]
		if key == "power_factor" || key == "efficiency" {
			a.Subject = key
			out = append(out, a)
		}
	}
	return out
}
