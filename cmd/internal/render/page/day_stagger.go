package page

import (
	"fmt"
	"strings"

	"branchwork/cmd/internal/document"
	"branchwork/loads/units"
)

// staggerBlocks are the photoperiods before and after they were moved.
func staggerBlocks(x *document.Stagger, d document.Day, s System) []Block {
	if x == nil {
		return nil
	}
	out := []Block{Heading{2, "Photoperiods for the least " + x.Least}, Text{Text: staggerProof(x)}, staggerRooms(x), staggerFigures(x, d, s)}
	if moved(x) {
		before, after := Chart{Title: "power before", Unit: "kW", Digits: 2}, Chart{Title: "power after", Unit: "kW", Digits: 2}
		for i := range x.Before.Watts {
			before.Values, after.Values = append(before.Values, x.Before.Watts[i]/1000), append(after.Values, x.After.Watts[i]/1000)
		}
		out = append(out, before, after)
	}
	return append(out, List{x.Notes})
}

func moved(x *document.Stagger) bool {
	for _, r := range x.Rooms {
		if r.ByMinute != 0 {
			return true
		}
	}
	return false
}

// staggerProof says how good the choice is, and whether that is proved.
func staggerProof(x *document.Stagger) string {
	value := func(v *float64) string {
		switch {
		case v == nil:
			return "not known"
		case x.Unit == "W":
			return kw(*v).Shown() + " kW"
		}
		return units.Fixed(*v, 2) + " " + x.Unit
	}
	switch {
	case x.Proved && moved(x):
		return "Proved: no other starts that the rooms may have give less than " + value(x.Used) + "."
	case x.Proved && x.Why == "":
		return "Proved: no other starts that the rooms may have give less than the present " + value(x.Used) + "; nothing was moved."
	case !moved(x) && (x.Proved || x.Bound == nil):
		return "Nothing was moved: " + x.Why + "."
	}
	return fmt.Sprintf("Not proved the least: %s; none can give less than %s (%s).", value(x.Used), value(x.Bound), x.Why)
}

func staggerRooms(x *document.Stagger) Table {
	t := Table{ID: "photoperiods", Columns: []Column{{Name: "room"}, {Name: "lights before"}, {Name: "lights after"}, {Name: "moved"}, {Name: "by", Unit: "min", DataOnly: true}, {Name: "moves with it", DataOnly: true}}}
	for _, r := range x.Rooms {
		by := "stays"
		switch {
		case r.ByMinute != 0:
			by = later(r.ByMinute)
			if len(r.With) > 0 {
				by += ", with " + strings.Join(r.With, ", ")
			}
		case r.Fixed != "":
			by = "stays: " + r.Fixed
		}
		t.Rows = append(t.Rows, []Cell{text(r.Room), text(r.Before), text(r.After), text(by), whole(r.ByMinute), text(strings.Join(r.With, ", "))})
	}
	return t
}

// later says how much later a photoperiod begins, or how much earlier where that is less.
func later(minutes int) string {
	const day = 24 * 60
	if minutes > day/2 {
		return units.Round(float64(day-minutes)/60, 2) + " h earlier"
	}
	return units.Round(float64(minutes)/60, 2) + " h later"
}

func staggerFigures(x *document.Stagger, d document.Day, s System) Table {
	t := Table{ID: "before and after", Columns: []Column{{Name: "figure"}, {Name: "unit"}, {Name: "before"}, {Name: "after"}, {Name: "when, after"}}}
	b, a := x.Before, x.After
	row := func(what, unit string, before, after Cell, when string) {
		t.Rows = append(t.Rows, []Cell{text(what), text(unit), before, after, text(when)})
	}
	row("peak as it runs", "kW", kw(b.PeakWatts), kw(a.PeakWatts), a.PeakAt)
	row("peak demand", "kW", kw(b.DemandWatts), kw(a.DemandWatts), a.DemandAt)
	if b.LoadFactor != nil && a.LoadFactor != nil {
		row("load factor", "%", number(*b.LoadFactor, 1), number(*a.LoadFactor, 1), "")
	}
	for i, v := range b.Services {
		w := a.Services[i]
		row("fullest leg of "+v.Panel, "A", number(v.MostAmps, 1), number(w.MostAmps, 1), w.MostAt)
		row("size asked of "+v.Panel, "A", number(v.Required, 1), number(w.Required, 1), "at any hour")
	}
	row("cooling peak, all rooms", s.heatUnit(), s.heat(b.CoolingBTUH), s.heat(a.CoolingBTUH), a.CoolingAt)
	if b.CostMonth != nil && a.CostMonth != nil {
		row("cost of a month", d.Cost.Currency, number(*b.CostMonth, 2), number(*a.CostMonth, 2), "")
	}
	return t
}
