package packing

import "math"

// dual is the dual method: from prices under which no column would gain to
// values that are not negative. It repairs a basis after right sides have
// changed or rows were added. Where some column would gain after all, its
// reduced cost counts as zero and the primal method goes on afterwards.
func (s *simplex) dual() {
	limit := 20*len(s.rhs) + 200
	for ; s.m.pivots > 0; s.m.pivots-- {
		leave, worst := -1, -tolValue*10
		for i, v := range s.x {
			if v < worst {
				leave, worst = i, v
			}
		}
		if leave < 0 {
			return
		}
		if limit--; limit < 0 {
			s.start(nil)
			return
		}
		s.rowPrices()
		enter, ok := s.dualEntering(leave)
		if !ok {
			s.start(nil)
			return
		}
		dir := s.direction(enter)
		if math.Abs(dir[leave]) < tolPivot {
			s.start(nil)
			return
		}
		s.pivot(enter, leave, dir)
	}
}

// dualEntering picks the variable whose reduced cost allows the smallest step
// among those that would raise the leaving row's value.
func (s *simplex) dualEntering(leave int) (int, bool) {
	row := s.inv[leave]
	v, found := 0, false
	bestRatio, bestPivot := math.Inf(1), 0.0
	try := func(id int, alpha, cost float64) {
		if alpha >= -tolPivot*10 {
			return
		}
		ratio := max(cost, 0) / -alpha
		if ratio < bestRatio-1e-12 || (ratio <= bestRatio+1e-12 && -alpha > bestPivot) {
			v, found = id, true
			bestRatio, bestPivot = min(ratio, bestRatio), -alpha
		}
	}
	for j := range s.cols {
		if s.in[j] {
			continue
		}
		c := &s.cols[j]
		alpha := 0.0
		for i, r := range c.rows {
			alpha += float64(row[r] * c.coefs[i])
		}
		if alpha < -tolPivot*10 {
			try(j, alpha, s.reduced(j))
		}
	}
	for i := range s.rhs {
		sign := 1.0
		if s.least[i] {
			sign = -1
		}
		try(-1-2*i, float64(sign*row[i]), s.slackCost(i))
		try(-2-2*i, float64(-sign*row[i]), s.big-s.slackCost(i))
	}
	return v, found
}
