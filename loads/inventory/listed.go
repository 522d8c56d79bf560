package inventory

import (
	"fmt"
	"hash/maphash"
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
	named := map[string]bool{}
	for _, name := range inv.Plan.Spread {
		named[name] = true
	}
	out := make([]Item, 0, len(inv.Items))
	like := map[uint64][]int{} // where in out, by hash
	seed := maphash.MakeSeed()
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
		h := hashOf(seed, item)
		at := slices.IndexFunc(like[h], func(i int) bool { return sameButName(item, out[i]) })
		if at < 0 {
			like[h] = append(like[h], len(out))
			item.Listed = joining
			out = append(out, item)
			continue
		}
		first := &out[like[h][at]]
		first.Listed = append(first.Listed, joining...)
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

// FirstAlike tells for each of n items which of them is the first that is alike but for its
// name. Members of an interlock are not alike: each may be a member of its own.
func FirstAlike(n int, item func(i int) *Item) []int {
	out := make([]int, n)
	like := map[uint64][]int{}
	seed := maphash.MakeSeed()
	for i := range out {
		out[i] = i
		x := *item(i)
		if x.Interlock != "" {
			continue
		}
		x.Name, x.Listed = "", nil
		h := hashOf(seed, x)
		if at := slices.IndexFunc(like[h], func(k int) bool { return sameButName(x, *item(k)) }); at >= 0 {
			out[i] = like[h][at]
			continue
		}
		like[h] = append(like[h], i)
	}
	return out
}

func sameButName(a, b Item) bool {
	a.Name, b.Name, a.Listed, b.Listed = "", "", nil, nil
	return reflect.DeepEqual(a, b)
}

// hashOf is equal for equal items.
func hashOf(seed maphash.Seed, i Item) uint64 {
	var h maphash.Hash
	h.SetSeed(seed)
	hash(&h, reflect.ValueOf(i))
	return h.Sum64()
}

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
