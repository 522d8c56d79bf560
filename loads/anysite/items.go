package anysite

import (
	"fmt"
	"strings"

	"pgregory.net/rapid"
)

// item draws an entry of one of the four tables of items.
func (d *draw) item(i int) {
	table := d.pick("table", "fixtures", "fans", "controllers", "equipment")
	// Names with blanks and dots are names too.
	x := item{name: fmt.Sprintf(d.pick("name", "item-%d", "item %d", "it.em %d"), i+1), left: 1}
	var k set
	r := rapid.SampledFrom(d.rooms).Draw(d.T, "room")
	k.put("room", "%q", r.name)
	x.reach = r.panels
	if d.sometimes("own panel", 5) {
		x.reach = []int{d.number("panel of its own", 0, len(d.panels)-1)}
		k.put("panel", "%q", d.panels[x.reach[0]].name)
	}
	if len(x.reach) == 0 {
		for p := range d.panels {
			x.reach = append(x.reach, p)
		}
	}
	on := d.panels[rapid.SampledFrom(x.reach).Draw(d.T, "supplied by")].system
	kind := ""
	if table == "equipment" {
		kind = d.pick("kind", "dehumidifier", "humidifier", "air-conditioner", "heater", "pump", "chiller", "co2-burner", "outlet", "other")
		k.put("kind", "%q", kind)
	}
	if table != "controllers" {
		x.left = d.count(table)
		k.put("count", "%d", x.left)
	}
	d.draws(&k, table, on, &x)
	d.hours(&k, table)
	d.limits(&k, table, x.left)
	d.connection(&k, table)
	switch kind {
	case "dehumidifier":
		k.put("removes", `"110 pint/day"`)
	case "air-conditioner", "chiller":
		k.put("cooling", `"2 ton"`)
	case "co2-burner":
		k.put("burns", `"20000 BTU/h"`)
	}
	d.items = append(d.items, x)
	d.site.Items = append(d.site.Items, x.name)
	d.add(table+"."+key(x.name), k...)
}

// key writes a name as a key.
func key(name string) string {
	if strings.ContainsAny(name, " .") {
		return fmt.Sprintf("%q", name)
	}
	return name
}

func (d *draw) count(table string) int {
	if table == "equipment" {
		return d.number("count", 1, 4)
	}
	return d.number("count", 1, 40)
}

// draws says what one unit draws, in every way that a file may say it.
func (d *draw) draws(k *set, table string, on system, x *item) {
	volts, phases := on.ln, 1
	if on.ll > 0 && d.sometimes("line to line", 2) {
		volts = on.ll
		if on.legs == 3 && table == "equipment" && d.sometimes("three phases", 2) {
			phases = 3
			k.put("phases", "3")
		}
	}
	x.volts, x.poles = volts, 1
	if volts == on.ll {
		x.poles = phases
		if phases == 1 {
			x.poles = 2
		}
	}
	one := fmt.Sprintf("voltage = \"%d V\"", volts)
	ways := []string{"power", "apparent", "current", "currents", "range"}
	if table == "fans" || table == "equipment" {
		ways = append(ways, "motor")
	}
	if table == "equipment" {
		ways = append(ways, "nameplate")
	}
	watts := d.number("watts", 5, 400)
	if d.sometimes("large", 4) {
		watts = d.number("more watts", 600, 3000)
	}
	switch d.pick("draws", ways...) {
	case "power":
		*k = append(*k, one)
		k.put("power", "\"%d W\"", watts)
		d.factor(k)
		if table == "fixtures" && d.sometimes("boost", 4) {
			k.put("boost", "\"%d W\"", watts+d.number("boosted by", 1, 200))
		}
	case "apparent":
		*k = append(*k, one)
		k.put("power", "\"%d VA\"", watts)
	case "current":
		*k = append(*k, one)
		k.put("current", "\"%d.%d A\"", d.number("amps", 0, 6), d.number("tenths", 1, 9))
		d.factor(k)
	case "currents":
		k.put("currents", "{ \"%d V\" = \"%d.%d A\" }", volts, d.number("amps", 0, 6), d.number("tenths", 1, 9))
	case "range":
		if phases == 1 && volts >= 100 && volts <= 277 {
			one = `voltage = "100-277 V"`
		}
		*k = append(*k, one)
		k.put("power", "\"%d W\"", watts)
		d.factor(k)
	case "motor":
		*k = append(*k, one)
		k.put("hp", "%q", d.pick("hp", "0.5 hp", "0.5 hp", "0.75 hp", "1 hp", "1.5 hp", "2 hp", "3 hp"))
	case "nameplate":
		*k = append(*k, one)
		least := d.number("least circuit", 3, 24)
		k.put("nameplate", "{ min_circuit = \"%d.5 A\", max_breaker = \"%d A\" }", least, (least+1)*3/2/5*5+5)
		if d.sometimes("power too", 2) {
			k.put("power", "\"%d W\"", watts)
		}
	}
	if table != "controllers" && d.sometimes("dimmed", 6) {
		k.put("level", "0.6")
	}
}

