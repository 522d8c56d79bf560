package judge

import (
	"branchwork/circuits"
	"branchwork/codes"
	"branchwork/loads"
	"branchwork/loads/inventory"
	"branchwork/loads/units"
)

// loadFacts gathers what is known of some units of one item on a circuit, beside
// what is known of the circuit.
func (j *judgment) loadFacts(c *circuits.Circuit, cl circuits.Load, of *codes.Facts) *codes.Facts {
	f := of.Beside(of.Subject, cl.Who()+" on "+of.Label)
	l, _ := j.set.Named(cl.Item)
	if cl.Draw.Amps > 0 {
		codes.Put(f, codes.UnitAmps, cl.Draw.Amps)
		codes.Put(f, codes.UnitVA, cl.Draw.VA)
	} else {
		missDraw(f, undrawn(&circuits.Circuit{Supply: c.Supply, Loads: []circuits.Load{cl}}))
	}
	codes.Put(f, codes.UnitCount, cl.Count)
	codes.Put(f, codes.Corded, l.Corded)
	codes.Put(f, codes.IsLuminaire, cl.Category == loads.Lighting)
	codes.PutKnown(f, codes.MinCircuit, cl.Draw.MinCircuit)
	codes.PutKnown(f, codes.MaxDevice, cl.Draw.MaxDevice)
	if most, ok := l.Item.MaxBreaker.Get(); ok {
		codes.Put(f, codes.MakerBreaker, most)
	} else {
		f.Miss(codes.MakerBreaker, "the largest breaker that the maker of "+cl.Who()+" allows is not given", cl.Path)
	}
	if cl.Draw.Motor && cl.Draw.Amps > 0 {
		codes.Put(f, codes.MotorFLC, cl.Draw.Amps)
	}
	codes.Put(f, codes.Accepts, l.Accepts(c.Supply))
	codes.Put(f, codes.Accepted, accepted(l))
	if r, ok := j.p.ReceptacleNamed(l.Plug); ok && l.Plug != "" {
		codes.Put(f, codes.PlugKind, r)
	}
	codes.Put(f, codes.AskedAlone, l.Item.Dedicated.Or(false) || l.Item.Nameplate.Known())
	codes.Put(f, codes.UsuallyAlone, l.Alone)
	why := l.AloneWhy
	if l.Item.Dedicated.Or(false) && !l.Item.Nameplate.Known() {
		why += ", which the code asks where its maker's instructions do"
	}
	codes.Put(f, codes.AloneWhy, why)
	codes.Put(f, codes.HigherVolts, j.higher(c, cl))
	codes.Put(f, codes.IsContinuous, cl.Continuous)
	link(l.Item, f)
	return f
}

// higher returns the highest voltage above a circuit's that its panel supplies, that
// a load on it accepts and that the code lets it have in a dwelling; 0 where there
// is none.
func (j *judgment) higher(c *circuits.Circuit, cl circuits.Load) units.Voltage {
	l, _ := j.set.Named(cl.Item)
	most := units.Voltage(0)
	b := j.p.Branch
	capped := j.inv.Site.Use == inventory.Dwelling && b.DwellingVolts > 0 &&
		(cl.Category == loads.Lighting || l.Corded && !units.Exceeds(cl.Draw.VA, b.DwellingVA))
	for _, x := range j.plan.Panels {
		if x.Name != c.Panel {
			continue
		}
		for _, s := range x.System.Supplies() {
			if l.Accepts(s) && s.Volts > c.Supply.Volts && !(capped && units.Exceeds(s.Volts, b.DwellingVolts)) {
				most = max(most, s.Volts)
			}
		}
	}
	return most
}

// lack is a current that is not known: why, and the table that would tell. The
// zero value: all are known.
type lack struct{ why, at string }

// undrawn is what a circuit lacks.
func undrawn(c *circuits.Circuit) lack {
	if cl, ok := c.Undrawn(); ok {
		return lack{"what " + cl.Who() + " draws at " + c.Supply.Volts.String() + " is not known", cl.Path}
	}
	return lack{}
}

