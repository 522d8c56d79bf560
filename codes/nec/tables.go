package nec

import (
	"embed"
	"fmt"
	"strings"

	"branchwork/codes"
	"branchwork/loads/units"
)

//go:embed *.toml
var files embed.FS

// readTables reads the embedded tables. Broken data is our own fault and stops
// the program before anything rests on it.
func readTables() []codes.Table {
	tables, err := codes.ReadTables(files)
	if err != nil {
		panic("codes/nec: " + err.Error())
	}
	return tables
}

// receptacles reads the table of receptacle configurations.
func receptacles(t codes.Table) []codes.Receptacle {
	var out []codes.Receptacle
	for _, r := range t.Rows {
		cell := func(column string) string { return r.Text[t.Column(column)] }
		x := codes.Receptacle{Name: r.Key, Neutral: cell("neutral") == "yes", How: r.How,
			Locking: strings.HasPrefix(r.Key, "NEMA L")}
		x.Amps = must(units.Parse[units.Current](cell("rating")))
		x.Volts = must(units.Parse[units.Voltage](cell("voltage")))
		for _, v := range strings.Split(cell("on"), ",") {
			x.On = append(x.On, must(units.Parse[units.Voltage](v)))
		}
		if n, err := fmt.Sscan(cell("phases")+" "+cell("live"), &x.Phases, &x.Poles); n != 2 {
			panic("codes/nec: receptacles: " + r.Key + ": " + err.Error())
		}
		out = append(out, x)
	}
	return out
}

func must[T any](v T, err error) T {
	if err != nil {
		panic("codes/nec: receptacles: " + err.Error())
	}
	return v
}
