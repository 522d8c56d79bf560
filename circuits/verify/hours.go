package verify

import (
	"fmt"
	"slices"

	"branchwork/loads"
	"branchwork/loads/clock"
)

// schedule is when a load is on, minute by minute. Loads of the same hours share
// one, so that the day is walked once for each of them and not for every load.
type schedule struct {
	on  [clock.Day]bool
	run clock.Minute // longest time on without a break, two days walked
}

// timetable finds the schedule of each item.
type timetable map[string]*schedule // by item

func hoursOf(set loads.Set) timetable {
	t := make(timetable, len(set.Loads))
	known := map[string]*schedule{}
	for _, l := range set.Loads {
		key := fmt.Sprint(l.HoursKnown, l.Hours)
		if known[key] == nil {
			known[key] = scheduleOf(l)
		}
		t[l.Name] = known[key]
	}
	return t
}

// named returns an item's schedule; of one that is not in the file, always.
func (t timetable) named(item string) *schedule {
	if s, ok := t[item]; ok {
		return s
	}
	return scheduleOf(loads.Load{})
}

func scheduleOf(l loads.Load) *schedule {
	s := &schedule{}
	for m := range clock.Day {
		s.on[m] = isOn(l, m)
	}
	run := clock.Minute(0)
	for m := range 2 * clock.Day {
		if run++; !s.on[m%clock.Day] {
			run = 0
		}
		s.run = max(s.run, run)
	}
	s.run = min(s.run, clock.Day)
	return s
}

func isOn(l loads.Load, m clock.Minute) bool {
	return !l.HoursKnown || l.Hours.IsNever() || l.Hours.Contains(m)
}

// within is the longest time on within any span of so long.
func (s *schedule) within(span clock.Minute) clock.Minute {
	on, most := clock.Minute(0), clock.Minute(0)
	for m := range 2 * clock.Day {
		if s.on[m%clock.Day] {
			on++
		}
		if m >= span && s.on[(m-span)%clock.Day] {
			on--
		}
		most = max(most, on)
	}
	return most
}

// changes reports whether anything goes off or comes on.
func changes(list []*schedule, before, m clock.Minute) bool {
	return slices.ContainsFunc(list, func(s *schedule) bool { return s.on[m] != s.on[before] })
}

// switches reports whether something goes off and something else comes on.
func switches(list []*schedule, before, m clock.Minute) bool {
	off, on := false, false
	for _, s := range list {
		was, is := s.on[before], s.on[m]
		off = off || was && !is
		on = on || is && !was
	}
	return off && on
}
