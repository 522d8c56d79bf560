package packing

import (
	"fmt"
	"math/bits"
	"slices"
)

// Certificate proves a bound of the total width. It can be checked without
// the solver: by Verify, by a short script, or by hand.
type Certificate struct {
	Parts []Part // no bin may hold kinds of two parts, so their bounds add up
	Bound int64
}

// Part gives each of its kinds a whole-number weight, such that no bin that
// may be opened holds more than Z of weight per unit of its width. Then
//
//	width >= (total weight - Spared) / Z
//
// where Spared is what bins of limited number, existing bins among them, may
// hold beyond Z per unit of width, and what items left out may weigh.
type Part struct {
	Kinds   []int
	Weights []int64 // per entry of Kinds
	Z       int64
	Spared  int64
	LeftOut int64 // number of items that any plan of interest may leave out
	Bound   int64
}

// Scales of the weights that are tried, smallest first: small weights are
// easier to check by hand.
const (
	firstScale = 10
	lastScale  = 10_000_000
)

// noteWeights keeps the row prices of the linear relaxation as weights.
func (s *solver) noteWeights(ms *master) {
	if len(ms.y) == 0 {
		return // the work limit ended before the first prices
	}
	s.prices = append([]int64(nil), ms.y[:len(s.c.need)]...)
	s.unit = ms.shift
}

// certify makes the part of the certificate for the cell. Its weights are per
// lot; the kinds are filled in later.
func (s *solver) certify() {
	part := &Part{Z: 1, LeftOut: s.best.score[aimMissing], Weights: make([]int64, len(s.c.need))}
	take := func(w []int64) {
		var d int64
		for _, v := range w {
			d = gcd(d, v)
		}
		for t := range w {
			w[t] /= max(d, 1)
		}
		if s.atBest(w) <= part.Bound {
			return
		}
		b, z, spared := s.weigh(w, 0)
		if b > part.Bound {
			part.Bound, part.Z, part.Spared, part.Weights = b, z, spared, w
		}
	}
	if s.weights != nil {
		take(slices.Clone(s.weights))
	}
	if s.prices != nil {
		for scale := int64(firstScale); scale <= lastScale && part.Bound < s.bound[aimWidth]; scale *= 10 {
			w := make([]int64, len(s.prices))
			for t, y := range s.prices {
				hi, lo := bits.Mul64(uint64(y), uint64(scale))
				w[t] = int64(hi<<(64-s.unit) | lo>>s.unit)
			}
			take(w)
		}
	}
	s.part = part
	// Where the work limit cut the search short, the weights can know more.
	if b := s.lift(s.whole(aimWidth), part.Bound); b > s.bound[aimWidth] {
		s.bound[aimWidth] = min(b, s.best.score[aimWidth])
		s.why[aimWidth] = "whole-number weights of the items against the heaviest content of a bin"
	}
}

// Verify checks the certificate against the problem. It shares no code with
// the solver: weights are packed by a knapsack of its own.
func (c *Certificate) Verify(p Problem) error {
	if err := p.validate(); err != nil {
		return err
	}
	partOf := make([]int, len(p.Kinds))
	var sum int64
	for i, part := range c.Parts {
		for _, k := range part.Kinds {
			if k < 0 || k >= len(p.Kinds) || partOf[k] != 0 {
				return fmt.Errorf("part %d: kind %d is unknown or named twice", i, k)
			}
			partOf[k] = i + 1
		}
	}
	v := newVerifier(p)
	if err := v.apart(partOf); err != nil {
		return err
	}
	for i, part := range c.Parts {
		b, err := v.boundOf(part)
		if err != nil {
			return fmt.Errorf("part %d: %w", i, err)
		}
		if b < part.Bound {
			return fmt.Errorf("part %d: bound %d, the weights give %d", i, part.Bound, b)
		}
		sum += part.Bound
	}
	if sum != c.Bound {
		return fmt.Errorf("bound %d, the parts add up to %d", c.Bound, sum)
	}
	return nil
}
