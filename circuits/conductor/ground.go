package conductor

import (
	"fmt"

	"branchwork/codes"
	"branchwork/loads/steps"
	"branchwork/loads/units"
)

// What can decide the size of a grounding conductor.
const (
	ByDevice     = "rating of the overcurrent device"
	InProportion = "in proportion with the enlarged conductor"
	ByConductor  = "no larger than the circuit conductors"
)

// Ground is an equipment grounding conductor with what decided its size.
type Ground struct {
	Size    string
	Governs string
	Needs   float64 // least area
	Area    float64
}

// GroundFor returns the equipment grounding conductor of a circuit, of the
// circuit conductors' own material.
//
//	At = area of the table's size for the device
//	A  = At · Ai / Am    where the conductors were enlarged from Am to Ai
//
// and the smallest size whose area is not below A, exactly: the ratio is not
// rounded, and 2 circular mils short is short. It need not be larger than the
// circuit conductors. Parallel sets have one in each raceway, by the device.
//
// Ai and Am are the areas of all sets together, in the profile's unit of area.
//
// Source: 250.122 and its table; (A) for the cap, (B) for the proportion, (F) for
// parallel conductors. Checked by testdata/published/grounding.toml.
func GroundFor(p *codes.Profile, device units.Current, material string, installed, needed Conductors, w *steps.Work) (Ground, error) {
	wires := p.Wires
	size, cite, ok := wires.GroundFor(device, material)
	if !ok {
		return Ground{}, Beyond{fmt.Sprintf(p.Say("no %s grounding conductor for a device of %v in %s"), material, device, p.Title)}
	}
	at, ok1 := wires.Area(size)
	ai, ok2 := wires.Area(installed.Size)
	am, ok3 := wires.Area(needed.Size)
	if !ok1 || !ok2 || !ok3 {
		return Ground{}, fmt.Errorf("no area of %s, %s or %s in %s", size, installed.Size, needed.Size, p.Title)
	}
	unit := wires.Properties.Units[0]
	g := Ground{Size: size, Governs: ByDevice, Needs: at, Area: at}
	w.Add(steps.Choice(p.Say("grounding conductor by the table"), size+" "+material, "", cite, steps.In("device", device, "A")))
	installedArea, neededArea := float64(installed.Sets)*ai, float64(needed.Sets)*am
	if wires.ProportionCite.At != "" && units.Exceeds(installedArea, neededArea) {
		g.Needs = at * installedArea / neededArea
		w.Add(steps.Result(p.Say("grounding conductor in proportion"), "At · Ai / Am", g.Needs, unit, wires.ProportionCite,
			steps.In("At", at, unit), steps.In("Ai", installedArea, unit), steps.In("Am", neededArea, unit)))
		if units.Exceeds(g.Needs, at) {
			g.Governs = InProportion
		}
	}
	if units.Exceeds(g.Needs, ai) {
		w.Add(steps.Result(p.Say("grounding conductor no larger than the conductor"), "min(A, Ai)", ai, unit, cite,
			steps.In("A", g.Needs, unit), steps.In("Ai", ai, unit)))
		g.Needs, g.Governs = ai, ByConductor
	}
	for _, s := range wires.Sizes {
		area, ok := wires.Area(s)
		_, _, made := wires.Resistance(material, s)
		if ok && made && !units.Exceeds(g.Needs, area) {
			g.Size, g.Area = s, area
			break
		}
	}
	w.Add(steps.Choice(p.Say("grounding conductor"), g.Size+" "+material, g.Governs, cite, steps.In("A", g.Needs, unit)))
	return g, nil
}

// Conductors is so many conductors of a size in parallel.
type Conductors struct {
	Size string
	Sets int
}

// ground fills in the grounding conductor of a choice. A conductor smaller than
// it should be was not enlarged.
func (q question) ground(c *Choice, w *steps.Work) error {
	if q.Device <= 0 {
		return nil
	}
	g, err := GroundFor(q.p, q.Device, q.Material, Conductors{c.Size, c.Sets}, Conductors{c.NeededSize, c.NeededSets}, w)
	if err != nil {
		return err
	}
	c.Ground, c.GroundGoverns, c.GroundNeeds, c.GroundArea = g.Size, g.Governs, g.Needs, g.Area
	return nil
}
