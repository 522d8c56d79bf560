package nec_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"branchwork/codes"
	"branchwork/codes/checks"
	"branchwork/codes/nec"
	"branchwork/loads/clock"
	"branchwork/loads/steps"
	"branchwork/loads/units"
)

// Spot values, each named by its table.
func TestSpotValues(t *testing.T) {
	p := profile(t, "nec-2023")
	for _, x := range []struct {
		table, key, column string
		want               float64
	}{
		{"ampacity", "14 AWG", "60 C", 15}, {"ampacity", "12 AWG", "90 C", 30}, {"ampacity", "3 AWG", "90 C", 115},
		{"ampacity", "250 kcmil", "75 C", 255}, {"ampacity", "600 kcmil", "75 C", 420}, {"ampacity", "2000 kcmil", "60 C", 555},
		{"ampacity-aluminum", "8 AWG", "60 C", 35}, {"ampacity-aluminum", "6 AWG", "90 C", 55}, {"ampacity-aluminum", "300 kcmil", "60 C", 195},
		{"ambient-correction", "40 C", "90 C", 0.91}, {"ambient-correction", "55 C", "90 C", 0.76}, {"ambient-correction", "40 C", "75 C", 0.88},
		{"bundle-adjustment", "9", "factor", 0.70}, {"bundle-adjustment", "20", "factor", 0.50},
		{"small-copper", "14 AWG", "device", 15}, {"small-copper", "10 AWG", "device", 30}, {"small-aluminum", "10 AWG", "device", 25},
		{"properties", "12 AWG", "area", 6530}, {"properties", "12 AWG", "copper", 1.98}, {"properties", "1/0 AWG", "aluminum", 0.201},
		{"reactance", "12 AWG", "PVC", 0.054}, {"reactance", "12 AWG", "EMT", 0.068}, {"ac-resistance-copper", "1/0 AWG", "aluminum", 0.13},
		{"raceway-emt", "3/4 in", "40 %", 0.213}, {"raceway-pvc", "2 in", "100 %", 3.291}, {"outside-thhn", "12 AWG", "area", 0.0133},
		{"motor-1", "1/2 hp", "115 V", 9.8}, {"motor-1", "5 hp", "230 V", 28}, {"motor-3", "7.5 hp", "230 V", 22}, {"motor-3", "1.5 hp", "460 V", 3.0},
		{"motor-device", "wound-rotor", "inverse-time breaker", 150}, {"plug-load", "20 A circuit, 15 A receptacle", "load", 12},
		{"working-space", "600 V", "condition 2", 3.5}, {"standard-ratings", "110 A", "A", 110},
		{"fill", "2", "share", 0.31}, {"transformers-3", "112.5 kVA", "kVA", 112.5},
	} {
		v, _, ok := table(t, p, x.table).Value(x.key, x.column)
		assert.True(t, ok, "%s %s %s", x.table, x.key, x.column)
		assert.Equal(t, x.want, v, "%s %s %s", x.table, x.key, x.column)
	}
	size, cite, ok := p.Wires.GroundFor(30, "copper")
	require.True(t, ok)
	assert.Equal(t, "10 AWG", size)
	assert.Equal(t, "NEC 2023 Table 250.122", cite.String())
	size, _, _ = p.Wires.GroundFor(200, "aluminum")
	assert.Equal(t, "4 AWG", size)
}

func TestEditionsDifferOnlyWhereTheCodeDoes(t *testing.T) {
	var names []string
	for _, p := range nec.Profiles() {
		names = append(names, p.Name)
	}
	require.Equal(t, []string{"nec-2017", "nec-2020", "nec-2023", "nec-2026"}, names)

	for _, x := range []struct {
		edition, ampacity, ambient, bundle, permitted, heating, neutral, outlet string
		ten                                                                     bool
	}{
		{"2017", "Table 310.15(B)(16)", "Table 310.15(B)(2)(a)", "Table 310.15(B)(3)(a)", "210.23(A)", "424.3(B)", "310.15(B)(5)", "220.14(I)", false},
		{"2020", "Table 310.16", "Table 310.15(B)(1)", "Table 310.15(C)(1)", "210.23(A)", "424.4(B)", "310.15(E)", "220.14(I)", false},
		{"2023", "Table 310.16", "Table 310.15(B)(1)(1)", "Table 310.15(C)(1)", "210.23(B)", "424.4(B)", "310.15(E)", "220.14(I)", true},
		{"2026", "Table 310.16", "Table 310.15(B)(1)(1)", "Table 310.15(C)(1)", "210.23(B)", "424.4(B)", "310.15(E)", "120.14(I)", true},
	} {
		p := profile(t, "nec-"+x.edition)
		w := p.Wires
		at := func(c codes.Table) string { return c.Cite(x.edition, steps.Seen).At }
		assert.Equal(t, x.ampacity, at(w.Ampacity["copper"]))
		assert.Equal(t, x.ampacity, at(w.Ampacity["aluminum"]))
		assert.Equal(t, x.ambient, at(w.Ambient))
		assert.Equal(t, x.bundle, at(w.Bundle))
		assert.Equal(t, x.permitted, p.Branch.LoadsCite.At)
		assert.Equal(t, x.heating, p.Heating.Cite.At)
		assert.Equal(t, x.neutral, w.NeutralCite.At)
		assert.Equal(t, x.outlet, p.Branch.OutletCite.At)
		assert.Equal(t, x.ten, p.Devices.Standard(10), x.edition)
		assert.Equal(t, x.ten, p.Branch.Ratings[0] == 10, x.edition)
		assert.NotEmpty(t, p.NotCovered)
		assert.Equal(t, []string{"A", "B", "C"}, p.Legs)
	}
	assert.Contains(t, profile(t, "nec-2026").Continuous.DeviceCite.String(), "(from memory)", "not seen for 2026")
	assert.NotContains(t, profile(t, "nec-2026").Devices.RatingsCite.String(), "(from memory)")
}

