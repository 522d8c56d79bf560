package inventory

import (
	"branchwork/loads/clock"
	"branchwork/loads/units"
)

func siteKeys() []Key {
	return []Key{
		key("name", `"Fernhill, bay 2"`, filled(must(func(s *Site) *string { return &s.Name })), "",
			"what the site is called on every page").must(),
		key("use", `"commercial"`, word(must(func(s *Site) *Use { return &s.Use }), string(Commercial), string(Dwelling)), "",
			"what the premises are, \"dwelling\" for a home and its garage; rules differ there").must(),
		key("code", `"nec-2023"`, spoken(opt(func(s *Site) *known[string] { return &s.Code }), "a code", func(v Vocabulary) []string { return v.Codes }),
			"the newest edition carried", "the code of practice and its edition"),
		key("altitude", `"650 ft"`, quantity(opt(func(s *Site) *known[units.Length] { return &s.Altitude }), limits{-1500, 30_000, false, "30,000 ft", "-1,500 ft"}),
			"sea level", "height above sea level; thin air carries less heat").or("elevation"),
		key("conductors", `{ material = "copper", insulation = "THHN", raceway = "EMT", ambient = "86 F", terminals = "75 C", per_raceway = 1 }`, inside("a table of conductors", func(s *Site) *Wiring { return &s.Conductors }, wiringKeys()...),
			"copper in a raceway", "how conductors are run where nothing else is said").or("wiring", "wires"),
		key("outdoor", `{ summer = "95 F", summer_wet_bulb = "75 F", winter = "10 F" }`, inside("a table of outdoor temperatures", func(s *Site) *Outdoor { return &s.Outdoor }, outdoorKeys()...),
			"not known; gains through walls are left out", "design state of the outdoor air"),
		key("notes", `"meter in the north yard"`, text(must(func(s *Site) *string { return &s.Notes })), "",
			"anything a reader should know"),
	}
}

func wiringKeys() []Key {
	return []Key{
		key("material", `"copper"`, spoken(opt(func(w *Wiring) *known[string] { return &w.Material }), "a conductor material", func(v Vocabulary) []string { return v.Materials }),
			"copper", "of the conductors"),
		key("insulation", `"THHN"`, spoken(opt(func(w *Wiring) *known[string] { return &w.Insulation }), "an insulation", func(v Vocabulary) []string { return v.Insulations }),
			"THHN", "type letters of the insulation"),
		key("raceway", `"EMT"`, spoken(opt(func(w *Wiring) *known[string] { return &w.Raceway }), "a raceway", func(v Vocabulary) []string { return v.Raceways }),
			"EMT", "what the conductors run in"),
		key("ambient", `"95 F"`, quantity(opt(func(w *Wiring) *known[units.Temperature] { return &w.Ambient }), limits{-50, 100, false, "100 C", "-50 C"}),
			"30 C", "warmest air around the conductors"),
		key("terminals", `"75 C"`, quantity(opt(func(w *Wiring) *known[units.Temperature] { return &w.Terminals }), limits{40, 150, false, "150 C", "40 C"}),
			"by rating of the breaker", "temperature rating of the terminations"),
		key("per_raceway", `1`, count(opt(func(w *Wiring) *known[int] { return &w.PerRaceway }), fromOne(100)),
			"1", "circuits that share one raceway"),
	}
}

func outdoorKeys() []Key {
	weather := limits{-90, 65, false, "65 C", "-90 C"}
	return []Key{
		key("summer", `"95 F"`, quantity(opt(func(o *Outdoor) *known[units.Temperature] { return &o.Summer }), weather), "", "hot design day, dry bulb"),
		key("summer_wet_bulb", `"75 F"`, quantity(opt(func(o *Outdoor) *known[units.Temperature] { return &o.SummerWetBulb }), weather), "", "hot design day, wet bulb"),
		key("winter", `"10 F"`, quantity(opt(func(o *Outdoor) *known[units.Temperature] { return &o.Winter }), weather), "", "cold design day"),
	}
}

