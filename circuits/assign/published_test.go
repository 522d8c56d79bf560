package assign_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"branchwork/circuits"
	"branchwork/circuits/assign"
	"branchwork/circuits/verify"
	"branchwork/codes/outside"
	"branchwork/codes/published"
	"branchwork/loads"
	"branchwork/loads/inventory"
	"branchwork/loads/steps"
	"branchwork/loads/units"
)

// row is a published case under test. Its values are read with in and want; what
// nobody asks for fails the case.
type row struct {
	t *testing.T
	outside.Case
}

// publishedRows runs the cases of a file that pick chooses and returns how many. It
// fails for a case that has a value nobody looked at.
func publishedRows(t *testing.T, file string, pick func(published.Case) bool, run func(row)) int {
	n := 0
	for _, c := range outside.Cases(t, file) {
		if pick(c.Case) {
			n++
			t.Run(c.ID, func(t *testing.T) {
				run(row{t, c})
				assert.Empty(t, c.Unread(), "values of the case that the test does not look at")
			})
		}
	}
	return n
}

// named picks cases by id.
func named(ids ...string) func(published.Case) bool {
	return func(c published.Case) bool { return strings.Contains(" "+strings.Join(ids, " ")+" ", " "+c.ID+" ") }
}

func (r row) because() string { return r.Says + " (" + r.Source.Ref + ", " + r.Source.At + ")" }

func in[T units.Quantity](r row, key string) T {
	x, err := published.Quantity[T](r.In, key)
	require.NoError(r.t, err)
	return x
}

func want[T units.Quantity](r row, key string) T {
	x, err := published.Quantity[T](r.Want, key)
	require.NoError(r.t, err)
	return x
}

func (r row) number(v *published.Values, key string) float64 {
	x, err := v.Number(key)
	require.NoError(r.t, err)
	return x
}

// systemOf is a panel system that serves a voltage.
func systemOf(r row, v units.Voltage, phases int) string {
	for _, s := range inventory.Systems() {
		for _, u := range s.Supplies() {
			if u.Volts == v && u.Phases == phases {
				return s.Name
			}
		}
	}
	require.Fail(r.t, "no system", "%v", v)
	return ""
}

// one is a single piece of wired equipment at one voltage. Its window decides
// whether it is continuous: always, or one hour a day.
func one(t *testing.T, v units.Voltage, phases int, window string) inventory.Item {
	return inventory.Item{Table: inventory.Equipment, Kind: inventory.Other, Name: "unit", Phases: units.Is(phases), Wired: units.Is(true),
		PowerFactor: units.Is(units.Ratio(1)), Voltage: units.Is(units.VoltageSet{List: []units.Voltage{v}}),
		Dedicated: units.Is(true), Hours: hours(t, window)}
}

const (
	continuousHours = "always"
	oneHour         = "08:00-09:00"
)

// fixtures plans n fixtures of a case on circuits of its breaker.
func (r row) fixtures(n int) circuits.Plan {
	volts, breaker := in[units.Voltage](r, "volts"), in[units.Current](r, "breaker")
	bar := bars(n, in[units.Power](r, "power"), units.Ratio(r.number(r.In, "pf")))
	bar.Voltage = units.Is(units.VoltageSet{List: []units.Voltage{volts}})
	bar.MaxBreaker = units.Is(breaker)
	inv := room(r.t, systemOf(r, volts, 1), bar)
	inv.Plan.Breakers = []units.Current{breaker}
	p := plan(r.t, inv)
	require.Empty(r.t, p.Unfed)
	for _, c := range p.Circuits {
		require.Equal(r.t, units.Is(breaker), c.Breaker)
		require.Equal(r.t, volts, c.Supply.Volts)
	}
	return p
}

// The table of fixtures per circuit at 80 %: so many share one circuit and one
// more does not. Amperes without the power factor, volt-amperes pooled over
// circuits, 100 % of the rating, or 240 V taken for 208 V each miss some row.
func TestPublishedFixturesPerCircuit(t *testing.T) {
	n := publishedRows(t, "assignment.toml", func(c published.Case) bool { return c.Want.Has("fit") }, func(r row) {
		fit := int(r.number(r.Want, "fit"))
		got := fit - 1
		for got <= fit && len(r.fixtures(got+1).Circuits) == 1 {
			got++
		}
		assert.Len(r.t, r.fixtures(fit+1).Circuits, 2, "one more than: %s", r.because())
		r.Number(r.t, "fit", float64(got))
	})
	assert.Equal(t, 49, n, "seven fixtures at seven supplies")
}

