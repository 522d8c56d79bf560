package loads

import (
	"sort"

	"branchwork/loads/clock"
)

// State is a set of loads that are on at once at some time of the day.
type State struct {
	Name       string
	At         clock.Minute // a minute at which it holds
	Changeover bool         // a moment at which one load goes off and another on
	On         []bool       // by index of the loads asked about
	Brief      []bool       // on only because two switchings overlap
}

// States returns the distinct states of the day of some loads, in the order of
// the clock, each with the loads that are on.
//
// Timers are not interlocks: at every minute at which something goes off while
// something else goes on, a changeover state holds both. It lasts minutes, so
// nothing in it counts as continuous because of it.
//
// A load that is connected but has no hours, or a window of never, counts as on
// in every state.
func States(list []Load) []State {
	edges := edgesOf(list)
	var out []State
	for i, from := range edges {
		to := edges[(i+1)%len(edges)]
		on := onAt(list, from)
		out = append(out, State{Name: nameOf(list, on, from, to, len(edges)), At: from, On: on})
	}
	steady := out
	for i, from := range edges {
		before := steady[(i+len(steady)-1)%len(steady)].On
		after := steady[i].On
		both, brief := make([]bool, len(list)), make([]bool, len(list))
		off, start := false, false
		for k := range list {
			both[k] = before[k] || after[k]
			brief[k] = before[k] != after[k]
			off = off || before[k] && !after[k]
			start = start || after[k] && !before[k]
		}
		if off && start {
			out = append(out, State{Name: "changeover at " + from.String(), At: from, Changeover: true, On: both, Brief: brief})
		}
	}
	return distinct(out)
}

func edgesOf(list []Load) []clock.Minute {
	seen := map[clock.Minute]bool{}
	var edges []clock.Minute
	for _, l := range list {
		if !l.AlwaysOn() {
			for _, m := range l.Hours.Edges() {
				if !seen[m] {
					seen[m] = true
					edges = append(edges, m)
				}
			}
		}
	}
	if len(edges) == 0 {
		return []clock.Minute{0}
	}
	sort.Slice(edges, func(i, j int) bool { return edges[i] < edges[j] })
	return edges
}

func onAt(list []Load, m clock.Minute) []bool {
	on := make([]bool, len(list))
	for k, l := range list {
		on[k] = l.OnAt(m)
	}
	return on
}

// nameOf calls a state by its lights, which is how growers speak of the day.
func nameOf(list []Load, on []bool, from, to clock.Minute, edges int) string {
	lights, lit := 0, 0
	for k, l := range list {
		if l.Category == Lighting {
			lights++
			if on[k] {
				lit++
			}
		}
	}
	name := "all day"
	switch {
	case lights == 0 && edges == 1:
		return name
	case lights == 0:
		name = ""
	case lit == lights:
		name = "lights on"
	case lit == 0:
		name = "lights off"
	default:
		name = "some lights on"
	}
	if edges == 1 {
		return name + " all day"
	}
	if name != "" {
		name += " "
	}
	return name + from.String() + "-" + to.String()
}

// distinct drops states whose loads stand already in an earlier one; a steady
// state is kept before a changeover.
func distinct(states []State) []State {
	seen := map[string]bool{}
	out := states[:0:0]
	for _, s := range states {
		key := make([]byte, len(s.On))
		for i, on := range s.On {
			if on {
				key[i] = 1
			}
		}
		kind := "steady"
		if s.Changeover {
			kind = "changeover"
		}
		if k := kind + string(key); !seen[k] && !(s.Changeover && seen["steady"+string(key)]) {
			seen[k] = true
			out = append(out, s)
		}
	}
	return out
}
