package loads

import (
	"fmt"
	"math"

	"branchwork/loads/inventory"
	"branchwork/loads/steps"
	"branchwork/loads/units"
)

// LineCurrent returns the current in each ungrounded conductor that feeds a
// load of active power p at voltage v and power factor pf.
//
//	one phase      I = P / (V · pf)           V between the two conductors in use
//	three phases   I = P / (√3 · V · pf)      V line to line; balanced load only
//
// p is nameplate or boosted input power, never the dimmed level: circuits are
// sized for what the equipment can draw. pf is in (0, 1]; anything else, and a
// voltage that is not positive, is an error.
//
// It does not include the allowance for continuous operation; see
// codes.Continuous.Required for that.
//
// Source: definitions of active power, apparent power and power factor. Worked
// check: ExampleLineCurrent.
func LineCurrent(p units.Power, v units.Voltage, phases int, pf units.Ratio) (units.Current, error) {
	if pf <= 0 || pf > 1 {
		return 0, fmt.Errorf("power factor %v is outside (0, 1]", pf)
	}
	return ApparentCurrent(p.VA(pf), v, phases)
}

// ApparentCurrent returns the current in each ungrounded conductor of a load of
// apparent power s: S / V on one phase, S / (√3 · V) on three balanced ones.
func ApparentCurrent(s units.Apparent, v units.Voltage, phases int) (units.Current, error) {
	if v <= 0 {
		return 0, fmt.Errorf("voltage %v is not positive", v)
	}
	switch phases {
	case 1:
		return units.Current(float64(s) / float64(v)), nil
	case 3:
		return units.Current(float64(s) / (math.Sqrt(3) * float64(v))), nil
	}
	return 0, fmt.Errorf("%d phases; a load has one or three", phases)
}

// ApparentPower returns the apparent power of a current: V · I on one phase,
// √3 · V · I on three balanced ones.
func ApparentPower(i units.Current, v units.Voltage, phases int) units.Apparent {
	s := units.VA(v, i)
	if phases == 3 {
		s = units.Times(s, math.Sqrt(3))
	}
	return s
}

// At returns what one unit draws from a supply; ok is false where the load does
// not accept it or its draw cannot be known there.
//
// Where the file states a current, that and the computed one are both kept and
// the larger sizes the circuit: a label printed for the worst line voltage and a
// power measured at nominal voltage do not agree, and only one of them is what
// the circuit must carry on its worst day.
func (l Load) At(s inventory.Supply) (Draw, bool) {
	if !l.Accepts(s) {
		return Draw{}, false
	}
	return l.Forced(s)
}

// Accepts reports whether the load may be connected to a supply.
func (l Load) Accepts(s inventory.Supply) bool {
	return l.Voltage.Accepts(s.Volts) && l.acceptsPhases(s.Phases)
}

// Forced returns what one unit would draw from a supply whether or not it
// accepts it: a circuit that exists may feed what it should not, and its current
// must be shown all the same.
func (l Load) Forced(s inventory.Supply) (Draw, bool) {
	d := Draw{Supply: s, PF: l.PF, Watts: l.Power}
	var w steps.Work
	d.Computed = l.computed(s, &w)
	d.Stated = l.stated(s, &w)
	c, hasC := d.Computed.Get()
	t, hasT := d.Stated.Get()
	switch {
	case l.Motor.Known():
		hp, _ := l.Motor.Get()
		flc, cite, ok := l.motors(hp, s.Volts, s.Phases)
		if !ok && !hasT {
			return Draw{}, false
		}
		if !ok {
			d.Amps, d.Motor, d.Governs = t, true, "stated; the tables have no current for the motor"
			break
		}
		w.Add(steps.Step{Name: "full-load current of one motor", Note: "value of the table", Result: float64(flc), Unit: "A", Cite: cite,
			Inputs: []steps.Input{steps.In("rating", hp, "hp"), steps.In("V", s.Volts, "V")}})
		d.Amps, d.Motor, d.Governs = flc, true, "motor table"
		if hasT && t > flc {
			d.Amps, d.Governs = t, "stated current, larger than the motor table's"
		}
	case hasC && hasT && t >= c:
		d.Amps, d.Governs = t, "stated current, larger than or equal to the computed one"
	case hasC && hasT:
		d.Amps, d.Governs = c, "computed current, larger than the stated one"
	case hasC:
		d.Amps, d.Governs = c, "computed"
	case hasT:
		d.Amps, d.Governs = t, "stated"
	default:
		return l.nameplateDraw(d)
	}
	if hasC && hasT {
		w.Add(steps.Choice("current that sizes the circuit", d.Amps.String(), d.Governs, steps.CommonPractice,
			steps.In("computed", c, "A"), steps.In("stated", t, "A")))
	}
	d.VA = ApparentPower(d.Amps, s.Volts, s.Phases)
	d.Steps = w.Steps()
	return d.withNameplate(l), true
}

func (l Load) acceptsPhases(n int) bool { return l.Phases == n || l.Phases == 0 && n == 1 }