func (d *draw) factor(k *set) {
	if d.sometimes("power factor", 2) {
		k.put("power_factor", "0.%d", d.number("hundredths", 60, 99))
	}
}

func (d *draw) hours(k *set, table string) {
	name := "hours"
	if table == "fixtures" {
		name = "lights"
	}
	if d.sometimes("hours", 2) {
		k.put(name, "%s", d.pick("hours are", `"always"`, `"18:00-06:00"`, `"06:00-18:00"`, `"08:00-09:00"`, `"never"`,
			`["01:00-03:59", "05:00-06:00"]`, `["22:00-01:00", "12:00-14:00"]`))
	}
	if d.sometimes("marked", 8) {
		k.put("continuous", "%s", d.pick("continuous", "true", "false"))
	}
	if d.sometimes("interlocked", 6) {
		k.put("interlock", "%q", d.pick("interlock", "a", "b"))
	}
}

// limits are what its maker allows.
func (d *draw) limits(k *set, table string, count int) {
	if table == "controllers" {
		if d.sometimes("fed by itself", 2) {
			k.put("feed", "%q", d.pick("feed", "30 A", "50 A", "15 A"))
			k.put("outlets", "%d", d.number("outlets", 1, 12))
			k.put("outlet_rating", `"15 A"`)
		}
		return
	}
	if d.sometimes("per breaker", 5) {
		k.put("max_per_breaker", "%s", d.pick("at most", "6", "1", `{ "20 A" = 7, "15 A" = 5 }`))
	}
	if d.sometimes("largest breaker", 6) {
		k.put("max_breaker", "%q", d.pick("largest", "20 A", "30 A"))
	}
	if d.sometimes("alone", 8) {
		k.put("dedicated", "%s", d.pick("dedicated", "true", "false"))
	}
	if d.sometimes("leakage", 4) {
		k.put("leakage", `"0.4 mA"`)
	}
	if d.sometimes("inrush", 6) {
		k.put("inrush", `{ peak = "40 A", time = "2 ms" }`)
	}
	if table == "fixtures" && d.sometimes("linked", 8) {
		k.put("link", "{ rating = \"10 A\", most = 8, units = %d }", d.number("chain", 1, min(count, 8)))
	}
}

func (d *draw) connection(k *set, table string) {
	switch d.pick("connected", "", "", "plug = true", "wired = true") {
	case "plug = true":
		k.put("plug", "true")
	case "wired = true":
		k.put("wired", "true")
	}
	if table != "controllers" && d.sometimes("place", 4) {
		k.put("location", "%q", d.pick("location", "damp", "dry", "wet"))
	}
	if box := d.boxes(); table != "controllers" && len(box) > 0 && d.sometimes("switched", 2) {
		k.put("controller", "%q", rapid.SampledFrom(box).Draw(d.T, "controller"))
	}
}

// boxes are the names of controllers drawn so far.
func (d *draw) boxes() []string {
	var out []string
	for _, t := range d.site.Tables {
		if name, ok := strings.CutPrefix(t.Header, "controllers."); ok {
			out = append(out, strings.Trim(name, `"`))
		}
	}
	return out
}
