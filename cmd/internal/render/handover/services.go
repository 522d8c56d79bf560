package handover

import (
	"fmt"
	"slices"
	"strings"

	"branchwork/cmd/internal/document"
	"branchwork/cmd/internal/render/svg"
)

// loads is the load calculation sheet of each service.
func (p *page) loads() []Block {
	var out []Block
	for i, s := range p.d.Services {
		key := func(k string) string { return path("services", i, k) }
		out = append(out, Heading{Level: 3, Spans: spans(text("Service at panel "), p.panel(s.Panel), text(", "+s.System))})
		t := Table{Name: "load-calculation", Of: s.Panel, OfHead: "Panel", Class: "sheet", Caption: "Load calculation of panel " + svg.Plain(s.Panel), Columns: []Column{col("Group"), fig("Connected", "VA"),
			fig("Of it continuous", "VA"), fig("Of it motors, nameplates", "VA"), fig("Allowance", "VA"), fig("Calculated load", "VA")}}
		const connected, allowance, calculated = 1, 4, 5
		for k, g := range s.Groups {
			at := func(c string) string { return path(key("groups"), k, c) }
			show := figureUnless(g.LeastLoad)
			t.Rows = append(t.Rows, Row{Cells: []Cell{cellText(g.Category), show(g.ConnectedVA, at("connected_va")), show(g.Continuous, at("continuous_va")), show(g.Individual, at("motor_va")),
				show(g.AllowanceVA, at("allowance_va")), following(show(g.DemandVA, at("demand_va")), across(k, connected, allowance))}})
		}
		line := func(what string, a, b, c Cell) {
			t.Foot = append(t.Foot, Row{Cells: []Cell{cellText(what), a, gap(), gap(), b, c}})
		}
		show := figureUnless(s.LeastLoad)
		line("Listed in the file", following(show(s.ConnectedVA, key("connected_va")), t.body(connected)), following(show(s.AllowanceVA, key("allowance_va")), t.body(allowance)), gap())
		if s.NotAddedVA > 0 {
			what := "Not added"
			if len(s.NotAdded) > 0 {
				what += ": " + strings.Join(s.NotAdded, "; ")
			}
			line(what, gap(), gap(), figure(minus(s.NotAddedVA, key("not_added_va"))))
		}
		if s.OtherVA != nil {
			line("Other load, stated, not listed", gap(), gap(), figure(number(*s.OtherVA, 0, key("other_va"))))
		}
		if s.MeasuredVA != nil {
			line("Measured peak with its allowance", gap(), gap(), figure(number(*s.MeasuredVA, 0, key("measured_va"))))
		}
		listed := len(t.Rows)
		sum := across(listed, connected, allowance)
		if n := len(t.Foot); n > 1 {
			sum.Terms = append(sum.Terms, Term{Column: calculated, From: listed + 1, To: listed + n - 1})
		}
		total := following(figure(number(s.DemandVA, 0, key("demand_va"))), sum)
		if s.LeastLoad {
			total.Formula = nil // a part of it is not known
			line("Calculated load, a least value", gap(), gap(), total)
		} else {
			line("Calculated load", gap(), gap(), total)
		}
		out = append(out, t, p.loadFields(i, s))
	}
	allowance := "The allowance is the one on continuous load"
	if p.motors() {
		allowance += ", and on motors and by nameplates whatever their hours: the largest motor's, and what a marked minimum circuit asks for beyond its amperes"
	}
	return append(out, Paragraph{Class: "quiet", Spans: spans(text(allowance + " (" + p.calculatedBy() + "). No household demand factor is applied to grow equipment. The fullest leg decides, not the mean of the legs."))})
}

// motors reports whether motors or nameplates are in a calculation.
func (p *page) motors() bool {
	return slices.ContainsFunc(p.d.Services, func(s document.ServiceSheet) bool {
		return slices.ContainsFunc(s.Groups, func(g document.LoadGroup) bool { return g.Individual > 0 })
	})
}

// calculatedBy names the clauses of the calculations, each once.
func (p *page) calculatedBy() string {
	var out []string
	for _, s := range p.d.Services {
		for _, c := range s.Clauses {
			if !slices.Contains(out, c) {
				out = append(out, c)
			}
		}
	}
	return strings.Join(out, "; ")
}

// figureUnless shows figures, all of them unknown where a part of them is.
func figureUnless(least bool) func(float64, string) Cell {
	return func(x float64, key string) Cell {
		if least {
			return figure(maybe(nil, 0, key))
		}
		return figure(number(x, 0, key))
	}
}

// leastSays is the caution beside amperes of which a part is not known.
func leastSays() []Span {
	return spans(text("these are least values: the current of a load is not known; see the findings"))
}

// minus shows a figure that is taken off.
func minus(x float64, key string) Span {
	return Span{Text: "−" + svg.Rounded(x, 0), Key: key, Scale: "-1", Number: &Number{-x, 0}}
}

