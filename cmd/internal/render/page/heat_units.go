package page

import "branchwork/loads/units"

func (s System) temperatureUnit() string {
	if s.Metric {
		return "°C"
	}
	return "°F"
}

// temperature takes degrees Celsius, as a document holds them.
func (s System) temperature(c float64) Cell {
	if s.Metric {
		return number(c, 1)
	}
	return number(units.Temperature(c).Fahrenheit(), 1)
}

func (s System) maybeTemperature(c *float64) Cell {
	if c == nil {
		return text(Unknown)
	}
	return s.temperature(*c)
}

func (s System) temperatureText(c *float64) string {
	if c == nil {
		return "not given"
	}
	if s.Metric {
		return amount(*c, 1, s.temperatureUnit())
	}
	return amount(units.Temperature(*c).Fahrenheit(), 1, s.temperatureUnit())
}

// moisture is a humidity ratio in the unit that tables are entered by.
func (s System) moisture(ratio *float64) Cell {
	if ratio == nil {
		return text(Unknown)
	}
	if s.Metric {
		return number(*ratio*1000, 1)
	}
	return number(*ratio*7000, 0)
}

func (s System) moistureUnit() string {
	if s.Metric {
		return "g/kg"
	}
	return "grains/lb"
}

func (s System) areaUnit() string {
	if s.Metric {
		return "m2"
	}
	return "ft2"
}

func (s System) area(ft2 *float64) Cell {
	if ft2 != nil && s.Metric {
		return number(units.Area(*ft2).SquareMetres(), 1)
	}
	return maybe(ft2, 0)
}

func (s System) areaText(ft2 *float64) string {
	if ft2 == nil {
		return "not given"
	}
	return s.area(ft2).Shown() + " " + s.areaUnit()
}

// waterText prints pints a day.
func (s System) waterText(pints float64) string {
	return s.water(&pints).Shown() + " " + s.waterUnit()
}

// wateringText prints gallons a day.
func (s System) wateringText(gallons float64) string {
	if s.Metric {
		return amount(gallons*units.LitrePerGallon, 0, "L/day")
	}
	return amount(gallons, 1, "gal/day")
}

// volume is an amount of water given in pints.
func (s System) volume(pints float64) Cell {
	if s.Metric {
		return number(pints*units.LitrePerPint, 0)
	}
	return number(pints, 0)
}

func (s System) volumeUnit() string {
	if s.Metric {
		return "L"
	}
	return "pint"
}

// in returns the cell and the unit of a figure that carries its unit as text.
func (s System) in(x *float64, unit string) (Cell, string) {
	switch unit {
	case "BTU/h":
		if x == nil {
			return text(Unknown), s.heatUnit()
		}
		return s.heat(*x), s.heatUnit()
	case "pint/day":
		return s.water(x), s.waterUnit()
	case "CFM":
		return s.air(x), s.airUnit()
	}
	return maybe(x, 2), unit
}

// perArea is a figure of the light check: per square foot in the document.
func (s System) perArea(x float64, unit string) (float64, string) {
	if s.Metric && unit == "W/ft²" {
		return x / units.Area(1).SquareMetres(), "W/m²"
	}
	return x, unit
}

// inText is a figure with its unit, for a sentence.
func (s System) inText(x *float64, unit string) string {
	c, u := s.in(x, unit)
	return c.Shown() + " " + u
}
