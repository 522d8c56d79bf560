package inventory

import (
	"fmt"
	"strconv"
	"strings"
	"time"

	"branchwork/loads/clock"
	"branchwork/loads/units"
)

// inside is an inline table with keys of its own.
func inside[D, S any](says string, field func(*D) *S, keys ...Key) form {
	return form{says: says, keys: keys, shape: tableWith(keys), read: func(r *reader, c cell, dst any) {
		if m, ok := r.tableOf(c, says, keys); ok {
			r.keys(c.node, m, keys, field(dst.(*D)))
		}
	}}
}

// insideKnown is an inline table that becomes one fact.
func insideKnown[D, S any](says string, field func(*D) *known[S], keys ...Key) form {
	return form{says: says, keys: keys, shape: tableWith(keys), read: func(r *reader, c cell, dst any) {
		if m, ok := r.tableOf(c, says, keys); ok {
			var s S
			r.keys(c.node, m, keys, &s)
			*field(dst.(*D)) = units.Is(s)
		}
	}}
}

func (r *reader) tableOf(c cell, says string, keys []Key) (map[string]any, bool) {
	m, ok := c.v.(map[string]any)
	if !ok {
		r.wrongType(c, says, "write "+example(keys))
	}
	return m, ok
}

// example writes an inline table with the examples of its first keys.
func example(keys []Key) string {
	var parts []string
	for _, k := range keys[:min(2, len(keys))] {
		parts = append(parts, k.Name+" = "+k.Example)
	}
	return "{ " + strings.Join(parts, ", ") + " }"
}

// ref is a name that must be that of a thing in the file.
type ref struct {
	at     span
	path   string
	name   string
	noun   string
	tables []string
}

// reference is the name of a thing in one of the tables.
func reference(put into[string], noun string, tables ...string) form {
	return form{says: "the name of " + noun, shape: plainly("string"), read: func(r *reader, c cell, dst any) {
		if s, ok := r.refOf(c, noun, tables); ok {
			put(dst, s)
		}
	}}
}

func (r *reader) refOf(c cell, noun string, tables []string) (string, bool) {
	s, ok := c.v.(string)
	if !ok {
		r.wrongType(c, "the name of "+noun, "write its name in quotes")
		return "", false
	}
	r.refs = append(r.refs, ref{c.value, c.path(), s, noun, tables})
	return s, true
}

// references is a name, where one may stand alone, or a list of names.
func references(put into[[]string], alone bool, noun string, tables ...string) form {
	says, looks := "a list of names", listOf(plainly("string"))
	if alone {
		says, looks = "the name of "+noun+", or a list", anyOf(plainly("string"), listOfAny(plainly("string")))
	}
	return form{says: says, shape: looks, read: func(r *reader, c cell, dst any) {
		list, ok := c.items()
		if _, isText := c.v.(string); alone && isText {
			list, ok = []cell{c}, true
		}
		if !ok {
			r.wrongType(c, says, `write a list of names: ["A", "B"]`)
			return
		}
		var names []string
		seen := map[string]bool{}
		for _, e := range list {
			s, fine := r.refOf(e, noun, tables)
			if fine && seen[s] {
				r.bad(e, fmt.Sprintf("%s is named twice", quote(s)), "name each once")
			}
			seen[s] = true
			names = append(names, s)
		}
		put(dst, names)
	}}
}

