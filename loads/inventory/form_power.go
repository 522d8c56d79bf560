package inventory

import (
	"fmt"
	"slices"
	"sort"
	"strings"

	"branchwork/loads/units"
)

// power is active power, apparent power or a motor's rating, by its unit.
func power() form {
	return form{says: "a power", shape: pattern(quantityPattern(false, units.Names[units.Power](), units.Names[units.Apparent](), units.Names[units.Horsepower]())), read: func(r *reader, c cell, dst any) {
		i := dst.(*Item)
		s, ok := r.textOf(c, "a power", r.theirs(c, powerRemedy))
		if !ok {
			return
		}
		w, err := units.Parse[units.Power](s)
		if err == nil {
			if r.within(c, float64(w), usual[units.Power](), quote(s), powerRemedy) {
				i.Power = units.Is(w)
			}
			return
		}
		if va, err := units.Parse[units.Apparent](s); err == nil {
			if r.within(c, float64(va), usual[units.Apparent](), quote(s), powerRemedy) {
				i.Apparent = units.Is(va)
			}
			return
		}
		if hp, err := units.Parse[units.Horsepower](s); err == nil {
			if r.within(c, float64(hp), usual[units.Horsepower](), quote(s), powerRemedy) {
				i.Motor, i.IsMotor = units.Is(hp), true
			}
			return
		}
		pe, remedy := err.(*units.ParseError), powerRemedy
		if _, bare := decimal(strings.TrimSpace(s)); bare {
			remedy = units.With(strings.TrimSpace(s), powerRemedy)
		}
		r.bad(c, pe.Says, remedy)
	}}
}

const powerRemedy = `write a power as "640 W", "1.2 kW", "650 VA", "1.2 kVA" or "1.5 hp"`

// horsepower is a motor's rating.
func horsepower() form {
	return quantity(func(dst any, v units.Horsepower) {
		i := dst.(*Item)
		i.Motor, i.IsMotor = units.Is(v), true
	}, usual[units.Horsepower]())
}

// ampsOrVA is a demand in amperes per leg or in all.
func ampsOrVA[D any](amps func(*D) *known[units.Current], total func(*D) *known[units.Apparent], zero bool) form {
	const remedy = `write it as "30 A" (per leg) or "12 kVA" (in all)`
	return form{says: "a current per leg or an apparent power", shape: pattern(quantityPattern(false, units.Names[units.Current](), units.Names[units.Apparent]())), read: func(r *reader, c cell, dst any) {
		s, ok := r.textOf(c, "a current or an apparent power", remedy)
		if !ok {
			return
		}
		la, lva := usual[units.Current](), usual[units.Apparent]()
		la.open, lva.open = !zero, !zero
		a, err := units.Parse[units.Current](s)
		if err == nil {
			if r.within(c, float64(a), la, quote(s), remedy) {
				*amps(dst.(*D)) = units.Is(a)
			}
			return
		}
		if va, err := units.Parse[units.Apparent](s); err == nil {
			if r.within(c, float64(va), lva, quote(s), remedy) {
				*total(dst.(*D)) = units.Is(va)
			}
			return
		}
		r.bad(c, err.(*units.ParseError).Says, remedy)
	}}
}

// voltages is one voltage, a range or a list.
func voltages(put into[units.VoltageSet]) form {
	return form{says: "a voltage, a range or a list of voltages", shape: orList(voltageShape()), read: func(r *reader, c cell, dst any) {
		if v, ok := r.voltagesOf(c); ok {
			put(dst, v)
		}
	}}
}

const voltageRemedy = `write "240 V", a range "100-277 V" or a list ["120 V", "240 V"]`

