package cec

import (
	"math"

	"branchwork/codes"
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
		Name: "cec-" + e.year, Title: "CEC " + e.year, Ref: ref, Edition: e.year,
		Legs:         []string{"A", "B", "C"}, // red, black and blue; red and black on one phase
		Continuous:   continuous(e, b),
		Devices:      devices(e, b),
		Branch:       branch(e, b),
		Wires:        wires(e, b),
		Motors:       motors(),
		Marked:       codes.Marked{Cite: marking(), WireCite: marking(), DeviceCite: marking()},
		Feeders:      codes.Feeders{WireCite: e.cite("8-104", steps.Seen), DeviceCite: e.cite("8-104", steps.Seen)},
		Heating:      codes.Heating{AlwaysContinuous: true, Cite: e.cite("8-104", steps.Derived)},
		Transformers: codes.Transformers{Primary: notHeld()},
		Drop:         codes.Drop{Branch: 0.03, Total: 0.05, Mandatory: true, Cite: e.cite("8-102", steps.Seen)},
		Receptacles:  receptacles(b.Get("receptacles")),
		Protection:   protection(e),
		Rules:        rules(b),
		Tables:       list,
		NotCovered:   notCovered(),
		Terms:        terms(),
	}
}

// terms are the words of the Canadian trade. A grounding conductor runs to the
// ground electrode there; what equipment is bonded by is a bonding conductor.
func terms() []string {
	return []string{
		"grounding conductor", "bonding conductor",
		"listing for 100 % continuous operation", "marking for continuous operation at 100 %",
	}
}

// notHeld is the share of a rated current that a device may be where the rule is
// not held: no rating is as large, so that no device is planned by it and what
// rests on one stays unknown.
func notHeld() units.Ratio { return units.Ratio(math.Inf(1)) }

// continuous: a load is continuous unless its hours show otherwise. The code does
// not add 25 % to the load. It keeps continuous load to 80 % of the circuit's
// rating, and all load to the whole of it:
//
//	Ic <= 0.8 · R    and    Ic + In <= R
//
// A plan needs one sum, and 5·Ic + 4·In <= 4·R keeps both: it is the first with
// the other load beside it, and more than the second. Where continuous load and
// other load share a circuit it leaves a little more free than the code asks;
// existing circuits are judged by the two limits themselves (continuous-load).
func continuous(e edition, b codes.TableSet) codes.Continuous {
	list := spans(b.Get("continuous-test"))
	return codes.Continuous{
		Run: list[0].Most, Spans: list, Load: 5, Other: 4, Rating: 4,
		RunCite:       e.cite("8-104(3)", steps.Seen),
		DeviceCite:    e.cite("8-104", steps.Seen),
		WireCite:      e.cite("8-104", steps.Seen),
		FullRatedCite: e.cite("8-104", steps.Seen),
	}
}

// devices: nothing is rounded up above the ampacity. Table 13 has ratings for
// ampacities in between, but whether it serves ordinary circuits is disputed.
func devices(e edition, b codes.TableSet) codes.Devices {
	return codes.Devices{
		Ratings:     b.Get("device-ratings").Ratings(),
		RatingsCite: e.cite("Table 13", steps.Recalled),
		ProtectCite: e.cite("14-104", steps.Seen),
		RoundUpCite: e.cite("14-104", steps.Seen),
		AboveCite:   e.cite("14-104(1)", steps.Seen),
	}
}

// branch: the ratings of shared circuits are those that receptacles are made in,
// since a receptacle has the rating of its circuit. No share of a circuit is kept
// from one plug-in load or from equipment fastened in place. In a dwelling the
// limit of voltage is to ground, a rule of its own (dwelling-voltage).
func branch(e edition, b codes.TableSet) codes.Branch {
	return codes.Branch{
		Ratings: []units.Current{15, 20, 30, 50}, DwellingLighting: luminaireLimits(b).dwelling, LightingUpTo: luminaireLimits(b).elsewhere, Least: 15, Default: 20,
		OnePlug: 1, Fastened: 1, OutletVA: 120,
		RatingsCite:  e.cite("26-700", steps.Derived),
		LoadsCite:    e.cite("26-700", steps.Derived),
		LightingCite: e.cite("30-104", steps.Seen),
		OutletCite:   e.cite("8-304", steps.Derived), // an outlet counts as 1 A: 12 on 15 A at 80 %
		DwellingCite: e.cite("2-106", steps.Seen),
	}
}

// motors: the tables of full-load currents are not held, so a motor given by its
// horsepower has no current. The cites are those of equipment that is marked with
// its circuit.
func motors() codes.Motors {
	return codes.Motors{Breaker: notHeld(), Conductor: notHeld(), TableCite: marking(), WireCite: marking(), BreakerCite: marking(), SeveralCite: marking(),
		NotApplied: "Section 28 not applied"}
}

// wires: conductors in raceways and multi-conductor cables. Tables of raceway fill
// and of reactance are not held.
func wires(e edition, b codes.TableSet) codes.Wires {
	return codes.Wires{
		Edition:  e.year,
		Sizes:    b.Get("properties").Keys(),
		Ampacity: map[string]codes.Table{"copper": b.Get("ampacity"), "aluminum": b.Get("ampacity-aluminum")},
		Ambient:  b.Get("ambient-correction"),
		Bundle:   b.Get("bundle-adjustment"),
		Small:    map[string]codes.Table{"copper": b.Get("small-copper"), "aluminum": b.Get("small-aluminum")},
		Ground:   b.Get("bonding"), GroundCalled: "bonding",
		Properties:  b.Get("properties"),
		Insulations: insulations(b.Get("insulations")),
		Raceways:    []string{"EMT", "PVC", "steel", "aluminum"},
		Material:    "copper", Insulation: "T90", Raceway: "EMT",
		LowColumn: 60, LowUpTo: 100, HighColumn: 75,
		ColumnCite:     e.cite("4-006", steps.Recalled),
		ParallelMin:    "1/0 AWG", // from memory
		SingleMax:      "500 kcmil",
		NeutralCite:    e.cite("4-004", steps.Recalled),
		ProportionCite: enlarged(),
		Base:           30,
	}
}

// enlarged is why a bonding conductor grows with conductors enlarged for voltage
// drop. Table 16 has a column for that, by their ampacity; in proportion to their
// area it is as large or larger, but for a size in aluminum at 175 and 200 A and
// where heat or bundling enlarged them first; a test counts through all sizes.
func enlarged() steps.Cite {
	c := steps.CommonPractice
	c.At = "(in place of CEC Table 16, column 2)"
	return c
}
