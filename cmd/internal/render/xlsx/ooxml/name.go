package ooxml

import (
	"strconv"
	"strings"
	"unicode"
)

// mostName is how long the name of a sheet may be, in UTF-16 units.
const mostName = 31

// names hands out names of sheets, none twice whatever its capitals.
type names struct{ taken map[string]bool }

// take returns a name like the one asked for that a sheet may have: without
// []:*?/\, not as such nor as a code, and without apostrophes at its ends, not too
// long, not taken.
func (n *names) take(like string) string {
	if n.taken == nil {
		n.taken = map[string]bool{"history": true} // kept by spreadsheets for themselves
	}
	like = strings.Map(func(r rune) rune {
		if strings.ContainsRune(`[]:*?/\`, r) || unicode.IsControl(r) {
			return '-'
		}
		return r
	}, uncoded(like, "-"))
	for i := 1; ; i++ {
		end := ""
		if i > 1 {
			end = " (" + strconv.Itoa(i) + ")"
		}
		name := strings.Trim(cut(like, mostName-len(end)), " '") + end
		if name == "" {
			name = "Sheet"
		}
		if k := strings.ToLower(name); !n.taken[k] {
			n.taken[k] = true
			return name
		}
	}
}