func (r *reader) voltagesOf(c cell) (units.VoltageSet, bool) {
	list, isList := c.items()
	if !isList {
		return r.voltageSetOf(c)
	}
	if len(list) == 0 {
		r.bad(c, "an empty list of voltages", voltageRemedy)
		return units.VoltageSet{}, false
	}
	var all units.VoltageSet
	fine, seen := true, map[units.Voltage]bool{}
	for _, e := range list {
		v, ok := r.voltageSetOf(e)
		switch {
		case !ok:
			fine = false
		case v.Low < v.High:
			r.bad(e, fmt.Sprintf("the range %s inside a list", r.shown(e)), "a range stands alone; a list holds single voltages")
			fine = false
		case seen[v.List[0]]:
			r.bad(e, fmt.Sprintf("voltage %s is listed twice", r.shown(e)), "list each voltage once")
			fine = false
		default:
			seen[v.List[0]] = true
			all.List = append(all.List, v.List[0])
		}
	}
	slices.Sort(all.List)
	return all, fine
}

func (r *reader) voltageSetOf(c cell) (units.VoltageSet, bool) {
	s, ok := r.textOf(c, "a voltage", voltageRemedy)
	if !ok {
		return units.VoltageSet{}, false
	}
	v, err := units.ParseVoltages(s)
	if err != nil {
		r.badUnit(c, err)
		return v, false
	}
	low, high := v.Low, v.High
	if len(v.List) > 0 {
		low, high = v.List[0], v.List[0]
	}
	l := usual[units.Voltage]()
	return v, r.within(c, float64(low), l, quote(s), voltageRemedy) && r.within(c, float64(high), l, quote(s), voltageRemedy)
}

// labelCurrents is currents by voltage, as a label has them.
func labelCurrents() form {
	const remedy = `write { "120 V" = "5.6 A", "277 V" = "2.5 A" }`
	amps := usual[units.Current]()
	return form{says: "currents by voltage", shape: tableOf(quantityPattern(false, units.Names[units.Voltage]()), quantityShape[units.Current](amps)), read: func(r *reader, c cell, dst any) {
		var out []CurrentAt
		seen := map[units.Voltage]bool{}
		ok := r.entries(c, "currents by voltage", remedy, func(key, value cell) bool {
			v, okV := readQuantity[units.Voltage](r, key, usual[units.Voltage]())
			a, okA := readQuantity[units.Current](r, value, usual[units.Current]())
			if okV && seen[v] {
				r.bad(key, fmt.Sprintf("voltage %s is listed twice", quote(key.name)), "list each voltage once")
				return false
			}
			seen[v] = true
			out = append(out, CurrentAt{v, a})
			return okV && okA
		})
		if ok {
			sort.Slice(out, func(i, j int) bool { return out[i].Voltage < out[j].Voltage })
			dst.(*Item).Currents = out
		}
	}}
}

// perBreaker is the maker's limit, one for all ratings or by rating.
func perBreaker() form {
	const remedy = `write 7, or by rating { "20 A" = 7, "15 A" = 5 }`
	counts := countShape(aCount())
	return form{says: "a count, or counts by breaker rating", shape: anyOf(counts, tableOf(quantityPattern(false, units.Names[units.Current]()), counts)), read: func(r *reader, c cell, dst any) {
		i := dst.(*Item)
		if _, isTable := c.v.(map[string]any); !isTable {
			if n, ok := r.countOf(c, "a count", aCount()); ok {
				i.MaxPerBreaker = []MaxPerBreaker{{0, n}}
			}
			return
		}
		var out []MaxPerBreaker
		seen := map[units.Current]bool{}
		ok := r.entries(c, "counts by breaker rating", remedy, func(key, value cell) bool {
			a, okA := readQuantity[units.Current](r, key, usual[units.Current]())
			n, okN := r.countOf(value, "a count", aCount())
			if okA && seen[a] {
				r.bad(key, fmt.Sprintf("rating %s is listed twice", quote(key.name)), "list each rating once")
				return false
			}
			seen[a] = true
			out = append(out, MaxPerBreaker{a, n})
			return okA && okN
		})
		if ok {
			sort.Slice(out, func(a, b int) bool { return out[a].Rating < out[b].Rating })
			i.MaxPerBreaker = out
		}
	}}
}