// F40: 72 fixtures of 1.0108 A. Pooled they ask for 90.97 A; rounded to whole
// amperes three circuits of 24 would ask for 30 A each, unrounded for 30.32 A.
func TestPublishedCircuitsOfWholeFixtures(t *testing.T) {
	n := publishedRows(t, "assignment.toml", func(c published.Case) bool { return c.Want.Has("circuits") }, func(r row) {
		count := int(r.number(r.In, "count"))
		p := r.fixtures(count)
		r.Number(r.t, "circuits", float64(len(p.Circuits)))
		placed := 0
		for _, c := range p.Circuits {
			placed += c.Loads[0].Count
			assert.LessOrEqual(r.t, c.Loads[0].Count, 23, "24 ask for 30.32 A")
		}
		assert.Equal(r.t, count, placed)
	})
	assert.Equal(t, 1, n)
}

// The warehouse error: planned as 240 V and plain watts the five share a 20 A
// circuit; at the 208 V that is there they do not.
func TestPublishedFixturesAt208AreNotThoseAt240(t *testing.T) {
	n := publishedRows(t, "assignment.toml", named("fit-208-for-240"), func(r row) {
		count := int(r.number(r.In, "count"))
		p := r.fixtures(count)
		assert.Len(r.t, p.Circuits, 2, r.because())
		var all units.Current
		for _, c := range p.Circuits {
			all += c.Load
		}
		outside.Near(r.t, r.Case, "load", all)

		bar := bars(count, in[units.Power](r, "power"), 1)
		inv := room(r.t, "120/240 V 1ph", bar)
		inv.Plan.Voltage = units.Is(240 * units.Volt)
		hopeful := plan(r.t, inv)
		require.Len(r.t, hopeful.Circuits, 1)
		assert.InDelta(r.t, 13.75, float64(hopeful.Circuits[0].Load), 1e-9, "660 / 240 each")
	})
	assert.Equal(t, 1, n)
}

// What a rating carries as continuous load, asked of the planner: a load of the
// published volt-amperes gets a circuit of that rating, a load beyond its
// rounding gets none where its maker allows no larger device.
func TestPublishedCapacitiesDecideCircuits(t *testing.T) {
	n := publishedRows(t, "capacity.toml", func(published.Case) bool { return true }, func(r row) {
		device, volts, phases := in[units.Current](r, "device"), in[units.Voltage](r, "volts"), int(r.number(r.In, "phases"))
		va, tol := want[units.Apparent](r, "va"), units.Apparent(r.Tol)
		of := func(s units.Apparent) circuits.Plan {
			x := one(r.t, volts, phases, continuousHours)
			x.Apparent, x.MaxBreaker = units.Is(s), units.Is(device)
			return plan(r.t, room(r.t, systemOf(r, volts, phases), x))
		}
		p := of(va - tol)
		require.Len(r.t, p.Circuits, 1, r.because())
		assert.Equal(r.t, units.Is(device), p.Circuits[0].Breaker, r.because())
		assert.Len(r.t, of(va+tol+0.01).Unfed, 1, "beyond: %s", r.because())
	})
	assert.Equal(t, 50, n)
}

// Circuits of single loads: F06 shares one, F07 stands alone on three phases,
// F08 needs a receptacle, F09 leaves room for lamps.
func TestPublishedBranchCircuits(t *testing.T) {
	n := publishedRows(t, "conductors.toml", named("F06", "F07", "F08"), func(r row) {
		x, system := one(r.t, 120, 1, continuousHours), "120/240 V 1ph"
		var breakers []units.Current
		switch {
		case r.In.Has("each"): // of 15 and 20 A only 20 A holds the nine
			x.Count, x.Current, x.Dedicated = int(r.number(r.In, "count")), units.Is(in[units.Current](r, "each")), units.Is(false)
			breakers = []units.Current{15, 20}
		case r.In.Has("plug"):
			x.Current, x.Wired, x.Hours = units.Is(in[units.Current](r, "plug")), units.Is(false), hours(r.t, oneHour)
		default:
			x, system = one(r.t, 208, 3, continuousHours), "208Y/120 V 3ph"
			x.Current = units.Is(in[units.Current](r, "continuous"))
		}
		inv := room(r.t, system, x)
		inv.Plan.Breakers = breakers
		p := plan(r.t, inv)
		require.Len(r.t, p.Circuits, 1, r.because())
		c := p.Circuits[0]
		for key, got := range map[string]units.Current{"load": c.Load, "required": c.Required, "device": c.Breaker.Or(0), "branch": c.Breaker.Or(0)} {
			if r.Want.Has(key) {
				outside.Near(r.t, r.Case, key, got)
			}
		}
	})
	assert.Equal(t, 3, n)
}

