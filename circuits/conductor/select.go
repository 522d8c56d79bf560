package conductor

import (
	"fmt"

	"branchwork/codes"
	"branchwork/loads/steps"
	"branchwork/loads/units"
)

// Select returns the smallest conductor that meets both ampacity tests and that
// the device protects, enlarged until the voltage drop is within its limit, with
// its grounding conductor. Parallel conductors are taken where a single one does
// not carry the current.
//
// It does not decide the device: Request.Device is what the circuit was given.
//
// Source: 210.19(A)(1) and 215.2(A)(1), 310.16 with its factors, 110.14(C),
// 240.4, 250.122. Checked by testdata/published/conductors.toml.
func Select(r Request, p *codes.Profile, w *steps.Work) (Choice, error) {
	q, err := settle(r, p, w)
	if err != nil {
		return Choice{}, err
	}
	list := q.candidates()
	needed := q.first(list, 0, ampacityTests()...)
	if needed < 0 {
		return Choice{}, q.none(list)
	}
	before := max(needed, q.from(list))
	if before > needed { // a larger single size meets what a smaller one does; parallel ones are asked again
		if before = q.first(list, before, ampacityTests()...); before < 0 {
			return Choice{}, q.none(list)
		}
	}
	chosen, over := q.enlarge(list, before)
	c, f, err := q.work(list[chosen], w)
	if err != nil {
		return c, err
	}
	c.NeededSize, c.NeededSets, c.BeforeDrop = list[needed].size, list[needed].sets, list[before].size
	c.Tests = q.tests(list, f)
	switch {
	case chosen != before:
		c.Governs = ForDrop
		if fall, ok := q.dropOf(list[before], nil).Get(); ok {
			c.DropBefore = units.Is(fall.Share)
		}
	case before != needed:
		c.Governs = Smallest
	default:
		c.Governs = c.Tests[0].Name
	}
	q.finish(&c, f, w)
	c.DropOver = over
	return c, q.ground(&c, w)
}

// Evaluate returns the same figures for a conductor that is given: one that is
// already in the wall. Its tests tell which it does not meet.
func Evaluate(size string, sets int, r Request, p *codes.Profile, w *steps.Work) (Choice, error) {
	q, err := settle(r, p, w)
	if err != nil {
		return Choice{}, err
	}
	if p.Wires.From(size) == nil || sets < 1 {
		return Choice{}, fmt.Errorf("no conductor of %d × %q in %s", sets, size, p.Title)
	}
	c, f, err := q.work(candidate{size, sets}, w)
	if err != nil {
		return c, err
	}
	list := q.candidates()
	c.NeededSize, c.NeededSets, c.BeforeDrop = size, sets, size
	if i := q.first(list, 0, ampacityTests()...); i >= 0 {
		c.NeededSize, c.NeededSets = list[i].size, list[i].sets
	}
	c.Tests = q.tests(list, f)
	c.Governs = c.Tests[0].Name
	q.finish(&c, f, w)
	if share, ok := c.Drop.Get(); ok && q.DropLimit > 0 {
		c.DropOver = units.Exceeds(share, q.DropLimit)
	}
	return c, q.ground(&c, w)
}

// enlarge returns the first candidate from i on whose voltage drop is within its
// limit, and whether none is: then the size stays as it was, since a larger one
// would not settle it.
func (q question) enlarge(list []candidate, i int) (int, bool) {
	if q.DropLimit <= 0 {
		return i, false
	}
	for k := i; k < len(list); k++ {
		share, known := q.dropOf(list[k], nil).Get()
		if !known {
			return i, false
		}
		if units.Exceeds(share.Share, q.DropLimit) || k > i && q.first(list[k:k+1], 0, ampacityTests()...) < 0 {
			continue
		}
		return k, false
	}
	return i, true
}

// work computes a conductor's ampacities once more, this time recording them.
func (q question) work(c candidate, w *steps.Work) (Choice, figures, error) {
	f, ok := q.figures(c, w)
	if !ok {
		return Choice{}, f, Beyond{fmt.Sprintf("no ampacity of %s %s in the %s and %s columns of %s", c.size, q.Material,
			codes.Column(q.column), codes.Column(q.insulation.Rating), q.p.Title)}
	}
	return Choice{
		Size: c.size, Sets: c.sets, Material: q.Material, Insulation: q.insulation.Name, Raceway: q.Raceway,
		Required: q.required, Load: q.load, Column: q.column, InsulationAt: q.insulation.Rating,
		TableAmps: f.table, InsulationAmps: f.insulation, CorrectedAmps: f.corrected, UsableAmps: f.usable,
		Ambient: q.ambient, Bundle: q.bundle, SmallLimit: f.small, ProtectedAt: f.protected, ByEquipment: !q.SmallLimits,
	}, f, nil
}

// governing is where the test stands that chose the size.
func (q question) governing(test string, f figures) steps.Cite {
	switch test {
	case AtTerminations, Corrected:
		return q.needCite
	case Protection:
		return f.protectedCite
	case ForDrop:
		return q.p.Drop.Cite
	}
	return steps.Cite{}
}

// finish records the choice and computes its voltage drop.
func (q question) finish(c *Choice, f figures, w *steps.Work) {
	chosen := candidate{c.Size, c.Sets}
	why := "governed by: " + c.Governs
	if share, ok := c.DropBefore.Get(); ok {
		why += fmt.Sprintf("; %s would lose %s %%", c.BeforeDrop, units.Round(100*float64(share), 2))
	}
	w.Add(steps.Choice("conductor", chosen.String()+" "+q.Material+" "+q.insulation.Name, why, q.governing(c.Governs, f),
		steps.In("Ireq", q.required, "A"), steps.In("I", q.load, "A"), steps.In("device", q.Device, "A")))
	fall := q.dropOf(chosen, w)
	if v, known := fall.Get(); known {
		c.Drop, c.DropVolts = units.Is(v.Share), v.Volts
	} else {
		c.Drop = units.Unknown[units.Ratio](fall.Why())
	}
}
