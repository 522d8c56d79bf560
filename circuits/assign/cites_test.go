package assign_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"branchwork/circuits"
	"branchwork/circuits/assign"
	"branchwork/codes/book"
	"branchwork/loads/inventory"
	"branchwork/loads/steps"
	"branchwork/loads/units"
)

// cited is what the steps of a plan's circuit, or of a feeder, rest on, by name.
func cited(list []steps.Step) map[string]steps.Step {
	out := map[string]steps.Step{}
	for _, s := range list {
		out[s.Name] = s
	}
	return out
}

// Each step of the working cites the clause that asks for it: Article 440 for what a
// nameplate gives, 430 for a motor, 215 for a feeder; arithmetic cites nothing.
func TestTheWorkingCitesWhatGoverns(t *testing.T) {
	unit := inventory.Item{Table: inventory.Equipment, Kind: inventory.AirConditioner, Name: "unit", Hours: hours(t, "always"), Wired: units.Is(true),
		Power: units.Is(4 * units.Kilowatt), Voltage: units.Is(units.VoltageSet{List: []units.Voltage{240}}),
		Nameplate: units.Is(inventory.Nameplate{MinCircuit: units.Is(units.Current(27)), MaxBreaker: units.Is(units.Current(45))})}
	pump := inventory.Item{Table: inventory.Fans, Name: "pump", Motor: units.Is(units.Horsepower(1)), IsMotor: true, Hours: hours(t, "06:00-06:40"),
		Wired: units.Is(true), Voltage: units.Is(units.VoltageSet{List: []units.Voltage{208, 240}})}
	inv := room(t, "120/240 V 1ph", unit, pump)
	inv.Panels = append(inv.Panels, inventory.Panel{Name: "SP1", System: inv.Panels[0].System, FedBy: "LP1", Spaces: units.Is(12)})
	p := plan(t, inv)
	at := map[string]map[string]steps.Step{}
	for _, c := range p.Circuits {
		at[c.Loads[0].Item] = cited(c.Steps)
	}

	ac := at["unit"]
	assert.Equal(t, "440.4(B)", ac["unit: continuous or not"].Cite.At)
	assert.Equal(t, steps.CommonPractice, ac["least rating of the overcurrent device"].Cite)
	assert.Equal(t, "440.35", ac["least ampacity asked for"].Cite.At)
	assert.Equal(t, "440.22, 240.4(G)", ac["device above the ampacity"].Cite.At)
	assert.Equal(t, "440.35", ac["conductor"].Cite.At)
	assert.NotContains(t, ac, "continuous load that the breaker still allows")

	// by hand: Table 430.248, 1 hp at 230 V: 8 A; 125 % is 10 A, 250 % is 20 A
	motor := at["pump"]
	assert.Equal(t, "motor", motor["pump: continuous or not"].Text)
	assert.Equal(t, "430.22", motor["required rating"].Cite.At)
	assert.Equal(t, steps.CommonPractice, motor["least rating of the overcurrent device"].Cite)
	largest := motor["largest short-circuit and ground-fault device, inverse-time breaker"]
	assert.InDelta(t, 20, largest.Result, 1e-9)
	assert.Equal(t, "430.52(C)(1), Table 430.52(C)(1)", largest.Cite.At)
	assert.Equal(t, "20 A", motor["the same as a standard rating"].Text)
	for _, s := range []string{"voltage drop", "voltage drop, share of the supply"} {
		assert.Empty(t, motor[s].Cite, s)
	}

	feeder := cited(p.Panels[1].Feeder.Steps)
	for _, s := range []string{"required rating", "load", "least ampacity asked for"} {
		if step, ok := feeder[s]; ok {
			assert.Equal(t, "215.2(A)(1)", step.Cite.At, s)
		}
	}
	for _, x := range p.Panels {
		assert.Equal(t, "215.3, 230.42(A)(1)", cited(x.Steps)["calculated load: continuous load with its allowance, interlocked loads once"].Cite.At)
	}
	for _, c := range p.Circuits {
		assert.Zero(t, c.Free, "nothing goes on the circuit of %s", c.Loads[0].Item)
		assert.Contains(t, []circuits.Governor{circuits.ByNameplate, circuits.ByMotor}, c.Governed())
	}
}

// The conductor's choice cites the test that chose it: a long run the note on voltage
// drop, a small conductor the limit of its device.
func TestTheChoiceOfAConductorCitesItsTest(t *testing.T) {
	for run, want := range map[units.Length]string{10 * units.Foot: "240.4(D)", 300 * units.Foot: "210.19 Informational Note"} {
		lamp := at120(inventory.Fixtures, "lamp", 1, 1400, 1, units.Unknown[bool](""))
		lamp.Hours = hours(t, "06:00-18:00")
		inv := room(t, "120/240 V 1ph", lamp)
		inv.Rooms[0].Run = units.Is(run)
		got := cited(plan(t, inv).Circuits[0].Steps)["conductor"]
		assert.Contains(t, got.Cite.At, want, got.Note)
	}
}

// Where no rule for motors is held, none is cited.
func TestAMotorWithoutARuleIsSaidToHaveNone(t *testing.T) {
	canada, ok := book.Profile("cec-2024")
	require.True(t, ok)
	pump := at120(inventory.Fans, "pump", 1, 600, 0.8, units.Is(true))
	pump.IsMotor, pump.Motor = true, units.Is(units.Horsepower(0.5))
	pump.Current = units.Is(units.Current(7))
	inv := room(t, "120/240 V 1ph", pump)
	p, err := assign.Plan(inv, build(inv, canada), canada)
	require.NoError(t, err)
	require.NotEmpty(t, p.Circuits)
	s := cited(p.Circuits[0].Steps)["pump: continuous or not"]
	assert.Contains(t, s.Note, "the rule for motors is not held")
}