// size is length by width, and height where it is known.
func size() form {
	const remedy = `write length x width x height, each with its unit: "30 ft x 20 ft x 10 ft"`
	return form{says: "length x width x height", shape: pattern(`[x×]`), read: func(r *reader, c cell, dst any) {
		s, ok := r.textOf(c, "a size", remedy)
		if !ok {
			return
		}
		parts := strings.Split(strings.ReplaceAll(s, "×", "x"), "x")
		if len(parts) < 2 || len(parts) > 3 {
			r.bad(c, fmt.Sprintf("%s is not a size", quote(s)), remedy)
			return
		}
		room := dst.(*Room)
		for i, field := range []*known[units.Length]{&room.Length, &room.Width, &room.Height}[:len(parts)] {
			l, err := units.Parse[units.Length](strings.TrimSpace(parts[i]))
			if err != nil {
				r.bad(c, fmt.Sprintf("in the size %s, %s", quote(s), err.(*units.ParseError).Says), remedy)
				return
			}
			if !r.within(c, float64(l), usual[units.Length](), "in the size "+quote(s)+", "+quote(strings.TrimSpace(parts[i])), remedy) {
				return
			}
			*field = units.Is(l)
		}
	}}
}

// spaces is a list of panel spaces.
func spaces(put into[[]int]) form {
	const remedy = "write a list of spaces: [1], or [1, 3] for a two-pole breaker"
	return form{says: "a list of panel spaces", shape: listOf(countShape(fromOne(MostSpaces))), read: func(r *reader, c cell, dst any) {
		list, ok := c.items()
		if !ok {
			r.wrongType(c, "a list of panel spaces", remedy)
			return
		}
		if len(list) == 0 {
			r.bad(c, "an empty list of spaces", remedy)
			return
		}
		var out []int
		for _, e := range list {
			n, fine := r.countOf(e, "a space", fromOne(MostSpaces))
			ok = ok && fine
			out = append(out, n)
		}
		if ok {
			put(dst, out)
		}
	}}
}

// feeds is how many of each item a circuit feeds.
func feeds() form {
	const remedy = `write the items and how many: { "bar-640" = 4 }`
	return form{says: "items and how many of each", shape: tableOf("", countShape(aCount())), read: func(r *reader, c cell, dst any) {
		var out []Fed
		if m, is := c.v.(map[string]any); is && len(m) == 0 && r.words.Spare {
			return
		}
		ok := r.entries(c, "items and how many of each", remedy, func(key, value cell) bool {
			r.refs = append(r.refs, ref{key.key, key.path(), key.name, "an item", itemTables()})
			n, ok := r.countOf(value, "a count", aCount())
			out = append(out, Fed{key.name, n})
			return ok
		})
		if ok {
			dst.(*Circuit).Feeds = out
		}
	}}
}

// minutes is a length of time of at most half a day.
func minutes(put into[clock.Minute]) form {
	const remedy = `write a time as "30 min" or "1 h"`
	return form{says: "a length of time", shape: pattern(`^\s*[0-9.]+\s*(min|h)\s*$`), read: func(r *reader, c cell, dst any) {
		s, ok := r.textOf(c, "a length of time", remedy)
		if !ok {
			return
		}
		body, factor := strings.TrimSpace(s), 0
		for _, u := range []struct {
			name    string
			minutes int
		}{{"min", 1}, {"h", 60}} {
			if b, ok := strings.CutSuffix(body, u.name); ok {
				body, factor = strings.TrimSpace(b), u.minutes
				break
			}
		}
		x, good := decimal(body)
		switch m := x * float64(factor); {
		case !good || factor == 0:
			r.bad(c, fmt.Sprintf("%s is not a length of time", quote(s)), remedy)
		case m != float64(int(m)):
			r.bad(c, fmt.Sprintf("%s is not a whole number of minutes", quote(s)), remedy)
		case r.within(c, m, limits{0, 720, false, "12 h", ""}, quote(s), remedy):
			put(dst, clock.Minute(m))
		}
	}}
}

// decimal reads a plain decimal number, without exponent.
func decimal(s string) (float64, bool) {
	for _, c := range strings.TrimPrefix(s, "-") {
		if (c < '0' || c > '9') && c != '.' {
			return 0, false
		}
	}
	x, err := strconv.ParseFloat(s, 64)
	return x, err == nil
}

