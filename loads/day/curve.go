package day

import (
	"branchwork/loads/clock"
	"branchwork/loads/units"
)

// curve is a load through the day.
type curve struct {
	draw *draw
	*course
}

// course is what a curve looks like; loads that draw alike share one.
type course struct {
	minutes *[clock.Day]units.Power      // running, mean day; nil once a day is worked
	mean    [quarters]units.Power        // running, mean day
	most    [kinds][quarters]units.Power // full draw wherever it runs at all
}

func newCourse() *course { return &course{minutes: new([clock.Day]units.Power)} }

// curvesOf returns the curves of some loads, in their order.
//
// Loads that are interlocked cannot run together. In the coincident figures only the
// member with the largest draw of the minute counts, of equals the first. Their running
// powers are scaled down together where windows and duties ask for more than that member
// draws:
//
//	k = min(1, max(P_full) / ΣP)
func curvesOf(draws []*draw) []*curve {
	out := make([]*curve, len(draws))
	for i, d := range draws {
		out[i] = &curve{draw: d}
	}
	courses := map[alike]*course{}
	done := map[string]bool{}
	for i, c := range out {
		g := c.draw.load.Interlock
		if g == "" {
			key := alike{c.draw.full, c.draw.level, c.draw.runs}
			if c.course = courses[key]; c.course == nil {
				c.course = newCourse()
				together(out[i : i+1])
				courses[key] = c.course
			}
			continue
		}
		if done[g] {
			continue
		}
		done[g] = true
		var group []*curve
		for _, d := range out {
			if d.draw.load.Interlock == g {
				d.course = newCourse()
				group = append(group, d)
			}
		}
		together(group)
	}
	return out
}

// alike is equal for loads that draw alike all day.
type alike struct {
	full  units.Power
	level *levels
	runs  [kinds][24]float64
}

// together works the minutes of one interlock.
func together(group []*curve) {
	member := make([]int, len(group)) // by load
	var names []string
	for i, c := range group {
		member[i] = len(names)
		for k, n := range names {
			if n == c.draw.load.Member {
				member[i] = k
			}
		}
		if member[i] == len(names) {
			names = append(names, c.draw.load.Member)
		}
	}
	full := make([]units.Power, len(names))
	for m := range clock.Day {
		h, q := int(m/clock.Hour), int(m/quarter)
		sum, largest := units.Power(0), units.Power(0)
		for k := range kinds {
			clear(full)
			for i, c := range group {
				if c.draw.runs[k][h] > 0 {
					full[member[i]] += c.draw.at(m)
				}
			}
			first := 0
			for j, p := range full {
				if p > full[first] {
					first = j
				}
			}
			if k == mean {
				largest = full[first]
			}
			for i, c := range group {
				if member[i] == first && c.draw.runs[k][h] > 0 {
					c.most[k][q] += units.Times(c.draw.at(m), 1/float64(quarter))
				}
			}
		}
		for _, c := range group {
			c.minutes[m] = units.Times(c.draw.at(m), c.draw.runs[mean][h])
			sum += c.minutes[m]
		}
		for _, c := range group {
			if sum > largest {
				c.minutes[m] = units.Times(c.minutes[m], units.Per(largest, sum))
			}
			c.mean[q] += units.Times(c.minutes[m], 1/float64(quarter))
		}
	}
}

// at returns the full draw at a minute.
func (d *draw) at(m clock.Minute) units.Power { return units.Times(d.full, d.level[m]) }

// va returns the apparent power of a curve's power, at the load's power factor.
func (c *curve) va(p units.Power) units.Apparent { return p.VA(c.draw.load.PF) }
