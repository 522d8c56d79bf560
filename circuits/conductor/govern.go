package conductor

import (
	"sort"

	"branchwork/loads/units"
)

// tests returns the ampacity tests with what they demand and what a conductor of
// those figures offers, the most demanding first. A test is the more demanding
// the larger the smallest conductor that meets it; between equals the one with
// the least to spare comes first. A device that a nameplate or a motor rule sets is
// not there to protect the conductor and asks nothing of it.
func (q question) tests(list []candidate, f figures) []Test {
	type ranked struct {
		Test
		at    int
		share float64
	}
	var all []ranked
	for _, name := range ampacityTests() {
		if name == Protection && !q.SmallLimits {
			continue
		}
		t := ranked{Test: Test{Name: name}, at: q.first(list, 0, name)}
		t.Needs, t.Has = q.needs(name, f)
		t.Short = units.Exceeds(t.Needs, t.Has)
		if t.at >= 0 {
			t.Size, t.Sets = list[t.at].size, list[t.at].sets
		} else {
			t.at = len(list)
		}
		if t.Has > 0 {
			t.share = float64(t.Needs) / float64(t.Has)
		}
		all = append(all, t)
	}
	sort.SliceStable(all, func(i, j int) bool {
		if all[i].at != all[j].at {
			return all[i].at > all[j].at
		}
		return all[i].share > all[j].share
	})
	out := make([]Test, len(all))
	for i, t := range all {
		out[i] = t.Test
	}
	return out
}
