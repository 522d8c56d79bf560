package day

import (
	"slices"

	"branchwork/loads"
	"branchwork/loads/clock"
	"branchwork/loads/inventory"
)

// Grids on which photoperiods may begin.
const (
	Hourly    = clock.Hour
	Quarterly = quarter
)

// startsOf returns the times at which a room's photoperiod may begin, ascending: those of
// the grid within its starts_from, both ends included, the ends themselves, and the
// present start where it lies within. why says why there are none.
func startsOf(room inventory.Room, grid clock.Minute) (starts []clock.Minute, why string) {
	lights, ok := room.Lights.Get()
	from, may := room.StartsFrom.Get()
	now, switches := dawn(lights)
	switch {
	case !may:
		return nil, "no starts_from is given"
	case !ok:
		return nil, "its lights are not given"
	case !switches:
		return nil, "its lights never switch"
	case from.IsNever():
		return nil, "starts_from is never"
	}
	for m := clock.Minute(0); m < clock.Day; m += grid {
		if from.Contains(m) {
			starts = append(starts, m)
		}
	}
	for _, r := range runsOf(from) {
		starts = append(starts, r.start, (r.start+r.length)%clock.Day)
	}
	if from.Contains(now) {
		starts = append(starts, now)
	}
	slices.Sort(starts)
	return slices.Compact(starts), ""
}

// litOf returns when a room is lit in any way: its window with those of its fixtures.
func litOf(room inventory.Room, set loads.Set) clock.Windows {
	w, ok := room.Lights.Get()
	if !ok {
		w = clock.Never()
	}
	for _, l := range set.Loads {
		if l.Room == room.Name && l.Item.Table == inventory.Fixtures && l.HoursKnown {
			w = w.Union(l.Hours)
		}
	}
	return w
}

// keepApart reports whether the lights of two rooms must not overlap, by apart on either
// side or by an interlock of which they are different members.
func keepApart(set loads.Set, a, b inventory.Room) bool {
	if slices.Contains(a.Apart, b.Name) || slices.Contains(b.Apart, a.Name) {
		return true
	}
	return interlocked(set, a, b)
}

// interlocked reports whether luminaires of two rooms are different members of one
// interlock, so that they cannot be lit together.
func interlocked(set loads.Set, a, b inventory.Room) bool {
	for _, x := range set.Loads {
		if x.Room != a.Name || x.Interlock == "" || x.Item.Table != inventory.Fixtures {
			continue
		}
		for _, y := range set.Loads {
			if y.Room == b.Name && y.Item.Table == inventory.Fixtures && y.Interlock == x.Interlock && y.Member != x.Member {
				return true
			}
		}
	}
	return false
}
