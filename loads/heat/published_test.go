package heat_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	compare "branchwork/codes/outside"
	"branchwork/codes/published"
	"branchwork/loads"
	"branchwork/loads/air"
	"branchwork/loads/clock"
	"branchwork/loads/heat"
	"branchwork/loads/inventory"
	"branchwork/loads/units"
)

// TestPublishedExamplesOfHeat works every row of testdata/published/heat.toml.
func TestPublishedExamplesOfHeat(t *testing.T) {
	list := compare.Cases(t, "heat.toml")
	require.Equal(t, 88, len(list), "rows lost or added without being counted")
	for _, c := range list {
		t.Run(c.ID, func(t *testing.T) {
			q := question{t, c.Case}
			have := q.answer()
			asked := 0
			for key, got := range have {
				if c.Want.Has(key) {
					c.Number(t, key, got)
					asked++
				}
			}
			assert.Positive(t, asked, "nothing was compared")
			assert.Empty(t, c.Unread())
		})
	}
}

// question reads the inputs of a row.
type question struct {
	t *testing.T
	c published.Case
}

func (q question) number(key string) float64 {
	x, err := q.c.In.Number(key)
	require.NoError(q.t, err)
	return x
}

func (q question) text(key string) string {
	x, err := published.Get[string](q.c.In, key)
	require.NoError(q.t, err)
	return x
}

func quantity[T units.Quantity](q question, key string) T {
	x, err := published.Quantity[T](q.c.In, key)
	require.NoError(q.t, err)
	return x
}

func (q question) pressure() air.Pressure {
	if !q.c.In.Has("z") {
		return air.SeaLevel
	}
	p, err := air.PressureAt(quantity[units.Length](q, "z"))
	require.NoError(q.t, err)
	return p
}

func (q question) humidity(p air.Pressure) air.HumidityRatio {
	w, err := air.HumidityOf(quantity[units.Temperature](q, "t"), units.Ratio(q.number("rh")), p)
	require.NoError(q.t, err)
	return w
}

func (q question) vapour() air.Pressure {
	pw, err := air.VapourPressure(quantity[units.Temperature](q, "t"), units.Ratio(q.number("rh")))
	require.NoError(q.t, err)
	return pw
}

// mass is the dry air of a flow at a published specific volume, in kg/s.
func (q question) mass() air.MassFlow {
	return air.DryAir(quantity[units.Airflow](q, "flow"), air.Volume(q.number("v")))
}

func btu(h units.Heat) map[string]float64 {
	return map[string]float64{"btu": h.BTUPerHour(), "watts": float64(h), "kw": float64(h) / 1000, "tons": h.Tons()}
}

func (q question) answer() map[string]float64 {
	t := q.t
	switch of := q.text("of"); of {
	case "power":
		return btu(quantity[units.Power](q, "power").Heat())
	case "fan":
		return btu(fanHeat(quantity[units.Power](q, "power"), units.Ratio(q.number("duct"))))
	case "air-sensible":
		return btu(heat.SensibleOfAir(quantity[units.Airflow](q, "flow"), quantity[units.TempDiff](q, "rise"), q.pressure().AgainstSeaLevel()))
	case "air-latent":
		return btu(heat.LatentOfAir(quantity[units.Airflow](q, "flow"), air.HumidityRatio(q.number("dw")), q.pressure().AgainstSeaLevel()))
	case "air-changes":
		v := heat.AirChange(q.number("changes"), quantity[units.Length](q, "length"), quantity[units.Length](q, "width"), quantity[units.Length](q, "height"))
		return btu(heat.SensibleOfAir(v, quantity[units.TempDiff](q, "rise"), 1))
	case "wall":
		return btu(heat.Conduction(units.Transmittance(1/q.number("r")), quantity[units.Area](q, "area"), quantity[units.TempDiff](q, "rise")))
	case "surface":
		return btu(heat.Conduction(quantity[units.Transmittance](q, "u"), quantity[units.Area](q, "area"), quantity[units.TempDiff](q, "rise")))
	case "coil":
		return btu(units.Heat(float64(q.mass()) * q.number("dh") * 1000))
	case "drying":
		return map[string]float64{"kgh": float64(q.mass().Carries(air.HumidityRatio(q.number("dw")))) / 24}
	case "heating", "cooling":
		return q.stateChange(of == "cooling")
	case "pressure":
		return map[string]float64{"kpa": float64(q.pressure()) / 1000}
	case "vapour":
		return map[string]float64{"kpa": float64(q.vapour()) / 1000}
	case "humidity":
		return map[string]float64{"ratio": float64(q.humidity(air.Pressure(q.number("kpa")) * air.Kilopascal))}
	case "grains":
		return map[string]float64{"grains": q.humidity(air.SeaLevel).Grains()}
	case "enthalpy":
		return map[string]float64{"btulb": air.EnthalpyIP(quantity[units.Temperature](q, "t"), air.HumidityRatio(q.number("w")))}
	case "humidifying":
		w, w2 := air.HumidityRatio(q.number("w")), air.HumidityRatio(q.number("w2"))
		rise := air.EnthalpyIP(quantity[units.Temperature](q, "to"), w2) - air.EnthalpyIP(quantity[units.Temperature](q, "t"), w)
		liquid := quantity[units.Temperature](q, "water").Fahrenheit() - 32 // BTU/lb of liquid water above 32 °F
		return map[string]float64{"btulb": rise - float64(w2-w)*liquid}
	case "leaf":
		return map[string]float64{"wm2": q.leaf()}
	case "reference":
		return map[string]float64{"mmh": q.reference()}
	case "water", "ton-of-water":
		latent, err := air.LatentHeat(quantity[units.Temperature](q, "t"))
		require.NoError(t, err)
		if of == "water" {
			return btu(latent.Of(quantity[units.WaterRate](q, "rate")))
		}
		return map[string]float64{"pints": latent.Water(units.FromTons(1)).PintsPerDay()}
	case "dryer":
		c := quantity[units.WaterRate](q, "removes")
		p := units.Power(float64(c) / q.number("factor") / 24 * 1000)
		g := heat.DryerGain(p, c, air.Latent(q.number("latent")))
		return map[string]float64{"watts": float64(p), "btu": g.Sensible.BTUPerHour(), "net": g.Total().BTUPerHour()}
	case "burner":
		fuel := heat.NaturalGas()
		if q.text("fuel") == "propane" {
			fuel = heat.Propane()
		}
		g := heat.BurnerGain(quantity[units.Heat](q, "burns"), fuel)
		return map[string]float64{"btu": g.Sensible.BTUPerHour(), "vapour": g.Latent.BTUPerHour()}
	case "person":
		g := heat.PersonGain(quantity[units.Temperature](q, "t"))
		return map[string]float64{"watts": float64(g.Sensible), "vapour_watts": float64(g.Latent)}
	case "ventilation":
		v, ok := heat.AirflowFor(quantity[units.Power](q, "power").Heat(), quantity[units.TempDiff](q, "fall"), q.pressure().AgainstSeaLevel())
		require.True(t, ok)
		return map[string]float64{"cfm": float64(v)}
	case "eer":
		return map[string]float64{"kw": float64(heat.CoolingPower(quantity[units.Heat](q, "cooling"), q.number("eer"))) / 1000}
	case "ppfd":
		return map[string]float64{"ppfd": heat.MeanPPFD(quantity[units.Photons](q, "photons"), 1, quantity[units.Area](q, "area"))}
	case "derate":
		total, sensible, err := heat.Derating(quantity[units.Length](q, "z"))
		require.NoError(t, err)
		return map[string]float64{"total": float64(total), "sensible": float64(sensible)}
	default:
		t.Fatalf("no question %q", of)
		return nil
	}
}

