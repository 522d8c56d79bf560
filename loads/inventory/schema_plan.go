package inventory

import (
	"fmt"

	"branchwork/loads/clock"
	"branchwork/loads/units"
)

func circuitKeys() []Key {
	return []Key{
		key("panel", `"LP1"`, reference(must(func(c *Circuit) *string { return &c.Panel }), "a panel", "panels"), "", "the panel it leaves").must(),
		key("spaces", `[1, 3]`, spaces(must(func(c *Circuit) *[]int { return &c.Spaces })), "", "the spaces of its breaker, one per pole").must().or("space"),
		key("breaker", `"20 A"`, quantity(must(func(c *Circuit) *units.Current { return &c.Breaker }), usual[units.Current]()), "", "the rating on its handle").must().or("rating", "amps"),
		key("full_rated", `true`, truth(must(func(c *Circuit) *bool { return &c.FullRated })), "false", "breaker and enclosure are listed to carry the whole rating continuously"),
		key("conductor", `"12 AWG copper THHN"`, conductor(opt(func(c *Circuit) *known[Conductor] { return &c.Conductor })), "not known", "as installed").or("wire", "cable"),
		key("ground", `"12 AWG copper"`, conductor(opt(func(c *Circuit) *known[Conductor] { return &c.Ground })), "not known", "equipment ground, as installed"),
		key("length", `"75 ft"`, quantity(opt(func(c *Circuit) *known[units.Length] { return &c.Length }), orZero[units.Length]()), "as the run of the room", "one way, panel to the load's centre").or("run"),
		key("voltage", `"240 V"`, quantity(opt(func(c *Circuit) *known[units.Voltage] { return &c.Voltage }), usual[units.Voltage]()), "by its poles", "what it supplies").or("volts"),
		key("receptacle", `"6-20"`, receptacle(opt(func(c *Circuit) *known[string] { return &c.Receptacle })), "not known", "the outlets on it"),
		key("feeds", `{ "bar-640" = 4 }`, feeds(), "", "items and how many of each").must().or("loads", "items"),
		key("measured", `"14.2 A"`, quantity(opt(func(c *Circuit) *known[units.Current] { return &c.Measured }), orZero[units.Current]()), "not measured", "current measured"),
		key("at", `2026-03-14`, day(must(func(c *Circuit) *string { return &c.MeasuredAt })), "", "when it was measured"),
		key("state", `"lights on"`, state(opt(func(c *Circuit) *known[string] { return &c.State })), "not known", "what was on when it was measured"),
		key("gfci", `true`, truth(opt(func(c *Circuit) *known[bool] { return &c.GFCI })), "not known", "protected by a ground-fault interrupter"),
		key("shares_neutral", `"LP1-3"`, references(must(func(c *Circuit) *[]string { return &c.SharesNeutral }), true, "a circuit", "circuits"), "none; a neutral of its own", "the circuit, or a list of them, that shares one neutral with it").or("multiwire", "mwbc"),
		key("handle_tie", `true`, truth(opt(func(c *Circuit) *known[bool] { return &c.HandleTie })), "not known", "one handle, or handle ties made for it, opens it with those that share its neutral").or("common_disconnect"),
		key("raceway", `"1/2 EMT"`, conduit(opt(func(c *Circuit) *known[Raceway] { return &c.Raceway })), "not known", "trade size and kind of what it runs in").or("conduit"),
	}
}

func planKeys() []Key {
	return []Key{
		key("voltage", `"best"`, planVoltage(), `"best"`, `the voltage for loads that accept several, or "best"; lights in a dwelling take "120 V"`),
		key("breakers", `["15 A", "20 A", "30 A"]`, ratings(must(func(p *Plan) *[]units.Current { return &p.Breakers })), "standard ratings of the code", "ratings that will be bought"),
		key("spare", `0.1`, factor(opt(func(p *Plan) *known[units.Ratio] { return &p.Spare }), belowOne()), "0", "share of each circuit left free, beyond the code's"),
		key("max_drop", `0.03`, factor(opt(func(p *Plan) *known[units.Ratio] { return &p.MaxDrop }), someShare()), "0.03", "voltage drop allowed on a branch circuit"),
		key("separate", `["lighting", "water"]`, categories(must(func(p *Plan) *[]string { return &p.Separate })), "lighting; air movement with control; water; climate", "categories kept on circuits of their own"),
		key("spread", `["oscillating"]`, references(must(func(p *Plan) *[]string { return &p.Spread }), false, "an item", itemTables()...), "none", "items to spread over at least two circuits"),
		key("reuse", `true`, truth(opt(func(p *Plan) *known[bool] { return &p.Reuse })), "false", "use spare room on existing circuits first"),
		key("alternate", `true`, truth(must(func(p *Plan) *bool { return &p.Alternate })), "false", "circuits of a row take every other fixture, so that half of it stays lit when one trips"),
	}
}

