package clock

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func parsed(t *testing.T, s string) Windows {
	t.Helper()
	w, err := Parse(s)
	require.NoError(t, err, s)
	return w
}

func TestWindowsSayHowLongAndWhen(t *testing.T) {
	for _, row := range []struct {
		s            string
		length, run  Minute
		on, off      []Minute
		edges        []Minute
		printed, why string
	}{
		{"06:00-18:00", 720, 720, []Minute{360, 1079}, []Minute{359, 1080}, []Minute{360, 1080}, "06:00-18:00", "within a day"},
		{"18:00-06:00", 720, 720, []Minute{1080, 1439, 0, 359, Day}, []Minute{360, 1079}, []Minute{360, 1080}, "18:00-06:00", "across midnight, one unbroken run"},
		{"00:00-06:00", 360, 360, []Minute{0, Day}, []Minute{360, 1439}, []Minute{0, 360}, "00:00-06:00", "from midnight"},
		{"18:00-24:00", 360, 360, []Minute{1080, 1439}, []Minute{0}, []Minute{0, 1080}, "18:00-24:00", "to midnight"},
		{"18:00-00:00", 360, 360, []Minute{1080, 1439}, []Minute{0}, []Minute{0, 1080}, "18:00-24:00", "to midnight, written as the next day"},
		{"24:00-06:00", 360, 360, []Minute{0, 359}, []Minute{360}, []Minute{0, 360}, "00:00-06:00", "from midnight, written as the day before"},
		{"23:59-00:01", 2, 2, []Minute{1439, 0}, []Minute{1, 1438}, []Minute{1, 1439}, "23:59-00:01", "two minutes"},
		{"00:00-24:00", Day, Day, []Minute{0, 720, 1439}, nil, nil, "always", "the whole day"},
		{"always", Day, Day, []Minute{0, 720, 1439}, nil, nil, "always", "a word"},
		{"never", 0, 0, nil, []Minute{0, 720, 1439}, nil, "never", "a word"},
	} {
		w := parsed(t, row.s)
		assert.Equal(t, row.length, w.Length(), row.why)
		assert.Equal(t, row.run, w.LongestRun(), row.why)
		for _, m := range row.on {
			assert.True(t, w.Contains(m), "%s at %s", row.s, m)
		}
		for _, m := range row.off {
			assert.False(t, w.Contains(m), "%s at %s", row.s, m)
		}
		assert.Equal(t, row.edges, append([]Minute(nil), w.Edges()...), row.why)
		assert.Equal(t, row.printed, w.String(), row.why)
		assert.Equal(t, row.length == Day, w.IsAlways(), row.why)
		assert.Equal(t, row.length == 0, w.IsNever(), row.why)
	}
}

func TestWindowOfNoLengthIsRefused(t *testing.T) {
	for _, s := range []string{"06:00-06:00", "00:00-00:00", "24:00-24:00", "24:00-00:00"} {
		_, err := Parse(s)
		assert.ErrorIs(t, err, ErrNoLength, s)
	}
}

func TestWhatIsNoWindowIsRefused(t *testing.T) {
	for _, s := range []string{"", "06:00", "06:00 to 18:00", "6:00-18:00", "06:00-25:00", "06:00-18:00-20:00", "Always", "-06:00", "06:00-", "06:00--18:00"} {
		_, err := Parse(s)
		assert.Error(t, err, s)
		assert.NotErrorIs(t, err, ErrNoLength, s)
	}
}

func TestTwoWindowsThatTouchAreOneRun(t *testing.T) {
	w := parsed(t, "06:00-12:00").Union(parsed(t, "12:00-18:00"))
	assert.True(t, w.Equal(parsed(t, "06:00-18:00")))
	split := parsed(t, "06:00-12:00").Union(parsed(t, "12:30-18:00"))
	assert.Equal(t, 6*Hour, split.LongestRun())
	assert.Equal(t, "06:00-12:00, 12:30-18:00", split.String())
	night := parsed(t, "20:00-24:00").Union(parsed(t, "00:00-06:00"))
	assert.True(t, night.Equal(parsed(t, "20:00-06:00")), "midnight is no break")
	assert.Equal(t, 10*Hour, night.LongestRun())
}

