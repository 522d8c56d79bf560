package panel

import (
	"math"
	"math/cmplx"

	"branchwork/loads/inventory"
	"branchwork/loads/units"
)

// Branch is a load on a panel's legs.
type Branch struct {
	Legs   []int // indices of the legs it connects to; one: line to neutral
	Supply inventory.Supply
	Amps   units.Current // per pole
	// PF is the displacement power factor, lagging. Outside (0, 1] it counts
	// as 1.
	PF units.Ratio
	// Harmonic is the third-harmonic current of an electronic line-to-neutral
	// load as a share of Amps; 0 if linear or unknown.
	Harmonic float64
}

// Potentials returns the voltage of each leg to neutral as a phasor, in volts,
// from the system's nominal voltages.
//
//	two-wire      A = V∠0°
//	split phase   A = V∠0°    B = V∠180°
//	wye           A = V∠0°    B = V∠−120°    C = V∠120°       V = line to neutral
//	high leg      A = U/2∠0°  B = (√3/2)·U∠−90°  C = U/2∠180°   U = line to line
//
// The high-leg system is an equilateral triangle with the neutral in the middle
// of the side A–C; so B stands at √3 times the others. Leg order A, B, C is the
// phase sequence: Vab, Vbc and Vca follow one another by −120°.
//
// Source: geometry of the connections, derived; conventions as in IEC 60050-131.
func Potentials(sys inventory.System) []complex128 {
	v := float64(sys.LineToNeutral)
	switch sys.Form {
	case inventory.SplitPhase:
		return []complex128{complex(v, 0), complex(-v, 0)}
	case inventory.Wye:
		return []complex128{complex(v, 0), polar(v, -120), polar(v, 120)}
	case inventory.HighLeg:
		half := float64(sys.LineToLine) / 2
		return []complex128{complex(half, 0), complex(0, -math.Sqrt(3)*half), complex(-half, 0)}
	default:
		return []complex128{complex(v, 0)}
	}
}

// Currents returns the current in each leg's conductor and in the neutral of a
// panel that serves the branches, root-mean-square.
//
// Each load is a current that lags its own voltage by φ = acos(pf):
//
//	line to neutral, leg x       Ix += I∠(arg Vx − φ), the same in the neutral
//	line to line, legs x and y   J = I∠(arg(Vx − Vy) − φ); Ix += J, Iy −= J
//	three-phase, balanced        Ix += I∠(arg(Vx − V0) − φ), V0 = (Va + Vb + Vc)/3
//
//	leg      |Ix|
//	neutral  In = √(In1² + In3²)
//	         In1 = |Σ I∠(arg Vx − φ)|        over line-to-neutral loads
//	         In3 = |Σ h·I∠(3·arg Vx)|        over the same
//
// On a wye three times 0°, −120° and 120° are all 0°, so third harmonics add up
// arithmetically, In3 = Σ h·I; balanced legs with h = 0.3 leave a neutral of
// 0.9 times a leg. On legs 180° apart they cancel as the fundamentals do.
// Harmonics of one leg are taken as in step with one another, which is the most
// they can amount to. On a two-wire system the neutral carries the leg's
// current, whatever its shape.
//
// A line-to-line load is not half its volt-amperes on each leg: 20 A at 208 V
// from A to B is 20 A in both, not 17.3 A. Line-to-line and balanced
// three-phase loads add nothing to the neutral.
//
// Left out: the third harmonic is not added to leg currents (Amps of a load is
// its whole current), and the shift of the neutral by voltage drop.
//
// Source: Kirchhoff's current law with phasors, derived; checked with circuit
// simulations (netlists 01, 02, 03, 07, 08) and published cases F35, F37, F38
// in legs_test.go.
func Currents(sys inventory.System, branches []Branch) (legs []units.Current, neutral units.Current) {
	sum := Flow{Legs: make([]complex128, len(Potentials(sys)))}
	for _, b := range branches {
		f := FlowOf(sys, b)
		for x, j := range f.Legs {
			sum.Legs[x] += j
		}
		sum.Neutral += f.Neutral
		sum.Third += f.Third
	}
	legs = make([]units.Current, len(sum.Legs))
	for x, s := range sum.Legs {
		legs[x] = units.Current(cmplx.Abs(s))
	}
	if sys.Form == inventory.TwoWire {
		return legs, legs[0]
	}
	return legs, units.Current(math.Hypot(cmplx.Abs(sum.Neutral), cmplx.Abs(sum.Third)))
}

// Flow is what a branch puts on each leg and the neutral, as phasors in amperes
// against the first leg's voltage.
type Flow struct {
	Legs    []complex128
	Neutral complex128 // fundamental
	Third   complex128 // third harmonic
}

// FlowOf returns the phasors of one branch; Currents adds them up.
func FlowOf(sys inventory.System, b Branch) Flow {
	v := Potentials(sys)
	f := Flow{Legs: make([]complex128, len(v))}
	switch len(b.Legs) {
	case 1:
		x := b.Legs[0]
		j := lagging(b, v[x])
		f.Legs[x] += j
		f.Neutral = j
		f.Third = cmplx.Rect(b.Harmonic*float64(b.Amps), 3*cmplx.Phase(v[x]))
	case 2:
		x, y := b.Legs[0], b.Legs[1]
		j := lagging(b, v[x]-v[y])
		f.Legs[x] += j
		f.Legs[y] -= j
	case 3:
		centre := (v[0] + v[1] + v[2]) / 3
		for _, x := range b.Legs {
			f.Legs[x] += lagging(b, v[x]-centre)
		}
	}
	return f
}

// lagging returns the branch's current as a phasor that lags voltage v by
// acos(pf).
func lagging(b Branch, v complex128) complex128 {
	pf := float64(b.PF)
	if !(pf > 0 && pf <= 1) {
		pf = 1
	}
	return cmplx.Rect(float64(b.Amps), cmplx.Phase(v)-math.Acos(pf))
}

// polar returns the phasor of a magnitude and an angle in degrees.
func polar(magnitude, degrees float64) complex128 {
	return cmplx.Rect(magnitude, degrees*math.Pi/180)
}

// Balance returns how unequal leg currents are: (largest − smallest) / mean.
// Zero for one leg and where nothing flows.
func Balance(legs []units.Current) units.Ratio {
	if len(legs) < 2 {
		return 0
	}
	largest, smallest, sum := legs[0], legs[0], units.Current(0)
	for _, i := range legs {
		largest, smallest = max(largest, i), min(smallest, i)
		sum += i
	}
	if sum <= 0 {
		return 0
	}
	return units.Ratio(units.Per(largest-smallest, sum) * float64(len(legs)))
}
