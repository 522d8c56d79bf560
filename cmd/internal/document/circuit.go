package document

import (
	"fmt"
	"strconv"

	"branchwork/circuits"
	"branchwork/codes"
	"branchwork/loads"
	"branchwork/loads/inventory"
	"branchwork/loads/units"
)

func circuit(c circuits.Circuit, set loads.Set, legs []string) Circuit {
	d := Circuit{
		Name: c.Name, Panel: c.Panel, Spaces: list(c.Spaces), Legs: legNames(c.Legs, legs), Poles: c.Supply.Poles, Phases: c.Supply.Phases,
		Existing: c.Existing, Changed: c.Changed, Category: string(c.Category), Rooms: list(c.Rooms),
		Volts: float64(c.Supply.Volts), VoltsToGround: float64(c.ToGround), BreakerAmps: known(c.Breaker), FullRated: c.FullRated,
		State: c.State, MeasuredAmps: known(c.Measured), Measured: measured(c), Loads: []Load{}, Limits: limitsOf(c),
		Conductor: conductor(c.Conductor, c.Length, c.Drop), Ground: ground(c.Ground), DropLimit: float64(c.DropLimit) * 100,
		Wired: c.Wired, Receptacle: Receptacle{Name: c.Receptacle, Wired: c.Wired}, GFCI: given(c.GFCI), Protection: protection(c.Protection),
		Controller: c.Controller, IndividualOnly: c.Individual, LastOutletFeet: known(c.LastOutlet), AmbientCelsius: float64(c.Ambient),
		CarryingInGroup: c.Carrying,
	}
	if !unknownLoad(c) {
		d.LoadAmps, d.ContinuousAmps, d.RequiredAmps, d.FreeAmps = number(c.Load), number(c.Continuous), number(c.Required), number(c.Free)
	}
	for _, l := range c.Loads {
		d.Loads = append(d.Loads, load(l))
		if known, ok := set.Named(l.Item); ok {
			d.StandsAlone = d.StandsAlone || known.Item.Dedicated.Or(false) || known.Item.Nameplate.Known()
		}
	}
	return d
}

// unknownLoad reports a circuit with a load whose current is not known: what it
// carries is not known.
func unknownLoad(c circuits.Circuit) bool {
	_, lacks := c.Undrawn()
	return lacks
}

// notApplied says of a hard-wired circuit that feeds motors, or what may be one, which
// rules on them the profile does not hold.
func notApplied(r Results, c circuits.Circuit) string {
	rule, motor := r.Profile.Motors.NotApplied, ""
	if rule == "" {
		return ""
	}
	for _, cl := range c.Loads {
		l, ok := r.Set.Named(cl.Item)
		switch {
		case !ok || l.Corded:
		case drives(l.Item):
			return "motor: " + rule
		case l.Item.Kind == inventory.Other:
			motor = "if a motor: " + rule
		}
	}
	return motor
}

// drives reports whether an item is one that a motor drives.
func drives(i *inventory.Item) bool {
	return i.Motor.Known() || i.Table == inventory.Fans || i.Kind == inventory.Pump || compresses(i.Kind)
}

// Over reports whether a circuit needs more than its breaker is rated.
func (c Circuit) Over() bool {
	return c.BreakerAmps != nil && c.RequiredAmps != nil && units.Exceeds(*c.RequiredAmps, *c.BreakerAmps)
}

func limitsOf(c circuits.Circuit) []Limit {
	out := []Limit{}
	for _, l := range c.Limits {
		out = append(out, Limit{Rule: l.Rule, Title: l.Title, Actual: l.Actual.Value, Limit: l.Limit.Value, Unit: l.Limit.Unit, UsedPercent: l.Share * 100})
	}
	return out
}

func legNames(indices []int, names []string) []string {
	out := []string{}
	for _, i := range indices {
		if i >= 0 && i < len(names) {
			out = append(out, names[i])
		}
	}
	return out
}

func load(l circuits.Load) Load {
	d := Load{
		Item: l.Who(), Category: tableOf(l.Path), Room: l.Room, Count: l.Count, FirstUnit: l.First, UnitStep: stepOf(l), Added: l.Added,
		WattsEach: known(l.Draw.Watts), Continuous: l.Continuous, Why: l.Why, Governs: l.Draw.Governs, of: l.Item, names: l.Names(),
	}
	if l.Drawn() {
		d.AmpsEach, d.VAEach = number(l.Draw.Amps), number(l.Draw.VA)
	}
	return d
}

