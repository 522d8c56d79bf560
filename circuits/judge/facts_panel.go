package judge

import (
	"fmt"
	"slices"
	"strings"

	"branchwork/circuits"
	"branchwork/circuits/panel"
	"branchwork/codes"
	"branchwork/loads"
	"branchwork/loads/clock"
	"branchwork/loads/inventory"
	"branchwork/loads/units"
)

// panelFacts gathers what is known of a panelboard.
func (j *judgment) panelFacts(x *circuits.Panel) *codes.Facts {
	f := j.start("panels."+x.Name, "panel "+x.Name)
	if _, all := x.Taken(); all || !j.plan.Adds(x.Name) { // what stands in a panel has its space
		codes.Put(f, codes.SpacesUsed, j.spacesNeeded(x))
	} else {
		codes.PutLeast(f, codes.SpacesUsed, j.spacesNeeded(x), "how many spaces the breakers of its other load take is not given", "")
		f.Settle(codes.SpacesUsed, "open the door of the panel, count the spaces taken by breakers that the file does not list and add `other_spaces`")
	}
	put(f, codes.Spaces, x.Spaces, "its number of spaces is not given")
	missing := j.undrawnBelow(x)
	putSum(f, codes.RequiredAmps, x.Required, missing)
	codes.Put(f, codes.HasCircuits, x.SpacesUsed > 0)
	j.mainOf(x, f)
	put(f, codes.BusAmps, x.Bus, "the rating of its bus is not given")
	codes.Put(f, codes.LegDetail, legDetail(x))
	out, existing := j.outgoing(x.Name)
	codes.Put(f, codes.Outgoing, out)
	codes.Put(f, codes.MostEven, x.Balance.Proved && !existing)
	if len(x.Legs) > 0 {
		putSum(f, codes.LegImbalance, panel.Balance(x.Legs), missing)
		putSum(f, codes.LegSpread, spread(x.Legs), missing)
	}
	j.peak(x, f)
	codes.Put(f, codes.Alternating, j.alternating(x.Name))
	return f
}

// peak gives the facts of a demand that was measured. It is given in the file also
// where the code as carried has no rule for it and the plan leaves it out.
func (j *judgment) peak(x *circuits.Panel, f *codes.Facts) {
	given := j.fileOf(x.Name)
	if given == nil {
		return
	}
	m, ok := given.MeasuredPeak.Get()
	if !ok {
		return
	}
	counted, used := x.MeasuredPeak.Get()
	peak := counted
	if !used {
		peak = given.StatedPeak()
	}
	codes.Put(f, codes.PeakAmps, peak)
	putSum(f, codes.NewAmps, x.Required-units.Times(counted, float64(j.p.Service.PeakFactor)), j.undrawnBelow(x))
	if m.Months > 0 {
		codes.Put(f, codes.PeakMonths, m.Months)
	}
}

// spacesNeeded is how many spaces a panel's breakers take; where one of them finds
// no neighbouring spaces in the panel as it is, how many it would need to have.
func (j *judgment) spacesNeeded(x *circuits.Panel) int {
	taken, _ := x.Taken()
	last := 0
	for _, c := range j.plan.Circuits {
		if c.Panel == x.Name {
			last = max(last, slices.Max(append([]int{0}, c.Spaces...)))
		}
	}
	for _, sub := range j.plan.Panels {
		if sub.Feeder != nil && sub.Feeder.From == x.Name {
			last = max(last, slices.Max(append([]int{0}, sub.Feeder.Spaces...)))
		}
	}
	if have, ok := x.Spaces.Get(); ok && last > have {
		return max(last, taken)
	}
	return taken
}

