package inventory

import (
	"errors"
	"fmt"
	"strconv"
	"strings"
	"time"

	"branchwork/loads/clock"
	"branchwork/loads/units"
)

// known is short for the schema's sake.
type known[T any] = units.Known[T]

// into puts a value into a field of the struct that a table fills.
type into[T any] func(dst any, v T)

// opt fills a field that may be unknown.
func opt[D, T any](field func(*D) *known[T]) into[T] {
	return func(dst any, v T) { *field(dst.(*D)) = units.Is(v) }
}

// must fills a plain field.
func must[D, T any](field func(*D) *T) into[T] {
	return func(dst any, v T) { *field(dst.(*D)) = v }
}

// form is how a value is written and read.
type form struct {
	says  string   // what belongs here: "a power"
	words []string // the words accepted, where it is one of a few
	keys  []Key    // of an inline table
	shape shape    // what an editor can check of it
	read  func(r *reader, c cell, dst any)
}

// quantity is a number with a unit, as text.
func quantity[T units.Quantity](put into[T], l limits) form {
	return form{says: units.Name[T](), shape: quantityShape[T](l), read: func(r *reader, c cell, dst any) {
		if v, ok := readQuantity[T](r, c, l); ok {
			put(dst, v)
		}
	}}
}

func readQuantity[T units.Quantity](r *reader, c cell, l limits) (T, bool) {
	remedy := "write " + units.Name[T]() + " as " + formHere[T](r.example)
	s, ok := r.textOf(c, units.Name[T](), r.theirs(c, remedy))
	if !ok {
		return 0, false
	}
	v, err := units.Parse[T](s)
	if err != nil {
		var pe *units.ParseError
		if errors.As(err, &pe) {
			pe.Remedy = strings.Replace(pe.Remedy, units.Form[T](), formHere[T](r.example), 1)
		}
		r.badUnit(c, err)
		return 0, false
	}
	return v, r.within(c, float64(v), l, quote(s), remedy)
}

// formHere returns the right forms of a quantity: of a key whose unit is none of those
// usually shown, the key's own example.
func formHere[T units.Quantity](example string) string {
	usual := units.Form[T]()
	_, unit, ok := strings.Cut(example, " ")
	if _, err := units.Parse[T](strings.Trim(example, `"`)); !ok || err != nil || strings.Contains(usual, unit) {
		return usual
	}
	return example
}

// badUnit reports what units.Parse said.
func (r *reader) badUnit(c cell, err error) {
	var pe *units.ParseError
	if !errors.As(err, &pe) {
		r.bad(c, err.Error(), "")
		return
	}
	r.bad(c, pe.Says, strings.ReplaceAll(pe.Remedy, "; ", "\n"))
}

// theirs puts a bare number of the file into the forms of a remedy.
func (r *reader) theirs(c cell, remedy string) string {
	switch c.v.(type) {
	case int64, float64:
		return units.With(r.shown(c), remedy)
	}
	return remedy
}

// textOf returns the text of a value, and reports any other type: a bare number
// where a unit belongs above all.
func (r *reader) textOf(c cell, noun, remedy string) (string, bool) {
	switch v := c.v.(type) {
	case string:
		return v, true
	case int64, float64:
		r.bad(c, fmt.Sprintf("the bare number %s where %s belongs", r.shown(c), noun), remedy)
	default:
		r.wrongType(c, noun, remedy)
	}
	return "", false
}

func (r *reader) wrongType(c cell, noun, remedy string) {
	r.bad(c, fmt.Sprintf("%s where %s belongs", r.typed(c), noun), remedy)
}

// typed names a value with its type: `the text "yes"`, "a list".
func (r *reader) typed(c cell) string {
	switch v := c.v.(type) {
	case string:
		return "the text " + quote(v)
	case int64, float64:
		return "the number " + r.shown(c)
	case bool:
		return fmt.Sprintf("the bare word %t", v)
	case time.Time:
		return "the bare date or time " + r.shown(c)
	case []any, []map[string]any:
		return "a list"
	}
	return "a table"
}

// shown is a value as the file has it, cut where it is long.
func (r *reader) shown(c cell) string {
	s := strings.ToValidUTF8(string(r.src[c.value.start:min(c.value.end, c.value.start+80)]), "?")
	return cut(printable(s))
}