// entries walks a table whose keys are values too, in file order, and reports
// whether every entry was good. An empty table is a problem.
func (r *reader) entries(c cell, noun, remedy string, each func(key, value cell) bool) bool {
	m, ok := c.v.(map[string]any)
	if !ok {
		r.wrongType(c, noun, remedy)
		return false
	}
	if len(m) == 0 {
		r.bad(c, "an empty table", remedy)
		return false
	}
	for _, k := range c.kids {
		keyNode := *k
		keyNode.value = k.key
		ok = each(cell{&keyNode, k.name}, cell{k, m[k.name]}) && ok
	}
	return ok
}

// ratings is a list of breaker ratings.
func ratings(put into[[]units.Current]) form {
	const remedy = `write a list of ratings: ["15 A", "20 A", "30 A"]`
	return form{says: "a list of breaker ratings", shape: listOf(quantityShape[units.Current](usual[units.Current]())), read: func(r *reader, c cell, dst any) {
		list, ok := c.items()
		if !ok {
			r.wrongType(c, "a list of breaker ratings", remedy)
			return
		}
		if len(list) == 0 {
			r.bad(c, "an empty list of ratings", remedy)
			return
		}
		var out []units.Current
		for _, e := range list {
			a, fine := readQuantity[units.Current](r, e, usual[units.Current]())
			ok = ok && fine
			out = append(out, a)
		}
		if ok {
			slices.Sort(out)
			put(dst, slices.Compact(out))
		}
	}}
}

// plug is true, or the receptacle it needs. It also says that the item is not
// wired in.
func plug() form {
	return form{says: "true or a receptacle", shape: anyOf(plainly("boolean"), offered(receptacles)), read: func(r *reader, c cell, dst any) {
		i := dst.(*Item)
		switch v := c.v.(type) {
		case bool:
			if !i.Wired.Known() {
				i.Wired = units.Is(!v)
			}
		case string:
			if w, ok := r.receptacleOf(c, v); ok {
				i.Plug, i.Wired = units.Is(w), units.Is(false)
			}
		default:
			r.wrongType(c, "true or a receptacle", `write true, or the receptacle: "6-20"`)
		}
	}}
}

// receptacle is a receptacle's configuration.
func receptacle(put into[string]) form {
	return form{says: "a receptacle", shape: offered(receptacles), read: func(r *reader, c cell, dst any) {
		s, ok := c.v.(string)
		if !ok {
			r.wrongType(c, "a receptacle", `write its configuration in quotes: "6-20"`)
			return
		}
		if w, ok := r.receptacleOf(c, s); ok {
			put(dst, w)
		}
	}}
}

func receptacles(v Vocabulary) []string { return v.Receptacles }

// receptacleOf finds a configuration by its number: "6-20", "6-20P" and
// "NEMA 6-20R" are one.
func (r *reader) receptacleOf(c cell, s string) (string, bool) {
	bare := func(s string) string {
		s = strings.TrimSpace(strings.TrimPrefix(strings.ToUpper(strings.TrimSpace(s)), "NEMA"))
		return strings.TrimRight(s, "RP")
	}
	for _, w := range r.words.Receptacles {
		if bare(w) == bare(s) {
			return w, true
		}
	}
	if len(r.words.Receptacles) == 0 { // no code, no list
		return r.spokenOf(c, s, "a receptacle", nil)
	}
	best, near := r.suggest(s, r.words.Receptacles, "known here")
	if best == "" {
		near = "two upright slots and a round hole, the ordinary household outlet: \"NEMA 5-15R\"\none slot like a T: \"NEMA 5-20R\"\n" + near
	}
	r.bad(c, quote(s)+" is not a receptacle that is known here", near)
	return "", false
}
