package inventory

import (
	"sort"

	"branchwork/loads/units"
)

// sort puts named things in natural order, so that nothing computed from them
// depends on the order of the file.
func (inv *Inventory) sort() {
	natural(inv.Panels, func(p *Panel) string { return p.Name })
	natural(inv.Rooms, func(r *Room) string { return r.Name })
	natural(inv.Items, func(i *Item) string { return i.Name })
	natural(inv.Circuits, func(c *Circuit) string { return c.Name })
	for i := range inv.Circuits {
		natural(inv.Circuits[i].Feeds, func(f *Fed) string { return f.Item })
	}
}

// natural sorts by name. The list is put in order once that is known, since what it
// holds is large.
func natural[T any](list []T, name func(*T) string) {
	order := make([]int, len(list))
	for i := range order {
		order[i] = i
	}
	less := func(a, b int) bool { return units.NaturalLess(name(&list[a]), name(&list[b])) }
	if sort.SliceIsSorted(order, func(i, j int) bool { return less(i, j) }) {
		return
	}
	sort.SliceStable(order, func(i, j int) bool { return less(order[i], order[j]) })
	for i := range order { // what is moved leaves its place to the next
		held, at := list[i], i
		for order[at] >= 0 {
			from := order[at]
			if list[at] = held; from != i {
				list[at] = list[from]
			}
			at, order[at] = from, -1
		}
	}
}