func TestContinuousAllowance(t *testing.T) {
	for _, p := range nec.Profiles() {
		assert.Equal(t, 1.25, p.Continuous.Factor())
		assert.Equal(t, 126.0*units.Ampere, p.Continuous.Required(100, 1, false))
		assert.Equal(t, 101*units.Ampere, p.Continuous.Required(100, 1, true))
		assert.Equal(t, clock.Minute(180), p.Continuous.Run)
	}
}

// Article 100: a continuous load is expected to run for three hours or more; three
// hours exactly are three hours.
func TestThreeHoursAreContinuous(t *testing.T) {
	for _, p := range nec.Profiles() {
		for run, want := range map[clock.Minute]bool{179: false, 180: true, 181: true} {
			got, _, _ := p.IsContinuous(units.Is(run), false)
			assert.Equal(t, want, got, "%s: %d minutes", p.Name, run)
		}
	}
}

// Ratings are read as fractions where the table prints them so; between rows the
// next larger rating counts, and no voltage stands in for another class.
func TestMotorCurrentsByRating(t *testing.T) {
	p := profile(t, "nec-2023")
	for _, x := range []struct {
		hp     units.Horsepower
		volts  units.Voltage
		phases int
		want   units.Current
	}{
		{1.0 / 3, 120, 1, 7.2}, {0.4, 120, 1, 9.8}, {1, 208, 1, 8.8}, {1, 200, 1, 9.2}, {1.5, 240, 1, 10}, {7.5, 208, 3, 24.2}, {10, 480, 3, 14},
	} {
		got, _, ok := p.FullLoadCurrent(x.hp, x.volts, x.phases)
		assert.True(t, ok)
		assert.Equal(t, x.want, got, "%v %v", x.hp, x.volts)
	}
	for _, x := range []struct {
		hp     units.Horsepower
		volts  units.Voltage
		phases int
	}{{15, 240, 1}, {1, 277, 1}, {3, 120, 3}, {60, 480, 3}} {
		_, _, ok := p.FullLoadCurrent(x.hp, x.volts, x.phases)
		assert.False(t, ok, "%v %v: beyond the table", x.hp, x.volts)
	}
}

func TestReceptaclesByCircuit(t *testing.T) {
	p := profile(t, "nec-2023")
	for _, x := range []struct {
		amps    units.Current
		volts   units.Voltage
		phases  int
		neutral bool
		want    string
	}{
		{15, 120, 1, true, "NEMA 5-15R"}, {20, 120, 1, true, "NEMA 5-20R"}, {20, 240, 1, false, "NEMA 6-20R"}, {30, 208, 1, false, "NEMA 6-30R"},
		{50, 240, 1, false, "NEMA 6-50R"}, {20, 277, 1, true, "NEMA 7-20R"}, {20, 480, 1, false, "NEMA L8-20R"}, {30, 240, 1, true, "NEMA 14-30R"},
		{30, 208, 3, false, "NEMA L15-30R"}, {20, 480, 3, false, "NEMA L16-20R"}, {30, 208, 3, true, "NEMA L21-30R"}, {20, 480, 3, true, "NEMA L22-20R"},
	} {
		r, ok := p.ReceptacleFor(x.amps, x.volts, x.phases, x.neutral)
		assert.True(t, ok, x.want)
		assert.Equal(t, x.want, r.Name)
	}
	l, ok := p.ReceptacleNamed("l6-30")
	require.True(t, ok)
	assert.True(t, l.Locking)
	assert.Equal(t, 2, l.Poles)
	assert.Equal(t, 250*units.Volt, l.Volts)
}

