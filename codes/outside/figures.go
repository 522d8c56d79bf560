package outside

import (
	"cmp"
	"math"
	"os"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"branchwork/codes/published"
	"branchwork/loads/units"
)

// Case is a published case under test. What is compared through it is written
// down.
type Case struct {
	published.Case
	book *book
}

// book is what one test computed for the cases of a file.
type book struct {
	test, file string
	at         map[string]int // place of a case in the file
	figures    []published.Figure
}

// Cases reads the cases of a file for a test. When the test ends, what it
// computed must be what is written down in testdata/published/measured.
func Cases(t *testing.T, file string) []Case {
	t.Helper()
	list, err := published.Load(os.DirFS(folder(t)), file)
	require.NoError(t, err)
	b := &book{test: place(t) + " " + t.Name(), file: file, at: map[string]int{}}
	out := make([]Case, len(list))
	for i, c := range list {
		out[i], b.at[c.ID] = Case{c, b}, i
	}
	t.Cleanup(func() { b.close(t) })
	return out
}

// Near compares a result with the quantity wanted, where one is.
func Near[T units.Quantity](t testing.TB, c Case, key string, got T) {
	t.Helper()
	if !c.Want.Has(key) {
		return
	}
	want, err := published.Quantity[T](c.Want, key)
	require.NoError(t, err)
	text, err := published.Get[string](c.Want, key)
	require.NoError(t, err)
	// The result in the unit of what is wanted; temperatures have an offset too.
	unit := text[strings.LastIndexAny(text, "0123456789.,")+1:]
	zero, err := units.Parse[T]("0" + unit)
	require.NoError(t, err)
	one, err := units.Parse[T]("1" + unit)
	require.NoError(t, err)
	shown, base := (float64(got)-float64(zero))/float64(one-zero), math.Abs(float64(want))
	if _, ok := any(got).(units.Temperature); ok {
		base = kelvin(float64(want))
	}
	c.compare(t, key, text, float64(want), float64(got), base, strconv.FormatFloat(shown, 'g', published.Digits, 64)+unit)
}

// Number compares a result with the bare number wanted, where one is.
func (c Case) Number(t testing.TB, key string, got float64) {
	t.Helper()
	if !c.Want.Has(key) {
		return
	}
	want, err := c.Want.Number(key)
	require.NoError(t, err)
	c.compare(t, key, strconv.FormatFloat(want, 'g', -1, 64), want, got, math.Abs(want), strconv.FormatFloat(got, 'g', published.Digits, 64))
}

// kelvin is a temperature above absolute zero: a share of degrees Celsius says
// nothing.
func kelvin(celsius float64) float64 { return celsius + 273.15 }

// compare holds the result to the case's tolerance, with room for the noise of
// floating-point numbers. The difference is written down as a share of base.
func (c Case) compare(t testing.TB, key, text string, want, got, base float64, shown string) {
	t.Helper()
	assert.InDelta(t, want, got, c.Tol+1e-9*math.Max(1, math.Abs(want)), "%s, %s: %s (%s, %s)", c.ID, key, c.Says, c.Source.Ref, c.Source.At)
	f := published.Figure{Key: key, Want: text, Got: shown}
	off := math.Abs(got - want)
	if off <= 1e-9*math.Max(1, math.Abs(want)) {
		off = 0
		f.Got = strings.ReplaceAll(text, ",", "")
	}
	if base != 0 {
		f.Off, f.Within = off/base, c.Tol/base
	}
	if c.Tol > 0 {
		f.Share = off / c.Tol
	}
	c.note(f)
}

// Name compares a result with the name wanted, where one is.
func (c Case) Name(t testing.TB, key, got string) {
	t.Helper()
	if !c.Want.Has(key) {
		return
	}
	want, err := published.Get[string](c.Want, key)
	require.NoError(t, err)
	assert.Equal(t, want, got, "%s, %s: %s (%s, %s)", c.ID, key, c.Says, c.Source.Ref, c.Source.At)
	c.note(published.Figure{Key: key, Want: want, Got: got, Names: true})
}

func (c Case) note(f published.Figure) {
	f.Test, f.File, f.Case = c.book.test, c.book.file, c.ID
	c.book.figures = append(c.book.figures, f)
}

// close compares what was computed with what is written down, or writes it down.
// A run of some of the cases, or one that failed, says nothing.
func (b *book) close(t *testing.T) {
	if t.Failed() || t.Skipped() || some() {
		return
	}
	slices.SortStableFunc(b.figures, func(x, y published.Figure) int {
		return cmp.Or(cmp.Compare(b.at[x.Case], b.at[y.Case]), strings.Compare(x.Key, y.Key))
	})
	file := own(t, "measured")
	written, others := kept(t, file, published.Figures, func(f published.Figure) bool { return f.Test == b.test && f.File == b.file })
	if Updating() {
		write(t, file, published.FigureRows(append(others, b.figures...)))
		return
	}
	const how = "what was computed is not what testdata/published/measured says of %s: BRANCHWORK_UPDATE=1 go test writes it anew"
	require.Len(t, written, len(b.figures), how, b.test)
	for i, f := range b.figures {
		was := written[i]
		require.Equal(t, []string{was.Case, was.Key, was.Want}, []string{f.Case, f.Key, f.Want}, how, b.test)
		require.True(t, alike(was.Got, f.Got), "%s: %s %s is %s, was %s: "+how, f.Case, f.Key, f.Want, f.Got, was.Got, b.test)
		require.InDelta(t, was.Share, f.Share, 0.02+0.02*was.Share, how, b.test)
	}
}

// alike reports whether two printed figures are the same but for the last digit.
func alike(a, b string) bool {
	if a == b {
		return true
	}
	x, unitX := split(a)
	y, unitY := split(b)
	return unitX == unitY && math.Abs(x-y) <= 1e-5*math.Max(math.Abs(x), 1e-6)
}

func split(s string) (float64, string) {
	number, unit, _ := strings.Cut(s, " ")
	x, err := strconv.ParseFloat(number, 64)
	if err != nil {
		return math.NaN(), s
	}
	return x, unit
}
