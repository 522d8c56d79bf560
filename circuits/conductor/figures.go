package conductor

import (
	"fmt"

	"branchwork/loads/steps"
	"branchwork/loads/units"
)

// candidate is so many conductors of a size in parallel per phase.
type candidate struct {
	size string
	sets int
}

func (c candidate) String() string {
	if c.sets > 1 {
		return fmt.Sprintf("%d × %s", c.sets, c.size)
	}
	return c.size
}

// figures are the ampacities of a candidate, of all its sets together.
type figures struct {
	table, insulation, corrected, usable units.Current
	small                                units.Current // zero: no limit
	protected                            units.Current
	protectedCite                        steps.Cite // where it stands that the device protects the conductor
}

// figures returns the ampacities of a candidate; ok is false where the tables
// have none for it.
//
//	It = n · I(termination column)
//	Ii = n · I(insulation column)
//	I' = Ii · fa · fb
//	usable = min(It, I')
//
// Source: 310.16 (310.15(B)(16) in 2017) with its correction and adjustment
// tables; the termination column caps what correction leaves: 110.14(C). Range:
// sizes of the table. Checked by testdata/published/derating.toml.
func (q question) figures(c candidate, w *steps.Work) (figures, bool) {
	wires := q.p.Wires
	it, itCite, ok1 := wires.AmpacityOf(q.Material, c.size, q.column)
	ii, iiCite, ok2 := wires.AmpacityOf(q.Material, c.size, q.insulation.Rating)
	if !ok1 || !ok2 {
		return figures{}, false
	}
	n := float64(c.sets)
	var f figures
	f.table, f.insulation = units.Times(it, n), units.Times(ii, n)
	f.corrected = units.Times(f.insulation, float64(q.ambient)*float64(q.bundle))
	f.usable = min(f.table, f.corrected)
	sets := steps.In("n", n, "")
	w.Add(steps.Result("ampacity at the terminations", "n · It", f.table, "A", itCite, sets, steps.In("It", it, "A")))
	w.Add(steps.Result("ampacity at the insulation's rating", "n · Ii", f.insulation, "A", iiCite, sets, steps.In("Ii", ii, "A")))
	w.Add(steps.Result("corrected ampacity", "Ii · fa · fb", f.corrected, "A", wires.Bundle.Cite(wires.Edition, itCite.How),
		steps.In("Ii", f.insulation, "A"), steps.In("fa", q.ambient, ""), steps.In("fb", q.bundle, "")))
	w.Add(steps.Result("ampacity that may be used", "min(It, Icorr)", f.usable, "A", wires.ColumnCite,
		steps.In("It", f.table, "A"), steps.In("Icorr", f.corrected, "A")))
	q.protection(c, &f, w)
	return f, true
}

// protection finds the largest standard device that protects a candidate:
//
//	the largest standard rating not above the usable ampacity (240.4), or
//	the next one above it where that is allowed, up to a rating (240.4(B), (C)),
//	and never above the limit of small conductors (240.4(D)).
//
// Where a nameplate or a motor rule sets the device (240.4(G)), the device asked
// for counts as protecting.
func (q question) protection(c candidate, f *figures, w *steps.Work) {
	d := q.p.Devices
	rating, _ := d.Down(f.usable)
	cite, why := d.RatingsCite, "the largest standard rating not above the ampacity"
	if next, ok := d.Next(f.usable); ok && q.RoundUp && next > rating {
		switch {
		case !units.Exceeds(next, d.RoundUpTo):
			rating, cite, why = next, d.RoundUpCite, "the next standard rating above the ampacity"
		case d.RoundUpTo == 0:
			why = "the largest standard rating not above the ampacity; no rounding up"
		default:
			cite, why = d.AboveCite, fmt.Sprintf("above %v the ampacity may not be exceeded", d.RoundUpTo)
		}
	}
	f.protectedCite = d.ProtectCite
	if rating > f.usable {
		f.protectedCite = cite
	}
	if limit, at, ok := q.p.Wires.SmallLimit(q.Material, c.size); ok && q.SmallLimits {
		f.small, f.protectedCite = limit, at
		if units.Exceeds(rating, limit) {
			rating, cite, why = limit, at, "limit of a small conductor"
		}
	}
	if !q.SmallLimits && q.Device > rating {
		f.protected = q.Device
		w.Add(steps.Choice("device above the ampacity", q.Device.String(),
			"set by a motor or nameplate rule, for short circuits and ground faults; the equipment's own device protects the conductor from overload", q.DeviceCite,
			steps.In("I", f.usable, "A")))
		return
	}
	f.protected = rating
	s := steps.Result("largest device that protects it", "", rating, "A", cite, steps.In("I", f.usable, "A"))
	s.Note = why
	w.Add(s)
}

// needs returns what a test demands and what a candidate offers.
func (q question) needs(test string, f figures) (needs, has units.Current) {
	switch test {
	case AtTerminations:
		return q.required, f.table
	case Corrected:
		return q.load, f.corrected
	case Protection:
		return q.Device, f.protected
	}
	return 0, 0
}

// meets reports whether a candidate meets a test.
func (q question) meets(test string, c candidate) bool {
	f, ok := q.figures(c, nil)
	if !ok {
		return false
	}
	needs, has := q.needs(test, f)
	return !units.Exceeds(needs, has)
}

// ampacityTests are the tests a size must meet before voltage drop, in the order
// in which they are named where several demand the same size.
func ampacityTests() []string { return []string{AtTerminations, Corrected, Protection} }
