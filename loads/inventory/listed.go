package inventory

import (
	"fmt"
	"hash/maphash"
	"reflect"
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
	named := map[string]bool{}
	for _, name := range inv.Plan.Spread {
		named[name] = true
	}
	out := make([]Item, 0, len(inv.Items))
	seen := newAlikes(func(i int) *Item { return &out[i] })
	for _, item := range inv.Items {
		names := item.Listed
		if len(names) == 0 {
			names = []string{item.Name}
		}
		item.Name, item.Listed = "", nil
		joins := item.Table == Fixtures && item.Count == 1 && item.Interlock == "" && len(inv.Circuits) == 0
		joining := make([]string, 0, len(names))
		for _, name := range names {
			if joins && !named[name] {
				joining = append(joining, name)
				continue
			}
			alone := item
			alone.Name = name
			out = append(out, alone)
		}
		if len(joining) == 0 {
			continue
		}
		if at := seen.first(&item, len(out)); at < len(out) {
			out[at].Listed = append(out[at].Listed, joining...)
			continue
		}
		item.Listed = joining
		out = append(out, item)
	}
	taken := make(map[string]bool, len(out))
	for _, i := range out {
		taken[i.Name] = true
		for _, name := range i.Listed {
			taken[name] = true
		}
	}
	inv.Items = make([]Item, 0, len(out))
	for _, item := range out {
		inv.Items = append(inv.Items, item.called(taken)...)
	}
	natural(inv.Items, func(i *Item) string { return i.Name })
}

// called gives an item that joins several its name and count; one of which there is
// no other is as it was.
func (i Item) called(taken map[string]bool) []Item {
	list := i.Listed
	sort.Slice(list, func(a, b int) bool { return units.NaturalLess(list[a], list[b]) })
	name := Listing(list)
	if strings.Contains(name, ", ") {
		name = fmt.Sprintf("%s and %d alike", list[0], len(list)-1)
	}
	if len(list) < 2 || taken[name] {
		return i.Each()
	}
	i.Name, i.Count = name, len(list)
	return []Item{i}
}

// FirstAlike tells for each item which is the first that is alike but for its name.
// Members of an interlock are not alike: each may be a member of its own.
func FirstAlike(items []*Item) []int {
	seen := newAlikes(func(i int) *Item { return items[i] })
	out := make([]int, len(items))
	for i, x := range items {
		if out[i] = i; x.Interlock == "" {
			out[i] = seen.first(x, i)
		}
	}
	return out
}

// alikes finds items that are alike but for their names.
type alikes struct {
	item   func(i int) *Item
	byHash map[uint64][]int // the first of each sort; few of one hash differ
	seed   maphash.Seed
}

func newAlikes(item func(i int) *Item) *alikes {
	return &alikes{item, map[uint64][]int{}, maphash.MakeSeed()}
}

// first returns the first item that is alike, which is i where none was before.
func (a *alikes) first(x *Item, i int) int {
	same := *x
	same.Name, same.Listed = "", nil
	var h maphash.Hash
	h.SetSeed(a.seed)
	hash(&h, reflect.ValueOf(same))
	k := h.Sum64()
	for _, at := range a.byHash[k] {
		other := *a.item(at)
		other.Name, other.Listed = "", nil
		if reflect.DeepEqual(same, other) {
			return at
		}
	}
	a.byHash[k] = append(a.byHash[k], i)
	return i
}

// hash takes a value in; it is equal for equal values.
func hash(h *maphash.Hash, v reflect.Value) {
	switch v.Kind() {
	case reflect.Struct:
		for i := range v.NumField() {
			hash(h, v.Field(i))
		}
	case reflect.Slice:
		maphash.WriteComparable(h, v.Len())
		for i := range v.Len() {
			hash(h, v.Index(i))
		}
	case reflect.String:
		maphash.WriteComparable(h, v.String())
	case reflect.Bool:
		maphash.WriteComparable(h, v.Bool())
	case reflect.Int:
		maphash.WriteComparable(h, v.Int())
	case reflect.Float64:
		maphash.WriteComparable(h, v.Float())
	default:
		panic("inventory: an item has a field of kind " + v.Kind().String()) // our own slip: it would be taken for equal
	}
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
