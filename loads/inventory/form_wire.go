package inventory

import (
	"fmt"
	"strconv"
	"strings"

	"branchwork/loads/units"
)

// conductor is a wire: size, material and insulation.
func conductor(put into[Conductor]) form {
	return form{says: "a conductor", shape: pattern(`^\s*\S+\s+\S`), read: func(r *reader, c cell, dst any) {
		s, ok := c.v.(string)
		if !ok {
			r.wrongType(c, "a conductor", conductorRemedy)
			return
		}
		if w, ok := r.conductorOf(c, s); ok {
			put(dst, w)
		}
	}}
}

const conductorRemedy = `write a conductor as "12 AWG copper THHN", or its size alone: "12 AWG"`

// jacket reads the print on a cable: "14/2" and "14-2" are two conductors of 14.
func jacket(word string) (gauge, n string, ok bool) {
	gauge, n, ok = strings.Cut(strings.ReplaceAll(word, "-", "/"), "/")
	size, err := strconv.Atoi(gauge)
	return gauge, n, ok && err == nil && size >= 6 && size <= 18 && len(n) == 1 && n >= "2" && n <= "4"
}

// maxSets is more conductors in parallel per leg than any service has.
const maxSets = 20

func (r *reader) conductorOf(c cell, s string) (w Conductor, ok bool) {
	words := strings.Fields(s)
	if len(words) > 2 && words[1] == "x" {
		n, err := strconv.Atoi(words[0])
		if err != nil || n < 1 || n > maxSets {
			r.bad(c, fmt.Sprintf("%s is not a number of parallel sets", quote(words[0])), `write parallel sets as "2 x 350 kcmil copper THHN"`)
			return w, false
		}
		w.Sets, words = n, words[2:]
	}
	if len(words) > 0 {
		if gauge, n, cable := jacket(words[0]); cable {
			r.bad(c, fmt.Sprintf("%s is what a cable's jacket says", quote(words[0])),
				fmt.Sprintf("%s is %s conductors of %s AWG: write \"%s AWG copper NM-B\", if it is copper in a nonmetallic jacket", words[0], n, gauge, gauge))
			return w, false
		}
	}
	if len(words) < 2 {
		r.bad(c, fmt.Sprintf("%s is not a conductor", quote(s)), conductorRemedy)
		return w, false
	}
	if w.Size, ok = r.spokenOf(c, words[0]+" "+words[1], "a conductor size", r.words.Sizes); !ok {
		return w, false
	}
	for _, word := range words[2:] {
		known := func(list []string) (string, bool) {
			for _, x := range list {
				if strings.EqualFold(x, word) {
					return x, true
				}
			}
			return word, len(list) == 0
		}
		if x, ok := known(r.words.Materials); ok && !w.Material.Known() {
			w.Material = units.Is(x)
		} else if x, ok := known(r.words.Insulations); ok && !w.Insulation.Known() {
			w.Insulation = units.Is(x)
		} else {
			all := append(append([]string{}, r.words.Materials...), r.words.Insulations...)
			r.bad(c, fmt.Sprintf("%s is not a material or an insulation that is known here", quote(word)), r.remedy(word, all, "known here"))
			return w, false
		}
	}
	return w, true
}

// conduit is a raceway: trade size and kind.
func conduit(put into[Raceway]) form {
	const remedy = `write a raceway as "1/2 EMT" or "1-1/4 PVC"`
	return form{says: "a raceway", shape: pattern(`^[\s"]*[0-9]`), read: func(r *reader, c cell, dst any) {
		s, ok := r.textOf(c, "a raceway", remedy)
		if !ok {
			return
		}
		words := strings.Fields(strings.ReplaceAll(s, "\"", " "))
		if len(words) > 2 && words[len(words)-2] == "in" {
			words = append(words[:len(words)-2], words[len(words)-1])
		}
		if len(words) != 2 || !tradeSize(words[0]) {
			r.bad(c, fmt.Sprintf("%s is not a raceway with its trade size", quote(s)), remedy)
			return
		}
		if kind, ok := r.spokenOf(c, words[1], "a raceway", r.words.Raceways); ok {
			put(dst, Raceway{Trade: words[0] + " in", Kind: kind})
		}
	}}
}

// tradeSize reports whether a word is written as the trade writes sizes of
// raceways: 2, 1/2, 1-1/4.
func tradeSize(s string) bool {
	whole, part, mixed := strings.Cut(s, "-")
	if !mixed {
		whole, part = "1", s
		if !strings.Contains(s, "/") {
			whole, part = s, "1/2"
		}
	}
	over, under, ok := strings.Cut(part, "/")
	for _, n := range []string{whole, over, under} {
		x, err := strconv.Atoi(n)
		ok = ok && err == nil && x > 0 && x < 100
	}
	return ok
}