// F09 beside the further limit for lamps that burn for hours: 8.5 + 1.25 · I.
func TestPublishedLightingBesideFastenedEquipment(t *testing.T) {
	n := publishedRows(t, "conductors.toml", named("F09"), func(r row) {
		rating, fastened, left := in[units.Current](r, "circuit"), in[units.Current](r, "fastened"), want[units.Current](r, "left")
		assert.False(r.t, units.Exceeds(fastened, want[units.Current](r, "fastened_limit")))
		count := func(lamp units.Current, window string) int {
			x := one(r.t, 120, 1, oneHour)
			x.Current, x.Dedicated = units.Is(fastened), units.Is(false)
			l := bars(1, 1, 1)
			l.Power, l.Current, l.Hours = units.Unknown[units.Power](""), units.Is(lamp), hours(r.t, window)
			l.Voltage = x.Voltage
			inv := room(r.t, "120/240 V 1ph", l, x)
			inv.Plan.Separate, inv.Plan.Breakers = []string{}, []units.Current{rating}
			return len(plan(r.t, inv).Circuits)
		}
		assert.Equal(r.t, 1, count(left, oneHour), r.because())
		assert.Equal(r.t, 2, count(left+units.Milliampere, oneHour), r.because())
		assert.Equal(r.t, 1, count(units.Times(left, 0.8), continuousHours), "11.5 / 1.25 = 9.2 A where the lamps are continuous")
		assert.Equal(r.t, 2, count(units.Times(left, 0.8)+units.Milliampere, continuousHours))
	})
	assert.Equal(t, 1, n)
}

// Motors and marked equipment: current from the tables, conductor by its own
// rule, device by the motor rule or the nameplate. The run is short, so that
// voltage drop decides nothing.
func TestPublishedMotorCircuits(t *testing.T) {
	n := publishedRows(t, "motors.toml", named("F22", "F23-60", "F23-75", "F23-breaker", "F26b", "F26c"), func(r row) {
		volts, phases := 240*units.Volt, 1
		if r.In.Has("volts") {
			volts, phases = in[units.Voltage](r, "volts"), int(r.number(r.In, "phases"))
		}
		if volts == 230 {
			volts = 240 // a motor marked 230 V is on a nominal 240 V system
		}
		x := one(r.t, volts, phases, oneHour)
		if r.In.Has("hp") {
			x.Motor = units.Is(in[units.Horsepower](r, "hp"))
		} else {
			x.Nameplate = units.Is(inventory.Nameplate{MinCircuit: units.Is(in[units.Current](r, "nameplate")), MaxBreaker: units.Is(in[units.Current](r, "largest"))})
		}
		inv := room(r.t, systemOf(r, volts, phases), x)
		inv.Rooms[0].Run = units.Is(10 * units.Foot)
		if r.In.Has("terminals") {
			inv.Site.Conductors.Terminals = units.Is(in[units.Temperature](r, "terminals"))
		}
		p := plan(r.t, inv)
		require.Len(r.t, p.Circuits, 1, r.because())
		c := p.Circuits[0]
		for key, got := range map[string]units.Current{"flc": c.Loads[0].Draw.Amps, "wire": c.Required, "breaker": c.Breaker.Or(0)} {
			outside.Near(r.t, r.Case, key, got)
		}
		r.Name(r.t, "conductor", c.Conductor.Size)
	})
	assert.Equal(t, 6, n)
}

// The store's feeder as a panel: connected and allowed-for volt-amperes, and the
// amperes of a leg. Loads line to line put their whole current on both legs.
func TestPublishedStoreFeeder(t *testing.T) {
	n := publishedRows(t, "loadcalc.toml", named("D3-total", "D3-feeder"), func(r row) {
		var items []inventory.Item
		add := func(s units.Apparent, window string) {
			x := one(r.t, 240, 1, window)
			x.Name, x.Apparent = fmt.Sprintf("part-%d", len(items)), units.Is(s)
			items = append(items, x)
		}
		if r.In.Has("parts") {
			parts, err := published.Get[[]any](r.In, "parts")
			require.NoError(r.t, err)
			for _, text := range parts {
				s, err := units.Parse[units.Apparent](text.(string))
				require.NoError(r.t, err)
				add(s, oneHour)
			}
		} else {
			require.Equal(r.t, 240*units.Volt, in[units.Voltage](r, "volts"))
			add(in[units.Apparent](r, "continuous_va"), continuousHours)
			add(in[units.Apparent](r, "other_va"), oneHour)
		}
		x := plan(r.t, room(r.t, "120/240 V 1ph", items...)).Panels[0]
		for key, got := range map[string]units.Apparent{"va": x.ConnectedVA, "required_va": x.DemandVA} {
			outside.Near(r.t, r.Case, key, got)
		}
		if r.Want.Has("amps") {
			outside.Near(r.t, r.Case, "amps", x.Required)
			device, ok := profile().Devices.Next(x.Required)
			require.True(r.t, ok)
			outside.Near(r.t, r.Case, "device", device)
		}
	})
	assert.Equal(t, 2, n)
}

