package day

import (
	"branchwork/loads/clock"
)

// levels is a share of full draw, minute by minute.
type levels [clock.Day]float64

// levelsOf returns the level of a load that is on in windows w and rises and sets
// linearly over the first and the last minutes of each run.
//
//	level = min(1, t / ramp, (n − t) / ramp)      t into a run of n, at mid-minute
//
// Each ramp takes away half its time's energy. Runs join across midnight; what is always
// on has no ramp. A run too short for both ramps turns around in its middle.
//
// Source: common practice, no source (dimming ramps of 15 to 60 minutes; the energy of a
// ramp is arithmetic).
func levelsOf(w clock.Windows, ramp clock.Minute) *levels {
	var out levels
	if w.IsAlways() {
		for m := range out {
			out[m] = 1
		}
		return &out
	}
	for _, r := range runsOf(w) {
		for i := range r.length {
			level := 1.0
			if ramp > 0 {
				level = min(1, (float64(i)+0.5)/float64(ramp), (float64(r.length-i)-0.5)/float64(ramp))
			}
			out[(r.start+i)%clock.Day] = level
		}
	}
	return &out
}

// run is an unbroken time on. It may cross midnight.
type run struct{ start, length clock.Minute }

// runsOf returns the runs of windows in the order of their starts; none for always and
// never, which do not switch.
func runsOf(w clock.Windows) []run {
	var out []run
	edges := w.Edges()
	for i, m := range edges {
		if !w.Contains(m) || w.Contains(m+clock.Day-1) {
			continue
		}
		end := edges[(i+1)%len(edges)]
		out = append(out, run{m, (end - m + clock.Day) % clock.Day})
	}
	return out
}

// shifted returns windows moved later by some minutes, around the clock.
func shifted(w clock.Windows, by clock.Minute) clock.Windows {
	if w.IsAlways() || w.IsNever() {
		return w
	}
	out := clock.Never()
	for _, r := range runsOf(w) {
		from := ((r.start+by)%clock.Day + clock.Day) % clock.Day
		// The run is shorter than a day, so its ends differ.
		one, _ := clock.Between(from, (from+r.length)%clock.Day)
		out = out.Union(one)
	}
	return out
}

// dawn returns the minute at which a photoperiod begins: the start of the run that
// follows the longest dark, so that a night broken by light has its dawn after it. ok is
// false where lights never switch.
func dawn(w clock.Windows) (clock.Minute, bool) {
	runs := runsOf(w)
	if len(runs) == 0 {
		return 0, false
	}
	best, longest := runs[0].start, clock.Minute(-1)
	for i, r := range runs {
		before := runs[(i+len(runs)-1)%len(runs)]
		dark := ((r.start-before.start-before.length)%clock.Day + clock.Day) % clock.Day
		if len(runs) == 1 {
			dark = clock.Day - r.length
		}
		if dark > longest {
			best, longest = r.start, dark
		}
	}
	return best, true
}

// overlap reports whether two windows are on at once in some minute.
func overlap(a, b clock.Windows) bool {
	return a.Union(b).Length() < a.Length()+b.Length()
}

// windowsOf returns the windows of the minutes that are set.
func windowsOf(on func(clock.Minute) bool) clock.Windows {
	out := clock.Never()
	for from := clock.Minute(0); from < clock.Day; {
		if !on(from) {
			from++
			continue
		}
		to := from
		for to < clock.Day && on(to) {
			to++
		}
		if from == 0 && to == clock.Day {
			return clock.Always()
		}
		one, _ := clock.Between(from, to)
		out = out.Union(one)
		from = to
	}
	return out
}