func conductor(w circuits.Wire, length units.Known[units.Length], drop units.Known[units.Ratio]) Conductor {
	return Conductor{
		Size: word(w.Size), Material: word(w.Material), Insulation: word(w.Insulation),
		AmpacityAmps: known(w.Ampacity), TerminalAmps: known(w.TerminalAmps), CorrectedAmps: known(w.CorrectedAmps), ProtectedAt: known(w.ProtectedAt),
		LengthFeet: known(length), DropPercent: percent(drop), ParallelSets: max(1, w.Sets), Governs: w.Governs, SizeBeforeDrop: w.BeforeDrop,
	}
}

func ground(w circuits.Wire) Ground { return Ground{Size: word(w.Size), Material: word(w.Material)} }

func protection(p codes.Protection) Protection {
	d := Protection{Needed: p.Needed, Class: p.Class, Why: p.Why, Open: p.Open, Clause: p.Cite.String()}
	if p.Needed {
		d.TripMA = number(units.Per(p.Trip, units.Milliampere))
	}
	return d
}

func panel(p circuits.Panel, legs map[string][]string) Panel {
	d := Panel{
		Name: p.Name, System: p.System.Name, Legs: list(p.LegNames), Spaces: given(p.Spaces), SpacesUsed: p.SpacesUsed,
		MainAmps: known(p.Main), BusAmps: known(p.Bus), ConnectedVA: float64(p.ConnectedVA), DemandVA: float64(p.DemandVA),
		LegAmps: map[string]float64{}, NeutralAmps: known(p.Neutral), RequiredAmps: float64(p.Required), ImbalancePercent: number(float64(p.Imbalance) * 100),
		State: p.State, OtherLoadAmps: known(p.OtherLoad), MeasuredPeakAmps: known(p.MeasuredPeak), OtherSpaces: given(p.OtherSpaces), Unlisted: p.Unlisted(), Feeds: list(p.Feeds),
	}
	if !p.UnknownWatts {
		d.ConnectedWatts = number(p.ConnectedWatts)
	}
	for i, a := range p.Legs {
		d.LegAmps[p.LegNames[i]] = float64(a)
	}
	if p.Feeder != nil {
		d.Feeder = feeder(*p.Feeder, legs[p.Feeder.From])
	}
	return d
}

func feeder(f circuits.Feeder, legs []string) *Feeder {
	d := &Feeder{
		From: f.From, Existing: f.Existing, Spaces: list(f.Spaces), Legs: legNames(f.Legs, legs), Poles: f.Poles, Volts: float64(f.Volts),
		BreakerAmps: known(f.Breaker), LoadAmps: float64(f.Load), RequiredAmps: float64(f.Required),
		Conductor: conductor(f.Conductor, f.Length, f.Drop), Ground: ground(f.Ground),
	}
	if t := f.Transformer; t != nil {
		d.Transformer = &Transformer{VA: float64(t.Rating), Given: t.Given, Phases: t.Phases, PrimaryVolts: float64(t.Primary), SecondaryVolts: float64(t.Secondary), Secondary: SecondaryOpen}
	}
	return d
}

// stepOf is how far apart in number a circuit's units are; absent where they are
// neighbours or have no place.
func stepOf(l circuits.Load) int {
	if l.First > 0 && l.Every > 1 {
		return l.Every
	}
	return 0
}

// UnitNumbers writes the numbers of a load's units: "7", "4-6", "1, 3 to 9" where
// every other one is another circuit's; empty where units have no place.
func UnitNumbers(first, step, count int) string {
	last := first + max(1, step)*(count-1)
	switch {
	case first <= 0:
		return ""
	case count == 1:
		return strconv.Itoa(first)
	case step <= 1:
		return fmt.Sprintf("%d-%d", first, last)
	case count == 2:
		return fmt.Sprintf("%d, %d", first, last)
	}
	return fmt.Sprintf("%d, %d to %d", first, first+step, last)
}