// price is an amount of money per something.
func price(put into[units.Money], per string) form {
	return form{says: "a price " + per, shape: priceShape(per), read: func(r *reader, c cell, dst any) {
		if v, ok := r.priceOf(c, per); ok {
			put(dst, v)
		}
	}}
}

func (r *reader) priceOf(c cell, per string) (units.Money, bool) {
	sample := map[string]string{"per kWh": "0.14 ", "per kW": "15 ", "per month": "25 "}[per] + per
	remedy := fmt.Sprintf("write a price as %q; the currency is a key of its own", sample)
	s, ok := r.textOf(c, "a price "+per, remedy)
	if !ok {
		return 0, false
	}
	body, ok := strings.CutSuffix(strings.TrimSpace(s), per)
	x, number := decimal(strings.TrimSpace(body))
	if !ok || !number {
		r.bad(c, fmt.Sprintf("%s is not a price %s", quote(s), per), remedy)
		return 0, false
	}
	return units.Money(x), r.within(c, x, upTo(1_000_000), quote(s), remedy)
}

// energyPrices is one price for all hours, or a list by window and season.
func energyPrices(keys ...Key) form {
	return form{says: "a price per kWh, or a list of prices by hours", keys: keys, shape: anyOf(priceShape("per kWh"), listOf(tableWith(keys))), read: func(r *reader, c cell, dst any) {
		t := dst.(*Tariff)
		list, isList := c.items()
		if !isList {
			if v, ok := r.priceOf(c, "per kWh"); ok {
				t.Energy = []EnergyPrice{{Price: v}}
			}
			return
		}
		if len(list) == 0 {
			r.bad(c, "an empty list of prices", "write "+example(keys))
		}
		for _, e := range list {
			var p EnergyPrice
			if m, ok := r.tableOf(e, "a price with its hours", keys); ok {
				r.keys(e.node, m, keys, &p)
			}
			t.Energy = append(t.Energy, p)
		}
	}}
}

// day is a date, bare or in quotes, with what else should be noted.
func day(put into[string]) form {
	return form{says: "a date", shape: plainly("string"), read: func(r *reader, c cell, dst any) {
		switch v := c.v.(type) {
		case time.Time:
			put(dst, r.shown(c))
		case string:
			put(dst, v)
		default:
			r.wrongType(c, "a date", `write a date: 2026-03-14, or a text: "2026-03-14, lights on"`)
		}
	}}
}

// state is the state of the room in which something was measured.
func state(put into[string]) form {
	words := []string{"lights on", "lights off"}
	return form{says: `"lights on", "lights off" or a time of day`, words: words, shape: anyOf(oneOf(words), pattern(`^\s*[0-9]{1,2}:[0-9]{2}\s*$`)), read: func(r *reader, c cell, dst any) {
		const remedy = `write "lights on", "lights off" or a time of day: "14:00"`
		s, ok := r.textOf(c, "a state", remedy)
		if !ok {
			return
		}
		if _, err := clock.ParseMinute(s); err == nil || s == words[0] || s == words[1] {
			put(dst, s)
			return
		}
		r.bad(c, fmt.Sprintf("%s is not a state", quote(s)), remedy)
	}}
}

// duration is a short time as a data sheet has it, kept as written.
func duration(put into[string]) form {
	const remedy = `write a time as "2 ms" or "300 us"`
	return form{says: "a short time", shape: pattern(`^\s*[0-9.]+\s*(us|µs|ms|s)\s*$`), read: func(r *reader, c cell, dst any) {
		s, ok := r.textOf(c, "a time", remedy)
		if !ok {
			return
		}
		body := strings.TrimSpace(s)
		for _, unit := range []string{"us", "µs", "ms", "s"} {
			number, ok := strings.CutSuffix(body, unit)
			if x, fine := decimal(strings.TrimSpace(number)); ok && fine && x > 0 {
				put(dst, s)
				return
			}
		}
		r.bad(c, fmt.Sprintf("%s is not a time", quote(s)), remedy)
	}}
}
