package terminal

import (
	"slices"
	"strings"

	"github.com/mattn/go-runewidth"
)

// width is the number of terminal cells that a text takes. It does not ask the
// environment, so that the same page is the same bytes everywhere.
func width(s string) int { return (&runewidth.Condition{StrictEmojiNeutral: true}).StringWidth(s) }

// wrap breaks a text into lines of at most so many cells, between words where
// it can and within a word where it must.
func wrap(s string, limit int) []string {
	limit = max(1, limit)
	var lines []string
	line, used := "", 0
	for _, word := range words(s) {
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

// words cuts a text at its spaces, a figure staying with its unit.
func words(s string) []string {
	var out []string
	for _, w := range strings.Fields(s) {
		if n := len(out); n > 0 && slices.Contains(measures(), strings.TrimRight(w, ".,;:)]")) && endsInDigit(out[n-1]) {
			out[n-1] += " " + w
			continue
		}
		out = append(out, w)
	}
	return out
}

func measures() []string {
	return []string{"%", "A", "mA", "V", "W", "kW", "VA", "kVA", "hp", "ft", "m", "h", "C", "F", "°F", "AWG", "kcmil", "BTU/h", "CFM", "m3/h", "ton", "tons", "°C", "ft2", "m2", "kPa", "kWh", "pint/day", "gal/day", "L/day"}
}

func endsInDigit(s string) bool {
	s = strings.TrimLeft(s, "(-")
	return s != "" && s[len(s)-1] >= '0' && s[len(s)-1] <= '9' && !strings.Contains(s, " ")
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
