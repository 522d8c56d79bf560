package heat

import (
	"branchwork/loads/air"
	"branchwork/loads/steps"
	"branchwork/loads/units"
)

// Set points taken where the file gives none. The temperatures lie within what a
// conference report on grow rooms gave, 72 to 82 °F lit and 66 to 70 °F dark (ACHR News
// 141138, seen). The humidity is common practice, no source.
const (
	defaultOnF                  = 78
	defaultOffF                 = 70
	defaultHumidity units.Ratio = 0.55
)

// Held is the state that a room is held at, for the sheet that an installer reads.
type Held struct {
	Temperature units.Temperature
	Humidity    units.Ratio
	Given       bool // both stand in the file
	Deficit     air.Pressure
	Dew         units.Known[units.Temperature] // a coil warmer than this takes no water
	WetBulb     units.Known[units.Temperature]
	Ratio       units.Known[air.HumidityRatio]
}

// state returns it in full.
func (h held) state(given bool, p air.Pressure) Held {
	out := Held{Temperature: h.temp, Humidity: h.rh, Given: given}
	out.Deficit, _ = air.Deficit(h.temp, h.rh) // its range is that of the humidity ratio, checked there
	pw, err := air.VapourPressure(h.temp, h.rh)
	if err == nil {
		var dew units.Temperature
		if dew, err = air.DewPoint(pw); err == nil {
			out.Dew = units.Is(dew)
		}
	}
	if err != nil {
		out.Dew = units.Unknown[units.Temperature](err.Error())
	}
	out.Ratio, out.WetBulb = ratioAt(h.temp, h.rh, p), units.Unknown[units.Temperature]("the set point is beyond the equations")
	if w, ok := out.Ratio.Get(); ok {
		if wet, err := air.WetBulb(h.temp, w, p); err == nil {
			out.WetBulb = units.Is(wet)
		}
	}
	return out
}

// held is the state that the room is held at while lit or while dark.
type held struct {
	temp   units.Temperature
	rh     units.Ratio
	ratio  air.HumidityRatio
	latent air.Latent // of water at temp
}

// setPoints fills in the state held with lights on and off.
func (m *model) setPoints() {
	c := m.room.Climate
	on, given := c.LightsOn.Get()
	if !given {
		on = units.FromFahrenheit(defaultOnF)
		m.assume("climate.lights_on", fahrenheit(on), "not given; needed for walls, air changes and the heat of evaporation", seen("achr-141138", ""))
	}
	off, given := c.LightsOff.Get()
	if !given {
		off = min(on, units.FromFahrenheit(defaultOffF))
		m.assume("climate.lights_off", fahrenheit(off), "not given; needed for walls, air changes and the heat of evaporation", seen("achr-141138", ""))
	}
	m.on = m.hold("on", on, c.HumidityOn)
	m.off = m.hold("off", off, c.HumidityOff)
}

// fahrenheit writes a temperature as a file does.
func fahrenheit(t units.Temperature) string { return units.Round(t.Fahrenheit(), 1) + " F" }

func (m *model) hold(when string, t units.Temperature, humidity units.Known[units.Ratio]) held {
	h := held{temp: t, rh: humidity.Or(defaultHumidity)}
	if !humidity.Known() && m.exchangesAir() {
		m.assume("climate.humidity_"+when, h.rh.String(), "not given; needed for the water that outside air brings or carries off", steps.CommonPractice)
	}
	latent, err := air.LatentHeat(t)
	if err != nil {
		// Where the equation does not reach, the value of an ordinary room stands in;
		// it only divides heat between sensible and latent, the total does not hang on it.
		latent, _ = air.LatentHeat(25)
		m.note("set point with lights %s: %v; the heat of evaporation at 25 °C is used", when, err)
	}
	h.latent = latent
	m.work.Add(steps.Result("heat of evaporation, lights "+when, "λ = 2.501 − 0.002361 · t", latent.BTUPerPound(), "BTU/lb", air.LatentCite(),
		steps.In("t", t, "°C")))
	ratio, err := air.HumidityOf(t, h.rh, m.pressure)
	if err != nil {
		m.note("set point with lights %s: %v; the water that outside air brings is left out", when, err)
		return h
	}
	h.ratio = ratio
	m.work.Add(steps.Result("humidity ratio of the room, lights "+when, "W = 0.621945 · rh · pws / (p − rh · pws)", ratio, "lb/lb", air.HumidityCite(),
		steps.In("t", t, "°C"), steps.In("rh", h.rh, ""), steps.In("p", m.pressure, "Pa")))
	if vpd, err := air.Deficit(t, h.rh); err == nil {
		m.work.Add(steps.Result("vapour pressure deficit, lights "+when, "pws · (1 − rh)", vpd/air.Kilopascal, "kPa", air.DeficitCite(),
			steps.In("t", t, "°C"), steps.In("rh", h.rh, "")))
	}
	return h
}

// exchangesAir reports whether outside air enters the balance at all.
func (m *model) exchangesAir() bool {
	return m.room.AirChanges.Known() || m.room.Exhaust.Known() || m.defaultAirChanges().Known()
}

// setPressure finds the air pressure of the site.
func (m *model) setPressure() {
	m.pressure = air.SeaLevel
	z, given := m.inv.Site.Altitude.Get()
	if !given {
		m.assumeOf("site.altitude", "0 ft", "not given; thinner air at altitude carries less heat per cubic foot", steps.CommonPractice)
	}
	p, err := air.PressureAt(z)
	if err != nil {
		m.note("%v; air at sea level is taken", err)
		p = air.SeaLevel
	}
	m.pressure, m.against = p, p.AgainstSeaLevel()
	m.work.Add(steps.Result("air pressure at altitude", "101.325 · (1 − 2.25577·10⁻⁵ · Z)^5.2559", p/air.Kilopascal, "kPa", air.PressureCite(),
		steps.In("Z", z.Metres(), "m")))
	m.work.Add(steps.Result("pressure against sea level", "p / p₀", m.against, "", flowCite(), steps.In("p", p, "Pa"), steps.In("p₀", air.SeaLevel, "Pa")))
}