// stateChange heats air at constant humidity, or cools it to saturation and lets the
// water run off at its published enthalpy (kJ/kg).
func (q question) stateChange(drains bool) map[string]float64 {
	a, b := quantity[units.Temperature](q, "t"), quantity[units.Temperature](q, "to")
	w := q.humidity(air.SeaLevel)
	m := float64(air.DryAir(quantity[units.Airflow](q, "flow"), air.VolumeOf(a, w, air.SeaLevel)))
	if !drains {
		return btu(units.Heat(m * float64(air.EnthalpyOf(b, w)-air.EnthalpyOf(a, w))))
	}
	full, err := air.HumidityOf(b, 1, air.SeaLevel)
	require.NoError(q.t, err)
	return btu(units.Heat(m * (float64(air.EnthalpyOf(a, w)-air.EnthalpyOf(b, full)) - float64(w-full)*q.number("water")*1000)))
}

// slope is the slope of the saturation pressure, in Pa/K.
func (q question) slope(at units.Temperature) float64 {
	a, err := air.SaturationPressure(at - 0.005)
	require.NoError(q.t, err)
	b, err := air.SaturationPressure(at + 0.005)
	require.NoError(q.t, err)
	return float64(b-a) / 0.01
}

// leaf is the evaporation of a single leaf layer that also radiates (Stanghellini
// 1987): rR = ρcp/(4σT³), rH = re·rR/(re + rR),
// λE = [Δ·Rn + ρcp·VPD/rH] / [Δ + γ·(re + ri)/rH]. Forgetting rR gives 65 W/m².
func (q question) leaf() float64 {
	const rhoCp, gamma, sigma = 1225.0, 66.0, 5.67e-8
	at := quantity[units.Temperature](q, "t")
	vpd, err := air.Deficit(at, units.Ratio(q.number("rh")))
	require.NoError(q.t, err)
	re, ri := q.number("re"), q.number("ri")
	rR := rhoCp / (4 * sigma * math.Pow(float64(at)+273.15, 3))
	rH := re * rR / (re + rR)
	delta := q.slope(at)
	return (delta*q.number("rn") + rhoCp*float64(vpd)/rH) / (delta + gamma*(re+ri)/rH)
}

// reference is FAO-56's hourly reference evaporation, equation 53, on this package's
// saturation pressure and pressure at altitude.
func (q question) reference() float64 {
	at := quantity[units.Temperature](q, "t")
	vpd, err := air.Deficit(at, units.Ratio(q.number("rh")))
	require.NoError(q.t, err)
	delta := q.slope(at) / 1000
	gamma := 0.665e-3 * float64(q.pressure()) / 1000
	u2 := q.number("u2")
	return (0.408*delta*(q.number("rn")-q.number("g")) + gamma*37/(float64(at)+273)*u2*float64(vpd)/1000) / (delta + gamma*(1+0.34*u2))
}

// fanHeat is the dry heat of one fan in an otherwise empty room.
func fanHeat(p units.Power, duct units.Ratio) units.Heat {
	inv := &inventory.Inventory{
		Rooms: []inventory.Room{{Name: "room", Inside: true}},
		Items: []inventory.Item{{Table: inventory.Fans, Name: "fan", Room: "room", Count: 1, Power: units.Is(p), Duct: units.Is(duct), Hours: units.Is(clock.Always())}},
	}
	room, _ := heat.Balance(inv, loads.Build(inv, loads.CodeValues{})).Room("room")
	return room.Peak.Part(heat.Fans).Sensible
}