func TestShareOfAnHour(t *testing.T) {
	w := parsed(t, "06:30-18:00")
	assert.InDelta(t, 0.5, w.Share(6*Hour, 7*Hour), 0)
	assert.InDelta(t, 1, w.Share(7*Hour, 8*Hour), 0)
	assert.InDelta(t, 0, w.Share(18*Hour, 19*Hour), 0)
	assert.InDelta(t, 11.5/24, w.Share(0, Day), 1e-12)
}

// some draws windows of up to four spans, never and always among them.
func some(t *rapid.T, name string) Windows {
	w := Never()
	for range rapid.IntRange(0, 4).Draw(t, name+" spans") {
		from := Minute(rapid.IntRange(0, 24).Draw(t, name+" from")) * Hour
		to := Minute(rapid.IntRange(0, int(Day)).Draw(t, name+" to"))
		if v, err := Between(from, to); err == nil {
			w = w.Union(v)
		}
	}
	return w
}

func TestWindowsAgreeWithTheMinutesOfADay(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := some(t, "a"), some(t, "b")
		union, off := a.Union(b), a.Without()
		var length, run, longest Minute
		for m := range 2 * Day {
			if union.Contains(m) != (a.Contains(m) || b.Contains(m)) {
				t.Fatalf("%v and %v at %v: union %v", a, b, m%Day, union)
			}
			if off.Contains(m) == a.Contains(m) {
				t.Fatalf("%v at %v: the rest is %v", a, m%Day, off)
			}
			run++
			if !a.Contains(m) {
				run = 0
			}
			longest = max(longest, min(run, Day))
			if m < Day && a.Contains(m) {
				length++
			}
		}
		if length != a.Length() || longest != a.LongestRun() {
			t.Fatalf("%v: %d long, longest run %d; counted %d and %d", a, a.Length(), a.LongestRun(), length, longest)
		}
	})
}

func TestWindowsSwitchAtTheirEdgesAndNowhereElse(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := some(t, "w")
		edges := map[Minute]bool{}
		last := Minute(-1)
		for _, m := range w.Edges() {
			if m <= last || m < 0 || m >= Day {
				t.Fatalf("%v: edges %v", w, w.Edges())
			}
			edges[m], last = true, m
		}
		for m := range Day {
			if switches := w.Contains(m) != w.Contains(m+Day-1); switches != edges[m] {
				t.Fatalf("%v at %v: switches %v, edges %v", w, m, switches, w.Edges())
			}
		}
	})
}

func TestUnionIsThatOfSets(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b, c := some(t, "a"), some(t, "b"), some(t, "c")
		for _, same := range []bool{
			a.Union(b).Equal(b.Union(a)),
			a.Union(b).Union(c).Equal(a.Union(b.Union(c))),
			a.Union(a).Equal(a),
			a.Union(Never()).Equal(a),
			a.Union(Always()).IsAlways(),
			a.Without().Without().Equal(a),
			a.Union(a.Without()).IsAlways(),
			a.Length()+a.Without().Length() == Day,
		} {
			if !same {
				t.Fatalf("%v, %v, %v", a, b, c)
			}
		}
	})
}

func TestUnionLeavesItsOperandsAlone(t *testing.T) {
	a, b := parsed(t, "06:00-12:00"), parsed(t, "10:00-18:00")
	_ = a.Union(b)
	_ = a.Without()
	assert.Equal(t, "06:00-12:00", a.String())
	assert.Equal(t, "10:00-18:00", b.String())
}

func readBack(t require.TestingT, w Windows) {
	back := Never()
	for _, s := range strings.Split(w.String(), ", ") {
		v, err := Parse(s)
		require.NoError(t, err)
		back = back.Union(v)
	}
	require.True(t, w.Equal(back), "%v was read back as %v", w, back)
}

func TestWindowsArePrintedAndReadBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) { readBack(t, some(t, "w")) })
}

// FuzzParse: no text panics, and what is read is printed as a text that reads
// as the same windows.
func FuzzParse(f *testing.F) {
	for _, s := range []string{"06:00-18:00", "18:00-06:00", "00:00-24:00", "24:00-24:00", "always", "never", "", "-", "06:00-06:00", "+6:00--0:30"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		w, err := Parse(s)
		if err != nil {
			return
		}
		readBack(t, w)
		require.LessOrEqual(t, w.LongestRun(), w.Length())
		require.LessOrEqual(t, w.Length(), Day)
	})
}