// undrawnBelow is what the sums of a panel lack.
func (j *judgment) undrawnBelow(x *circuits.Panel) lack {
	l, asked := j.lacks[x.Name]
	if !asked {
		if c := j.plan.UndrawnBelow(x); c != nil {
			l = undrawn(c)
		}
		j.lacks[x.Name] = l
	}
	return l
}

// missDraw makes everything unknown that follows from a current.
func missDraw(f *codes.Facts, l lack) {
	for _, name := range []codes.Fact{codes.DropShare, codes.UnitAmps, codes.UnitVA} {
		f.Miss(name, l.why, l.at)
		f.Settle(name, readNameplate)
	}
}

// putSum sets a sum or a maximum of currents; where one is not known, it is so much
// at the least.
func putSum[T any](f *codes.Facts, name codes.Fact, v T, l lack) {
	if l.why == "" {
		codes.Put(f, name, v)
		return
	}
	codes.PutLeast(f, name, v, l.why, l.at)
	f.Settle(name, readNameplate)
}

// readNameplate is how a current that is not known is found out.
const readNameplate = "read the current on its nameplate and add `current`"

func accepted(l loads.Load) string {
	s := l.Voltage.String()
	if l.Phases == 3 {
		s += " three-phase"
	}
	return s
}

// itemFacts gathers what is known of an item as a whole.
func (j *judgment) itemFacts(l loads.Load) *codes.Facts {
	f := j.start(l.Path, l.Name)
	n := 0
	for _, u := range j.unfed[l.Name] {
		n += u.Count
		codes.Put(f, codes.UnplacedReason, u.Reason)
		codes.Put(f, codes.UnplacedNeeds, u.Needs)
	}
	codes.Put(f, codes.Unplaced, n)
	codes.Put(f, codes.UnitCount, l.Count)
	return f
}

// controllerFacts gathers what is known of a controller and what it switches;
// nil where it switches nothing.
func (j *judgment) controllerFacts(box loads.Load) *codes.Facts {
	f := j.start(box.Path, "controller "+box.Name)
	used := 0
	var demand, largest units.Current
	item := ""
	var missing lack
	for _, c := range j.plan.Circuits {
		for _, cl := range c.Loads {
			l, _ := j.set.Named(cl.Item)
			if l.Item.Controller != box.Name {
				continue
			}
			used += cl.Count
			if missing.why == "" {
				missing = undrawn(&circuits.Circuit{Supply: c.Supply, Loads: []circuits.Load{cl}})
			}
			each := cl.Draw.Amps
			if mca, ok := cl.Draw.MinCircuit.Get(); ok {
				each = mca
			} else if cl.Continuous {
				each = j.p.Continuous.Required(each, 0, false)
			}
			demand += units.Times(each, float64(cl.Count))
			if cl.Draw.Amps > largest {
				largest, item = cl.Draw.Amps, cl.Item
			}
		}
	}
	if used == 0 {
		return nil
	}
	codes.Put(f, codes.UnitCount, box.Count)
	codes.Put(f, codes.OutletsUsed, used)
	putSum(f, codes.FeedDemand, demand, missing)
	putSum(f, codes.LargestUnit, largest, missing)
	codes.Put(f, codes.LargestItem, item)
	if n, ok := box.Item.Outlets.Get(); ok {
		codes.Put(f, codes.Outlets, n*box.Count)
	} else {
		f.Miss(codes.Outlets, "its number of outlets is not given", "")
	}
	put(f, codes.OutletRating, box.Item.OutletRating, "the rating of its outlets is not given")
	put(f, codes.FeedRating, box.Item.Feed, "the rating of its supply is not given")
	put(f, codes.ContactRating, box.Item.Contactor, "the rating of its contactor is not given")
	amps, detail := j.contacts(box)
	putSum(f, codes.ContactAmps, amps, missing)
	codes.Put(f, codes.ContactDetail, detail)
	return f
}

// put sets a fact that may be missing, with the reason in our words.
func put[T any](f *codes.Facts, name codes.Fact, k units.Known[T], why string) {
	if v, ok := k.Get(); ok {
		codes.Put(f, name, v)
		return
	}
	f.Miss(name, why, "")
}
