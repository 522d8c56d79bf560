package packing

import "math"

// Tolerances of the linear programs. They steer the search only: every bound
// is recomputed in whole numbers, so a wrong digit here costs time, not truth.
const (
	tolPivot    = 1e-9  // smallest pivot element
	tolPrice    = 1e-9  // reduced cost below minus this may enter, per unit of the largest price
	tolValue    = 1e-9  // values above minus this count as zero
	tolNoise    = 1e-12 // as tolPrice, per unit of the largest row price
	perturb     = 1e-8  // shift of right sides against cycling
	slackRow    = 1e-5  // shift of rows that hold an earlier aim at its value
	slackCut    = 2e-6  // shift of rows that come from branching
	pivotColumn = 10    // entries of work that a column costs per pivot
	refactor    = 100   // pivots between two fresh inverses
	stallings   = 50    // pivots without progress, beyond one per row, before a shake
	maxShakes   = 8     // shakes before the relaxation is left as it is
)

// column is a variable of the linear program.
type column struct {
	price float64
	rows  []int32
	coefs []float64
}

// simplex solves: least total price, each row at least (or at most) its right
// side, no variable negative. It keeps the inverse of the basis as a dense
// matrix: there are few rows, and columns come and go.
//
// Variables are numbered: a column by its index; the slack of row i is
// -1-2i; the artificial of row i, which fills a row that cannot be met
// otherwise at the price big, is -2-2i.
type simplex struct {
	least []bool // per row, whether it is "at least"
	rhs   []float64
	cols  []column
	big   float64
	unit  float64 // largest price of a column, the scale of reduced costs

	basis []int
	in    []bool // per column, whether it is in the basis
	inv   [][]float64
	x     []float64 // values of the basis
	y     []float64 // prices of the rows
	work  []float64
	spare []float64
	since int // pivots since the last fresh inverse
	m     *meter
}

func newSimplex(m *meter, big float64) *simplex {
	return &simplex{m: m, big: big, unit: 1}
}

func (s *simplex) addRow(least bool, rhs float64) {
	s.least = append(s.least, least)
	s.rhs = append(s.rhs, rhs)
}

func (s *simplex) addColumn(c column) {
	s.cols = append(s.cols, c)
	s.in = append(s.in, false)
	s.unit = max(s.unit, c.price)
}

// entryOf calls f for each entry of a variable's column.
func (s *simplex) entryOf(v int, f func(row int, coef float64)) {
	if v >= 0 {
		c := &s.cols[v]
		for i, r := range c.rows {
			f(int(r), c.coefs[i])
		}
		return
	}
	row, coef := (-1-v)/2, 1.0
	if s.least[row] == (v&1 != 0) { // odd: slack, even: artificial
		coef = -1
	}
	f(row, coef)
}

func (s *simplex) priceOf(v int) float64 {
	switch {
	case v >= 0:
		return s.cols[v].price
	case v&1 == 0:
		return s.big
	}
	return 0
}

// start sets the basis; without one, slacks and artificials.
func (s *simplex) start(basis []int) {
	n := len(s.rhs)
	if len(basis) != n || !s.invert(basis) {
		basis = make([]int, n)
		for i := range basis {
			basis[i] = -1 - 2*i
			if s.least[i] == (s.rhs[i] > 0) {
				basis[i] = -2 - 2*i
			}
		}
		if !s.invert(basis) {
			panic("packing: a basis of slacks is singular") // diagonal of ±1
		}
	}
}

// invert factors the basis afresh; false if it is singular.
func (s *simplex) invert(basis []int) bool {
	n := len(basis)
	a := make([][]float64, n)
	inv := make([][]float64, n)
	store := make([]float64, 2*n*n)
	for i := range a {
		a[i], store = store[:n:n], store[n:]
		inv[i], store = store[:n:n], store[n:]
		inv[i][i] = 1
	}
	for j, v := range basis {
		s.entryOf(v, func(r int, c float64) { a[r][j] += c })
	}
	for j := range n {
		p := j
		for i := j + 1; i < n; i++ {
			if math.Abs(a[i][j]) > math.Abs(a[p][j]) {
				p = i
			}
		}
		if math.Abs(a[p][j]) < tolPivot {
			return false
		}
		a[p], a[j] = a[j], a[p]
		inv[p], inv[j] = inv[j], inv[p]
		f := 1 / a[j][j]
		scale(a[j], f)
		scale(inv[j], f)
		for i := range n {
			if f := a[i][j]; i != j && f != 0 {
				axpy(a[i], a[j], -f)
				axpy(inv[i], inv[j], -f)
			}
		}
	}
	s.inv, s.since = inv, 0
	s.basis = append(s.basis[:0], basis...)
	clear(s.in)
	for _, v := range basis {
		if v >= 0 {
			s.in[v] = true
		}
	}
	s.x = resize(s.x, n)
	s.y = resize(s.y, n)
	s.work = resize(s.work, n)
	s.values()
	return true
}

func resize(a []float64, n int) []float64 {
	if cap(a) < n {
		return make([]float64, n)
	}
	return a[:n]
}

// The explicit conversions keep processors that can fuse a product and a sum
// from rounding differently: the same problem takes the same path everywhere.

func axpy(dst, src []float64, f float64) {
	for i, v := range src {
		dst[i] += float64(f * v)
	}
}

