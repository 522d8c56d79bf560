package document

import (
	"testing"

	"github.com/stretchr/testify/require"

	"branchwork/circuits"
	"branchwork/codes"
	"branchwork/loads"
	"branchwork/loads/heat"
	"branchwork/loads/inventory"
	"branchwork/loads/steps"
	"branchwork/loads/units"
)

const sampleFile = `
[site]
name = "Sample bay"
use = "commercial"

[panels.LP1]
system = "120/240 V 1ph"
main = "100 A"
spaces = 24

[rooms.flower]
panel = "LP1"
lights = "06:00-18:00"
run = "60 ft"

[fixtures.bar-640]
room = "flower"
count = 5
power = "640 W"
power_factor = 0.98
voltage = "240 V"

[circuits.old]
panel = "LP1"
spaces = [2]
breaker = "15 A"
feeds = { "bar-640" = 1 }
`

func sampleInventory(t *testing.T) *inventory.Inventory {
	inv, problems := inventory.Read("sample.toml", []byte(sampleFile), inventory.Vocabulary{})
	require.Empty(t, problems)
	return inv
}

// sampleResults are made by hand: one planned circuit of which all is known, one
// old one of which nearly nothing is.
func sampleResults(t *testing.T) Results {
	nec := steps.Cite{Ref: "nfpa70", Edition: "2023", At: "210.20(A)", How: steps.Seen}
	// 640 / (240 · 0.98) = 2.7211 A each, five of them 13.605 A, 125 % of it 17.007 A
	draw := loads.Draw{Amps: 2.7210884353741496, VA: 653.06, Watts: units.Is(640 * units.Watt), Governs: "computed"}
	full := circuits.Circuit{
		Name: "LP1-1", Panel: "LP1", Spaces: []int{1, 3}, Legs: []int{0, 1}, Category: loads.Lighting, Rooms: []string{"flower"},
		Supply: inventory.Supply{Volts: 240, Poles: 2, Phases: 1}, ToGround: 120, Breaker: units.Is(20 * units.Ampere),
		Loads: []circuits.Load{{Item: "bar-640", Category: loads.Lighting, Room: "flower", Count: 5, Draw: draw, Continuous: true, Why: "12 h"}},
		State: "lights on", Load: 13.605, Continuous: 13.605, Required: 17.007, Free: 2.394,
		Limits:    []circuits.Limit{{Rule: "continuous-load", Title: "holds", Actual: units.Any{Value: 17.007, Unit: "A"}, Limit: units.Any{Value: 20, Unit: "A"}, Share: 0.85}},
		Conductor: circuits.Wire{Size: "12 AWG", Material: "copper", Insulation: "THHN", Ampacity: units.Is(20 * units.Ampere), Sets: 1},
		Ground:    circuits.Wire{Size: "12 AWG", Material: "copper"}, Length: units.Is(60 * units.Foot), Drop: units.Is(units.Ratio(0.013)), DropLimit: 0.03,
		Receptacle: "NEMA 6-20R", GFCI: units.Is(true), Protection: codes.Protection{Needed: true, Class: "Class A GFCI", Trip: 4 * units.Milliampere, Cite: nec},
		Steps: []steps.Step{steps.Result("current of one unit", "P / (V · pf)", units.Current(2.7210884353741496), "A", nec,
			steps.In("P", 640*units.Watt, "W"), steps.In("V", 240*units.Volt, "V"), steps.In("pf", units.Ratio(0.98), ""))},
	}
	old := circuits.Circuit{
		Name: "old", Panel: "LP1", Spaces: []int{2}, Legs: []int{0}, Existing: true, Supply: inventory.Supply{Volts: 120, Poles: 1, Phases: 1, Neutral: true},
		Breaker: units.Unknown[units.Current]("not read"), GFCI: units.Unknown[bool]("not looked at"),
	}
	wired := old
	wired.Name, wired.Spaces, wired.Wired = "wired", []int{4}, true
	sys, _ := inventory.SystemNamed("120/240 V 1ph")
	profile := &codes.Profile{Name: "nec-2023", Title: "NEC 2023", Edition: "2023", Rules: []codes.Rule{
		{ID: "continuous-load", Severity: codes.Violation, Subject: codes.OfCircuit, Clauses: codes.Clauses("nfpa70", "210.20(A)", steps.Seen, "2023")},
		{ID: "later", Severity: codes.Advice, Clauses: codes.Clauses("nfpa70", "1.2", steps.Seen, "2026")},
	}}
	return Results{
		Inventory: sampleInventory(t), Profile: profile,
		Plan: circuits.Plan{
			Site: "Sample bay", Use: inventory.Commercial, Code: "nec-2023", CodeTitle: "NEC 2023",
			Panels: []circuits.Panel{{Name: "LP1", System: sys, LegNames: []string{"A", "B"}, Main: units.Is(100 * units.Ampere), Spaces: units.Is(24), SpacesUsed: 4,
				Legs: []units.Current{13.605, 13.605}, Neutral: units.Is(units.Current(0)), Required: 17.007}},
			Circuits:    []circuits.Circuit{full, old, wired},
			Assumptions: []loads.Assumption{{Subject: "fixtures.bar-640.wired", Value: "false", Why: "not given", Cite: steps.CommonPractice}},
			Optimality:  circuits.Optimality{Spaces: circuits.Bounded{Used: 4, Bound: 4, Proved: true}},
		},
		Findings: []codes.Finding{
			{Rule: "continuous-load", Severity: codes.Violation, State: codes.Broken, Cites: []steps.Cite{nec}, Subject: "circuits.old.breaker", Message: "it needs more", Remedy: "move 1 A",
				Actual: units.Any{Value: 16, Unit: "A"}, Limit: units.Any{Value: 15, Unit: "A"}},
			{Rule: "wire", Severity: codes.Violation, State: codes.CannotTell, Subject: "circuits.old", Missing: []codes.Fact{codes.WireSize}},
			{Rule: "leg-balance", Severity: codes.Advice, State: codes.Broken, Subject: "panels.LP1"},
		},
		Heat: heat.Result{},
	}
}

func codes125() codes.Continuous { return codes.Continuous{Load: 5, Other: 4, Rating: 4} }
