package conductor

import (
	"fmt"
	"math"
	"math/cmplx"

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

// Drop returns the voltage lost along a run with loads tapped off it: how much
// less the voltage is at the last load than at the source.
//
//	Vd = V − √((V − Vp)² + Vq²)
//	Vp = k · Σ (R · Ipi + X · Iqi) · di / 1,000    along the supply's voltage
//	Vq = k · Σ (X · Ipi − R · Iqi) · di / 1,000    across it
//	k = 2 for two wires, √3 for three phases with balanced loads, line to line
//
// di is the one-way distance from the source to load i in feet, R and X are ohms
// per 1,000 ft of one conductor. Ipi and Iqi are the parts of load i's current in
// phase with the supply's voltage and lagging it by a right angle; the current
// lags the load's own voltage by the angle of its power factor. Its size is
// VA / V at the supply's nominal voltage, or at the load's own voltage for loads
// of constant power, found by repeated substitution (a fixed point).
//
// A length that is not known makes the drop unknown. Currents are operating
// currents: the allowance for continuous load is not part of them.
//
// R · cos θ + X · sin θ alone, the approximation of Chapter 9 Table 9 note 2 and
// UFC 3-520-01 appendix B-2 (references "ufc-vd"), is Vp; it leaves Vq out and
// understates the drop, by 1 % of the supply voltage on 500 kcmil at a drop of 10 %.
//
// Source: Ohm's law with phasors, derived. Checked by testdata/published/drop.toml
// and, run by run, with circuit simulations in spice_test.go.
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

// dropOf returns the drop of a candidate on the request's run, on the worst where
// there are several.
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
	worst, most := q.Run, units.Ratio(-1)
	var compared []Run
	if len(q.Also) > 0 {
		compared = append(append(compared, q.Run), q.Also...)
	}
	for _, r := range compared {
		fall, err := Drop(r, q.Volts, q.Phases, line, nil)
		if err != nil {
			return units.Unknown[Fall](err.Error())
		}
		if f, ok := fall.Get(); ok && f.Share > most {
			worst, most = r, f.Share
		}
	}
	fall, err := Drop(worst, q.Volts, q.Phases, line, w)
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
	v := make([]complex128, len(l.loads))
	for i := range v {
		v[i] = complex(l.volts, 0)
	}
	for round := 1; round <= rounds; round++ {
		next := l.voltages(l.currents(v))
		change := 0.0
		for i := range v {
			change = max(change, cmplx.Abs(next[i]-v[i]))
		}
		v = next
		if !(cmplx.Abs(v[len(v)-1]) > collapse*l.volts) { // also where it is not a number
			break
		}
		if change < settled {
			return l.record(r, v, w)
		}
	}
	fall := Fall{Volts: units.Voltage(l.volts), Share: 1, NoSteady: true}
	s := steps.Result("voltage drop", "V", fall.Volts, "V", steps.Cite{}, steps.In("V", l.volts, "V"))
	s.Note = fmt.Sprintf("no steady state: below %.0f %% of the supply voltage the loads ask for more power than the run carries", 100*collapse)
	w.Add(s)
	return fall
}

// currents returns each load's current with those voltages at the loads, as
// phasors against the supply's voltage.
func (l ladder) currents(v []complex128) []complex128 {
	out := make([]complex128, len(v))
	for i, t := range l.loads {
		at := l.volts
		if t.ConstantPower {
			at = cmplx.Abs(v[i])
		}
		out[i] = cmplx.Rect(l.current(i, at), cmplx.Phase(v[i])-math.Acos(float64(t.PF)))
	}
	return out
}

// voltages returns the voltage at each load with those currents, walking down
// the run with what the segments still carry.
func (l ladder) voltages(i []complex128) []complex128 {
	var carried complex128
	for _, x := range i {
		carried += x
	}
	z := complex(l.k()*float64(l.line.R)/1000, l.k()*float64(l.line.X)/1000)
	v, at, from := make([]complex128, len(i)), complex(l.volts, 0), 0.0
	for k := range i {
		at -= complex(l.d[k]-from, 0) * z * carried
		v[k], from = at, l.d[k]
		carried -= i[k]
	}
	return v
}
