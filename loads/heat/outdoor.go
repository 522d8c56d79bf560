package heat

import (
	"branchwork/loads/air"
	"branchwork/loads/inventory"
	"branchwork/loads/steps"
	"branchwork/loads/units"
)

// rangeShare is how far below the day's highest temperature each hour from midnight
// on lies, as a share of the daily range.
//
// Source: ASHRAE Fundamentals 2017 ch. 14 table 6, as public design-day programs
// carry it (seen in two, equal).
var rangeShare = [24]float64{
	0.82, 0.88, 0.92, 0.95, 0.98, 1.00, 0.98, 0.91, 0.74, 0.55, 0.38, 0.23,
	0.13, 0.05, 0.00, 0.00, 0.06, 0.14, 0.24, 0.39, 0.50, 0.59, 0.68, 0.75,
}

// dailyRangeF is the daily range of temperature taken for the summer design day. It
// is a small one, so that a room lit by night does not count on cool nights. Common
// practice, no source.
const dailyRangeF = 15

// Air of a conditioned building around a room. Common practice, no source.
const (
	buildingF                    = 75
	buildingHumidity units.Ratio = 0.50
)

// around is the state of the air outside a room's walls in one hour. Either half
// may be unknown.
type around struct {
	temp  units.Known[units.Temperature]
	ratio units.Known[air.HumidityRatio]
}

// surroundings returns the air around the room for every hour of a day.
//
// A room inside a conditioned building has the building around it on every day.
// Otherwise: in summer the design temperature less the share of the daily range, with
// the humidity of its coincident wet bulb all day, at most saturated; in winter the
// design temperature all day, saturated; on the mean day the mean of both.
func (m *model) surroundings(day DayName) [24]around {
	var out [24]around
	switch {
	case m.room.Inside:
		t := units.FromFahrenheit(buildingF)
		a := around{temp: units.Is(t), ratio: ratioAt(t, buildingHumidity, m.pressure)}
		for h := range out {
			out[h] = a
		}
	case day == Summer:
		for h := range out {
			out[h] = m.summerAt(h)
		}
	case day == Winter:
		for h := range out {
			out[h] = m.winter()
		}
	default:
		for h := range out {
			out[h] = m.mean()
		}
	}
	return out
}

func ratioAt(t units.Temperature, rh units.Ratio, p air.Pressure) units.Known[air.HumidityRatio] {
	w, err := air.HumidityOf(t, rh, p)
	if err != nil {
		return units.Unknown[air.HumidityRatio](err.Error())
	}
	return units.Is(w)
}

func (m *model) summerAt(h int) around {
	o := m.inv.Site.Outdoor
	top, ok := o.Summer.Get()
	if !ok {
		return unknownAir("the summer design temperature is not given")
	}
	t := top - units.Temperature(rangeShare[h]*dailyRangeF*5/9)
	a := around{temp: units.Is(t)}
	wet, ok := o.SummerWetBulb.Get()
	if !ok {
		a.ratio = units.Unknown[air.HumidityRatio]("the summer wet bulb is not given")
		return a
	}
	w, err := air.HumidityFromWetBulb(top, wet, m.pressure)
	if err != nil {
		a.ratio = units.Unknown[air.HumidityRatio](err.Error())
		return a
	}
	if full, ok := ratioAt(t, 1, m.pressure).Get(); ok {
		w = min(w, full)
	}
	a.ratio = units.Is(w)
	return a
}

// summerRatio is the humidity of outdoor air on the summer design day.
func summerRatio(s inventory.Site) units.Known[air.HumidityRatio] {
	top, ok1 := s.Outdoor.Summer.Get()
	wet, ok2 := s.Outdoor.SummerWetBulb.Get()
	p, err := air.PressureAt(s.Altitude.Or(0))
	if !ok1 || !ok2 || err != nil {
		return units.Unknown[air.HumidityRatio]("summer dry bulb and wet bulb are not both given")
	}
	w, err := air.HumidityFromWetBulb(top, wet, p)
	if err != nil {
		return units.Unknown[air.HumidityRatio](err.Error())
	}
	return units.Is(w)
}

func (m *model) winter() around {
	t, ok := m.inv.Site.Outdoor.Winter.Get()
	if !ok {
		return unknownAir("the winter design temperature is not given")
	}
	return around{temp: units.Is(t), ratio: ratioAt(t, 1, m.pressure)}
}

func (m *model) mean() around {
	var sumT, sumW float64
	var whyT, whyW string
	for h := range 24 {
		s, w := m.summerAt(h), m.winter()
		for _, a := range []around{s, w} {
			t, ok := a.temp.Get()
			if !ok {
				whyT = a.temp.Why()
			}
			x, ok := a.ratio.Get()
			if !ok {
				whyW = a.ratio.Why()
			}
			sumT, sumW = sumT+float64(t), sumW+float64(x)
		}
	}
	a := around{units.Is(units.Temperature(sumT / 48)), units.Is(air.HumidityRatio(sumW / 48))}
	if whyT != "" {
		a.temp = units.Unknown[units.Temperature](whyT)
	}
	if whyW != "" {
		a.ratio = units.Unknown[air.HumidityRatio](whyW)
	}
	return a
}

func unknownAir(why string) around {
	return around{units.Unknown[units.Temperature](why), units.Unknown[air.HumidityRatio](why)}
}

// groundF is the temperature under a floor where the outdoor design is not known on
// both sides. Common practice, no source: near the year's mean air temperature.
const groundF = 55

// ground is the temperature under the floor.
func (m *model) ground() units.Temperature {
	if m.room.Inside {
		return units.FromFahrenheit(buildingF)
	}
	if t, ok := m.mean().temp.Get(); ok {
		return t
	}
	return units.FromFahrenheit(groundF)
}

// assumeSurroundings lists what the air around is taken to be, once it matters.
func (m *model) assumeSurroundings() {
	if m.room.Inside {
		m.assume("inside", fahrenheit(units.FromFahrenheit(buildingF))+" and "+units.Round(100*float64(buildingHumidity), 0)+" % humidity around the room", "the air of the building around it is not given", steps.CommonPractice)
		return
	}
	o := m.inv.Site.Outdoor
	if o.Summer.Known() {
		m.assumeOf("site.outdoor.range", units.Round(dailyRangeF, 1)+" F", "the daily range in summer is not given; a small one is taken, which counts on no cool nights",
			steps.Cite{Ref: "ashrae-fundamentals", Edition: "2017", At: "ch. 14 table 6", How: steps.Seen})
	}
	if o.Winter.Known() {
		m.assumeOf("site.outdoor.winter_humidity", "saturated", "the humidity of winter air is not given; saturated carries off the least water", steps.CommonPractice)
	}
	if o.Summer.Known() && o.Winter.Known() {
		m.assumeOf("site.outdoor.mean", "mean of the two design days", "the year's mean is not given; it serves energy, not sizes", steps.CommonPractice)
	}
}
