package codes

import (
	"fmt"
	"strings"

	"branchwork/loads/steps"
	"branchwork/loads/units"
)

// CopperUpTo is the rating up to which branch circuits are wired in copper:
// aluminum at these ratings is the branch wiring of around 1970, whose joints
// loosen. Larger aluminum conductors are in ordinary use. Common practice, no
// source.
const CopperUpTo units.Current = 30

// Wires is the conductor tables of a profile. The names of sizes, materials and
// insulations are the profile's own.
type Wires struct {
	Edition        string
	Sizes          []string         // ascending area
	Ampacity       map[string]Table // by material; columns are temperature ratings: "75 C"
	Ambient        Table            // factor by conductor temperature rating; keys are the upper end of a band in C
	Bundle         Table            // factor by number of current-carrying conductors; keys are the upper end
	Small          map[string]Table // by material: most overcurrent protection of small sizes
	Ground         Table            // by device rating; columns are materials, cells are sizes
	GroundCalled   string           // in short, what the trade calls an equipment grounding conductor
	Properties     Table            // by size: area, and resistance per 1,000 ft by material
	Reactance      Table            // by size; columns are raceways
	Alternating    map[string]Table // by material: ac resistance by size; columns are raceways
	Fill           Table            // share of a raceway that conductors may fill; keys are the upper end of their number
	Trade          map[string]Table // by raceway: inside area by trade size
	Outside        map[string]Table // by insulation: area of one insulated conductor by size
	Insulations    []Insulation
	Raceways       []string          // accepted names
	Material       string            // default
	Insulation     string            // default
	Raceway        string            // default
	LowColumn      units.Temperature // terminations not marked, at and below LowUpTo
	LowUpTo        units.Current
	HighColumn     units.Temperature // terminations above
	ColumnCite     steps.Cite
	ParallelMin    string // smallest size that may be run in parallel
	NeutralCite    steps.Cite
	SingleMax      string            // largest size run as a single conductor before parallel ones are taken; common practice
	ProportionCite steps.Cite        // ground enlarged with the conductor; none where its At is empty
	Base           units.Temperature // ambient of the ampacity table
}

// Insulation is a conductor insulation with its temperature rating.
type Insulation struct {
	Name   string
	Rating units.Temperature
	Wet    bool              // suitable in wet places
	Limit  units.Temperature // column that its ampacity may not exceed after all; zero: none but the terminations
	Cite   steps.Cite        // of the limit
}

// InsulationNamed returns an insulation.
func (w Wires) InsulationNamed(name string) (Insulation, bool) {
	for _, i := range w.Insulations {
		if strings.EqualFold(i.Name, name) {
			return i, true
		}
	}
	return Insulation{}, false
}

// Column returns a column's name: "75 C".
func Column(t units.Temperature) string { return units.Round(float64(t), 0) + " C" }

// AmpacityOf returns the ampacity of a size in a temperature column, before
// correction and adjustment.
func (w Wires) AmpacityOf(material, size string, column units.Temperature) (units.Current, steps.Cite, bool) {
	t := w.Ampacity[material]
	v, how, ok := t.Value(size, Column(column))
	return units.Current(v), t.Cite(w.Edition, how), ok
}

// AmbientFactor returns the correction for the ambient temperature of a
// conductor of that rating; ok is false beyond the table, where the conductor
// may not be used.
func (w Wires) AmbientFactor(rating, ambient units.Temperature) (units.Ratio, steps.Cite, bool) {
	v, how, ok := w.Ambient.upTo(float64(ambient), Column(rating))
	return units.Ratio(v), w.Ambient.Cite(w.Edition, how), ok
}

// BundleFactor returns the adjustment for so many current-carrying conductors
// in one raceway or cable.
func (w Wires) BundleFactor(carrying int) (units.Ratio, steps.Cite, bool) {
	v, how, ok := w.Bundle.upTo(float64(carrying), w.Bundle.Columns[0])
	return units.Ratio(v), w.Bundle.Cite(w.Edition, how), ok
}

// SmallLimit returns the most overcurrent protection of a small conductor; ok is
// false for sizes that have no such limit.
func (w Wires) SmallLimit(material, size string) (units.Current, steps.Cite, bool) {
	t, has := w.Small[material]
	if !has {
		return 0, steps.Cite{}, false
	}
	v, how, ok := t.Value(size, t.Columns[0])
	return units.Current(v), t.Cite(w.Edition, how), ok
}

