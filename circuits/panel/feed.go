package panel

import (
	"math"
	"math/cmplx"

	"branchwork/loads/inventory"
	"branchwork/loads/units"
)

// Pull is what pulls the voltage down between two conductors at the end of a
// panel's feeder: there it is V − z · I, with z of one conductor.
type Pull struct {
	Between string        // "A and neutral"
	Volts   units.Voltage // nominal, between the two
	Amps    units.Current
	PF      units.Ratio // lagging; 1 where the current leads
}

// Pulls returns what pulls the voltage down between the pairs of conductors that
// the branches are connected to, in the order of the legs.
//
//	leg x to neutral   I = Ix + In    the leg's current and the neutral's return
//	legs x and y       I = Ix − Iy
//
// On a balanced wye In is zero and both come to one leg's current times the
// impedance of one conductor, as a share of the voltage. A single leg that is
// loaded to neutral counts its current twice. Third harmonics are left out: they
// turn at another frequency. The neutral has the size of the legs.
//
// Source: Ohm's and Kirchhoff's laws with phasors, derived; checked with circuit
// simulations in spice_test.go.
func Pulls(sys inventory.System, branches []Branch) []Pull {
	v := Potentials(sys)
	n := len(v)
	legs, neutral := make([]complex128, n), complex128(0)
	used := map[[2]int]bool{} // the second is n for the neutral
	for _, b := range branches {
		if b.Amps == 0 {
			continue
		}
		f := FlowOf(sys, b)
		for x, j := range f.Legs {
			legs[x] += j
		}
		neutral += f.Neutral
		for i, x := range b.Legs {
			if len(b.Legs) == 1 {
				used[[2]int{x, n}] = true
			}
			for _, y := range b.Legs[i+1:] {
				used[[2]int{min(x, y), max(x, y)}] = true
			}
		}
	}
	var out []Pull
	for x := range n {
		for y := x + 1; y <= n; y++ {
			if !used[[2]int{x, y}] {
				continue
			}
			across, i, name, volts := v[x], legs[x]+neutral, "neutral", sys.LineToNeutral
			if y < n {
				across, i, name, volts = v[x]-v[y], legs[x]-legs[y], letter(y), sys.LineToLine
			}
			if i == 0 {
				continue
			}
			pf := units.Ratio(1)
			if lag := cmplx.Phase(across / i); lag > 0 {
				pf = units.Ratio(math.Max(math.Cos(lag), 1e-3))
			}
			out = append(out, Pull{letter(x) + " and " + name, volts, units.Current(cmplx.Abs(i)), pf})
		}
	}
	return out
}

func letter(leg int) string { return string(rune('A' + leg)) }
