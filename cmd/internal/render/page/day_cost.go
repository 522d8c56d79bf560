package page

import (
	"strings"

	"branchwork/cmd/internal/document"
	"branchwork/loads/units"
)

func costBlocks(d document.Day) []Block {
	out := []Block{Heading{2, "Cost"}}
	c := d.Cost
	if c == nil {
		return append(out, Text{Text: "No cost: " + d.CostWhy + "."})
	}
	least := dayAtLeast(c.AtLeast)
	f := []Field{{"a month", least + money(c.Month, c.Currency) + ", mean of twelve"}, {"of it energy", money(c.Energy, c.Currency)}, {"of it demand", money(c.Demand, c.Currency)}}
	if c.Added > 0 {
		f = append(f, Field{"to the least bill", money(c.Added, c.Currency)})
	}
	if c.Seasonal {
		f = append(f, Field{"a summer month", money(c.Summer.Total, c.Currency)}, Field{"a winter month", money(c.Winter.Total, c.Currency)})
	}
	out = append(out, Fields{f}, billTable(d))
	return append(out, costTable(d))
}

// billTable is the bill of a month line by line: of the season asked for, or of both
// where they differ.
func billTable(d document.Day) Table {
	c := d.Cost
	t := Table{ID: "bill", Columns: []Column{{Name: "month"}, {Name: "part"}, {Name: "when"}, {Name: "quantity"}, {Name: "unit"}, {Name: "price"}, {Name: "cost", Unit: c.Currency}}}
	add := func(month string, b document.DayBill) {
		row := func(part, when string, quantity Cell, unit string, price Cell, cost float64) {
			t.Rows = append(t.Rows, []Cell{text(month), text(part), text(when), quantity, text(unit), price, number(cost, 2)})
		}
		for _, l := range b.Lines {
			row("energy", l.When, number(l.KWh, 0), "kWh", priceCell(l.Price), l.Cost)
		}
		if b.UnpricedKWh > 0 {
			row("energy without a price", "", number(b.UnpricedKWh, 0), "kWh", text(none), 0)
		}
		if b.DemandCost > 0 {
			when := "largest 15 minutes"
			if units.Exceeds(b.BilledWatts, b.DemandWatts) {
				when = "raised by the ratchet from " + kw(b.DemandWatts).Shown() + " kW"
			}
			row("demand", when, kw(b.BilledWatts), "kW", text(""), b.DemandCost)
		}
		if b.Added > 0 {
			row("least bill", "", text(""), "", text(""), b.Added)
		}
		row("total", "", text(""), "", text(""), b.Total)
	}
	switch {
	case d.Season == "summer":
		add("summer", c.Summer)
	case d.Season == "winter":
		add("winter", c.Winter)
	case c.Seasonal:
		add("summer", c.Summer)
		add("winter", c.Winter)
	default:
		add("every", c.Summer)
	}
	return t
}

// priceCell prints a price with the digits that it has, two at least.
func priceCell(x float64) Cell {
	_, frac, _ := strings.Cut(units.Round(x, 6), ".")
	return number(x, max(2, len(frac)))
}

// costTable is the mean month for data formats.
func costTable(d document.Day) Table {
	c := d.Cost
	return Table{ID: "cost", DataOnly: true, Columns: []Column{{Name: "currency"}, {Name: "a month"}, {Name: "energy"}, {Name: "demand"}, {Name: "added"}, {Name: "may be more"}},
		Rows: [][]Cell{{text(c.Currency), number(c.Month, 2), number(c.Energy, 2), number(c.Demand, 2), number(c.Added, 2), text(yesNo(c.AtLeast))}}}
}