// mainOf finds what protects a panel: its main, the breaker of its feeder, or
// both. Behind a transformer the feeder's breaker protects the primary only.
func (j *judgment) mainOf(x *circuits.Panel, f *codes.Facts) {
	const why = "the rating of its main is not given"
	main, has := x.Main.Get()
	var ahead units.Current
	fed := false
	if x.Feeder != nil && x.Feeder.Transformer == nil {
		ahead, fed = j.feederBreaker(x).Get()
	}
	codes.Put(f, codes.FeederIsMain, fed && !has)
	switch {
	case has:
		codes.Put(f, codes.MainAmps, main)
		codes.Put(f, codes.MainIs, "main")
	case fed:
		codes.Put(f, codes.MainAmps, ahead)
		codes.Put(f, codes.MainIs, "feeder breaker")
	default:
		f.Miss(codes.MainAmps, why, "")
	}
	switch {
	case has && fed:
		codes.Put(f, codes.AheadAmps, min(main, ahead))
	case has || fed:
		codes.Put(f, codes.AheadAmps, main+ahead) // one of them is zero
	default:
		f.Miss(codes.AheadAmps, why, "")
	}
}

func legDetail(x *circuits.Panel) string {
	parts := make([]string, len(x.Legs))
	for i, amps := range x.Legs {
		name := fmt.Sprint(i + 1)
		if i < len(x.LegNames) {
			name = x.LegNames[i]
		}
		parts[i] = name + " " + amps.String()
	}
	return strings.Join(parts, ", ")
}

// spread is the difference between the fullest and the emptiest leg.
func spread(legs []units.Current) units.Current {
	most, least := legs[0], legs[0]
	for _, i := range legs {
		most, least = max(most, i), min(least, i)
	}
	return most - least
}

func (j *judgment) fileOf(name string) *inventory.Panel {
	for i := range j.inv.Panels {
		if j.inv.Panels[i].Name == name {
			return &j.inv.Panels[i]
		}
	}
	return nil
}

// alternating names the pairs of rooms on and below a panel whose luminaires are
// never on at once by their windows, though nothing keeps them from it. Asked of
// the panel at the top only.
func (j *judgment) alternating(top string) []string {
	if x := j.fileOf(top); x == nil || x.FedBy != "" {
		return nil
	}
	lit := j.litBelow(top)
	var out []string
	for i, a := range lit {
		for _, b := range lit[i+1:] {
			if !a.heldFrom(b) && a.hours.Union(b.hours).Length() == a.hours.Length()+b.hours.Length() {
				out = append(out, a.name+" and "+b.name)
			}
		}
	}
	return out
}

// litRoom is a room with the hours in which any of its luminaires is on, and
// the interlocks that hold them: of each luminaire the group and its member.
type litRoom struct {
	name  string
	hours clock.Windows
	held  map[[2]string]bool
}

// heldFrom reports whether an interlock keeps every luminaire of a room from
// being on with any of another: all of one group, and no member in common.
func (a litRoom) heldFrom(b litRoom) bool {
	for x := range a.held {
		for y := range b.held {
			if x[0] == "" || x[0] != y[0] || x[1] == y[1] {
				return false
			}
		}
	}
	return true
}

// outgoing counts the circuits and feeders that leave a panel, and tells whether
// any of them exists.
func (j *judgment) outgoing(name string) (n int, existing bool) {
	for _, c := range j.plan.Circuits {
		if c.Panel == name {
			n++
			existing = existing || c.Existing
		}
	}
	for _, x := range j.plan.Panels {
		if x.Feeder != nil && x.Feeder.From == name {
			n++
			existing = existing || x.Feeder.Existing
		}
	}
	return n, existing
}

// litBelow lists the rooms whose luminaires hang on a panel or below it, those
// with known hours that are ever on.
func (j *judgment) litBelow(top string) []litRoom {
	hours := map[string]clock.Windows{}
	open := map[string]bool{}
	held := map[string]map[[2]string]bool{}
	for _, c := range j.plan.Circuits {
		if !j.plan.Under(c.Panel, top) {
			continue
		}
		for _, cl := range c.Loads {
			l, _ := j.set.Named(cl.Item)
			if l.Item.Table != inventory.Fixtures {
				continue
			}
			hours[cl.Room] = hours[cl.Room].Union(l.Hours)
			if held[cl.Room] == nil {
				held[cl.Room] = map[[2]string]bool{}
			}
			held[cl.Room][[2]string{l.Interlock, l.Member}] = true
			open[cl.Room] = open[cl.Room] || !l.HoursKnown || l.Hours.IsNever()
		}
	}
	var out []litRoom
	for _, r := range j.inv.Rooms {
		if h, ok := hours[r.Name]; ok && !open[r.Name] {
			out = append(out, litRoom{r.Name, h, held[r.Name]})
		}
	}
	return out
}

