package inventory

import (
	"fmt"
	"strings"
)

// Suggestions are for a person; a file with thousands of wrong names gets them
// for the first ones only.
const (
	maxSuggestions = 200
	maxListed      = 40 // names in a remedy
)

// suggest returns the nearest of names, and what to say: `did you mean
// "count"?`, or what there is to choose from, `panels here: LP1, LP2`.
func (r *reader) suggest(name string, names []string, here string) (best, remedy string) {
	if len(r.problems) < maxSuggestions {
		if best = Nearest(name, names); best != "" {
			return best, fmt.Sprintf("did you mean %q?", best)
		}
	}
	return "", here + ": " + listed(names)
}

// listed joins names, the first ones of many; in quotes where one has a space.
func listed(names []string) string {
	if len(names) == 0 {
		return "none"
	}
	safe := make([]string, 0, min(len(names), maxListed)+1)
	spaced := false
	for _, n := range names[:min(len(names), maxListed)] {
		spaced = spaced || strings.ContainsAny(n, " ,")
	}
	for i, n := range names {
		if i == maxListed && len(names) > maxListed+1 {
			safe = append(safe, fmt.Sprintf("and %d more", len(names)-i))
			break
		}
		if spaced {
			n = `"` + n + `"`
		}
		safe = append(safe, printable(n))
	}
	return strings.Join(safe, ", ")
}

// Nearest returns the name closest to what was written, the first of equals;
// empty where none lies within max(1, a third of the length).
func Nearest(name string, names []string) string {
	name = strings.ToLower(name)
	best, least := "", max(1, len([]rune(name))/3)+1
	for _, n := range names {
		if d := distance(name, strings.ToLower(n), least); d < least {
			best, least = n, d
		}
	}
	return best
}

// distance counts the letters to change, add, drop or swap with their neighbour
// to turn a into b; it gives up at limit.
func distance(a, b string, limit int) int {
	x, y := []rune(a), []rune(b)
	if len(x)-len(y) >= limit || len(y)-len(x) >= limit {
		return limit
	}
	before, last, row := make([]int, len(y)+1), make([]int, len(y)+1), make([]int, len(y)+1)
	for j := range last {
		last[j] = j
	}
	for i := 1; i <= len(x); i++ {
		row[0] = i
		for j := 1; j <= len(y); j++ {
			cost := 1
			if x[i-1] == y[j-1] {
				cost = 0
			}
			row[j] = min(last[j]+1, row[j-1]+1, last[j-1]+cost)
			if i > 1 && j > 1 && x[i-1] == y[j-2] && x[i-2] == y[j-1] {
				row[j] = min(row[j], before[j-2]+1)
			}
		}
		before, last, row = last, row, before
	}
	return last[len(y)]
}

func (r *reader) remedy(name string, names []string, here string) string {
	_, s := r.suggest(name, names, here)
	return s
}