func panelKeys() []Key {
	return []Key{
		key("system", `"120/240 V 1ph"`, system(), "", "voltages and phases").must().or("voltage"),
		key("main", `"100 A"`, quantity(opt(func(p *Panel) *known[units.Current] { return &p.Main }), usual[units.Current]()),
			"not known; the panel's limit cannot be judged", "rating of the main breaker"),
		key("bus", `"125 A"`, quantity(opt(func(p *Panel) *known[units.Current] { return &p.Bus }), usual[units.Current]()),
			"as main", "rating of the bus"),
		key("spaces", `24`, count(opt(func(p *Panel) *known[int] { return &p.Spaces }), fromOne(MostSpaces)),
			"not known; as many as needed", "spaces for breakers, in all"),
		key("fed_by", `"MDP"`, reference(must(func(p *Panel) *string { return &p.FedBy }), "a panel", "panels"),
			"the service", "the panel that feeds this one"),
		key("feeder", `{ length = "80 ft", breaker = "100 A", conductor = "1 AWG copper THHN", spaces = [2, 4] }`, inside("a table of the feeder", func(p *Panel) *Feeder { return &p.Feeder }, feederKeys()...),
			"", "the run from the panel that feeds this one"),
		key("transformer", `"45 kVA"`, quantity(opt(func(p *Panel) *known[units.Apparent] { return &p.Transformer }), usual[units.Apparent]()),
			"none", "rating of the transformer between the feeding panel and this one"),
		key("other_load", `"30 A"`, ampsOrVA(func(p *Panel) *known[units.Current] { return &p.OtherLoad.PerLeg }, func(p *Panel) *known[units.Apparent] { return &p.OtherLoad.Total }, true),
			"none", "demand on the panel that this file does not list"),
		key("other_spaces", `12`, count(opt(func(p *Panel) *known[int] { return &p.OtherSpaces }), upTo(MostSpaces)),
			"none, where there is no such demand; else not known", "spaces taken by breakers that this file does not list"),
		key("measured_peak", `{ peak = "62 A", months = 12 }`, insideKnown("a table of the measured peak", func(p *Panel) *known[MeasuredPeak] { return &p.MeasuredPeak }, peakKeys()...),
			"", "existing peak demand, measured"),
		key("breakers", `["15 A", "20 A", "30 A"]`, ratings(must(func(p *Panel) *[]units.Current { return &p.Breakers })),
			"as [plan].breakers", "ratings that will be bought for this panel"),
	}
}

func feederKeys() []Key {
	return []Key{
		key("length", `"80 ft"`, quantity(opt(func(f *Feeder) *known[units.Length] { return &f.Length }), orZero[units.Length]()), "", "one way"),
		key("breaker", `"100 A"`, quantity(opt(func(f *Feeder) *known[units.Current] { return &f.Breaker }), usual[units.Current]()), "", "rating in the feeding panel"),
		key("conductor", `"1 AWG copper THHN"`, conductor(opt(func(f *Feeder) *known[Conductor] { return &f.Conductor })), "", "as installed"),
		key("spaces", `[2, 4]`, spaces(must(func(f *Feeder) *[]int { return &f.Spaces })), "", "taken in the feeding panel"),
	}
}

func peakKeys() []Key {
	return []Key{
		key("peak", `"62 A"`, ampsOrVA(func(p *MeasuredPeak) *known[units.Current] { return &p.Peak }, func(p *MeasuredPeak) *known[units.Apparent] { return &p.Total }, false), "", "the highest demand").must(),
		key("months", `12`, count(must(func(p *MeasuredPeak) *int { return &p.Months }), fromOne(600)), "", "that the measurement covers").must(),
	}
}