func scale(a []float64, f float64) {
	for i := range a {
		a[i] *= f
	}
}

func dot(a, b []float64) float64 {
	sum := 0.0
	for i, v := range a {
		sum += float64(v * b[i])
	}
	return sum
}

// values recomputes the values of the basis from the right sides.
func (s *simplex) values() {
	for i := range s.x {
		s.x[i] = dot(s.inv[i], s.rhs)
	}
}

// rowPrices recomputes the prices of the rows.
func (s *simplex) rowPrices() {
	clear(s.y)
	for i, v := range s.basis {
		if p := s.priceOf(v); p != 0 {
			axpy(s.y, s.inv[i], p)
		}
	}
}

// reduced is the reduced cost of a column.
func (s *simplex) reduced(v int) float64 {
	c := &s.cols[v]
	d := c.price
	for i, r := range c.rows {
		d -= float64(s.y[r] * c.coefs[i])
	}
	return d
}

// slackCost is the reduced cost of the slack of a row.
func (s *simplex) slackCost(row int) float64 {
	if s.least[row] {
		return s.y[row]
	}
	return -s.y[row]
}

// objective is the value of the current basis.
func (s *simplex) objective() float64 {
	sum := 0.0
	for i, v := range s.basis {
		sum += float64(s.priceOf(v) * s.x[i])
	}
	return sum
}

// solve makes the basis optimal over the present columns.
func (s *simplex) solve() {
	rhs := append(s.spare[:0], s.rhs...)
	s.spare = rhs
	for try := range 2 {
		s.dual()
		if !s.primal(try == 0) {
			return
		}
		copy(s.rhs, rhs)
		s.values()
	}
	s.dual()
}

// primal is the primal method: from values that are not negative to prices
// under which no column would still gain. Where it does not get on, it may
// shake the right sides; it returns whether it has.
func (s *simplex) primal(mayShake bool) bool {
	lowest, stalled, shaken := math.Inf(1), 0, 0
	for ; s.m.pivots > 0; s.m.pivots-- {
		s.rowPrices()
		enter, found := s.entering()
		if !found {
			break
		}
		dir := s.direction(enter)
		leave, step := -1, math.Inf(1)
		for i, d := range dir {
			if d <= tolPivot {
				continue
			}
			q := max(s.x[i], 0) / d
			switch {
			case q < step-tolValue, q <= step+tolValue && leave >= 0 && d > dir[leave]:
				leave, step = i, min(q, step)
			}
		}
		if leave < 0 {
			break // no row stops it: numbers have gone bad, the caller sees no gain
		}
		s.pivot(enter, leave, dir)
		if v := s.objective(); v < lowest-tolValue*(1+math.Abs(lowest)) || stalled == 0 {
			lowest, stalled = v, 1
			continue
		}
		if stalled++; stalled > stallings+len(s.rhs) {
			if shaken++; shaken > maxShakes || !mayShake {
				break
			}
			s.shake(float64(shaken))
			lowest, stalled = math.Inf(1), 0
		}
	}
	return shaken > 0 && mayShake
}

// direction is the column of a variable in terms of the basis.
func (s *simplex) direction(v int) []float64 {
	dir := s.work
	clear(dir)
	s.entryOf(v, func(r int, c float64) {
		for i := range dir {
			dir[i] += float64(s.inv[i][r] * c)
		}
	})
	return dir
}

// shake moves every value of the basis up a little and the right sides with
// them, so that ties between rows, which keep the method from getting on,
// fall apart.
func (s *simplex) shake(force float64) {
	for i, v := range s.basis {
		up := force * perturb * float64(10+(i*7919+s.since*31)%97)
		s.x[i] = max(s.x[i], 0) + up
		s.entryOf(v, func(r int, c float64) { s.rhs[r] += float64(c * up) })
	}
}

// entering picks the variable with the most negative reduced cost.
func (s *simplex) entering() (int, bool) {
	// Large row prices, while some row is not met, carry larger rounding noise.
	largest := 0.0
	for _, y := range s.y {
		largest = max(largest, math.Abs(y))
	}
	best, v, found := -max(tolPrice*s.unit, tolNoise*largest), 0, false
	for i := range s.rhs {
		if d := s.slackCost(i); d < best {
			best, v, found = d, -1-2*i, true
		}
	}
	for j := range s.cols {
		if s.in[j] {
			continue
		}
		if d := s.reduced(j); d < best {
			best, v, found = d, j, true
		}
	}
	return v, found
}

// pivot brings variable enter into the basis in place of row leave.
func (s *simplex) pivot(enter, leave int, dir []float64) {
	if v := s.basis[leave]; v >= 0 {
		s.in[v] = false
	}
	if enter >= 0 {
		s.in[enter] = true
	}
	s.basis[leave] = enter
	row := s.inv[leave]
	s.m.entries -= int64(len(row)*len(row) + pivotColumn*len(s.cols))
	f := 1 / dir[leave]
	scale(row, f)
	s.x[leave] *= f
	for i, d := range dir {
		if i != leave && d != 0 {
			axpy(s.inv[i], row, -d)
			s.x[i] -= float64(d * s.x[leave])
		}
	}
	if s.since++; s.since >= refactor {
		s.invert(append([]int(nil), s.basis...))
	}
}