func tariffKeys() []Key {
	return []Key{
		key("currency", `"USD"`, filled(must(func(t *Tariff) *string { return &t.Currency })), "", "of all prices"),
		key("energy", `"0.14 per kWh"`, energyPrices(energyKeys()...), "not known", "price of energy, flat or by hours"),
		key("demand", `"15 per kW"`, price(opt(func(t *Tariff) *known[units.Money] { return &t.Demand }), "per kW"), "none", "price of the month's highest demand"),
		key("minimum", `"25 per month"`, price(opt(func(t *Tariff) *known[units.Money] { return &t.Minimum }), "per month"), "none", "least bill of a month"),
		key("ratchet", `0.75`, factor(opt(func(t *Tariff) *known[units.Ratio] { return &t.Ratchet }), share()), "none", "share of the year's highest demand that is billed at least"),
	}
}

func energyKeys() []Key {
	return []Key{
		key("price", `"0.22 per kWh"`, price(must(func(p *EnergyPrice) *units.Money { return &p.Price }), "per kWh"), "", "in these hours").must(),
		key("hours", `"14:00-20:00"`, windows(opt(func(p *EnergyPrice) *known[clock.Windows] { return &p.Hours })), "all other hours", "when it holds"),
		key("season", `"summer"`, word(opt(func(p *EnergyPrice) *known[string] { return &p.Season }), "summer", "winter"), "all year", "when it holds"),
		key("days", `"weekdays"`, word(opt(func(p *EnergyPrice) *known[string] { return &p.Days }), "weekdays", "weekends"), "every day", "when it holds"),
	}
}

// system is a panel's system by name.
func system() form {
	var names []string
	for _, s := range Systems() {
		names = append(names, s.Name)
	}
	says := "a panel system"
	return form{says: says, words: names, shape: oneOf(names), read: func(r *reader, c cell, dst any) {
		s, ok := c.v.(string)
		if !ok {
			r.wrongType(c, says, "systems: "+quoted(names))
			return
		}
		sys, ok := SystemNamed(s)
		if !ok {
			r.bad(c, fmt.Sprintf("%s is not a panel system", quote(s)), r.remedy(s, names, "systems"))
			return
		}
		dst.(*Panel).System = sys
	}}
}

// phases is 1 or 3.
func phases() form {
	return form{says: "1 or 3", shape: func(Vocabulary) schema { return schema{"enum": []int{1, 3}} }, read: func(r *reader, c cell, dst any) {
		switch v, ok := c.v.(int64); {
		case !ok:
			r.wrongType(c, "a number of phases", "write 1 or 3 without quotes")
		case v != 1 && v != 3:
			r.bad(c, fmt.Sprintf("%s phases", r.shown(c)), "write 1 or 3; a load between two legs is single-phase")
		default:
			dst.(*Item).Phases = units.Is(int(v))
		}
	}}
}

// planVoltage is a voltage or "best".
func planVoltage() form {
	volts := quantity(opt(func(p *Plan) *known[units.Voltage] { return &p.Voltage }), usual[units.Voltage]())
	return form{says: `a voltage, or "best"`, shape: anyOf(oneOf([]string{"best"}), volts.shape), read: func(r *reader, c cell, dst any) {
		if c.v == "best" {
			dst.(*Plan).Best = true
			return
		}
		volts.read(r, c, dst)
	}}
}

// categories is a list of categories of load.
func categories(put into[[]string]) form {
	says := "a list of categories"
	return form{says: says, words: Categories(), shape: listOfAny(oneOf(Categories())), read: func(r *reader, c cell, dst any) {
		list, ok := c.items()
		if !ok {
			r.wrongType(c, says, "write a list of "+quoted(Categories()))
			return
		}
		out := []string{}
		for _, e := range list {
			s, fine := r.wordOf(e, Categories(), "category", "a category")
			ok = ok && fine
			out = append(out, s)
		}
		if ok {
			put(dst, out)
		}
	}}
}
