package circuits

import (
	"fmt"
	"strconv"
	"strings"

	"branchwork/loads/inventory"
	"branchwork/loads/units"
)

// Adopt returns the edits that write a plan's new circuits, and what it adds to
// existing ones, into its inventory as circuits that exist.
func Adopt(p Plan) []inventory.Edit {
	var out []inventory.Edit
	for _, c := range p.Circuits {
		if len(c.Spaces) == 0 {
			continue
		}
		feeds := map[string]int{}
		for _, l := range c.Loads {
			if !c.Existing || l.Added > 0 {
				names := l.Names()
				for _, name := range names {
					feeds[name] = 1
				}
				if names == nil {
					feeds[l.Item] = l.Count
				}
			}
		}
		if !c.Existing {
			out = append(out, adoptNew(c)...)
		}
		out = append(out, inventory.FeedsEdits(c.Name, feeds)...)
	}
	for _, x := range p.Panels {
		if f := x.Feeder; f != nil && !f.Existing && len(f.Spaces) > 0 {
			out = append(out, adoptFeeder(x.Name, *f)...)
		}
	}
	return out
}

func adoptNew(c Circuit) []inventory.Edit {
	var out []inventory.Edit
	set := func(key, value string) {
		out = append(out, inventory.Edit{Path: []string{"circuits", c.Name, key}, Value: value})
	}
	set("panel", inventory.Quote(c.Panel))
	set("spaces", spaceList(c.Spaces))
	if b, ok := c.Breaker.Get(); ok {
		set("breaker", amps(b))
	}
	if c.Conductor.Size != "" {
		set("conductor", wireText(c.Conductor))
	}
	if c.Ground.Size != "" {
		set("ground", inventory.Quote(strings.TrimSpace(c.Ground.Size+" "+c.Ground.Material)))
	}
	if l, ok := c.Length.Get(); ok {
		set("length", inventory.Quote(number(float64(l))+" ft"))
	}
	if c.Receptacle != "" {
		set("receptacle", inventory.Quote(c.Receptacle))
	}
	if g, ok := c.GFCI.Get(); ok {
		set("gfci", strconv.FormatBool(g))
	}
	return out
}

func adoptFeeder(panel string, f Feeder) []inventory.Edit {
	var out []inventory.Edit
	set := func(key, value string) {
		out = append(out, inventory.Edit{Path: []string{"panels", panel, "feeder", key}, Value: value})
	}
	if t := f.Transformer; t != nil && !t.Given && t.Rating > 0 {
		out = append(out, inventory.Edit{Path: []string{"panels", panel, "transformer"}, Value: inventory.Quote(number(float64(t.Rating)/1000) + " kVA")})
	}
	set("spaces", spaceList(f.Spaces))
	if b, ok := f.Breaker.Get(); ok {
		set("breaker", amps(b))
	}
	if f.Conductor.Size != "" {
		set("conductor", wireText(f.Conductor))
	}
	return out
}

func wireText(w Wire) string {
	s := strings.TrimSpace(w.Size + " " + w.Material + " " + w.Insulation)
	if w.Sets > 1 {
		s = strconv.Itoa(w.Sets) + " x " + s
	}
	return inventory.Quote(s)
}

func spaceList(spaces []int) string {
	parts := make([]string, len(spaces))
	for i, s := range spaces {
		parts[i] = strconv.Itoa(s)
	}
	return fmt.Sprintf("[%s]", strings.Join(parts, ", "))
}

func amps(i units.Current) string { return inventory.Quote(number(float64(i)) + " A") }

// number writes a figure so that reading it gives the same figure back.
func number(x float64) string { return strconv.FormatFloat(x, 'f', -1, 64) }
