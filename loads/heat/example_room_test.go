package heat

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"branchwork/loads"
	"branchwork/loads/air"
	"branchwork/loads/clock"
	"branchwork/loads/inventory"
	"branchwork/loads/units"
)

// A worked room, by hand: lights 7,800 W from 06:00 to 18:00, fans 300 W all day,
// 60 L/day given off, three quarters of it while lit, heat of evaporation 2.4535 MJ/kg,
// walls of 60 BTU/(h·°F) to 75 °F, 78 °F lit and 70 °F dark.
//
// The room is inside the package because the share of water by day and the heat of
// evaporation are the example's, not the program's.
func workedRoom(t *testing.T, dryers ...inventory.Item) *model {
	t.Helper()
	lights, err := clock.Parse("06:00-18:00")
	require.NoError(t, err)
	inv := &inventory.Inventory{
		Rooms: []inventory.Room{{Name: "flower", Inside: true, Lights: units.Is(lights), AirChanges: units.Is(0.0),
			Length: units.Is(20 * units.Foot), Width: units.Is(20 * units.Foot), Height: units.Is(10 * units.Foot),
			Climate: inventory.Climate{LightsOn: units.Is(units.FromFahrenheit(78)), LightsOff: units.Is(units.FromFahrenheit(70))},
			Walls:   inventory.Surface{Area: units.Is(600 * units.SquareFoot), U: units.Is(units.Transmittance(0.1))}}},
		Items: append([]inventory.Item{
			{Table: inventory.Fixtures, Name: "bar", Room: "flower", Count: 12, Power: units.Is(650 * units.Watt)},
			{Table: inventory.Fans, Name: "swing", Room: "flower", Count: 6, Power: units.Is(50 * units.Watt), Hours: units.Is(clock.Always())},
		}, dryers...),
	}
	m := newModel(inv, inv.Rooms[0], loads.Build(inv, loads.CodeValues{}))
	m.on.latent, m.off.latent = air.Latent(2.4535e6), air.Latent(2.4535e6)
	m.split(60, 0.75)
	return m
}

func hourOf(m *model, h int) Hour { return m.day(Summer, asItIs()).Hours[h] }

// Tolerance half a BTU/h throughout. Wrong formulas that a figure would catch: vapour
// added on top of the lamps (total 36,179); 970 BTU/lb for the heat of evaporation
// (latent 8,019); the thermochemical BTU (electric 27,657); walls with the sign of the
// room warmer than they are (+180).
func TestWorkedRoomLit(t *testing.T) {
	h := hourOf(workedRoom(t), 12)
	check(t, "electric", 27638, h.Electric.Heat())
	check(t, "latent", 8721, h.Latent)
	check(t, "walls", -180, h.Part(Envelope).Total())
	check(t, "sensible", 18738, h.Sensible)
	check(t, "total", 27458, h.Total())
	assert.InDelta(t, 2.288, h.Total().Tons(), 0.0005)
	ratio, ok := h.Ratio().Get()
	require.True(t, ok)
	assert.InDelta(t, 0.682, float64(ratio), 0.0005)
}

// Dark: less heat than the water takes up. The need for heating is not clipped away.
func TestWorkedRoomDark(t *testing.T) {
	h := hourOf(workedRoom(t), 0)
	check(t, "electric", 1024, h.Electric.Heat())
	check(t, "latent", 2907, h.Latent)
	check(t, "walls", 300, h.Part(Envelope).Total())
	check(t, "sensible", -1583, h.Sensible)
	check(t, "total", 1324, h.Total())
}

// A dehumidifier of 2 L/kWh that can take all of the lit water, 90 L/day at 1,875 W.
// Dark it runs a third of the time. Wrong formulas caught: condensing heat forgotten
// (lit sensible 25,135); its watts counted in full while dark (625 W).
func TestWorkedRoomWithItsDehumidifier(t *testing.T) {
	m := workedRoom(t, inventory.Item{Table: inventory.Equipment, Name: "dry", Kind: inventory.Dehumidifier, Room: "flower", Count: 1,
		Power: units.Is(1875 * units.Watt), Removes: units.Is(units.WaterRate(90)), Hours: units.Is(clock.Always())})
	lit, dark := hourOf(m, 12), hourOf(m, 0)
	check(t, "lit, sensible", 33856, lit.Sensible)
	check(t, "lit, latent", 0, lit.Latent)
	assert.InDelta(t, 2.821, lit.Total().Tons(), 0.0005)
	assert.InDelta(t, 300+625, float64(dark.Electric), 1e-6)
	check(t, "dark, sensible", 3456, dark.Sensible)
	check(t, "dark, latent", 0, dark.Latent)
	assert.InDelta(t, 30, float64(dark.Removed), 1e-9, "1.25 L/h, as a daily rate")
}

func check(t *testing.T, what string, want float64, got units.Heat) {
	t.Helper()
	assert.InDelta(t, want, got.BTUPerHour(), 0.5, what)
}

// A coil, by hand: 1,000 CFM of 78 °F and 55 % cooled to saturation at 55 °F, 14.696
// psia; condensate enthalpy neglected. Dry air 4,347.8 lb/h; total 34,240, sensible
// 24,408, latent 9,832 BTU/h; 8.974 lb/h of water. The shortcuts on actual CFM: 24,840
// dry with 1.08, 9,990 as vapour with 4,840; 35,439 with 4.5·Δh, 3.5 % high.
func TestWorkedCoil(t *testing.T) {
	in, out := units.FromFahrenheit(78), units.FromFahrenheit(55)
	p := air.FromPSI(14.696)
	w1, err := air.HumidityOf(in, 0.55, p)
	require.NoError(t, err)
	w2, err := air.HumidityOf(out, 1, p)
	require.NoError(t, err)
	const flow = 1000 * units.CFM
	pounds := 60 * float64(flow) / air.VolumeIP(in, w1, p)
	assert.InDelta(t, 4347.8, pounds, 0.05)
	total := pounds * (air.EnthalpyIP(in, w1) - air.EnthalpyIP(out, w2))
	sensible := pounds * (air.EnthalpyIP(in, w2) - air.EnthalpyIP(out, w2))
	assert.InDelta(t, 34240, total, 0.6)
	assert.InDelta(t, 24408, sensible, 0.6)
	assert.InDelta(t, 9832, total-sensible, 0.6)
	water := air.DryAir(flow, air.VolumeOf(in, w1, p)).Carries(w1 - w2)
	assert.InDelta(t, 8.974, float64(water)/24/units.KilogramPerPound, 0.001)
	// The SI equations on the same coil: within what their rounding apart allows.
	si := float64(air.DryAir(flow, air.VolumeOf(in, w1, p))) * float64(air.EnthalpyOf(in, w1)-air.EnthalpyOf(out, w2))
	assert.InEpsilon(t, total, units.Heat(si).BTUPerHour(), 1.5e-3)

	check(t, "1.08", 24840, SensibleOfAir(flow, rise(in, out), 1))
	check(t, "4840", 9990, LatentOfAir(flow, w1-w2, 1))
	assert.InDelta(t, 35439, 4.5*1000*(air.EnthalpyIP(in, w1)-air.EnthalpyIP(out, w2)), 1)
}
