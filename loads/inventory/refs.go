package inventory

import (
	"fmt"
	"sort"
	"strings"

	"branchwork/loads/units"
)

// names returns what a table holds, in file order, and what a table holds whose
// name is that of this one misspelt.
func (r *reader) names(tables ...string) []string {
	var out []string
	for _, t := range tables {
		for _, n := range append([]*node{r.tree.root.kid(t)}, r.meant[meaning{r.tree.root, t}]...) {
			if n != nil {
				for _, k := range n.kids {
					out = append(out, k.name)
				}
			}
		}
	}
	return out
}

// references looks up every name that a table refers to.
func (r *reader) references() {
	sets := map[string]map[string]bool{}
	for _, x := range r.refs {
		key := strings.Join(x.tables, " ")
		if sets[key] == nil {
			sets[key] = map[string]bool{}
			for _, n := range r.names(x.tables...) {
				sets[key][n] = true
			}
		}
		if sets[key][x.name] {
			continue
		}
		here, noun := x.tables[0]+" here", strings.TrimPrefix(strings.TrimPrefix(x.noun, "an "), "a ")
		if len(x.tables) > 1 {
			here = "items here"
		}
		names := r.names(x.tables...)
		remedy := r.remedy(x.name, names, here)
		if len(names) == 0 {
			remedy = fmt.Sprintf("the file has no %s; add one: [%s.%s]", noun, x.tables[0], tomlName(x.name))
		}
		r.report(x.at, x.path, fmt.Sprintf("no %s %s in this file", noun, quote(x.name)), remedy)
	}
}

// tomlName writes a name as a header needs it.
func tomlName(name string) string {
	if name == "" || strings.ContainsFunc(name, func(c rune) bool { return notBare(c) || c == '.' || c == ' ' }) {
		return quote(name)
	}
	return name
}

// uniqueItems demands that an item's name is that of one item: circuits feed
// items by name alone.
func (r *reader) uniqueItems() {
	var all []*node
	for _, t := range itemTables() {
		if n := r.tree.root.kid(t); n != nil && !n.list {
			all = append(all, n.kids...)
		}
	}
	sort.Slice(all, func(i, j int) bool { return all[i].key.start < all[j].key.start })
	first := map[string]*node{}
	for _, n := range all {
		f, ok := first[n.name]
		if !ok {
			first[n.name] = n
			continue
		}
		r.report(n.key, n.path(), fmt.Sprintf("%s names two items", quote(n.name)),
			fmt.Sprintf("first named as %s, line %d; circuits feed items by name, so rename one", printable(f.path()), r.lines.place(f.key).Line), f.key)
	}
}

// feeders reports panels that feed each other in a circle, each circle once.
func (r *reader) feeders() {
	fedBy := map[string]string{}
	for _, p := range r.inv.Panels {
		fedBy[p.Name] = p.FedBy
	}
	seen := map[string]int{} // the walk that first came by
	for i, p := range r.inv.Panels {
		at := p.Name
		for at != "" && seen[at] == 0 {
			seen[at] = i + 1
			at = fedBy[at]
		}
		if at == "" || seen[at] != i+1 {
			continue
		}
		ring := []string{at}
		for next := fedBy[at]; next != at; next = fedBy[next] {
			ring = append(ring, next)
		}
		r.ring(ring)
	}
}

func (r *reader) ring(ring []string) {
	var at []*node
	for _, name := range ring {
		at = append(at, r.tree.root.down("panels", name, "fed_by"))
	}
	sort.Slice(at, func(i, j int) bool { return at[i].key.start < at[j].key.start })
	var also []span
	for _, n := range at[1:] {
		also = append(also, n.value)
	}
	says := fmt.Sprintf("panels feed each other in a circle: %s", listed(append(ring, ring[0])))
	if len(ring) == 1 {
		says = fmt.Sprintf("panel %s feeds itself", quote(ring[0]))
	}
	remedy := "leave fed_by out at the panel that the service feeds"
	if len(also) > 0 {
		remedy += "\nthe circle goes on at line " + r.linesOf(also)
	}
	r.report(at[0].value, at[0].path(), says, remedy, also...)
}

// linesOf lists the lines of some spans.
func (r *reader) linesOf(spans []span) string {
	var out []string
	for _, s := range spans {
		out = append(out, itoa(r.lines.place(s).Line))
	}
	return listed(out)
}

// fedUnits demands that the circuits feed no more of an item than there are.
func (r *reader) fedUnits() {
	count := map[string]int{}
	for _, i := range r.inv.Items {
		if _, ok := count[i.Name]; !ok {
			count[i.Name] = i.Count
		}
	}
	type feed struct {
		at *node
		n  int
	}
	var all []feed
	for _, c := range r.inv.Circuits {
		at := r.tree.root.down("circuits", c.Name, "feeds")
		for _, f := range c.Feeds {
			all = append(all, feed{at.kid(f.Item), f.Count})
		}
	}
	sort.Slice(all, func(i, j int) bool { return all[i].at.key.start < all[j].at.key.start })
	sum, fed := map[string]int{}, map[string][]span{}
	for _, f := range all {
		name := f.at.name
		before := sum[name]
		sum[name] += f.n
		if have := count[name]; have > 0 && before <= have && sum[name] > have {
			remedy := fmt.Sprintf("feed at most %s here, or raise its count", units.Round(float64(have-before), 0))
			if before == have {
				remedy = "all of them are fed already; raise its count, or leave it out here"
			}
			if len(fed[name]) > 0 {
				remedy += fmt.Sprintf("\nfirst fed on line %d", r.lines.place(fed[name][0]).Line)
			}
			r.report(f.at.value, f.at.path(), fmt.Sprintf("circuits feed %s of %s, and there are %s",
				units.Round(float64(sum[name]), 0), quote(name), units.Round(float64(have), 0)), remedy, fed[name]...)
		}
		fed[name] = append(fed[name], f.at.key)
	}
}
