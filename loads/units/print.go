package units

import (
	"strconv"
	"strings"
)

// Round returns x with at most digits decimals and no trailing zeros, thousands
// separated by commas.
func Round(x float64, digits int) string {
	s := strconv.FormatFloat(x, 'f', digits, 64)
	if strings.Contains(s, ".") {
		s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	}
	if s == "-0" {
		s = "0"
	}
	return thousands(s)
}

// Fixed returns x with exactly digits decimals, thousands separated by commas.
func Fixed(x float64, digits int) string {
	return thousands(strconv.FormatFloat(x, 'f', digits, 64))
}

func thousands(s string) string {
	sign := ""
	if strings.HasPrefix(s, "-") {
		sign, s = "-", s[1:]
	}
	whole, frac, dot := strings.Cut(s, ".")
	var b strings.Builder
	for i, c := range whole {
		if i > 0 && (len(whole)-i)%3 == 0 {
			b.WriteByte(',')
		}
		b.WriteRune(c)
	}
	if dot {
		b.WriteString("." + frac)
	}
	return sign + b.String()
}

// trim prints a number with as many digits as it has, up to 6 decimals.
func trim(x float64) string { return Round(x, 6) }

func (p Power) String() string       { return Round(float64(p), 1) + " W" }
func (s Apparent) String() string    { return Round(float64(s), 1) + " VA" }
func (h Horsepower) String() string  { return trim(float64(h)) + " hp" }
func (i Current) String() string     { return Round(float64(i), 2) + " A" }
func (v Voltage) String() string     { return Round(float64(v), 1) + " V" }
func (r Resistance) String() string  { return trim(float64(r)) + " ohm" }
func (l Length) String() string      { return Round(float64(l), 1) + " ft" }
func (a Area) String() string        { return Round(float64(a), 1) + " ft2" }
func (t Temperature) String() string { return Round(float64(t), 1) + " C" }
func (a Airflow) String() string     { return Round(float64(a), 0) + " CFM" }
func (w WaterRate) String() string   { return Round(float64(w), 1) + " L/day" }
func (h Heat) String() string        { return Round(h.BTUPerHour(), 0) + " BTU/h" }
func (r Ratio) String() string       { return Round(float64(r), 3) }

// Against prints an actual value and its limit with as many decimals as it
// takes to see that they differ (16.004 against 16), at least two for the
// actual value.
func Against(actual, limit float64) (string, string) {
	for digits := 2; digits < 9; digits++ {
		a, l := Round(actual, digits), Round(limit, digits)
		if a != l || actual == limit {
			return a, l
		}
	}
	return trim(actual), trim(limit)
}
