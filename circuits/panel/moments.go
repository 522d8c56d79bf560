package panel

import (
	"cmp"
	"slices"
)

// Day is what the legs are balanced for. The zero Day is a panel on which
// everything is always on.
type Day struct {
	Moments []Moment
	// Base is what each leg carries beside the breakers with everything on: what
	// a sub-panel passes on leg by leg.
	Base []int64
}

// Moment is a state of the day. What a breaker carries in it is Want.At.
type Moment struct {
	Lit  bool    // lights are on
	Base []int64 // what each leg carries beside the breakers
}

// mostMoments is how many moments a search looks at together, the one with
// everything on included. Where a day has more that matter, the heaviest are
// searched and all are reported on.
const mostMoments = 5

// vector is a current per moment.
type vector [mostMoments]int64

func (v *vector) add(n int64, w vector) {
	for m := range v {
		v[m] += n * w[m]
	}
}

// moment is one that is searched.
type moment struct {
	at     int  // index in Day.Moments, −1 for everything on
	rules  bool // its fullest leg is to be as small as possible
	lit    bool // it is added up with the others that are lit
	united bool // everything is on
}

// everythingOn is the one moment of a panel without a day.
var everythingOn = moment{at: -1, rules: true, lit: true, united: true}

// amps is what a breaker carries at a moment.
func (m moment) amps(w Want) int64 {
	if m.at < 0 || len(w.At) <= m.at {
		return w.Amps
	}
	return w.At[m.at]
}

func (m moment) base(d Day) []int64 {
	if m.at < 0 {
		return d.Base
	}
	return d.Moments[m.at].Base
}

// counted lists the moments of a day that no other exceeds on every breaker and leg.
// Where none of them is lit, all count as lit.
func counted(day Day, wants []Want) []moment {
	if len(day.Moments) == 0 {
		return []moment{everythingOn}
	}
	var out []moment
	lit := false
	for _, i := range maximal(day, wants) {
		out = append(out, moment{at: i, rules: true, lit: day.Moments[i].Lit})
		lit = lit || day.Moments[i].Lit
	}
	for i := range out {
		out[i].lit = out[i].lit || !lit
	}
	return out
}

// searched returns the moments that decide where breakers go: of those counted the
// heaviest, at most mostMoments − 1, and everything on.
func searched(day Day, wants []Want) []moment {
	out := counted(day, wants)
	if len(day.Moments) == 0 {
		return out
	}
	together := moment{at: -1, united: true}
	slices.SortStableFunc(out, func(a, b moment) int { return cmp.Compare(total(day, wants, b), total(day, wants, a)) })
	out = out[:min(len(out), mostMoments-1)]
	if same := slices.IndexFunc(out, func(m moment) bool { return covers(day, wants, m, together) }); same >= 0 {
		out[same].united = true
		return out
	}
	return append(out, together)
}

// maximal lists the moments of a day that no other exceeds on every breaker and
// leg, equal ones once.
func maximal(day Day, wants []Want) []int {
	var out []int
	for i := range day.Moments {
		m := moment{at: i}
		if slices.ContainsFunc(out, func(j int) bool { return covers(day, wants, moment{at: j}, m) }) {
			continue
		}
		out = slices.DeleteFunc(out, func(j int) bool { return covers(day, wants, m, moment{at: j}) })
		out = append(out, i)
	}
	return out
}

// covers reports whether every breaker and every leg carries at a as much as at
// b.
func covers(day Day, wants []Want, a, b moment) bool {
	for _, w := range wants {
		if a.amps(w) < b.amps(w) {
			return false
		}
	}
	x, y := a.base(day), b.base(day)
	for leg := range max(len(x), len(y)) {
		if legOf(x, leg) < legOf(y, leg) {
			return false
		}
	}
	return true
}

// total is the current of all poles at a moment.
func total(day Day, wants []Want, m moment) (sum int64) {
	for _, i := range m.base(day) {
		sum += i
	}
	for _, w := range wants {
		sum += int64(w.Poles) * m.amps(w)
	}
	return sum
}

func legOf(list []int64, leg int) int64 {
	if leg < len(list) {
		return list[leg]
	}
	return 0
}

// score is how good a division over the legs is, in order of weight.
type score struct {
	worst  int64 // the fullest leg at any moment that rules
	lit    int64 // the fullest legs of the lit moments, added up
	united int64 // the fullest leg with everything on
	gap    int64 // largest leg less smallest, over all moments
}

func (s score) compare(o score) int {
	return cmp.Or(cmp.Compare(s.worst, o.worst), cmp.Compare(s.lit, o.lit), cmp.Compare(s.united, o.united), cmp.Compare(s.gap, o.gap))
}

// count adds what a moment has to say: its fullest and its emptiest leg.
func (s *score) count(m moment, high, low int64) {
	if m.rules {
		s.worst = max(s.worst, high)
	}
	if m.lit {
		s.lit += high
	}
	if m.united {
		s.united = high
	}
	s.gap += high - low
}

// scoreOf returns the score of sums by leg.
func (b *board) scoreOf(sums []vector) (s score) {
	for m, k := range b.moments {
		high, low := sums[0][m], sums[0][m]
		for _, leg := range sums[1:] {
			high, low = max(high, leg[m]), min(low, leg[m])
		}
		s.count(k, high, low)
	}
	return s
}

// view is the board and its kinds as they are at one moment.
func (b *board) view(m int, kinds []kind) (*board, []kind) {
	v := *b
	v.base = make([]int64, b.legs)
	for leg := range v.base {
		v.base[leg] = b.bases[leg][m]
	}
	out := slices.Clone(kinds)
	for k := range out {
		out[k].amps = out[k].load[m]
	}
	return &v, out
}
