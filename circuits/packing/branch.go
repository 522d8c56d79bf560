package packing

import (
	"math"
	"slices"
)

// branch splits the node: some count of bins that is not whole in the
// relaxation is at most its floor, or at least its ceiling. Counts are tried
// in this order:
//
//  1. all opened bins,
//  2. bins of one class,
//  3. bins with at least so many items of one lot,
//  4. the same for two lots at once,
//  5. bins of one class with at least the content of one pattern.
//
// The last is complete: of the patterns in a class whose value is not whole,
// take a largest one. Every pattern that contains it has a whole value, so
// their sum with it is not whole.
func (ms *master) branch(values []float64) (down, up row, ok bool) {
	var support []int
	for j, v := range values {
		if v > tolWhole && ms.cols[j].class != leftOut {
			support = append(support, j)
		}
	}
	for _, try := range []func([]int, []float64) (row, float64, bool){
		ms.branchTotal, ms.branchClass, ms.branchLot, ms.branchPair, ms.branchPattern,
	} {
		if r, sum, found := try(support, values); found {
			down, up = r, r
			down.least, down.rhs, down.slack = false, int64(math.Floor(sum)), slackCut
			up.least, up.rhs, up.slack = true, int64(math.Ceil(sum)), slackCut
			return down, up, true
		}
	}
	return down, up, false
}

func (ms *master) branchTotal(support []int, values []float64) (row, float64, bool) {
	r := row{coef: make([]int64, len(ms.s.c.classes))}
	for k := range r.coef {
		r.coef[k] = ms.s.c.classes[k].opened
		if r.coef[k] > 0 && ms.s.c.priceOf(k, ms.t.aim) == 0 {
			return r, 0, false // more bins would not change the price
		}
	}
	return ms.fractional([]row{r}, support, values)
}

func (ms *master) branchClass(support []int, values []float64) (row, float64, bool) {
	var rows []row
	for k := range ms.s.c.classes {
		if ms.s.c.priceOf(k, ms.t.aim) > 0 {
			rows = append(rows, row{coef: ms.only(k)})
		}
	}
	return ms.fractional(rows, support, values)
}

func (ms *master) only(k int) []int64 {
	coef := make([]int64, len(ms.s.c.classes))
	coef[k] = 1
	return coef
}

func (ms *master) anyClass() []int64 {
	coef := make([]int64, len(ms.s.c.classes))
	for k := range coef {
		coef[k] = 1
	}
	return coef
}

// conditions lists the counts per lot that tell patterns of the support apart.
func (ms *master) conditions(support []int) []cond {
	var out []cond
	for t := range ms.t.need {
		counts := []int{1}
		for _, j := range support {
			if n := ms.cols[j].count(t); n > 0 && !slices.Contains(counts, n) {
				counts = append(counts, n)
			}
		}
		slices.Sort(counts)
		for _, n := range counts {
			out = append(out, cond{t, n})
		}
	}
	return out
}

func (ms *master) branchLot(support []int, values []float64) (row, float64, bool) {
	for _, first := range []bool{true, false} {
		var rows []row
		for _, c := range ms.conditions(support) {
			if !first || c.least == 1 {
				rows = append(rows, row{coef: ms.anyClass(), conds: []cond{c}})
			}
		}
		if r, sum, ok := ms.fractional(rows, support, values); ok {
			return r, sum, ok
		}
	}
	return row{}, 0, false
}

func (ms *master) branchPair(support []int, values []float64) (row, float64, bool) {
	var rows []row
	conds := ms.conditions(support)
	for i, a := range conds {
		for _, b := range conds[:i] {
			if a.lot != b.lot {
				rows = append(rows, row{coef: ms.anyClass(), conds: []cond{b, a}})
			}
		}
	}
	return ms.fractional(rows, support, values)
}

func (ms *master) branchPattern(support []int, values []float64) (row, float64, bool) {
	best := -1
	for _, j := range support {
		if isWhole(values[j]) {
			continue
		}
		if best < 0 || ms.cols[j].size() > ms.cols[best].size() {
			best = j
		}
	}
	if best < 0 {
		return row{}, 0, false
	}
	p := ms.cols[best]
	r := row{coef: ms.only(p.class)}
	for _, e := range p.items {
		r.conds = append(r.conds, cond{e.lot, e.count})
	}
	return ms.fractional([]row{r}, support, values)
}

// size is the number of items in the pattern.
func (p *pattern) size() int {
	n := 0
	for _, e := range p.items {
		n += e.count
	}
	return n
}

// fractional returns the row whose sum over the support is nearest to halfway
// between two whole numbers.
func (ms *master) fractional(rows []row, support []int, values []float64) (row, float64, bool) {
	best, at, sumAt := tolWhole, -1, 0.0
	for i := range rows {
		sum := 0.0
		for _, j := range support {
			sum += float64(values[j] * float64(rows[i].of(ms.cols[j])))
		}
		f := sum - math.Floor(sum)
		if ms.decided(&rows[i], sum) {
			continue
		}
		if d := min(f, 1-f); d > best {
			best, at, sumAt = d, i, sum
		}
	}
	if at < 0 {
		return row{}, 0, false
	}
	return rows[at], sumAt, true
}

// decided reports whether the node already has a row that rules the sum out.
// Only rounding can have let it through; branching on it again leads nowhere.
func (ms *master) decided(r *row, sum float64) bool {
	for i := range ms.rows {
		c := &ms.rows[i]
		if !slices.Equal(c.coef, r.coef) || !slices.Equal(c.conds, r.conds) {
			continue
		}
		if (c.least && float64(c.rhs) >= math.Ceil(sum)) || (!c.least && float64(c.rhs) <= math.Floor(sum)) {
			return true
		}
	}
	return false
}
