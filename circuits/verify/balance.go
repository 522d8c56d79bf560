package verify

import (
	"fmt"
	"math"
	"slices"

	"branchwork/circuits"
	"branchwork/loads"
	"branchwork/loads/clock"
)

// perPole is how far rounding to 10 mA may shift one breaker on a leg, and one
// more for the last bit.
const perPole = 0.5 + 1e-6

// balance walks the day of every panel minute by minute, adds up the branch
// currents on each leg, and compares the fullest leg with the plan's. Where the
// plan calls it the least there is, no exchange of two new breakers may lower it.
// Panels with a transformer or interlocked loads below them are left to their own
// checks.
func (v *verifier) balance() {
	var worst, lit int64
	for _, x := range v.plan.Panels {
		b := x.Balance
		if b.Bound > b.Worst || b.LitBound > b.Lit || b.Proved && b.Bound != b.Worst {
			v.complain("panel %s: legs of %d and %d with lights on are below their bounds, %d and %d", x.Name, b.Worst, b.Lit, b.Bound, b.LitBound)
		}
		if x.System.Legs < 2 {
			continue
		}
		va := func(steps int64) int64 {
			return int64(math.Round(float64(max(steps, 0)) / 100 * float64(x.System.LineToNeutral)))
		}
		worst, lit = worst+va(b.Worst-b.Even), lit+va(b.Lit-b.LitEven)
		if v.plain(x.Name) {
			v.balanceOf(x)
		}
	}
	for _, o := range []struct {
		name      string
		says, has int64
	}{{"imbalance", v.plan.Optimality.Imbalance.Used, worst}, {"imbalance with lights on", v.plan.Optimality.LightsOn.Used, lit}} {
		if o.says != o.has {
			v.complain("%s: the panels add up to %d VA, the plan says %d VA", o.name, o.has, o.says)
		}
	}
}

func (v *verifier) balanceOf(x circuits.Panel) {
	poles, moments := v.onLegs(x)
	sums := poles.sums(moments, x.System.Legs)
	most := 0.0
	for _, legs := range sums {
		most = math.Max(most, slices.Max(legs))
	}
	slack := perPole * float64(len(poles))
	if math.Abs(most-float64(x.Balance.Worst)) > slack {
		v.complain("panel %s: breakers add up to %.2f A on the fullest leg of the day, the plan says %.2f A", x.Name, most/100, float64(x.Balance.Worst)/100)
	}
	if !slices.ContainsFunc(sums, func(legs []float64) bool {
		return slices.Max(legs) >= most-slack && math.Abs(mean(legs)-float64(x.Balance.Even)) <= slack+1
	}) {
		v.complain("panel %s: an equal share of %.2f A is none of its fullest moments'", x.Name, float64(x.Balance.Even)/100)
	}
	if len(x.Feeds) == 0 {
		lit := poles.lit(sums)
		if math.Abs(lit-float64(x.Balance.Lit)) > slack*float64(moments) {
			v.complain("panel %s: with lights on the fullest legs add up to %.2f A, the plan says %.2f A", x.Name, lit/100, float64(x.Balance.Lit)/100)
		}
	}
	if !x.Balance.Proved {
		return
	}
	kinds := poles.kinds()
	for i, a := range kinds {
		for _, b := range kinds[:i] {
			if a.neutral != b.neutral || len(a.legs) != len(b.legs) || a.legs[0] == b.legs[0] {
				continue
			}
			if better := exchanged(sums, a, b); better < most-2*slack {
				v.complain("panel %s: with %s and %s exchanged the fullest leg is %.2f A, proved are %.2f A", x.Name, a.name, b.name, better/100, most/100)
				return
			}
		}
	}
}

// exchanged is the most that a leg carries at any moment with two breakers in each
// other's place.
func exchanged(sums [][]float64, a, b breaker) (most float64) {
	for m, legs := range sums {
		now := slices.Clone(legs)
		for k := range a.legs {
			now[a.legs[k]] += b.at[m] - a.at[m]
			now[b.legs[k]] += a.at[m] - b.at[m]
		}
		most = math.Max(most, slices.Max(now))
	}
	return most
}

