package inventory

import (
	"fmt"
	"reflect"
	"slices"
	"sort"
	"strconv"
	"strings"

	"branchwork/loads/units"
)

// Fixtures that a file lists one by one, as a list of assets does, are planned as
// one item of so many units where they are alike in everything but the name: a
// room gets the same circuits whether its fixtures are listed or counted, and a
// maker's limit holds for them all.

// gather joins fixtures that are listed one by one and alike. Items that something
// else calls by name stay by themselves: those of a file with circuits, which feed
// items by name, those to be spread, and members of an interlock.
func (inv *Inventory) gather() {
	out := make([]Item, 0, len(inv.Items))
	like := map[likeness][]int{} // where in out
	for _, item := range inv.Items {
		names := item.Listed
		if len(names) == 0 {
			names = []string{item.Name}
		}
		item.Listed = nil
		joining := make([]string, 0, len(names))
		for _, name := range names {
			if inv.joins(item, name) {
				joining = append(joining, name)
				continue
			}
			item.Name = name
			out = append(out, item)
		}
		if len(joining) == 0 {
			continue
		}
		k := item.likeness()
		at := slices.IndexFunc(like[k], func(i int) bool { return sameButName(item, out[i]) })
		if at < 0 {
			like[k] = append(like[k], len(out))
			item.Listed = joining
			out = append(out, item)
			continue
		}
		first := &out[like[k][at]]
		first.Listed = append(first.Listed, joining...)
	}
	taken := make(map[string]bool, len(out))
	for _, i := range out {
		taken[i.Name] = true
		for _, name := range i.Listed {
			taken[name] = true
		}
	}
	inv.Items = inv.Items[:0]
	for _, item := range out {
		inv.Items = append(inv.Items, item.called(taken)...)
	}
	natural(inv.Items, func(i *Item) string { return i.Name })
	inv.Items = slices.Clip(inv.Items)
}

// joins reports whether the item, under one of its names, may be one of several alike.
func (inv *Inventory) joins(i Item, name string) bool {
	return i.Table == Fixtures && i.Count == 1 && i.Interlock == "" && len(inv.Circuits) == 0 && !slices.Contains(inv.Plan.Spread, name)
}

// called gives an item that joins several its name and count; one of which there is
// no other is as it was.
func (i Item) called(taken map[string]bool) []Item {
	list := i.Listed
	i.Listed = nil
	if len(list) == 0 {
		return []Item{i}
	}
	sort.Slice(list, func(a, b int) bool { return units.NaturalLess(list[a], list[b]) })
	i.Name = Listing(list)
	if strings.Contains(i.Name, ", ") {
		i.Name = fmt.Sprintf("%s and %d alike", list[0], len(list)-1)
	}
	if len(list) > 1 && !taken[i.Name] {
		i.Listed, i.Count = list, len(list)
		return []Item{i}
	}
	i.Listed = list
	return i.Each()
}

// likeness is what is compared first of two items: few that differ are of one likeness.
type likeness struct {
	room, panel, controller string
	power                   units.Known[units.Power]
	current                 units.Known[units.Current]
	factor, level           units.Known[units.Ratio]
	drivers                 units.Known[int]
}

func (i Item) likeness() likeness {
	return likeness{i.Room, i.Panel, i.Controller, i.Power, i.Current, i.PowerFactor, i.Level, i.Drivers}
}

func sameButName(a, b Item) bool {
	a.Name, b.Name, a.Listed, b.Listed = "", "", nil, nil
	return reflect.DeepEqual(a, b)
}

// Each returns the items as the file has them: the item itself, or one of each unit that
// it lists.
func (i Item) Each() []Item {
	if len(i.Listed) == 0 {
		return []Item{i}
	}
	out := make([]Item, len(i.Listed))
	for k, name := range i.Listed {
		out[k] = i
		out[k].Name, out[k].Count, out[k].Listed = name, 1, nil
	}
	return out
}

// Listing writes names in natural order, those that count on as "bar-1 to bar-9".
func Listing(names []string) string {
	var parts []string
	for _, run := range Runs(names) {
		if len(run) > 2 {
			run = []string{run[0] + " to " + run[len(run)-1]}
		}
		parts = append(parts, run...)
	}
	return strings.Join(parts, ", ")
}

// Runs divides names in natural order into stretches that count on.
func Runs(names []string) [][]string {
	var out [][]string
	for i := 0; i < len(names); {
		end := i + 1
		for end < len(names) && follows(names[end-1], names[end]) {
			end++
		}
		out = append(out, names[i:end])
		i = end
	}
	return out
}

// follows reports whether the second of two names is the first with the number at its
// end one higher.
func follows(a, b string) bool {
	stem := strings.TrimRight(a, "0123456789")
	if len(b) < len(a) || b[:len(stem)] != stem {
		return false
	}
	digits, next := a[len(stem):], b[len(stem):]
	n, err := strconv.Atoi(digits)
	return err == nil && (len(next) == len(digits) || digits[0] != '0') && next == strings.Repeat("0", max(0, len(digits)-len(strconv.Itoa(n+1))))+strconv.Itoa(n+1)
}
