package cli

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"branchwork/circuits"
	"branchwork/loads/inventory"
)

// taking is how units are taken out of a file.
type taking struct {
	edits []inventory.Edit
	from  string // ", from garage-1 (2)"
	notes []string
}

// takeOut takes units out: those that no circuit feeds first, then those of the
// fullest circuit first, or of the one that is named.
func takeOut(x siteText, plan circuits.Plan, f unitsOf) (taking, error) {
	var t taking
	item, ok := itemNamed(x.inv, f.item)
	switch {
	case !ok:
		return t, unknownName("item", f.item, itemNames(x.inv))
	case item.Table == inventory.Controllers:
		return t, fmt.Errorf("%q is a controller, and a file has one of each", item.Name)
	case f.count > item.Count:
		return t, fmt.Errorf("%d x %s cannot be taken out: there are %d", f.count, item.Name, item.Count)
	case f.on != "" && !slices.Contains(circuitNames(x.inv), f.on):
		return t, unknownName("circuit", f.on, circuitNames(x.inv))
	}
	if f.count == item.Count {
		t.edits = append(t.edits, inventory.Edit{Path: []string{item.Table, item.Name}})
	} else {
		t.edits = append(t.edits, inventory.Edit{Path: []string{item.Table, item.Name, "count"}, Value: strconv.Itoa(item.Count - f.count)})
	}
	rest := f.count
	if f.on == "" {
		unfed := item.Count
		for _, c := range x.inv.Circuits {
			unfed -= fedBy(c, item.Name)
		}
		rest -= min(rest, unfed)
	}
	var from []string
	for _, c := range fullestFirst(x.inv, plan) {
		n := min(rest, fedBy(c, item.Name))
		if n == 0 || f.on != "" && c.Name != f.on {
			continue
		}
		rest -= n
		from = append(from, fmt.Sprintf("%d from %s", n, c.Name))
		t.unplug(c, item.Name, n)
	}
	if rest > 0 && f.on != "" {
		return t, fmt.Errorf("%d x %s cannot be taken from circuit %s: it feeds %d", f.count, item.Name, f.on, f.count-rest)
	}
	if len(from) > 0 {
		t.from = ", " + strings.Join(from, ", ")
		if f.on == "" {
			t.notes = append(t.notes, "units were taken from the circuits as they are now, the fullest first; name a circuit to take them from another")
		}
	}
	return t, nil
}

// fullestFirst are the circuits of the file by the share of their fullest limit.
func fullestFirst(inv *inventory.Inventory, plan circuits.Plan) []inventory.Circuit {
	used := map[string]float64{}
	for _, c := range plan.Circuits {
		if len(c.Limits) > 0 {
			used[c.Name] = c.Limits[0].Share
		}
	}
	out := slices.Clone(inv.Circuits)
	slices.SortStableFunc(out, func(a, b inventory.Circuit) int {
		switch {
		case used[a.Name] > used[b.Name]:
			return -1
		case used[a.Name] < used[b.Name]:
			return 1
		}
		return 0
	})
	return out
}

// unplug lets a circuit feed fewer of an item.
func (t *taking) unplug(c inventory.Circuit, item string, n int) {
	feeds := []string{"circuits", c.Name, "feeds"}
	for _, f := range c.Feeds {
		switch {
		case f.Item != item:
		case f.Count > n:
			t.edits = append(t.edits, inventory.FeedsEdits(c.Name, map[string]int{item: f.Count - n})...)
		case len(c.Feeds) > 1:
			t.edits = append(t.edits, inventory.Edit{Path: append(feeds, item)})
		default: // nothing is left on it
			t.edits = append(t.edits, inventory.Edit{Path: feeds}, inventory.Edit{Path: feeds, Value: "{}"})
		}
	}
}
