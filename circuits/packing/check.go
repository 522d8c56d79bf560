package packing

import "fmt"

// Check re-adds a result from the problem alone and reports the first thing
// that is wrong. It shares no code with the solver beyond the lookup of a
// kind's form.
func Check(p Problem, r Result) error {
	if err := p.validate(); err != nil {
		return err
	}
	if len(r.Unplaced) != len(p.Kinds) {
		return fmt.Errorf("unplaced has %d entries, want %d", len(r.Unplaced), len(p.Kinds))
	}
	placed := make([]int, len(p.Kinds))
	opened := make([]int, len(p.Bins))
	filled := make([]bool, len(p.Existing))
	foes := foesOf(p)
	var width, cost int64
	count := 0
	for i, b := range r.Bins {
		if err := checkBin(p, b, foes); err != nil {
			return fmt.Errorf("bin %d of the result: %w", i, err)
		}
		if b.Kind >= 0 {
			opened[b.Kind]++
			count++
			width += int64(p.Bins[b.Kind].Width)
			cost += p.Bins[b.Kind].Cost
		} else {
			if filled[b.Existing] {
				return fmt.Errorf("existing bin %d is filled twice", b.Existing)
			}
			filled[b.Existing] = true
		}
		for k, n := range b.Holds {
			placed[k] += n
		}
	}
	for i, n := range opened {
		if most := p.Bins[i].Max; most > 0 && n > most {
			return fmt.Errorf("%d bins of kind %d opened, at most %d allowed", n, i, most)
		}
	}
	missing := 0
	for k, kind := range p.Kinds {
		if r.Unplaced[k] < 0 || placed[k]+r.Unplaced[k] != kind.Count {
			return fmt.Errorf("kind %d: %d placed and %d unplaced, want %d in all",
				k, placed[k], r.Unplaced[k], kind.Count)
		}
		missing += r.Unplaced[k]
	}
	for _, f := range []struct {
		name string
		b    Bounded
		used int64
	}{
		{"missing", r.Missing, int64(missing)},
		{"width", r.Width, width},
		{"opened", r.Opened, int64(count)},
		{"cost", r.Cost, cost},
	} {
		switch {
		case f.b.Used != f.used:
			return fmt.Errorf("%s is given as %d, the bins add up to %d", f.name, f.b.Used, f.used)
		case f.b.Bound > f.b.Used:
			return fmt.Errorf("%s: bound %d is above the value %d", f.name, f.b.Bound, f.b.Used)
		case f.b.Proved != (f.b.Bound == f.b.Used):
			return fmt.Errorf("%s: proved is %v, bound %d, value %d", f.name, f.b.Proved, f.b.Bound, f.b.Used)
		}
	}
	return nil
}

// foesOf lists for each kind the kinds it may not meet.
func foesOf(p Problem) []map[int]bool {
	foes := make([]map[int]bool, len(p.Kinds))
	for _, c := range p.Conflicts {
		for i, k := range c {
			if foes[k] == nil {
				foes[k] = map[int]bool{}
			}
			foes[k][c[1-i]] = true
		}
	}
	return foes
}

func checkBin(p Problem, b Bin, foes []map[int]bool) error {
	if len(b.Holds) != len(p.Kinds) {
		return fmt.Errorf("holds has %d entries, want %d", len(b.Holds), len(p.Kinds))
	}
	var family int
	var limits []int64
	var allow []bool
	var atMost, holds []int
	switch {
	case b.Kind >= 0 && b.Kind < len(p.Bins) && b.Existing == -1:
		k := p.Bins[b.Kind]
		family, limits, allow, atMost = k.Family, k.Limits, k.Allow, k.AtMost
	case b.Kind == -1 && b.Existing >= 0 && b.Existing < len(p.Existing):
		e := p.Existing[b.Existing]
		family, limits, allow, atMost, holds = e.Family, e.Limits, e.Allow, e.AtMost, e.Holds
	default:
		return fmt.Errorf("kind %d and existing %d name no bin", b.Kind, b.Existing)
	}
	left := append([]int64(nil), limits...)
	var inside []int
	for k, n := range b.Holds {
		if n < 0 {
			return fmt.Errorf("holds %d of kind %d", n, k)
		}
		if n == 0 {
			continue
		}
		uses, ok := p.form(k, family)
		if !ok {
			return fmt.Errorf("kind %d has no form of family %d", k, family)
		}
		if allow != nil && !allow[k] {
			return fmt.Errorf("kind %d is not allowed", k)
		}
		if atMost != nil && atMost[k] > 0 && n > atMost[k] {
			return fmt.Errorf("%d of kind %d, at most %d allowed", n, k, atMost[k])
		}
		if n > 1 && foes[k][k] {
			return fmt.Errorf("%d of kind %d, which conflicts with itself", n, k)
		}
		for r, u := range uses {
			// Divide instead of multiplying: no count can overflow.
			if u > 0 && int64(n) > left[r]/u {
				return fmt.Errorf("resource %d is over its limit %d", r, limits[r])
			}
			left[r] -= u * int64(n)
		}
		for _, o := range append(inside, holds...) {
			if foes[k][o] {
				return fmt.Errorf("kinds %d and %d conflict", k, o)
			}
		}
		inside = append(inside, k)
	}
	if len(inside) == 0 {
		return fmt.Errorf("is empty")
	}
	return nil
}