func roomKeys() []Key {
	length := orZero[units.Length]()
	return []Key{
		key("panel", `"LP1"`, references(must(func(r *Room) *[]string { return &r.Panels }), true, "a panel", "panels"),
			"any panel", "the panel that feeds it, or a list with the preferred one first").or("panels"),
		key("size", `"24 ft x 16 ft x 10 ft"`, size(), "", "length x width x height").or("dimensions"),
		key("lights", `"06:00-18:00"`, windows(opt(func(r *Room) *known[clock.Windows] { return &r.Lights })),
			"not known; lights count as continuous", "when the lights are on").or("photoperiod", "schedule", "hours"),
		key("run", `"60 ft"`, quantity(opt(func(r *Room) *known[units.Length] { return &r.Run }), length),
			"not known; voltage drop cannot be judged", "from the panel to the first outlet").or("length", "distance"),
		key("spacing", `"4 ft"`, quantity(opt(func(r *Room) *known[units.Length] { return &r.Spacing }), length),
			"all load at the end of the run", "between outlets along a run"),
		key("climate", `{ lights_on = "82 F", lights_off = "72 F", humidity_on = 0.6, humidity_off = 0.55 }`, inside("a table of set points", func(r *Room) *Climate { return &r.Climate }, climateKeys()...), "", "set points"),
		key("walls", `{ area = "800 ft2", r = "13 ft2.F.h/BTU" }`, inside("a table of area and r or u", func(r *Room) *Surface { return &r.Walls }, surfaceKeys()...), "", "outside walls"),
		key("roof", `{ area = "384 ft2", r = "30 ft2.F.h/BTU" }`, inside("a table of area and r or u", func(r *Room) *Surface { return &r.Roof }, surfaceKeys()...), "", "roof or ceiling"),
		key("floor", `{ area = "384 ft2", u = "0.1 BTU/h.ft2.F" }`, inside("a table of area and r or u", func(r *Room) *Surface { return &r.Floor }, surfaceKeys()...), "", "floor"),
		key("air_changes", `0.3`, factor(opt(func(r *Room) *known[float64] { return &r.AirChanges }), upTo(1000)), "", "outdoor air that leaks in, room volumes per hour"),
		key("inside", `true`, truth(must(func(r *Room) *bool { return &r.Inside })), "false", "it stands in a conditioned building"),
		key("watering", `"90 gal/day"`, quantity(opt(func(r *Room) *known[units.WaterRate] { return &r.Watering }), orZero[units.WaterRate]()), "", "water given to the plants").or("water", "irrigation"),
		key("runoff", `0.15`, factor(opt(func(r *Room) *known[units.Ratio] { return &r.Runoff }), share()), "", "share of the watering that drains away"),
		key("people", `2`, factor(opt(func(r *Room) *known[float64] { return &r.People }), upTo(10_000)), "", "at work, on average"),
		key("canopy", `"300 ft2"`, quantity(opt(func(r *Room) *known[units.Area] { return &r.Canopy }), orZero[units.Area]()), "", "area of the plants"),
		key("exhaust", `"400 CFM"`, quantity(opt(func(r *Room) *known[units.Airflow] { return &r.Exhaust }), orZero[units.Airflow]()), "none", "air drawn out, outdoor air coming in"),
		key("ramp", `"30 min"`, minutes(opt(func(r *Room) *known[clock.Minute] { return &r.Ramp })), "none", "time the lights take to rise, and to set"),
		key("interlock", `"flip"`, filled(must(func(r *Room) *string { return &r.Interlock })), "none", "rooms of one such name cannot be lit together"),
		key("starts_from", `"04:00-10:00"`, windows(opt(func(r *Room) *known[clock.Windows] { return &r.StartsFrom })), "as lights say", "when the photoperiod may begin, for staggering"),
		key("apart", `["veg"]`, references(must(func(r *Room) *[]string { return &r.Apart }), true, "a room", "rooms"), "none", "rooms whose lights must not overlap with this one's"),
	}
}

func climateKeys() []Key {
	air := limits{-30, 60, false, "60 C", "-30 C"}
	return []Key{
		key("lights_on", `"82 F"`, quantity(opt(func(c *Climate) *known[units.Temperature] { return &c.LightsOn }), air), "", "temperature with the lights on"),
		key("lights_off", `"72 F"`, quantity(opt(func(c *Climate) *known[units.Temperature] { return &c.LightsOff }), air), "", "temperature with the lights off"),
		key("humidity_on", `0.6`, factor(opt(func(c *Climate) *known[units.Ratio] { return &c.HumidityOn }), someShare()), "", "relative humidity with the lights on"),
		key("humidity_off", `0.55`, factor(opt(func(c *Climate) *known[units.Ratio] { return &c.HumidityOff }), someShare()), "", "relative humidity with the lights off"),
	}
}

func surfaceKeys() []Key {
	return []Key{
		key("area", `"800 ft2"`, quantity(opt(func(s *Surface) *known[units.Area] { return &s.Area }), orZero[units.Area]()), "", "net of openings"),
		key("r", `"13 ft2.F.h/BTU"`, quantity(func(dst any, v units.Insulance) { dst.(*Surface).U = units.Is(units.Transmittance(1 / float64(v))) }, usual[units.Insulance]()), "", "thermal resistance"),
		key("u", `"0.5 BTU/h.ft2.F"`, quantity(opt(func(s *Surface) *known[units.Transmittance] { return &s.U }), usual[units.Transmittance]()), "", "thermal transmittance, instead of r"),
	}
}