// kinds are the breakers that may be exchanged, one of each that are alike: to
// exchange another of them would do the same.
func (list breakers) kinds() (out breakers) {
	seen := map[string]bool{}
	for _, b := range list {
		if key := fmt.Sprint(b.legs, b.neutral, b.at); b.movable && !seen[key] {
			seen[key] = true
			out = append(out, b)
		}
	}
	return out
}

// breakers are what stands on a panel's legs: circuits of its own and those that
// a sub-panel passes on to the legs of the same name.
type breakers []breaker

type breaker struct {
	name    string
	legs    []int
	neutral bool
	movable bool
	at      []float64 // by moment, in steps of 10 mA
	lights  []bool    // by moment, whether it feeds lights that are on
}

// sums returns what each leg carries at each moment.
func (list breakers) sums(moments, legs int) [][]float64 {
	out := make([][]float64, moments)
	for m := range out {
		out[m] = make([]float64, legs)
		for _, b := range list {
			for _, leg := range b.legs {
				out[m][leg] += b.at[m]
			}
		}
	}
	return out
}

// lit adds up the fullest legs of the moments with lights on, or of all where
// none is lit; a moment that another equals or exceeds on every breaker is none.
func (list breakers) lit(sums [][]float64) (lit float64) {
	var all float64
	any := false
	for m, legs := range sums {
		if list.exceeded(m, len(sums)) {
			continue
		}
		all += slices.Max(legs)
		if slices.ContainsFunc(list, func(b breaker) bool { return b.lights[m] }) {
			lit += slices.Max(legs)
			any = true
		}
	}
	if !any {
		return all
	}
	return lit
}

// exceeded reports whether another moment has as much on every breaker; of equal
// ones the first stays.
func (list breakers) exceeded(m, moments int) bool {
	for o := range moments {
		as, same := o != m, true
		for _, b := range list {
			as = as && b.at[o] >= b.at[m]
			same = same && b.at[o] == b.at[m]
		}
		if as && (!same || o < m) {
			return true
		}
	}
	return false
}

func mean(legs []float64) (sum float64) {
	for _, i := range legs {
		sum += i
	}
	return sum / float64(len(legs))
}

// onLegs lists what stands on a panel's legs at every minute at which something
// switches.
func (v *verifier) onLegs(x circuits.Panel) (list breakers, moments int) {
	_, minutes := v.switching(x.Name)
	for _, c := range v.plan.Circuits {
		if !v.under(c.Panel, x.Name) {
			continue
		}
		var at []float64
		var lights []bool
		for _, m := range minutes {
			at = append(at, math.Round(100*v.flows(c, m)))
			lights = append(lights, slices.ContainsFunc(c.Loads, func(l circuits.Load) bool {
				load, _ := v.set.Named(l.Item)
				return load.Category == loads.Lighting && v.hours.named(l.Item).on[m]
			}))
		}
		list = append(list, breaker{c.Name, c.Legs, c.Supply.Neutral, c.Panel == x.Name && !c.Existing && !v.spread(c), at, lights})
	}
	for _, sub := range v.plan.Panels {
		if sub.Name != x.Name && v.under(sub.Name, x.Name) {
			amps := float64(sub.OtherLoad.Or(0)) + float64(sub.MeasuredPeak.Or(0))*float64(v.p.Service.PeakFactor)
			list = append(list, breaker{name: sub.Name, legs: []int{0, 1, 2}[:sub.System.Legs], at: slices.Repeat([]float64{100 * amps}, len(minutes)), lights: make([]bool, len(minutes))})
		}
	}
	return list, len(minutes)
}

// spread reports whether a circuit feeds what is to stand on several legs.
func (v *verifier) spread(c circuits.Circuit) bool {
	return slices.ContainsFunc(c.Loads, func(l circuits.Load) bool { return slices.Contains(v.inv.Plan.Spread, l.Item) })
}

// flows is what a circuit carries at a minute, with what a meter showed and no
// load explains.
func (v *verifier) flows(c circuits.Circuit, m clock.Minute) (amps float64) {
	any := false
	for _, l := range c.Loads {
		if v.hours.named(l.Item).on[m] {
			amps += float64(l.Count) * float64(l.Draw.Amps)
			any = true
		}
	}
	if measured, ok := c.Measured.Get(); ok && any && measured > c.Predicted.Or(measured) {
		amps += float64(measured - c.Predicted.Or(measured))
	}
	return amps
}
