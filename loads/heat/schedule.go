package heat

import (
	"branchwork/loads/clock"
)

// hours is a value for each hour of the day.
type hours [24]float64

// sum returns the day's sum.
func (h hours) sum() float64 {
	s := 0.0
	for _, x := range h {
		s += x
	}
	return s
}

// shares returns the share of each hour that windows are on.
func shares(w clock.Windows) hours {
	var out hours
	for h := range out {
		from := clock.Minute(h) * clock.Hour
		out[h] = w.Share(from, from+clock.Hour)
	}
	return out
}

// ramped returns the mean level in each hour of lights that are on in windows w and
// brighten and dim linearly over the first and the last minutes of each run.
//
// A ramp takes half its time's energy away at each end. Runs join across midnight;
// lights that are always on have no ramp. Where a run is too short for both ramps
// they meet in the middle below full level.
//
// Source: common practice, no source (dimming ramps of 15 to 60 minutes).
func ramped(w clock.Windows, ramp clock.Minute) hours {
	if ramp <= 0 || w.IsAlways() || w.IsNever() {
		return shares(w)
	}
	var level [clock.Day]float64
	for _, start := range starts(w) {
		n := clock.Minute(0)
		for w.Contains(start + n) {
			n++
		}
		for i := range n {
			up := (float64(i) + 0.5) / float64(ramp)
			down := (float64(n-i) - 0.5) / float64(ramp)
			level[(start+i)%clock.Day] = min(1, up, down)
		}
	}
	var out hours
	for m, x := range level {
		out[m/int(clock.Hour)] += x / float64(clock.Hour)
	}
	return out
}

// starts returns the minutes at which windows begin.
func starts(w clock.Windows) []clock.Minute {
	var out []clock.Minute
	for _, m := range w.Edges() {
		if w.Contains(m) && !w.Contains(m+clock.Day-1) {
			out = append(out, m)
		}
	}
	return out
}
