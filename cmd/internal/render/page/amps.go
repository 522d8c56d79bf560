package page

import (
	"fmt"

	"branchwork/cmd/internal/document"
	"branchwork/loads/units"
)

// Amps lays out the answer of amps.
func Amps(d document.Amps, s System) Page {
	var p Page
	p.add(Heading{1, d.Given}, Fields{ampsFields(d, s)})
	t := Table{ID: "amps", Columns: []Column{{Name: "volts", Unit: "V"}, {Name: "phases"}, {Name: "each", Unit: "A"}}}
	if len(d.Rows) > 0 {
		for _, f := range d.Rows[0].Fits {
			t.Columns = append(t.Columns, Column{Name: "fit on " + amount(f.BreakerAmps, 0, "A")})
		}
	}
	for _, r := range d.Rows {
		row := []Cell{number(r.Volts, 0), whole(r.Phases), maybe(r.Amps, 4)}
		for _, f := range r.Fits {
			if r.Amps == nil {
				row = append(row, text(Unknown))
			} else {
				row = append(row, whole(f.Count))
			}
		}
		t.Rows = append(t.Rows, row)
	}
	p.add(t, Text{Text: fmt.Sprintf("Whole ones are counted, all on for three hours or more and alone behind the breaker, which covers %s of their current (%s). An outlet in the wall has other load behind its breaker, and a breaker is never changed to fit more.", amount(d.Continuous*100, 1, "%"), d.CodeTitle)})
	p.add(assumptionBlocks(d.Assumptions)...)
	p.add(Text{ID: "caution", Text: d.Caution})
	return p
}

func ampsFields(d document.Amps, s System) []Field {
	f := []Field{}
	if d.Watts != nil {
		f = append(f, Field{"power", amount(*d.Watts, 2, "W")})
	}
	if d.VA != nil {
		f = append(f, Field{"apparent power", amount(*d.VA, 2, "VA")})
	}
	if d.HP != nil {
		f = append(f, Field{"motor rating", amount(*d.HP, 4, "hp")})
	} else {
		f = append(f, Field{"power factor", units.Round(d.PowerFactor, 3)})
	}
	if d.HeatBTUH != nil {
		f = append(f, Field{"heat", s.heatText(*d.HeatBTUH)})
	}
	return f
}
