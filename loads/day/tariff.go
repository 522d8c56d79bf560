package day

import (
	"slices"

	"branchwork/loads/clock"
	"branchwork/loads/inventory"
	"branchwork/loads/units"
)

// Season is half of the year as a tariff names it.
type Season string

const (
	SummerMonths Season = "summer"
	WinterMonths Season = "winter"
)

// Months returns how many months of the year a season has: June to September are summer.
// Common practice, no source; a utility's own tariff says which they are.
func (s Season) Months() int {
	if s == SummerMonths {
		return 4
	}
	return 8
}

// The seasons and the kinds of day, by index.
const (
	seasons   = 2
	dayKinds  = 2
	weekdays  = 0
	noPrice   = -1
	perWeek   = 7
	workDays  = 5
	restDays  = perWeek - workDays
	firstHalf = 0 // summer
)

func seasonName(i int) Season { return [seasons]Season{SummerMonths, WinterMonths}[i] }
func daysName(i int) string   { return [dayKinds]string{"weekdays", "weekends"}[i] }

// weight returns the share of all days that are of a kind. Holidays are not told apart.
func weight(kind int) float64 {
	if kind == weekdays {
		return float64(workDays) / perWeek
	}
	return float64(restDays) / perWeek
}

// When is a part of the year in which something holds.
type When struct {
	Season Season // empty: all year
	Days   string // "weekdays", "weekends"; empty: every day
	Hours  clock.Windows
}

// String returns it in words.
func (w When) String() string {
	s := w.Hours.String()
	if w.Hours.IsAlways() {
		s = "all hours"
	}
	if w.Days != "" {
		s += " on " + w.Days
	}
	if w.Season != "" {
		s += " in " + string(w.Season)
	}
	return s
}

// Overlap is two prices of one time, of which neither is the more specific. The dearer is
// taken.
type Overlap struct {
	When   When
	Prices [2]units.Money // taken, left
}

// schedule is the price of every minute of the year's four kinds of day, by index into
// the tariff's prices; noPrice where there is none.
type schedule struct {
	tariff   inventory.Tariff
	at       [seasons][dayKinds][clock.Day]int
	overlaps []Overlap
}

// newSchedule finds which price holds when.
//
// Of two prices that hold at one time the more specific wins: one with hours over one
// without, which holds in "all other hours"; then one that names season or days, or both,
// where the other names less; then one whose hours lie within the other's. Two prices of
// which neither is more specific are an overlap.
func newSchedule(t inventory.Tariff) *schedule {
	s := &schedule{tariff: t}
	for season := range seasons {
		for kind := range dayKinds {
			for m := range clock.Day {
				s.at[season][kind][m] = s.choose(season, kind, m)
			}
		}
	}
	s.findOverlaps()
	return s
}

// choose returns the price that holds: of those that no other beats, the dearest, so that
// an overlap never makes the cost too small.
func (s *schedule) choose(season, kind int, m clock.Minute) int {
	var at []int
	for i, p := range s.tariff.Energy {
		if holds(p, season, kind, m) {
			at = append(at, i)
		}
	}
	best := noPrice
	for _, i := range at {
		beaten := slices.ContainsFunc(at, func(j int) bool { return s.beats(j, i) })
		if !beaten && (best == noPrice || s.tariff.Energy[i].Price > s.tariff.Energy[best].Price) {
			best = i
		}
	}
	return best
}

func holds(p inventory.EnergyPrice, season, kind int, m clock.Minute) bool {
	if x, ok := p.Season.Get(); ok && x != string(seasonName(season)) {
		return false
	}
	if x, ok := p.Days.Get(); ok && x != daysName(kind) {
		return false
	}
	w, ok := p.Hours.Get()
	return !ok || w.Contains(m)
}

// beats reports whether price i is more specific than price j.
func (s *schedule) beats(i, j int) bool {
	a, b := s.tariff.Energy[i], s.tariff.Energy[j]
	if a.Hours.Known() != b.Hours.Known() {
		return a.Hours.Known()
	}
	more := a.Season.Known() && !b.Season.Known() || a.Days.Known() && !b.Days.Known()
	less := b.Season.Known() && !a.Season.Known() || b.Days.Known() && !a.Days.Known()
	if more || less {
		return more && !less
	}
	wa, _ := a.Hours.Get()
	wb, _ := b.Hours.Get()
	return wa.Union(wb).Equal(wb) && wa.Length() < wb.Length()
}

// findOverlaps lists the times at which two prices stand against each other with neither
// the more specific, and which differ.
func (s *schedule) findOverlaps() {
	n := len(s.tariff.Energy)
	for i := range n {
		for j := i + 1; j < n; j++ {
			a, b := s.tariff.Energy[i].Price, s.tariff.Energy[j].Price
			if a == b || s.beats(i, j) || s.beats(j, i) {
				continue
			}
			for _, w := range s.whens(func(season, kind int, m clock.Minute) bool {
				at := s.at[season][kind][m]
				p, q := s.tariff.Energy[i], s.tariff.Energy[j]
				return (at == i || at == j) && holds(p, season, kind, m) && holds(q, season, kind, m)
			}) {
				s.overlaps = append(s.overlaps, Overlap{w, [2]units.Money{max(a, b), min(a, b)}})
			}
		}
	}
}

// gaps lists the times without a price.
func (s *schedule) gaps() []When {
	return s.whens(func(season, kind int, m clock.Minute) bool { return s.at[season][kind][m] == noPrice })
}

// whens lists the times at which something is so, with as few words as it takes: what
// holds in both seasons or on all days is named once.
func (s *schedule) whens(is func(season, kind int, m clock.Minute) bool) []When {
	var w [seasons][dayKinds]clock.Windows
	for season := range seasons {
		for kind := range dayKinds {
			w[season][kind] = windowsOf(func(m clock.Minute) bool { return is(season, kind, m) })
		}
	}
	bySeason := w[0][0].Equal(w[0][1]) && w[1][0].Equal(w[1][1]) // days make no difference
	byDays := w[0][0].Equal(w[1][0]) && w[0][1].Equal(w[1][1])
	var out []When
	add := func(season Season, days string, hours clock.Windows) {
		if !hours.IsNever() {
			out = append(out, When{season, days, hours})
		}
	}
	switch {
	case bySeason && byDays:
		add("", "", w[0][0])
	case bySeason:
		for i := range seasons {
			add(seasonName(i), "", w[i][0])
		}
	case byDays:
		for i := range dayKinds {
			add("", daysName(i), w[0][i])
		}
	default:
		for i := range seasons {
			for j := range dayKinds {
				add(seasonName(i), daysName(j), w[i][j])
			}
		}
	}
	return out
}

// seasonal reports whether a price is named for a season.
func (s *schedule) seasonal() bool {
	for _, p := range s.tariff.Energy {
		if p.Season.Known() {
			return true
		}
	}
	return false
}

// used returns the energy of a mean month of a season at each price, and without one.
//
//	W_p = 365/12 · Σ_kind share(kind) · Σ_minutes P · 1 min / 1000      kWh
func (s *schedule) used(minutes *[clock.Day]units.Power, season int) (at []units.Energy, gap units.Energy) {
	at = make([]units.Energy, len(s.tariff.Energy))
	for kind := range dayKinds {
		for m, p := range minutes {
			w := units.Times(PerMonth(EnergyOf(p, 1)), weight(kind))
			if i := s.at[season][kind][m]; i == noPrice {
				gap += w
			} else {
				at[i] += w
			}
		}
	}
	return at, gap
}
