package anysite

import (
	"fmt"
	"slices"
	"strings"

	"pgregory.net/rapid"
)

// circuits puts circuits in the wall, as a stranger may have left them: of any
// breaker and wire, right or wrong, but each breaker in spaces of its own.
func (d *draw) circuits(n int) {
	for i := range n {
		d.circuit(i)
	}
}

func (d *draw) circuit(i int) {
	p := rapid.SampledFrom(d.panels).Draw(d.T, "panel of the circuit")
	var feeds, fed []string
	stranger := d.sometimes("of any voltage", 8)
	var first *item // the circuit is made for it
	for j := range d.items {
		x := &d.items[j]
		switch {
		case x.left == 0 || len(feeds) == 3 || !d.reaches(x, p) || !d.supplies(x, p) && !stranger:
			continue
		case first == nil:
			first = x
		case x.poles != first.poles && !stranger || d.sometimes("not here", 2):
			continue
		}
		n := d.number("fed", 1, min(x.left, 2))
		x.left -= n
		fed = append(fed, x.name)
		feeds = append(feeds, fmt.Sprintf("%s = %d", key(x.name), n))
	}
	if first == nil {
		return
	}
	poles := min(first.poles, p.system.legs)
	if stranger {
		poles = d.number("poles", 1, p.system.legs)
	}
	spaces := d.spaces(p, poles)
	if len(spaces) == 0 {
		return
	}
	d.site.Fed = append(d.site.Fed, fed...)
	var k set
	k.put("panel", "%q", p.name)
	k.put("spaces", "[%s]", strings.Trim(strings.Join(strings.Fields(fmt.Sprint(spaces)), ", "), "[]"))
	k.put("feeds", "{ %s }", strings.Join(feeds, ", "))
	d.wiring(&k, p, len(spaces))
	if d.sometimes("listed for all of it", 5) {
		k.put("full_rated", "true")
	}
	if d.sometimes("metered", 5) {
		k.put("measured", "\"%d A\"", d.number("measured", 1, 25))
		if d.sometimes("state", 2) {
			k.put("state", "%q", d.pick("measured with", "lights on", "lights off"))
		}
	}
	d.add("circuits."+key(fmt.Sprintf(d.pick("called", "%s-%d", "%s %d", "%s.%d"), p.name+"x", i+1)), k...)
}

// wiring is sound four times of five; else anything, or nobody knows it.
func (d *draw) wiring(k *set, p panel, poles int) {
	if d.sometimes("nobody looked", 5) {
		k.put("breaker", "\"%s A\"", d.pick("breaker", "20", "15", "30", "50"))
		if d.sometimes("known", 2) {
			k.put("conductor", "%q", d.pick("conductor", "12 AWG copper THHN", "14 AWG copper THHN", "10 AWG copper THHN", "8 AWG copper THHN"))
			k.put("ground", `"12 AWG copper"`)
		}
		return
	}
	rating := []int{1, 2, 0, 1, 2}[d.number("rating", 0, 4)]
	wire := []string{"14 AWG", "12 AWG", "8 AWG"}[rating]
	k.put("breaker", "\"%d A\"", []int{15, 20, 30}[rating])
	k.put("conductor", "\"%s copper THHN\"", wire)
	k.put("ground", "\"%s copper\"", []string{"14 AWG", "12 AWG", "10 AWG"}[rating])
	k.put("length", "\"%d ft\"", d.number("length", 5, 60))
	k.put("gfci", "true")
	switch {
	case poles == 1 && p.system.ln == 120 && rating < 2:
		k.put("receptacle", "%q", []string{"5-15", "5-20"}[rating])
	case poles == 2 && p.system.ll < 250:
		k.put("receptacle", "%q", []string{"6-15", "6-20", "L6-30"}[rating])
	}
}

func (d *draw) reaches(x *item, p panel) bool {
	return slices.ContainsFunc(x.reach, func(i int) bool { return d.panels[i].name == p.name })
}

// supplies reports whether a panel has the voltage that an item was drawn for.
func (d *draw) supplies(x *item, p panel) bool {
	return x.poles == 1 && x.volts == p.system.ln || x.poles > 1 && x.volts == p.system.ll
}

// spaces takes spaces that lie next to each other on one side, none where the
// ones drawn are not free.
func (d *draw) spaces(p panel, poles int) []int {
	first := d.number("first space", 1, p.spaces)
	var out []int
	for i := range poles {
		s := first + 2*i
		if s > p.spaces || d.taken[fmt.Sprint(p.name, " ", s)] {
			return nil
		}
		out = append(out, s)
	}
	for _, s := range out {
		d.taken[fmt.Sprint(p.name, " ", s)] = true
	}
	return out
}
