package cec

import (
	"embed"
	"fmt"
	"strings"

	"branchwork/codes"
	"branchwork/loads/clock"
	"branchwork/loads/units"
)

//go:embed *.toml
var files embed.FS

// readTables reads the embedded tables. Broken data is our own fault and stops
// the program before anything rests on it.
func readTables() []codes.Table {
	return must(codes.ReadTables(files))
}

// spans reads the table of the continuous test: hours in hours, by load.
func spans(t codes.Table) []codes.Span {
	var out []codes.Span
	for _, r := range t.Rows {
		s := codes.Span{Most: hours(r.Values[0]), Within: hours(r.Values[1])}
		if upTo, bounded := strings.CutPrefix(r.Key, "up to "); bounded {
			s.UpTo = must(units.Parse[units.Current](upTo))
		}
		out = append(out, s)
	}
	return out
}

func hours(h float64) clock.Minute { return clock.Minute(h * float64(clock.Hour)) }

// insulations reads the table of conductor types.
func insulations(t codes.Table) []codes.Insulation {
	var out []codes.Insulation
	for _, r := range t.Rows {
		cell := func(column string) string { return r.Text[t.Column(column)] }
		out = append(out, codes.Insulation{Name: r.Key, Wet: cell("wet") == "yes", Rating: must(units.Parse[units.Temperature](cell("rating")))})
	}
	return out
}

// receptacles reads the table of receptacle configurations.
func receptacles(t codes.Table) []codes.Receptacle {
	var out []codes.Receptacle
	for _, r := range t.Rows {
		cell := func(column string) string { return r.Text[t.Column(column)] }
		x := codes.Receptacle{Name: r.Key, Neutral: cell("neutral") == "yes", How: r.How, Phases: 1,
			Locking: strings.HasPrefix(r.Key, "L"), OwnPlug: strings.HasSuffix(r.Key, "RA")}
		x.Amps = must(units.Parse[units.Current](cell("rating")))
		x.Volts = must(units.Parse[units.Voltage](cell("voltage")))
		for _, v := range strings.Split(cell("on"), ",") {
			x.On = append(x.On, must(units.Parse[units.Voltage](v)))
		}
		if n, err := fmt.Sscan(cell("live"), &x.Poles); n != 1 {
			panic("codes/cec: " + r.Key + ": " + err.Error())
		}
		out = append(out, x)
	}
	return out
}

func must[T any](v T, err error) T {
	if err != nil {
		panic("codes/cec: " + err.Error())
	}
	return v
}