// computed is the current from power or apparent power.
func (l Load) computed(s inventory.Supply, w *steps.Work) units.Known[units.Current] {
	if va, ok := l.Item.Apparent.Get(); ok {
		i, err := ApparentCurrent(va, s.Volts, s.Phases)
		if err != nil {
			return units.Unknown[units.Current](err.Error())
		}
		w.Add(steps.Result("current of one unit", formula("S / V", s), i, "A", steps.Cite{}, steps.In("S", va, "VA"), steps.In("V", s.Volts, "V")))
		return units.Is(i)
	}
	p, ok := l.sizingPower().Get()
	if !ok {
		return units.Unknown[units.Current]("no power is given")
	}
	i, err := LineCurrent(p, s.Volts, s.Phases, l.PF)
	if err != nil {
		return units.Unknown[units.Current](err.Error())
	}
	w.Add(steps.Result("current of one unit", formula("P / (V · pf)", s), i, "A", steps.Cite{},
		steps.In("P", p, "W"), steps.In("V", s.Volts, "V"), steps.In("pf", l.PF, "")))
	return units.Is(i)
}

// sizingPower is the power given, or the boosted one where that is larger. A
// power that was itself derived from a stated current is not a second opinion.
func (l Load) sizingPower() units.Known[units.Power] {
	if !l.Item.Power.Known() && !l.Item.Boost.Known() {
		return units.Unknown[units.Power]("no power is given")
	}
	return l.Power
}

// stated is the label current at a supply. Between label voltages the unit
// behaves as a constant power: its current follows S / V with the larger
// apparent power of the labels on either side, scaled up by a boost that the
// label does not include.
func (l Load) stated(s inventory.Supply, w *steps.Work) units.Known[units.Current] {
	labels := l.labels()
	if len(labels) == 0 {
		return units.Unknown[units.Current]("no current is stated")
	}
	var at *inventory.CurrentAt
	for i, c := range labels {
		if units.SameNominal(c.Voltage, s.Volts) {
			at = &labels[i]
		}
	}
	if at != nil {
		i := at.Current
		w.Add(steps.Step{Name: "stated current of one unit", Note: "as the label says", Result: float64(i), Unit: "A", Cite: steps.CommonPractice,
			Inputs: []steps.Input{steps.In("V", at.Voltage, "V")}})
		return units.Is(i)
	}
	below, above := -1, -1
	for i, c := range labels {
		if c.Voltage < s.Volts {
			below = i
		} else if above < 0 {
			above = i
		}
	}
	best := inventory.CurrentAt{}
	for _, k := range []int{below, above} {
		if k >= 0 && units.VA(labels[k].Voltage, labels[k].Current) > units.VA(best.Voltage, best.Current) {
			best = labels[k]
		}
	}
	i, err := ApparentCurrent(ApparentPower(best.Current, best.Voltage, s.Phases), s.Volts, s.Phases)
	if err != nil {
		return units.Unknown[units.Current](err.Error())
	}
	w.Add(steps.Result("current of one unit from its label at another voltage, at constant power", "I1 · V1 / V", i, "A",
		steps.CommonPractice, steps.In("I1", best.Current, "A"), steps.In("V1", best.Voltage, "V"), steps.In("V", s.Volts, "V")))
	return units.Is(i)
}

// labels are the stated currents, ascending voltage.
func (l Load) labels() []inventory.CurrentAt {
	if i, ok := l.Item.Current.Get(); ok && len(l.Voltage.List) == 1 {
		return append([]inventory.CurrentAt{{Voltage: l.Voltage.List[0], Current: i}}, l.Item.Currents...)
	}
	return l.Item.Currents
}

// nameplateDraw takes the marked minimum circuit ampacity as the current of
// equipment that states nothing else. It already holds the allowance, so no
// further one is made.
func (l Load) nameplateDraw(d Draw) (Draw, bool) {
	n, ok := l.Item.Nameplate.Get()
	if !ok {
		return Draw{}, false
	}
	mca, ok := n.MinCircuit.Get()
	if !ok {
		return Draw{}, false
	}
	d.Amps, d.Governs = mca, "nameplate minimum circuit ampacity; the running current is not given"
	d.VA = ApparentPower(mca, d.Supply.Volts, d.Supply.Phases)
	d.Steps = []steps.Step{{Name: "current of one unit", Note: "the nameplate's minimum circuit ampacity; the running current is not given",
		Result: float64(mca), Unit: "A", Cite: steps.CommonPractice}}
	return d.withNameplate(l), true
}

// withNameplate keeps the marked minimum circuit ampacity beside the draw.
func (d Draw) withNameplate(l Load) Draw {
	if n, ok := l.Item.Nameplate.Get(); ok {
		d.MinCircuit, d.MaxDevice = n.MinCircuit, n.MaxBreaker
	}
	return d
}

func formula(onePhase string, s inventory.Supply) string {
	if s.Phases == 3 {
		switch onePhase {
		case "S / V":
			return "S / (√3 · V)"
		default:
			return "P / (√3 · V · pf)"
		}
	}
	return onePhase
}
