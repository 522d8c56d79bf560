package document

import (
	"cmp"
	"slices"
)

// Listed is fixtures that are alike and that the file lists one by one. Readers are
// shown them as one item.
type Listed struct {
	Item  string   `json:"item" jsonschema_description:"the first of them"`
	Items []string `json:"items" jsonschema_description:"all of them"`

	name, table string
	line        func(path string) int
}

func listedItems(r Results) []Listed {
	var out []Listed
	for _, l := range r.Set.Loads {
		if all := l.Item.Listed; len(all) > 0 {
			out = append(out, Listed{Item: all[0], Items: all, name: l.Name, table: l.Item.Table, line: r.Inventory.Line})
		}
	}
	return out
}

// Written is the plan as the contract writes it, in which every name and path is one
// of the file's: what is shown to readers of an item listed one by one stands under its
// first unit, and what no circuit feeds under the name of each.
func (d Plan) Written() any {
	if len(d.Listed) == 0 {
		return d
	}
	first := map[string]string{} // by name, and by path
	for _, l := range d.Listed {
		first[l.name], first[l.table+"."+l.name] = l.Item, l.table+"."+l.Item
	}
	item := func(name *string) { *name = cmp.Or(first[*name], *name) }
	d.Unfed = d.unfedOneByOne()
	d.Findings, d.Assumptions = slices.Clone(d.Findings), slices.Clone(d.Assumptions)
	for i := range d.Findings {
		d.Findings[i].Subject = underFirst(first, d.Findings[i].Subject)
	}
	for i := range d.Assumptions {
		d.Assumptions[i].Subject = underFirst(first, d.Assumptions[i].Subject)
	}
	d.VoltageChoices, d.Compare = slices.Clone(d.VoltageChoices), slices.Clone(d.Compare)
	for i := range d.VoltageChoices {
		item(&d.VoltageChoices[i].Item)
	}
	for i := range d.Compare {
		item(&d.Compare[i].Item)
	}
	d.Proofs = slices.Clone(d.Proofs)
	for i := range d.Proofs {
		d.Proofs[i].rename(item)
	}
	return d
}

// rename changes the items of a proof, of which the lists are made anew.
func (p *Proof) rename(item func(name *string)) {
	p.Choices = slices.Clone(p.Choices)
	for i := range p.Choices {
		c := &p.Choices[i]
		c.Parts = slices.Clone(c.Parts)
		for k := range c.Parts {
			x := &c.Parts[k]
			x.Items, x.Circuits = slices.Clone(x.Items), slices.Clone(x.Circuits)
			for n := range x.Items {
				item(&x.Items[n].Item)
			}
			for n := range x.Circuits {
				x.Circuits[n].Most = slices.Clone(x.Circuits[n].Most)
				for m := range x.Circuits[n].Most {
					item(&x.Circuits[n].Most[m].Item)
				}
			}
		}
	}
}

// underFirst is a path with the first unit in the place of all.
func underFirst(first map[string]string, path string) string {
	for i := 0; i <= len(path); i++ {
		if i == len(path) || path[i] == '.' || path[i] == '[' {
			if f, ok := first[path[:i]]; ok {
				return f + path[i:]
			}
		}
	}
	return path
}

// Written is the circuit as the contract writes it; by itself, since all of them may be
// many times what readers are shown.
func (c Circuit) Written() any {
	c.Loads = oneByOne(c.Loads)
	return c
}

// Written is the report with its plan as the contract writes it.
func (d Report) Written() any {
	d.Plan = d.Plan.Written().(Plan)
	d.Plan.Circuits = slices.Clone(d.Plan.Circuits)
	for i, c := range d.Plan.Circuits {
		d.Plan.Circuits[i] = c.Written().(Circuit)
	}
	return d
}

// Written is the change order with the loads under the names that the files have.
func (d Diff) Written() any {
	d.Changes = slices.Clone(d.Changes)
	for i := range d.Changes {
		c := &d.Changes[i]
		c.Before, c.After = c.Before.written(), c.After.written()
	}
	return d
}

func (l *Landed) written() *Landed {
	if l == nil {
		return nil
	}
	out := *l
	out.Loads = oneByOne(l.Loads)
	return &out
}

func oneByOne(list []Load) []Load {
	units := 0
	for _, l := range list {
		units += max(1, len(l.names))
	}
	if units == len(list) {
		return list
	}
	out := make([]Load, 0, units)
	for _, l := range list {
		if len(l.names) == 0 {
			out = append(out, l)
		}
		first, step := l.FirstUnit, max(1, l.UnitStep)
		for i, name := range l.names {
			l.Item, l.Count, l.FirstUnit, l.UnitStep = name, 1, first+i*step, 0
			out = append(out, l)
		}
	}
	return out
}

// unfedOneByOne names the units that no circuit feeds.
func (d Plan) unfedOneByOne() []Unfed {
	out := []Unfed{}
	if len(d.Unfed) == 0 {
		return out
	}
	fed := map[string]bool{}
	for _, c := range d.Circuits {
		for _, l := range c.Loads {
			for _, name := range l.names {
				fed[name] = true
			}
		}
	}
	listed := map[string]Listed{}
	for _, l := range d.Listed {
		listed[l.name] = l
	}
	for _, u := range d.Unfed {
		l, is := listed[u.Item]
		if !is {
			out = append(out, u)
		}
		for _, name := range l.Items {
			if !fed[name] && u.Count > 0 {
				fed[name] = true
				out = append(out, Unfed{Item: name, Count: 1, Reason: u.Reason, Needs: u.Needs, Line: l.line(l.table + "." + name)})
				u.Count--
			}
		}
	}
	return out
}