func quote(s string) string { return strconv.Quote(cut(s)) }

// cut shortens a text for a message.
func cut(s string) string {
	const most = 40
	runes := []rune(s)
	if len(runes) <= most {
		return s
	}
	return string(runes[:most-1]) + "…"
}

// printable escapes what would move a terminal's cursor or hide text.
func printable(s string) string {
	q := strconv.Quote(s)
	q = q[1 : len(q)-1]
	return strings.ReplaceAll(strings.ReplaceAll(q, `\"`, `"`), `\\`, `\`)
}

// count is a whole number without a unit.
func count(put into[int], l limits) form {
	return form{says: "a count", shape: countShape(l), read: func(r *reader, c cell, dst any) {
		if n, ok := r.countOf(c, "a count", l); ok {
			put(dst, n)
		}
	}}
}

func (r *reader) countOf(c cell, noun string, l limits) (int, bool) {
	remedy := "write " + noun + " as a whole number without quotes: 12"
	switch v := c.v.(type) {
	case int64:
		return int(v), r.within(c, float64(v), l, r.shown(c), fmt.Sprintf("write a whole number from %.0f to %s", l.least, l.top))
	case float64:
		r.bad(c, fmt.Sprintf("%s is not a whole number", r.shown(c)), remedy)
	default:
		r.wrongType(c, noun, remedy)
	}
	return 0, false
}

// factor is a pure number: a share, a power factor.
func factor[T ~float64](put into[T], l limits) form {
	says := "a number"
	if l.most <= 1 {
		says = "a number from 0 to 1"
	}
	return form{says: says, shape: factorShape(l), read: func(r *reader, c cell, dst any) {
		if v, ok := r.factorOf(c, l); ok {
			put(dst, T(v))
		}
	}}
}

func (r *reader) factorOf(c cell, l limits) (float64, bool) {
	var x float64
	switch v := c.v.(type) {
	case int64:
		x = float64(v)
	case float64:
		x = v
	default:
		r.wrongType(c, "a number", numberRemedy(c.v, r.example))
		return 0, false
	}
	remedy := "write a number from 0 to " + l.top
	switch {
	case l.most <= 1 && x >= 2 && x <= 100:
		remedy = fmt.Sprintf("a percentage is written as a fraction: %s %% is %s", units.Round(x, 4), units.Round(x/100, 6))
	case l.most <= 1 && l.open:
		remedy = "write a number above 0, up to 1"
	case l.most < 1:
		remedy = "write a number from 0 to below 1"
	}
	return x, r.within(c, x, l, r.shown(c), remedy)
}

// numberRemedy turns "0.95" and "95 %" into what should have been written.
func numberRemedy(v any, example string) string {
	s, ok := v.(string)
	body, percent := strings.CutSuffix(strings.TrimSpace(s), "%")
	x, err := strconv.ParseFloat(strings.TrimSpace(body), 64)
	switch {
	case !ok || err != nil:
		if _, err := strconv.ParseFloat(example, 64); err != nil {
			example = "0.95"
		}
		return "write a number without quotes: " + example
	case percent:
		return fmt.Sprintf("write a percentage as a fraction: %s", units.Round(x/100, 6))
	}
	return "write it without quotes: " + units.Round(x, 6)
}

// truth is true or false.
func truth(put into[bool]) form {
	return form{says: "true or false", shape: plainly("boolean"), read: func(r *reader, c cell, dst any) {
		if v, ok := c.v.(bool); ok {
			put(dst, v)
			return
		}
		r.wrongType(c, "true or false", "write true or false without quotes")
	}}
}

// text is free text.
func text(put into[string]) form {
	return form{says: "a text", shape: plainly("string"), read: func(r *reader, c cell, dst any) {
		if s, ok := c.v.(string); ok {
			put(dst, s)
			return
		}
		r.wrongType(c, "a text", "write it in quotes")
	}}
}

// filled is text that may not be empty.
func filled(put into[string]) form {
	f := text(put)
	f.shape = pattern(`\S`)
	return f.then(func(r *reader, c cell) bool {
		if s, ok := c.v.(string); ok && strings.TrimSpace(s) == "" {
			r.bad(c, "an empty text", "write something, or leave the key out")
			return false
		}
		return true
	})
}

// then puts a check before the reading of a form.
func (f form) then(check func(r *reader, c cell) bool) form {
	read := f.read
	f.read = func(r *reader, c cell, dst any) {
		if check(r, c) {
			read(r, c, dst)
		}
	}
	return f
}

// word is one of a few words.
func word[T ~string](put into[T], words ...string) form {
	says := "one of " + quoted(words)
	return form{says: says, words: words, shape: oneOf(words), read: func(r *reader, c cell, dst any) {
		if s, ok := r.wordOf(c, words, c.name, says); ok {
			put(dst, T(s))
		}
	}}
}

func (r *reader) wordOf(c cell, words []string, noun, says string) (string, bool) {
	s, ok := c.v.(string)
	if !ok {
		r.wrongType(c, says, "write a word in quotes")
		return "", false
	}
	for _, w := range words {
		if s == w {
			return s, true
		}
	}
	r.bad(c, fmt.Sprintf("unknown %s %s", noun, quote(s)), r.remedy(s, words, "accepted"))
	return "", false
}

// spoken is a word of the code's vocabulary; letters large or small.
func spoken(put into[string], noun string, words func(Vocabulary) []string) form {
	return form{says: noun, shape: offered(words), read: func(r *reader, c cell, dst any) {
		s, ok := c.v.(string)
		if !ok {
			r.wrongType(c, noun, "write it in quotes")
			return
		}
		if w, ok := r.spokenOf(c, s, noun, words(r.words)); ok {
			put(dst, w)
		}
	}}
}

func (r *reader) spokenOf(c cell, s, noun string, words []string) (string, bool) {
	for _, w := range words {
		if strings.EqualFold(s, w) {
			return w, true
		}
	}
	if len(words) == 0 && strings.TrimSpace(s) != "" {
		return s, true
	}
	r.bad(c, fmt.Sprintf("%s is not %s that is known here", quote(s), noun), r.remedy(s, words, "known here"))
	return "", false
}

func quoted(words []string) string {
	out := make([]string, len(words))
	for i, w := range words {
		out[i] = strconv.Quote(w)
	}
	return strings.Join(out, ", ")
}

// windows is when something is on.
func windows(put into[clock.Windows]) form {
	return form{says: "a window of the day", shape: orList(windowShape()), read: func(r *reader, c cell, dst any) {
		if w, ok := r.windowsOf(c); ok {
			put(dst, w)
		}
	}}
}

// windowsOf reads one window or a list of them.
func (r *reader) windowsOf(c cell) (clock.Windows, bool) {
	list, ok := c.items()
	if !ok {
		return r.windowOf(c)
	}
	if len(list) == 0 {
		r.bad(c, "an empty list of windows", windowRemedy)
		return clock.Windows{}, false
	}
	all := clock.Never()
	for _, e := range list {
		w, fine := r.windowOf(e)
		ok = ok && fine
		all = all.Union(w)
	}
	return all, ok
}

const windowRemedy = `write a window as "18:00-06:00", "always" or "never"`

func (r *reader) windowOf(c cell) (clock.Windows, bool) {
	s, ok := r.textOf(c, "a window of the day", windowRemedy)
	if !ok {
		return clock.Windows{}, false
	}
	w, err := clock.Parse(s)
	switch {
	case errors.Is(err, clock.ErrNoLength):
		r.bad(c, fmt.Sprintf("the window %s has no length", quote(s)), `the whole day is "always", no time is "never"`)
	case err != nil:
		r.bad(c, fmt.Sprintf("%s is not a window of the day", quote(s)), windowRemedy)
	}
	return w, err == nil
}

// items returns the elements of a list with their places.
func (c cell) items() ([]cell, bool) {
	var out []cell
	switch v := c.v.(type) {
	case []any:
		for i, x := range v {
			out = append(out, cell{c.kids[i], x})
		}
	case []map[string]any:
		for i, x := range v {
			out = append(out, cell{c.kids[i], x})
		}
	default:
		return nil, false
	}
	return out, true
}
