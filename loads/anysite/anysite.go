// Package anysite draws random whole sites: inventories that the reader takes,
// as varied as a file may be. Properties that hold for every site are tried on
// them; only tests import it. All of it is invented.
//
// A site is text, so that what is tried goes the road that a user's file goes,
// and a failure is shown, and shrunk, as a file that can be run by hand.
package anysite

import (
	"fmt"
	"strings"

	"pgregory.net/rapid"
)

// Site is an inventory as its tables, in an order that may be changed.
type Site struct {
	Tables []Table
	Items  []string // names of items, in order of the file
	Fed    []string // of those that circuits in the wall feed, as often as they do
}

// Table is a header with its keys.
type Table struct {
	Header string // "rooms.flower"
	Keys   []string
}

// Text is the site as a file.
func (s Site) Text() string {
	var b strings.Builder
	for _, t := range s.Tables {
		fmt.Fprintf(&b, "[%s]\n%s\n\n", t.Header, strings.Join(t.Keys, "\n"))
	}
	return b.String()
}

// Shuffled is the site with its tables, and the keys in them, in another order.
func (s Site) Shuffled(t *rapid.T) Site {
	out := Site{Items: s.Items, Fed: s.Fed}
	for _, x := range rapid.Permutation(s.Tables).Draw(t, "order of tables") {
		out.Tables = append(out.Tables, Table{x.Header, rapid.Permutation(x.Keys).Draw(t, "order of keys")})
	}
	return out
}

// Any draws a site to be planned; sometimes circuits are in the wall already.
func Any(t *rapid.T) Site {
	d := newDraw(t)
	if d.sometimes("circuits in the wall", 3) {
		d.circuits(rapid.IntRange(1, 3).Draw(t, "circuits"))
	}
	return d.site
}

// Built draws a site with circuits in the wall.
func Built(t *rapid.T) Site {
	d := newDraw(t)
	d.circuits(rapid.IntRange(1, 5).Draw(t, "circuits"))
	return d.site
}

// draw is a site while it is drawn.
type draw struct {
	*rapid.T
	site   Site
	code   string
	panels []panel
	rooms  []room
	items  []item
	taken  map[string]bool // "LP1 3": a space with a breaker in it
}

type panel struct {
	name   string
	system system
	spaces int
	fedBy  int // index of the feeding panel, −1 at the service
}

type room struct {
	name   string
	panels []int
}

type item struct {
	name  string
	left  int // units that no circuit feeds
	reach []int
	poles int // of a circuit made for it
	volts int
}

// system is a panel system with what it supplies.
type system struct {
	name     string
	ln, ll   int // volts
	legs     int
	canadian bool
}

// systems are those of a code with so many legs at most.
func systems(code string, legs int) []system {
	out := []system{
		{"120/240 V 1ph", 120, 240, 2, true},
		{"208Y/120 V 3ph", 120, 208, 3, true},
		{"480Y/277 V 3ph", 277, 480, 3, false},
		{"240/120 V 3ph high-leg", 120, 240, 3, false},
		{"120 V 1ph", 120, 0, 1, true},
		{"600Y/347 V 3ph", 347, 600, 3, true},
	}
	var kept []system
	for _, s := range out {
		canadian := strings.HasPrefix(code, "cec")
		if s.legs <= legs && (canadian && s.canadian || !canadian && s.ln != 347) {
			kept = append(kept, s)
		}
	}
	return kept
}

func newDraw(t *rapid.T) *draw {
	d := &draw{T: t, taken: map[string]bool{}}
	d.head()
	for i := range rapid.IntRange(1, 4).Draw(t, "panels") {
		d.panel(i)
	}
	for i := range rapid.IntRange(1, 4).Draw(t, "rooms") {
		d.room(i)
	}
	for i := range rapid.IntRange(1, 7).Draw(t, "items") {
		d.item(i)
	}
	d.plan()
	d.tariff()
	return d
}

// sometimes is true once in so many times; shrinking makes it false.
func (d *draw) sometimes(label string, in int) bool {
	return rapid.IntRange(0, in-1).Draw(d.T, label) == in-1
}

func (d *draw) pick(label string, list ...string) string {
	return rapid.SampledFrom(list).Draw(d.T, label)
}

func (d *draw) number(label string, least, most int) int {
	return rapid.IntRange(least, most).Draw(d.T, label)
}

func (d *draw) add(header string, keys ...string) {
	d.site.Tables = append(d.site.Tables, Table{header, keys})
}

// set gathers keys of a table.
type set []string

func (k *set) put(key, format string, args ...any) {
	*k = append(*k, key+" = "+fmt.Sprintf(format, args...))
}

func (d *draw) head() {
	d.code = d.pick("code", "nec-2023", "nec-2017", "nec-2020", "nec-2026", "cec-2024")
	var k set
	k.put("name", "%q", "any site")
	k.put("use", "%q", d.pick("use", "commercial", "dwelling"))
	k.put("code", "%q", d.code)
	if d.sometimes("wiring", 3) {
		k.put("conductors", "{ material = %q, ambient = \"%d C\", terminals = %q, per_raceway = %d }", d.pick("material", "copper", "aluminum"),
			d.number("ambient", 10, 50), d.pick("terminals", "75 C", "60 C"), d.number("circuits in a raceway", 1, 4))
	}
	if d.sometimes("weather", 3) {
		k.put("altitude", "\"%d ft\"", d.number("altitude", 0, 7000))
		k.put("outdoor", `{ summer = "95 F", summer_wet_bulb = "74 F", winter = "5 F" }`)
	}
	d.add("site", k...)
}

