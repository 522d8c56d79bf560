package terminal

import (
	"strings"

	"github.com/olekukonko/tablewriter/pkg/twwidth"
)

// width is the number of terminal cells that a text takes. It does not ask the
// environment, so that the same page is the same bytes everywhere.
func width(s string) int { return twwidth.WidthWithOptions(s, twwidth.Options{}) }

// wrap breaks a text into lines of at most so many cells, between words where
// it can and within a word where it must.
func wrap(s string, limit int) []string {
	limit = max(1, limit)
	var lines []string
	line, used := "", 0
	for _, word := range strings.Fields(s) {
		n := width(word)
		if used > 0 && used+1+n <= limit {
			line, used = line+" "+word, used+1+n
			continue
		}
		if used > 0 {
			lines = append(lines, line)
		}
		for n > limit {
			head, tail := split(word, limit)
			lines = append(lines, head)
			word, n = tail, width(tail)
		}
		line, used = word, n
	}
	if used > 0 || len(lines) == 0 {
		lines = append(lines, line)
	}
	return lines
}

// split cuts a word so that its head fits, after a mark of punctuation where one
// stands late enough.
func split(word string, limit int) (head, tail string) {
	runes := []rune(word)
	end, used := 0, 0
	for end < len(runes) {
		n := width(string(runes[:end+1]))
		if n > limit && end > 0 {
			break
		}
		used, end = n, end+1
	}
	for i := end; i > end/2 && used > 0; i-- {
		if strings.ContainsRune("-_./,;:", runes[i-1]) {
			end = i
			break
		}
	}
	return string(runes[:end]), string(runes[end:])
}
