package page

import (
	"math"
	"strconv"
	"strings"
	"unicode"

	"branchwork/cmd/internal/document"
	"branchwork/loads/units"
)

// Unknown stands where a figure has a meaning and is not known.
const Unknown = document.Unknown

// none stands where there is no figure to give.
const none = "none"

// Cell is a text or a number.
type Cell struct {
	text    string
	prefix  string // before a number, for a reader: "at least "
	value   float64
	digits  int
	numeric bool
}

func text(s string) Cell { return Cell{text: s} }

func whole(n int) Cell { return number(float64(n), 0) }

func number(x float64, digits int) Cell { return Cell{value: x, digits: digits, numeric: true} }

// maybe is a number that may not be known.
func maybe(x *float64, digits int) Cell {
	if x == nil {
		return text(Unknown)
	}
	return number(*x, digits)
}

// atLeast marks a number that is a least value.
func atLeast(c Cell, least bool) Cell {
	if least {
		c.prefix = "at least "
	}
	return c
}

func words(list []string) Cell { return text(strings.Join(list, ", ")) }

// IsNumber reports whether the cell is a number, or stands in the place of one.
func (c Cell) IsNumber() bool { return c.numeric || c.text == Unknown || c.text == none }

// Shown returns the cell for a reader: thousands separated.
func (c Cell) Shown() string {
	if c.numeric {
		return c.prefix + units.Fixed(c.rounded(), c.digits)
	}
	return c.text
}

// Data returns the cell for a program: no thousands separators.
func (c Cell) Data() string {
	if c.numeric {
		return strconv.FormatFloat(c.rounded(), 'f', c.digits, 64)
	}
	return c.text
}

// rounded keeps a value that rounds to nothing from being printed as -0.
func (c Cell) rounded() float64 {
	if math.Abs(c.value) < 0.5*math.Pow10(-c.digits) {
		return 0
	}
	return c.value
}

func spacesText(spaces []int) string {
	parts := make([]string, len(spaces))
	for i, s := range spaces {
		parts[i] = strconv.Itoa(s)
	}
	return strings.Join(parts, ",")
}

// amount prints a number with its unit for a sentence: at most digits decimals.
func amount(x float64, digits int, unit string) string { return units.Round(x, digits) + " " + unit }

// maybeAmount prints a number that may not be known.
func maybeAmount(x *float64, digits int, unit string) string {
	if x == nil {
		return "not known"
	}
	return amount(*x, digits, unit)
}

func orUnknown(s *string) string {
	if s == nil {
		return Unknown
	}
	return *s
}

func plural(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return units.Round(float64(n), 0) + " " + many
}

// times says how many of an item: "5 x bar-640".
func times(n int, item string) string { return strconv.Itoa(n) + " x " + item }

// Printable shows what would not print: a name from the file must not move a
// cursor, change colours or turn the direction of the text.
func Printable(s string) string {
	if strings.IndexFunc(s, func(c rune) bool { return !unicode.IsPrint(c) || c == unicode.ReplacementChar }) < 0 {
		return s
	}
	var b strings.Builder
	for _, c := range s {
		if unicode.IsPrint(c) && c != unicode.ReplacementChar {
			b.WriteRune(c)
			continue
		}
		q := strconv.QuoteRuneToASCII(c)
		b.WriteString(q[1 : len(q)-1])
	}
	return b.String()
}