func TestGroundFaultProtectionByEditionAndVoltageToGround(t *testing.T) {
	light := func(toGround, volts units.Voltage) codes.Outlet {
		return codes.Outlet{ToGround: toGround, Volts: volts, Phases: 1, Rating: 20, Lighting: true, Corded: true}
	}
	for _, x := range []struct {
		edition string
		o       codes.Outlet
		class   string
		at      string
	}{
		{"2017", light(120, 240), "", ""},
		{"2020", light(120, 240), "Class A GFCI", "410.184"},
		{"2020", light(277, 277), "Class A GFCI", "410.184"},
		{"2023", light(120, 208), "Class A GFCI", "410.184"},
		{"2023", light(277, 480), "special-purpose GFCI", "410.184"},
		{"2023", light(208, 240), "special-purpose GFCI", "410.184"}, // the high leg of a delta
		{"2026", light(150, 150), "Class A GFCI", "410.184(A)"},
		{"2026", light(277, 277), "special-purpose GFCI", "410.184(B)"},
		{"2023", codes.Outlet{ToGround: 120, Volts: 120, Phases: 1, Rating: 20, Corded: true, Dwelling: true}, "Class A GFCI", "210.8(A)"},
		{"2020", codes.Outlet{ToGround: 120, Volts: 240, Phases: 1, Rating: 30, Corded: true, Dwelling: true}, "Class A GFCI", "210.8(A)"},
		{"2017", codes.Outlet{ToGround: 120, Volts: 240, Phases: 1, Rating: 30, Corded: true, Dwelling: true}, "", ""},
		{"2017", codes.Outlet{ToGround: 120, Volts: 120, Phases: 1, Rating: 20, Corded: true, Dwelling: true}, "Class A GFCI", "210.8(A)"},
		{"2023", codes.Outlet{ToGround: 120, Volts: 208, Phases: 1, Rating: 50, Corded: true, Wet: true}, "Class A GFCI", "210.8(B)"},
		{"2023", codes.Outlet{ToGround: 120, Volts: 208, Phases: 1, Rating: 60, Corded: true, Wet: true}, "", ""},
		{"2023", codes.Outlet{ToGround: 120, Volts: 208, Phases: 3, Rating: 100, Corded: true, Wet: true}, "Class A GFCI", "210.8(B)"},
		{"2023", codes.Outlet{ToGround: 277, Volts: 277, Phases: 1, Rating: 20, Corded: true, Wet: true}, "", ""},
		{"2023", codes.Outlet{ToGround: 120, Volts: 120, Phases: 1, Rating: 20, Corded: true}, "", ""},
		{"2023", codes.Outlet{ToGround: 120, Volts: 120, Phases: 1, Rating: 20, Lighting: true, Wet: true}, "", ""}, // wired permanently
	} {
		got := profile(t, "nec-"+x.edition).Protection(x.o)
		assert.Equal(t, x.class != "", got.Needed, "%s %+v", x.edition, x.o)
		assert.Equal(t, x.class, got.Class, "%s %+v", x.edition, x.o)
		assert.Equal(t, x.at, got.Cite.At, "%s %+v", x.edition, x.o)
		if got.Needed {
			assert.NotEmpty(t, got.Why)
			assert.Positive(t, got.Trip)
		}
	}
}

// TestSizesAreNamedAsTheyAreBought: Chapter 9 Table 8: 12 AWG has 6,530 circular
// mils, 10 AWG 10,380, 8 AWG 16,510. Table 310.16: 8 AWG copper carries 40 A at 60 C,
// 6 AWG 55 A; a device of 30 A asks for 10 AWG by 240.4(D).
func TestSizesAreNamedAsTheyAreBought(t *testing.T) {
	w := profile(t, "nec-2023").Wires
	for times, want := range map[float64]string{1: "12 AWG", 1.06: "10 AWG", 1.6: "8 AWG"} {
		size, ok := w.Enlarged("12 AWG", times)
		require.True(t, ok)
		require.Equal(t, want, size)
	}
	_, ok := w.Enlarged("12 AWG", 1000)
	require.False(t, ok, "none is made so large")
	for device, want := range map[units.Current]string{50: "6 AWG copper carries 55 A at 60 C terminations", 30: "10 AWG copper carries 30 A at 60 C terminations", 125: "1 AWG copper carries 130 A at 75 C terminations"} {
		size, ok := w.Carrying("", device, device)
		require.True(t, ok)
		require.Equal(t, want, size)
	}
	_, ok = w.Carrying("copper", 5000, 5000)
	require.False(t, ok)
}

func TestRemediesNameTheConductor(t *testing.T) {
	f := codes.NewFacts("circuits.LP1-1", "circuit LP1-1")
	codes.Put(f, codes.Profiled, profile(t, "nec-2023"))
	codes.Put(f, codes.WireSize, "12 AWG")
	codes.Put(f, codes.BreakerAmps, 50*units.Ampere)
	require.Equal(t, "a conductor that a device of 50 A may protect (6 AWG copper carries 55 A at 60 C terminations)", checks.ConductorFor(f))
	require.Equal(t, "take 6 % of its load off it, or have a licensed electrician run a conductor of 1.06 times the area (10 AWG), or a run shorter by 6 %", checks.VoltageDrop(f, 0.0318, 0.03).Remedy)
	f.Forget(codes.WireSize)
	require.Equal(t, "take 6 % of its load off it, or have a licensed electrician run a conductor of 1.06 times the area, or a run shorter by 6 %", checks.VoltageDrop(f, 0.0318, 0.03).Remedy)
}