// F26e: of two loads that exclude each other the one that asks for more counts,
// not the one that draws more, and not both.
func TestPublishedNoncoincidentLoads(t *testing.T) {
	n := publishedRows(t, "loadcalc.toml", named("F26e"), func(r row) {
		exclusive, err := published.Get[bool](r.In, "exclusive")
		require.NoError(r.t, err)
		require.True(r.t, exclusive)
		heat, motor := one(r.t, 240, 1, oneHour), one(r.t, 240, 1, oneHour)
		heat.Name, heat.Current, heat.Interlock = "other", units.Is(in[units.Current](r, "other")), "either"
		motor.Name, motor.Motor, motor.Interlock = "motor", units.Is(units.Horsepower(20)), "either"
		inv := room(r.t, "120/240 V 1ph", heat, motor)
		p := profile()
		set := loads.Build(inv, loads.CodeValues{Motors: func(units.Horsepower, units.Voltage, int) (units.Current, steps.Cite, bool) {
			return in[units.Current](r, "motor"), steps.CommonPractice, true // of a rating that the tables do not have
		}})
		out, err := assign.Plan(inv, set, p)
		require.NoError(r.t, err)
		require.Empty(r.t, verify.Plan(inv, set, p, out))
		outside.Near(r.t, r.Case, "governs", out.Panels[0].Required)
	})
	assert.Equal(t, 1, n)
}

// F26a: 25 hp at 208 V in 115 °F: 74.8 A · 1.25 = 93.5 A, 1 AWG (Tests.com
// journeyman practice).
func TestPublishedMotorConductorInAHotPlace(t *testing.T) {
	publishedRows(t, "motors.toml", named("F26a"), func(r row) {
		x := one(r.t, in[units.Voltage](r, "volts"), int(r.number(r.In, "phases")), oneHour)
		x.Motor = units.Is(in[units.Horsepower](r, "hp"))
		inv := room(r.t, "208Y/120 V 3ph", x)
		inv.Rooms[0].Run = units.Is(10 * units.Foot)
		ins, _ := published.Get[string](r.In, "insulation")
		inv.Site.Conductors = inventory.Wiring{Terminals: units.Is(in[units.Temperature](r, "terminals")),
			Ambient: units.Is(in[units.Temperature](r, "ambient")), Insulation: units.Is(ins)}
		c := plan(r.t, inv).Circuits[0]
		outside.Near(r.t, r.Case, "flc", c.Loads[0].Draw.Amps)
		outside.Near(r.t, r.Case, "wire", c.Required)
		r.Name(r.t, "conductor", c.Conductor.Size)
	})
}

// 12 A fastened in place and 4 A at a plug may not share a 20 A circuit: at most
// half of it, 10 A, may be fastened beside a plug (210.23).
func TestFastenedEquipmentLeavesHalfOfASharedCircuit(t *testing.T) {
	fixed, plugged := one(t, 120, 1, oneHour), one(t, 120, 1, oneHour)
	fixed.Name, fixed.Current, fixed.Dedicated = "fixed", units.Is(12*units.Ampere), units.Is(false)
	plugged.Name, plugged.Current, plugged.Dedicated, plugged.Wired = "plugged", units.Is(4*units.Ampere), units.Is(false), units.Is(false)
	assert.Len(t, plan(t, room(t, "120/240 V 1ph", fixed, plugged)).Circuits, 2)
	fixed.Current = units.Is(9 * units.Ampere)
	assert.Len(t, plan(t, room(t, "120/240 V 1ph", fixed, plugged)).Circuits, 1)
}

// F23: four 5 hp motors of 28 A on one panel: 28 · 1.25 + 3 · 28 = 119 A
// (electricianmath.com).
func TestOfSeveralMotorsTheLargestAloneHasTheAllowance(t *testing.T) {
	x := one(t, 240, 1, oneHour)
	x.Motor, x.Count = units.Is(units.Horsepower(5)), 4
	p := plan(t, room(t, "120/240 V 1ph", x))
	assert.InDelta(t, 119, float64(p.Panels[0].Required), 1e-9)
}
