package inventory

import (
	"sort"

	"branchwork/loads/units"
)

// sort puts named things in natural order, so that nothing computed from them
// depends on the order of the file.
func (inv *Inventory) sort() {
	natural(inv.Panels, func(p Panel) string { return p.Name })
	natural(inv.Rooms, func(r Room) string { return r.Name })
	natural(inv.Items, func(i Item) string { return i.Name })
	natural(inv.Circuits, func(c Circuit) string { return c.Name })
	for i := range inv.Circuits {
		natural(inv.Circuits[i].Feeds, func(f Fed) string { return f.Item })
	}
}

func natural[T any](list []T, name func(T) string) {
	sort.SliceStable(list, func(i, j int) bool { return units.NaturalLess(name(list[i]), name(list[j])) })
}
