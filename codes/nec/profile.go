package nec

import (
	"branchwork/codes"
	"branchwork/loads/clock"
	"branchwork/loads/steps"
	"branchwork/loads/units"
)

// Profiles returns the editions carried, oldest first.
func Profiles() []*codes.Profile {
	tables := readTables()
	var out []*codes.Profile
	for _, e := range editions() {
		out = append(out, profile(e, tables))
	}
	return out
}

func profile(e edition, tables []codes.Table) *codes.Profile {
	b, list := codes.TablesIn(e.year, tables)
	return &codes.Profile{
		Name: "nec-" + e.year, Title: "NEC " + e.year, Ref: ref, Edition: e.year,
		Legs:       []string{"A", "B", "C"},
		Continuous: continuous(e),
		Devices:    devices(e, b),
		Branch:     branch(e),
		Wires:      wires(e, b),
		Motors:     motors(e, b),
		Marked:     codes.Marked{Cite: e.cite("440.4(B)", steps.Seen), WireCite: e.cite("440.35", steps.Seen), DeviceCite: e.cite("440.22, 240.4(G)", steps.Seen)},
		Feeders:    codes.Feeders{WireCite: e.cite("215.2(A)(1)", steps.Seen), DeviceCite: e.cite("215.3, 230.42(A)(1)", steps.Seen)},
		Heating:    codes.Heating{AlwaysContinuous: true, AlwaysSized: true, Cite: e.cite(e.heating, steps.Seen)},
		Transformers: codes.Transformers{One: b.Get("transformers-1"), Three: b.Get("transformers-3"),
			Primary: 1.25, PrimaryCite: e.cite("450.3(B)", steps.Recalled)},
		Drop:        codes.Drop{Branch: 0.03, Total: 0.05, Cite: e.cite("210.19 Informational Note", steps.Seen)},
		Service:     codes.Service{PeakFactor: 1.25, Cite: e.seenIn2026(e.measured)},
		Receptacles: receptacles(b.Get("receptacles")),
		Protection:  protection(e),
		Rules:       rules(),
		Tables:      list,
		NotCovered:  notCovered(e),
	}
}

// continuous: a load whose maximum is expected to last three hours or more asks
// for 125 % of it beside 100 % of the rest, kept as 5·Ic + 4·In <= 4·rating.
func continuous(e edition) codes.Continuous {
	return codes.Continuous{
		Run: clock.Minute(180), Load: 5, Other: 4, Rating: 4,
		RunCite:       e.cite("Article 100", steps.Seen),
		DeviceCite:    e.cite("210.20(A)", steps.Seen),
		WireCite:      e.cite("210.19(A)(1)", steps.Seen),
		FullRatedCite: e.cite("210.20(A) exception", steps.Seen),
	}
}

func devices(e edition, b codes.TableSet) codes.Devices {
	return codes.Devices{
		Ratings:     b.Get("standard-ratings").Ratings(),
		RoundUpTo:   800,
		RatingsCite: e.seenIn2026("240.6(A)"),
		ProtectCite: e.cite("240.4", steps.Seen),
		RoundUpCite: e.cite("240.4(B)", steps.Seen),
		AboveCite:   e.cite("240.4(C)", steps.Seen),
	}
}

func branch(e edition) codes.Branch {
	list := []units.Current{15, 20, 30, 40, 50}
	if e.since("2023") {
		list = append([]units.Current{10}, list...)
	}
	return codes.Branch{
		Ratings: list, LightingUpTo: 20, Least: 15, Default: 20,
		OnePlug: 0.8, OnePlugUpTo: 30, Fastened: 0.5, OutletVA: 180, DwellingVolts: 120, DwellingVA: 1440,
		RatingsCite:  e.seenIn2026("210.18"),
		LoadsCite:    e.seenIn2026(e.permitted),
		LightingCite: e.cite(e.lighting, steps.Seen),
		OutletCite:   e.cite(e.outlet, steps.Seen),
		DwellingCite: e.cite("210.6(A)", steps.Seen),
	}
}

func motors(e edition, b codes.TableSet) codes.Motors {
	return codes.Motors{
		One: b.Get("motor-1"), Three: b.Get("motor-3"),
		Conductor: 1.25, Breaker: 2.5,
		TableCite:   e.cite("430.6(A)(1)", steps.Seen),
		WireCite:    e.cite("430.22", steps.Seen),
		BreakerCite: e.cite(e.motorDevice, steps.Seen),
		SeveralCite: e.cite("430.24", steps.Seen),
	}
}

// wires: conductors in raceways. Sizes are those of the table of properties,
// ascending by area.
func wires(e edition, b codes.TableSet) codes.Wires {
	nm := e.cite("334.80", steps.Seen)
	steel := b.Get("raceway-emt")
	outside := b.Get("outside-thhn")
	return codes.Wires{
		Edition:  e.year,
		Sizes:    b.Get("properties").Keys(),
		Ampacity: map[string]codes.Table{"copper": b.Get("ampacity"), "aluminum": b.Get("ampacity-aluminum")},
		Ambient:  b.Get("ambient-correction"),
		Bundle:   b.Get("bundle-adjustment"),
		Small:    map[string]codes.Table{"copper": b.Get("small-copper"), "aluminum": b.Get("small-aluminum")},
		Ground:   b.Get("grounding"), GroundCalled: "ground", Properties: b.Get("properties"), Reactance: b.Get("reactance"),
		Alternating: map[string]codes.Table{"copper": b.Get("ac-resistance-copper"), "aluminum": b.Get("ac-resistance-aluminum")},
		Fill:        b.Get("fill"),
		Trade:       map[string]codes.Table{"EMT": steel, "PVC": b.Get("raceway-pvc")},
		Outside:     map[string]codes.Table{"THHN": outside, "THWN-2": outside},
		Insulations: []codes.Insulation{
			{Name: "THHN", Rating: 90}, {Name: "THWN-2", Rating: 90, Wet: true}, {Name: "XHHW-2", Rating: 90, Wet: true},
			{Name: "THWN", Rating: 75, Wet: true}, {Name: "TW", Rating: 60, Wet: true},
			{Name: "NM-B", Rating: 90, Limit: 60, Cite: nm},
		},
		Raceways: []string{"EMT", "PVC", "steel", "aluminum"},
		Material: "copper", Insulation: "THHN", Raceway: "EMT",
		LowColumn: 60, LowUpTo: 100, HighColumn: 75,
		ColumnCite:     e.cite("110.14(C)(1)", steps.Seen),
		ParallelMin:    "1/0 AWG",
		SingleMax:      "600 kcmil",
		NeutralCite:    e.recalledIn2017(e.neutral),
		ProportionCite: e.cite("250.122(B)", steps.Seen),
		Base:           30,
	}
}
