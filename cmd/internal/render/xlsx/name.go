package xlsx

import (
	"strconv"
	"strings"
	"unicode/utf16"
)

// mostName is how long the name of a sheet may be, in UTF-16 units.
const mostName = 31

// names hands out names of sheets, none twice whatever its capitals.
type names struct{ taken map[string]bool }

// take returns a name like the one asked for that a sheet may have: without
// []:*?/\ and without apostrophes at its ends, not too long, not taken.
func (n *names) take(like string) string {
	if n.taken == nil {
		n.taken = map[string]bool{"history": true} // kept by spreadsheets for themselves
	}
	like = strings.Map(func(r rune) rune {
		if strings.ContainsRune(`[]:*?/\`, r) {
			return '-'
		}
		return r
	}, like)
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

// cut shortens a text to so many UTF-16 units.
func cut(s string, most int) string {
	length := 0
	for i, r := range s {
		length += len(utf16.Encode([]rune{r}))
		if length > most {
			return s[:i]
		}
	}
	return s
}