func (p *page) loadFields(i int, s document.ServiceSheet) Fields {
	key := func(k string) string { return path("services", i, k) }
	phases := "single-phase"
	if s.Phases == 3 {
		phases = "three-phase"
	}
	f := []Field{
		{fmt.Sprintf("At %s V, %s", svg.Rounded(s.Volts, 0), phases), spans(number(s.BalancedAmps, 1, key("balanced_amps")), text(" A if the legs were alike"))},
		{"Fullest leg", spans(number(s.RequiredAmps, 1, key("required_amps")), text(" A"))},
		{"Main", spans(maybeAmount(s.MainAmps, 2, key("main_amps")), text(" A"))},
	}
	if s.MarginAmps != nil && s.UsedPercent != nil {
		f = append(f, Field{"Margin", spans(number(*s.MarginAmps, 1, key("margin_amps")), text(" A; "), number(*s.UsedPercent, 1, key("used_percent")), text(" % of the main asked for"))})
	}
	if s.LeastLoad {
		f = append(f, Field{"Caution", leastSays()})
	}
	return Fields{Name: "load-totals", Of: s.Panel, OfHead: "Panel", Rows: f}
}

// letter is what a utility asks for before it connects a load.
func (p *page) letter() []Block {
	var out []Block
	for i, s := range p.d.Services {
		key := func(k string) string { return path("services", i, k) }
		out = append(out, Heading{Level: 3, Spans: spans(text("One sheet for each meter: panel "), p.panel(s.Panel))})
		f := []Field{
			{"Customer site", spans(name(p.d.Plan.Site))},
			{"Business", spans(text("indoor plant cultivation, " + p.d.Plan.Use + " premises"))},
			{"Service asked for", spans(text(s.System+", main "), maybeAmount(s.MainAmps, 2, key("main_amps")), text(" A"))},
			{"Expected demand", spans(scaled(s.DemandWatts, 0.001, 1, key("demand_watts")), text(" kW, "), scaled(s.DemandTimeVA, 0.001, 1, key("demand_time_va")), text(" kVA, largest quarter-hour, from "+s.DemandAt+", all cycling loads on at once"))},
			{"As it runs", spans(scaled(s.PeakWatts, 0.001, 1, key("peak_watts")), text(" kW, largest quarter-hour of the mean day"))},
			{"Energy", spans(number(s.KWhPerDay, 0, key("kwh_per_day")), text(" kWh a day, "), number(s.KWhPerMonth, 0, key("kwh_per_month")), text(" kWh a month"))},
			{"Load factor", spans(maybe(s.LoadFactor, 0, key("load_factor_percent")), text(" % of the peak as it runs; "), maybe(s.DemandFactor, 0, key("load_factor_of_demand_percent")), text(" % of the expected demand"))},
		}
		if s.AtLeast || s.LeastLoad {
			f = append(f, Field{"Caution", spans(text("these are least values: what a load draws is not known"))})
		}
		if s.OtherVA != nil || s.MeasuredVA != nil {
			f = append(f, Field{"Caution", spans(text("demand and energy are of the loads in the file; other load on this service comes on top"))})
		}
		if s.CoolingTons == nil || *s.CoolingTons > 0 {
			f = append(f, Field{"Cooling", spans(maybe(s.CoolingTons, 1, key("cooling_tons")), text(" tons of refrigeration, stated capacity"))})
		}
		if m := s.LargestMotor; m != nil {
			f = append(f, Field{"Largest motor given in hp", spans(amount(m.HP, 3, key("largest_motor.hp")), text(" hp, "), p.item(m.Item), text("; how it starts: to be filled in"))})
		}
		if len(s.Compressors) > 0 {
			list := spans(text("not among the motors above; RLA and LRA of the largest, and how it starts: to be filled in from the nameplates of "))
			f = append(f, Field{"Compressors", append(list, p.itemLinks(s.Compressors)...)})
		}
		for k, l := range s.LightingHours {
			at := path(key("lighting_hours"), k, "hours")
			lit := append(spans(text(l.Lit+", "), amount(l.Hours, 2, at), text(" h a day, all year: ")), p.roomNames(l.Rooms)...)
			f = append(f, Field{"Lit hours", lit})
		}
		out = append(out, Fields{Name: "load-letter", Of: s.Panel, OfHead: "Panel", Rows: f}, p.classes(i, s),
			Form{[]string{"Customer and contact", "Account and meter no.", "New, existing or upgrade", "Energize by (date)", "Load to follow later", "Standby generation", "Electrician and license no."}})
	}
	return append(out, Paragraph{Class: "quiet", Spans: spans(text("Connected load is what is there, not what runs at once. Tell the utility before load is added, also where the main would carry it."))})
}

func (p *page) classes(i int, s document.ServiceSheet) Table {
	t := Table{Name: "load-classes", Of: s.Panel, OfHead: "Panel", Class: "sheet", Caption: "Connected load by class, panel " + svg.Plain(s.Panel), Columns: []Column{col("Class"), fig("Units", ""), fig("Connected", "kW"), fig("Apparent", "kVA")}}
	for k, c := range s.Classes {
		at := func(key string) string { return path(path("services", i, "classes"), k, key) }
		t.Rows = append(t.Rows, Row{Cells: []Cell{cellText(c.Class), figure(count(c.Count, at("count"))),
			figure(maybeScaled(c.Watts, 0.001, 2, at("watts"))), figure(maybeScaled(c.VA, 0.001, 2, at("va")))}})
	}
	va := &s.ConnectedVA
	if s.LeastLoad {
		va = nil
	}
	t.Foot = []Row{{Cells: []Cell{cellText("All"), gap(), following(figure(maybeScaled(s.ConnectedWatts, 0.001, 2, path("services", i, "connected_watts"))), t.body(2)),
		following(figure(maybeScaled(va, 0.001, 2, path("services", i, "connected_va"))), t.body(3))}}}
	return t
}
