package codes

import (
	"branchwork/loads/steps"
	"branchwork/loads/units"
)

// FullLoadCurrent returns a motor's full-load current from the tables, by rated
// output, nominal voltage and phases. Between two rows the next larger rating's
// current is taken; beyond the table there is none.
func (p *Profile) FullLoadCurrent(hp units.Horsepower, v units.Voltage, phases int) (units.Current, steps.Cite, bool) {
	m, edition := p.Motors, p.Edition
	t := m.One
	if phases == 3 {
		t = m.Three
	}
	for i, c := range t.Columns {
		volts, err := keyNumber(c)
		if err != nil || !units.SameNominal(units.Voltage(volts), v) {
			continue
		}
		// The 200 V column would also answer to 208 V; the exact one is preferred.
		if exact := t.Column(units.Round(float64(v), 0) + " V"); exact >= 0 {
			i = exact
		}
		for _, r := range t.Rows {
			rated, err := keyNumber(r.Key)
			if err == nil && !units.Exceeds(hp, units.Horsepower(rated)) && r.Values[i] == r.Values[i] {
				return units.Current(r.Values[i]), t.Cite(edition, r.How), true
			}
		}
		return 0, steps.Cite{}, false
	}
	return 0, steps.Cite{}, false
}
