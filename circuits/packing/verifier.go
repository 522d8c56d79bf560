package packing

import (
	"fmt"
	"math"
)

// verifier re-derives the bound of a certificate from the problem. It is kept
// apart from the solver on purpose: other rules code, other knapsack.
type verifier struct {
	p    Problem
	foes []map[int]bool
}

func newVerifier(p Problem) *verifier { return &verifier{p, foesOf(p)} }

// tray is a bin as the verifier sees it.
type tray struct {
	name   string
	family int
	limits []int64
	allow  []bool
	atMost []int
	holds  []int
	width  int64
	number int64 // 0 means any number
}

func (v *verifier) trays() []tray {
	var out []tray
	for i, b := range v.p.Bins {
		out = append(out, tray{fmt.Sprintf("bin kind %d", i), b.Family, b.Limits, b.Allow,
			b.AtMost, nil, int64(b.Width), int64(b.Max)})
	}
	for i, e := range v.p.Existing {
		out = append(out, tray{fmt.Sprintf("existing bin %d", i), e.Family, e.Limits, e.Allow,
			e.AtMost, e.Holds, 0, 1})
	}
	return out
}

// cargo is a kind as it goes into a tray.
type cargo struct {
	kind   int
	weight int64
	most   int64
	uses   []int64
}

// admits returns how kind k goes into the tray, or false.
func (v *verifier) admits(t *tray, k int) (cargo, bool) {
	uses, ok := v.p.form(k, t.family)
	if !ok || (t.allow != nil && !t.allow[k]) || v.p.Kinds[k].Count == 0 {
		return cargo{}, false
	}
	for r, u := range uses {
		if u > t.limits[r] {
			return cargo{}, false
		}
	}
	for _, h := range t.holds {
		if v.foes[k][h] {
			return cargo{}, false
		}
	}
	g := cargo{kind: k, most: int64(v.p.Kinds[k].Count), uses: uses}
	if t.atMost != nil && t.atMost[k] > 0 {
		g.most = min(g.most, int64(t.atMost[k]))
	}
	if v.foes[k][k] {
		g.most = 1
	}
	return g, true
}

// apart checks that no bin can hold kinds of two parts, and that kinds outside
// all parts weigh nothing by being in none.
func (v *verifier) apart(partOf []int) error {
	for _, t := range v.trays() {
		var in []cargo
		for k := range v.p.Kinds {
			if g, ok := v.admits(&t, k); ok && partOf[k] > 0 {
				in = append(in, g)
			}
		}
		for i, a := range in {
			for _, b := range in[:i] {
				if partOf[a.kind] == partOf[b.kind] || v.foes[a.kind][b.kind] {
					continue
				}
				both := true
				for r := range a.uses {
					both = both && a.uses[r]+b.uses[r] <= t.limits[r]
				}
				if both {
					return fmt.Errorf("%s: kinds %d and %d of different parts may meet",
						t.name, a.kind, b.kind)
				}
			}
		}
	}
	return nil
}

// boundOf recomputes the bound of one part.
func (v *verifier) boundOf(part Part) (int64, error) {
	if part.Z < 1 || len(part.Weights) != len(part.Kinds) || part.LeftOut < 0 {
		return 0, fmt.Errorf("malformed: z %d, %d weights for %d kinds", part.Z, len(part.Weights), len(part.Kinds))
	}
	var total, heaviest int64
	for i, k := range part.Kinds {
		w := part.Weights[i]
		if w < 0 || w > maxUse {
			return 0, fmt.Errorf("weight %d of kind %d, want 0 to %d", w, k, int64(maxUse))
		}
		heaviest = max(heaviest, w)
		total += w * int64(v.p.Kinds[k].Count)
	}
	spared := heaviest * part.LeftOut
	for _, t := range v.trays() {
		var in []cargo
		for i, k := range part.Kinds {
			if g, ok := v.admits(&t, k); ok && part.Weights[i] > 0 {
				g.weight = part.Weights[i]
				in = append(in, g)
			}
		}
		if part.Z <= math.MaxInt64/max(t.width, 1) && thin(t.limits, in, part.Z*t.width) {
			continue
		}
		most := v.heaviest(t.limits, in)
		beyond := most - part.Z*t.width
		if beyond <= 0 {
			continue
		}
		if t.number == 0 {
			return 0, fmt.Errorf("%s holds %d, more than %d per unit of width", t.name, most, part.Z)
		}
		spared += beyond * t.number
	}
	if total <= spared {
		return 0, nil
	}
	return (total - spared + part.Z - 1) / part.Z, nil
}

// thin reports whether weight is so thin on some resource that a tray full of it
// holds no more than z, which needs no knapsack: for every kind, its weight times
// the limit is at most its use times z.
func thin(limits []int64, in []cargo, z int64) bool {
	for r, limit := range limits {
		all := true
		for _, g := range in {
			var more wide
			more.add(g.weight, limit)
			more.add(-z, g.uses[r])
			all = all && more.ceil(0) <= 0
		}
		if all {
			return true
		}
	}
	return false
}

// heaviest returns the largest weight that fits a tray. Conflicts are resolved
// by trying both sides: without a kind, or without all its opponents.
func (v *verifier) heaviest(limits []int64, in []cargo) int64 {
	worst, foes := -1, 0
	for i, a := range in {
		n := 0
		for _, b := range in {
			if a.kind != b.kind && v.foes[a.kind][b.kind] {
				n++
			}
		}
		if n > foes {
			worst, foes = i, n
		}
	}
	if worst < 0 {
		return newStack(limits, in).heaviest()
	}
	var without, with []cargo
	for i, a := range in {
		if i != worst {
			without = append(without, a)
		}
		if i == worst || !v.foes[in[worst].kind][a.kind] {
			with = append(with, a)
		}
	}
	return max(v.heaviest(limits, without), v.heaviest(limits, with))
}
