package conductor

import (
	"fmt"
	"math"

	"branchwork/loads/steps"
	"branchwork/loads/units"
)

const (
	// settled is where the search for the currents of constant-power loads
	// stops: a change of voltage below it, in volts.
	settled = 1e-9
	// rounds is the most substitutions; the search converges by a factor of
	// about the voltage drop's share each round, so 3 % takes 8.
	rounds = 200
	// collapse is the share of the supply voltage below which a load's voltage
	// is taken to have no steady state. A run at its limit of power ends at half.
	collapse = 0.5
)

// Drop returns the voltage lost along a run with loads tapped off it.
//
//	two wires     Vd = 2 · Σ Ii · di · (R · pf + X · √(1 − pf²)) / 1,000
//	three phases  Vd = √3 · the same, balanced loads, line to line
//
// di is the one-way distance from the source to load i in feet, R and X are ohms
// per 1,000 ft of one conductor. Ii is VA / V at the supply's nominal voltage, or
// at the load's own voltage for loads of constant power, found by repeated
// substitution (a fixed point). For n equal loads of constant current, L0 to the
// first and s apart, Σ I · d = n · I · (L0 + s · (n − 1) / 2).
//
// A length that is not known makes the drop unknown. Currents are operating
// currents: the allowance for continuous load is not part of them.
//
// Exact at unity power factor. At others the formula leaves out the part of the
// drop at right angles to the voltage: within 0.1 % of the supply voltage for
// drops up to 10 %, tested against the phasor solution.
//
// Source: R · cos θ + X · sin θ, Chapter 9 Table 9 note 2 and UFC 3-520-01
// appendix B-2 (references "ufc-vd"). Checked by testdata/published/drop.toml.
func Drop(r Run, volts units.Voltage, phases int, line Line, w *steps.Work) (units.Known[Fall], error) {
	if err := r.check(volts, phases); err != nil {
		return units.Unknown[Fall](err.Error()), err
	}
	d, why := r.distances()
	if why != "" {
		return units.Unknown[Fall](why), nil
	}
	l := ladder{loads: r.Loads, d: d, volts: float64(volts), phases: phases, line: line}
	return units.Is(l.solve(r, w)), nil
}

// dropOf returns the drop of a candidate on the request's run.
func (q question) dropOf(c candidate, w *steps.Work) units.Known[Fall] {
	if len(q.Run.Loads) == 0 {
		return units.Unknown[Fall]("no loads are placed along the run")
	}
	if _, why := q.Run.distances(); why != "" {
		return units.Unknown[Fall](why)
	}
	line, err := LineOf(q.p.Wires, q.Material, q.Raceway, c.size, c.sets, w)
	if err != nil {
		return units.Unknown[Fall](err.Error())
	}
	fall, err := Drop(q.Run, q.Volts, q.Phases, line, w)
	if err != nil {
		return units.Unknown[Fall](err.Error())
	}
	return fall
}

// ladder is a run with numbers: d in feet, volts between conductors.
type ladder struct {
	loads  []Tap
	d      []float64
	volts  float64
	phases int
	line   Line
}

// k is how many conductors' drops add up between two conductors.
func (l ladder) k() float64 {
	if l.phases == 3 {
		return math.Sqrt(3)
	}
	return 2
}

// current returns a load's line current at a voltage.
func (l ladder) current(i int, v float64) float64 {
	if l.phases == 3 {
		v *= math.Sqrt(3)
	}
	return float64(l.loads[i].VA) / v
}

// solve finds the voltage at each load by repeated substitution.
func (l ladder) solve(r Run, w *steps.Work) Fall {
	n := len(l.loads)
	v := make([]float64, n)
	for i := range v {
		v[i] = l.volts
	}
	for round := 1; round <= rounds; round++ {
		next := l.voltages(l.currents(v))
		change := 0.0
		for i := range v {
			change = max(change, math.Abs(next[i]-v[i]))
		}
		v = next
		if !(v[n-1] > collapse*l.volts) { // also where it is not a number
			break
		}
		if change < settled {
			return l.record(r, v, w)
		}
	}
	fall := Fall{Volts: units.Voltage(l.volts), Share: 1, NoSteady: true}
	s := steps.Result("voltage drop", "V", fall.Volts, "V", l.line.Cite, steps.In("V", l.volts, "V"))
	s.Note = fmt.Sprintf("no steady state: below %.0f %% of the supply voltage the loads ask for more power than the run carries", 100*collapse)
	w.Add(s)
	return fall
}

// currents returns each load's current with those voltages at the loads.
func (l ladder) currents(v []float64) []float64 {
	out := make([]float64, len(v))
	for i, t := range l.loads {
		out[i] = l.current(i, l.volts)
		if t.ConstantPower {
			out[i] = l.current(i, v[i])
		}
	}
	return out
}

// voltages returns the voltage at each load with those currents, walking down
// the run with what the segments still carry.
func (l ladder) voltages(i []float64) []float64 {
	var inPhase, quadrature float64
	for k := range i {
		inPhase += i[k] * l.pf(k)
		quadrature += i[k] * l.sin(k)
	}
	v, at, from := make([]float64, len(i)), l.volts, 0.0
	for k := range i {
		at -= l.k() * (l.d[k] - from) / 1000 * (float64(l.line.R)*inPhase + float64(l.line.X)*quadrature)
		v[k], from = at, l.d[k]
		inPhase -= i[k] * l.pf(k)
		quadrature -= i[k] * l.sin(k)
	}
	return v
}

func (l ladder) pf(i int) float64 { return float64(l.loads[i].PF) }

// sin returns sin θ of a lagging power factor.
func (l ladder) sin(i int) float64 { return math.Sqrt(max(0, 1-l.pf(i)*l.pf(i))) }