// GroundFor returns the size of the equipment grounding conductor for a device.
func (w Wires) GroundFor(device units.Current, material string) (string, steps.Cite, bool) {
	c := w.Ground.Column(material)
	for _, r := range w.Ground.Rows {
		limit, err := keyNumber(r.Key)
		if err == nil && c >= 0 && !units.Exceeds(device, units.Current(limit)) {
			return r.Text[c], w.Ground.Cite(w.Edition, r.How), true
		}
	}
	return "", steps.Cite{}, false
}

// Area returns a size's area in the profile's unit of area.
func (w Wires) Area(size string) (float64, bool) {
	v, _, ok := w.Properties.Value(size, w.Properties.Columns[0])
	return v, ok
}

// Enlarged returns the smallest size of at least so many times the area of another.
func (w Wires) Enlarged(size string, times float64) (string, bool) {
	area, ok := w.Area(size)
	for _, s := range w.Sizes {
		if a, known := w.Area(s); ok && known && !units.Exceeds(units.Ratio(times*area), units.Ratio(a)) {
			return s, true
		}
	}
	return "", false
}

// Carrying returns the smallest size whose ampacity at unmarked terminations reaches a
// current and the rating of its device: "4 AWG copper carries 70 A at 60 C
// terminations". The limits of small sizes are their ampacities at 60 C. Without a
// material it is of the profile's.
func (w Wires) Carrying(material string, i, device units.Current) (string, bool) {
	if material == "" {
		material = w.Material
	}
	column := w.Terminals(device)
	for _, size := range w.Sizes {
		most, _, ok := w.AmpacityOf(material, size, column)
		if ok && !units.Exceeds(max(i, device), most) {
			return fmt.Sprintf("%s %s carries %s at %s terminations", size, material, most, Column(column)), true
		}
	}
	return "", false
}

// Resistance returns a conductor's resistance in ohms per 1,000 ft at 75 °C.
func (w Wires) Resistance(material, size string) (units.Resistance, steps.Cite, bool) {
	v, how, ok := w.Properties.Value(size, material)
	return units.Resistance(v), w.Properties.Cite(w.Edition, how), ok
}

// ReactanceOf returns a conductor's reactance to neutral in ohms per 1,000 ft.
func (w Wires) ReactanceOf(raceway, size string) (units.Resistance, steps.Cite, bool) {
	v, how, ok := w.Reactance.Value(size, raceway)
	return units.Resistance(v), w.Reactance.Cite(w.Edition, how), ok
}

// AlternatingOf returns a conductor's ac resistance to neutral in ohms per
// 1,000 ft at 75 °C.
func (w Wires) AlternatingOf(material, raceway, size string) (units.Resistance, steps.Cite, bool) {
	t := w.Alternating[material]
	v, how, ok := t.Value(size, raceway)
	return units.Resistance(v), t.Cite(w.Edition, how), ok
}

// FillShare returns the share of a raceway's area that so many conductors may
// fill.
func (w Wires) FillShare(conductors int) (units.Ratio, steps.Cite, bool) {
	v, how, ok := w.Fill.upTo(float64(conductors), w.Fill.Columns[0])
	return units.Ratio(v), w.Fill.Cite(w.Edition, how), ok
}

// From returns the sizes from one size up, ascending.
func (w Wires) From(size string) []string {
	for i, s := range w.Sizes {
		if s == size {
			return w.Sizes[i:]
		}
	}
	return nil
}

// Terminals returns the termination column that the code takes where equipment
// is not marked, for a device rating.
func (w Wires) Terminals(device units.Current) units.Temperature {
	if units.Exceeds(device, w.LowUpTo) {
		return w.HighColumn
	}
	return w.LowColumn
}

// upTo returns the value of the first row whose numeric key is not below x.
func (t Table) upTo(x float64, column string) (float64, steps.How, bool) {
	for _, r := range t.Rows {
		k, err := keyNumber(r.Key)
		if err == nil && x <= k {
			return t.Value(r.Key, column)
		}
	}
	return 0, "", false
}

// keyNumber reads the number that a row key begins with: "35 C", "6", "20 A",
// "1/3 hp".
func keyNumber(key string) (float64, error) {
	var x, over float64
	if n, _ := fmt.Sscanf(key, "%g/%g", &x, &over); n == 2 && over != 0 {
		return x / over, nil
	}
	_, err := fmt.Sscanf(key, "%g", &x)
	return x, err
}

func bareReceptacle(name string) string {
	return strings.TrimSuffix(strings.TrimSpace(strings.TrimPrefix(strings.ToUpper(name), "NEMA")), "R")
}
