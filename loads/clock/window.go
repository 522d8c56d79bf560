package clock

import (
	"errors"
	"sort"
	"strings"
)

// Windows is the part of every day that something is on: disjoint spans in
// order, none crossing midnight. The zero value is never.
type Windows struct {
	spans []span
}

// span is on from its first minute up to, but not including, its end.
type span struct{ from, to Minute }

// Always is on the whole day.
func Always() Windows { return Windows{[]span{{0, Day}}} }

// Never is on at no time.
func Never() Windows { return Windows{} }

// ErrNoLength is a window that ends when it begins.
var ErrNoLength = errors.New("window of no length")

// Parse reads "18:00-06:00", "always" or "never". A window whose two times are
// equal has no length and is ErrNoLength; the whole day is "always" or
// "00:00-24:00".
func Parse(s string) (Windows, error) {
	switch strings.TrimSpace(s) {
	case "always":
		return Always(), nil
	case "never":
		return Never(), nil
	}
	a, b, ok := strings.Cut(s, "-")
	if !ok {
		return Windows{}, errors.New("not a window of the day")
	}
	from, err := ParseMinute(a)
	if err != nil {
		return Windows{}, err
	}
	to, err := ParseMinute(b)
	if err != nil {
		return Windows{}, err
	}
	return Between(from, to)
}

// Between returns the window from one time to another, across midnight where
// the second comes first.
func Between(from, to Minute) (Windows, error) {
	switch {
	case from%Day == to%Day && from == to || from == Day && to == 0:
		return Windows{}, ErrNoLength
	case from < to:
		return Windows{[]span{{from, to}}}, nil
	default:
		return Windows{}.add(span{from, Day}).add(span{0, to}), nil
	}
}

func (w Windows) add(s span) Windows {
	if s.from == s.to {
		return w
	}
	spans := append(append([]span{}, w.spans...), s)
	sort.Slice(spans, func(i, j int) bool { return spans[i].from < spans[j].from })
	out := spans[:1]
	for _, s := range spans[1:] {
		last := &out[len(out)-1]
		if s.from > last.to {
			out = append(out, s)
		} else if s.to > last.to {
			last.to = s.to
		}
	}
	return Windows{out}
}

// Union returns when either is on.
func (w Windows) Union(v Windows) Windows {
	for _, s := range v.spans {
		w = w.add(s)
	}
	return w
}

// Without returns when the whole day is not w.
func (w Windows) Without() Windows {
	var out Windows
	at := Minute(0)
	for _, s := range w.spans {
		out = out.add(span{at, s.from})
		at = s.to
	}
	return out.add(span{at, Day})
}

// Contains reports whether it is on at minute m of the day.
func (w Windows) Contains(m Minute) bool {
	m %= Day
	for _, s := range w.spans {
		if m >= s.from && m < s.to {
			return true
		}
	}
	return false
}

// Share returns the part of the minutes [from, to) of one day that it is on, 0
// to 1.
func (w Windows) Share(from, to Minute) float64 {
	on := Minute(0)
	for _, s := range w.spans {
		on += max(0, min(s.to, to)-max(s.from, from))
	}
	return float64(on) / float64(to-from)
}

// Length returns the minutes a day that it is on.
func (w Windows) Length() Minute {
	n := Minute(0)
	for _, s := range w.spans {
		n += s.to - s.from
	}
	return n
}

// LongestRun returns the longest unbroken time on, across midnight. Always
// returns one Day, though it never ends.
func (w Windows) LongestRun() Minute {
	longest := Minute(0)
	for _, s := range w.spans {
		longest = max(longest, s.to-s.from)
	}
	if n := len(w.spans); n > 1 && w.spans[0].from == 0 && w.spans[n-1].to == Day {
		longest = max(longest, w.spans[0].to+Day-w.spans[n-1].from)
	}
	return longest
}

// Edges returns the minutes at which it switches, ascending, midnight left out
// unless it switches there.
func (w Windows) Edges() []Minute {
	var out []Minute
	for _, s := range w.spans {
		out = append(out, s.from, s.to%Day)
	}
	wraps := len(w.spans) > 0 && w.spans[0].from == 0 && w.spans[len(w.spans)-1].to == Day
	kept := out[:0]
	for _, m := range out {
		if m != 0 || !wraps {
			kept = append(kept, m)
		}
	}
	sort.Slice(kept, func(i, j int) bool { return kept[i] < kept[j] })
	return kept
}

// IsAlways reports whether it is on the whole day.
func (w Windows) IsAlways() bool { return w.Length() == Day }

// IsNever reports whether it is never on.
func (w Windows) IsNever() bool { return len(w.spans) == 0 }

// Equal reports whether both are on at the same times.
func (w Windows) Equal(v Windows) bool {
	if len(w.spans) != len(v.spans) {
		return false
	}
	for i := range w.spans {
		if w.spans[i] != v.spans[i] {
			return false
		}
	}
	return true
}

// String returns the windows as a user writes them, joined across midnight.
func (w Windows) String() string {
	switch {
	case w.IsNever():
		return "never"
	case w.IsAlways():
		return "always"
	}
	spans := append([]span{}, w.spans...)
	if n := len(spans); n > 1 && spans[0].from == 0 && spans[n-1].to == Day {
		spans[n-1].to = spans[0].to
		spans = spans[1:]
	}
	parts := make([]string, len(spans))
	for i, s := range spans {
		parts[i] = s.from.String() + "-" + s.to.String()
	}
	return strings.Join(parts, ", ")
}