// feederFacts gathers what is known of the run to a panel.
func (j *judgment) feederFacts(x *circuits.Panel) *codes.Facts {
	d := x.Feeder
	f := j.start("panels."+x.Name, "feeder to "+x.Name)
	put(f, codes.BreakerAmps, j.feederBreaker(x), "the rating of its breaker is not given")
	missing := j.undrawnBelow(x)
	putSum(f, codes.LoadAmps, d.Load, missing)
	putSum(f, codes.RequiredAmps, d.Required, missing)
	codes.Put(f, codes.ByEquipment, false)
	given := j.fileOf(x.Name)
	untold := d.Existing && given != nil && !given.Feeder.Conductor.Known()
	for name, amps := range map[codes.Fact]units.Known[units.Current]{codes.WireAmps: d.Conductor.Ampacity,
		codes.WireTableAmps: d.Conductor.TerminalAmps, codes.WireCorrected: d.Conductor.CorrectedAmps} {
		switch i, ok := amps.Get(); {
		case ok && !untold:
			codes.Put(f, name, i)
		case d.Conductor.Beyond != "":
			missWire(f, name, d.Conductor)
		default:
			f.Miss(name, "the conductor of the feeder is not given", "")
		}
	}
	codes.Put(f, codes.WireRests, j.rests(d.Conductor))
	neutralCount(d.Neutral, d.Conductor, untold, f)
	codes.Put(f, codes.WireEnough, d.Enough)
	switch drop, ok := d.Drop.Get(); {
	case d.Length.Known() && d.Conductor.Beyond != "":
		missWire(f, codes.DropShare, d.Conductor)
	case ok:
		putSum(f, codes.DropShare, drop, missing)
	default:
		f.Miss(codes.DropShare, "its length is not given", "")
	}
	codes.Put(f, codes.DropLimit, j.p.Drop.Branch)
	if t := d.Transformer; t != nil {
		codes.Put(f, codes.TransformerVA, t.Rating)
		putSum(f, codes.ThroughVA, throughTransformer(x), missing)
		rated(t, f)
		if m, ok := x.Main.Get(); ok {
			codes.Put(f, codes.MainAmps, m)
		}
	}
	return f
}

// feederBreaker is the breaker of a panel's feeder, where it is planned or the
// file tells it: of a feeder that exists the plan takes one to work out the
// conductors behind, and nothing is judged by that.
func (j *judgment) feederBreaker(x *circuits.Panel) units.Known[units.Current] {
	given := j.fileOf(x.Name)
	if x.Feeder.Existing && given != nil && !given.Feeder.Breaker.Known() {
		return units.Unknown[units.Current]("not given")
	}
	return x.Feeder.Breaker
}

// rated gives the rated currents of a transformer's windings.
func rated(t *circuits.Transformer, f *codes.Facts) {
	for name, volts := range map[codes.Fact]units.Voltage{codes.RatedPrimary: t.Primary, codes.RatedSecondary: t.Secondary} {
		if i, err := loads.ApparentCurrent(t.Rating, volts, t.Phases); err == nil {
			codes.Put(f, name, i)
		}
	}
}

// throughTransformer is the apparent power that a transformer is asked for: its
// fullest secondary leg on every leg.
func throughTransformer(x *circuits.Panel) units.Apparent {
	var most units.Current
	for _, i := range x.Legs {
		most = max(most, i)
	}
	return units.Times(units.VA(x.System.LineToNeutral, most), float64(x.System.Legs))
}

// siteFacts gathers what holds for the whole site.
func (j *judgment) siteFacts() *codes.Facts {
	f := j.start("site.conductors", "site")
	codes.PutKnown(f, codes.Terminals, j.inv.Site.Conductors.Terminals)
	return f
}