func (d *draw) panel(i int) {
	p := panel{name: fmt.Sprintf("LP%d", i+1), fedBy: -1}
	p.system = rapid.SampledFrom(systems(d.code, 3)).Draw(d.T, "system")
	var k set
	if i > 0 && d.sometimes("sub-panel", 2) {
		p.fedBy = d.number("fed by", 0, i-1)
		up := d.panels[p.fedBy]
		k.put("fed_by", "%q", up.name)
		if d.sometimes("another system", 2) {
			p.system = rapid.SampledFrom(systems(d.code, max(2, up.system.legs))).Draw(d.T, "its system")
			if d.sometimes("transformer given", 2) {
				k.put("transformer", "%q", d.pick("transformer", "15 kVA", "45 kVA", "112.5 kVA"))
			}
		} else {
			p.system = up.system
		}
		if d.sometimes("feeder", 2) {
			k.put("feeder", "{ length = \"%d ft\" }", d.number("feeder length", 0, 300))
		}
	}
	k.put("system", "%q", p.system.name)
	if !d.sometimes("main not known", 3) {
		k.put("main", "\"%s A\"", d.pick("main", "200", "400", "100", "60", "30", "800"))
	}
	p.spaces = d.number("spaces", 4, 84)
	if d.sometimes("spaces not known", 5) {
		p.spaces = 42
	} else {
		k.put("spaces", "%d", p.spaces)
	}
	if d.sometimes("other load", 5) {
		k.put("other_load", "%q", d.pick("other", "12 A", "5 kVA"))
	}
	if d.sometimes("peak", 8) {
		k.put("measured_peak", "{ peak = %q, months = %d }", d.pick("peak is", "9 A", "4 kVA"), d.number("months", 1, 12))
	}
	if d.sometimes("other spaces", 4) {
		k.put("other_spaces", "%d", d.number("other spaces are", 0, 12))
	}
	if d.sometimes("breakers of the panel", 6) {
		k.put("breakers", `["15 A", "20 A", "30 A", "50 A", "100 A"]`)
	}
	d.panels = append(d.panels, p)
	d.add("panels."+p.name, k...)
}

func (d *draw) room(i int) {
	r := room{name: fmt.Sprintf("room-%d", i+1)}
	var k set
	for j, name := range rapid.SliceOfNDistinct(rapid.IntRange(0, len(d.panels)-1), 0, 2, rapid.ID[int]).Draw(d.T, "panels of the room") {
		r.panels = append(r.panels, name)
		if j == 0 {
			k.put("panel", "%q", d.panels[name].name)
		} else {
			k[len(k)-1] = fmt.Sprintf("panel = [%q, %q]", d.panels[r.panels[0]].name, d.panels[name].name)
		}
	}
	k.put("lights", "%q", d.pick("lights", "06:00-18:00", "18:00-06:00", "always", "03:00-21:00", "10:00-11:30"))
	if d.sometimes("run", 2) {
		k.put("run", "\"%d ft\"", d.number("run is", 0, 150))
	}
	if d.sometimes("size", 2) {
		k.put("size", "\"%d ft x %d ft x 10 ft\"", d.number("long", 8, 60), d.number("wide", 8, 30))
		k.put("spacing", `"4 ft"`)
	}
	if d.sometimes("flip", 4) {
		k.put("interlock", "%q", "flip:"+d.pick("group", "A", "B"))
	}
	if d.sometimes("climate", 4) {
		k.put("climate", `{ lights_on = "82 F", lights_off = "72 F", humidity_on = 0.6, humidity_off = 0.5 }`)
		k.put("watering", `"20 gal/day"`)
		k.put("canopy", `"100 ft2"`)
	}
	if d.sometimes("starts", 5) {
		k.put("starts_from", "%q", "00:00-12:00")
	}
	d.rooms = append(d.rooms, r)
	d.add("rooms."+r.name, k...)
}

func (d *draw) plan() {
	var k set
	if d.sometimes("spare", 4) {
		k.put("spare", "%s", d.pick("spare is", "0.1", "0.25"))
	}
	if d.sometimes("drop", 6) {
		k.put("max_drop", "0.02")
	}
	if d.sometimes("breakers", 4) {
		k.put("breakers", `["15 A", "20 A", "30 A", "40 A", "60 A", "100 A", "200 A", "400 A"]`)
	}
	if d.sometimes("separate", 4) {
		k.put("separate", "%s", d.pick("kept apart", "[]", `["lighting"]`, `["lighting", "water", "climate"]`))
	}
	if d.sometimes("spread", 3) {
		k.put("spread", "[%q]", rapid.SampledFrom(d.site.Items).Draw(d.T, "spread over two"))
	}
	if d.sometimes("reuse", 3) {
		k.put("reuse", "true")
	}
	if d.sometimes("alternate", 4) {
		k.put("alternate", "true")
	}
	if len(k) > 0 {
		d.add("plan", k...)
	}
}

func (d *draw) tariff() {
	if d.sometimes("tariff", 4) {
		d.add("tariff", `currency = "USD"`, `energy = "0.14 per kWh"`, `demand = "15 per kW"`)
	}
}
