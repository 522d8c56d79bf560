package document

import (
	"slices"
	"strings"
)

// listedItem is an item whose units the file lists one by one.
type listedItem struct {
	name, table string
	units       []string
	place       func(path string) int // the line that it stands on
}

func listedItems(r Results) []listedItem {
	var out []listedItem
	for _, l := range r.Set.Loads {
		if len(l.Item.Listed) > 0 {
			out = append(out, listedItem{l.Name, l.Item.Table, l.Item.Listed, r.Inventory.Line})
		}
	}
	return out
}

// Written is the plan as the contract writes it. What is shown to readers as units of
// one item stands under the names that the file has: a load of a circuit for each of
// them, and paths that lead to a key.
func (d Plan) Written() any {
	if len(d.listed) == 0 {
		return d
	}
	d.Unfed = d.unfedOneByOne()
	d.Findings = slices.Clone(d.Findings)
	for i := range d.Findings {
		f := &d.Findings[i]
		f.Subject, f.Subjects = d.paths(f.Subject)
	}
	d.Assumptions = slices.Clone(d.Assumptions)
	for i := range d.Assumptions {
		a := &d.Assumptions[i]
		a.Subject, a.Subjects = d.paths(a.Subject)
	}
	d.VoltageChoices = slices.Clone(d.VoltageChoices)
	for i := range d.VoltageChoices {
		c := &d.VoltageChoices[i]
		c.Item, c.Items = d.items(c.Item)
	}
	d.Compare = slices.Clone(d.Compare)
	for i := range d.Compare {
		c := &d.Compare[i]
		c.Item, c.Items = d.items(c.Item)
	}
	return d
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
	for _, u := range d.Unfed {
		at := slices.IndexFunc(d.listed, func(l listedItem) bool { return l.name == u.Item })
		if at < 0 {
			out = append(out, u)
			continue
		}
		l := d.listed[at]
		for _, name := range l.units {
			if !fed[name] && u.Count > 0 {
				fed[name] = true
				out = append(out, Unfed{Item: name, Count: 1, Reason: u.Reason, Needs: u.Needs, Line: l.place(l.table + "." + name)})
				u.Count--
			}
		}
	}
	return out
}

// paths returns the path of the first unit that a path is of, and those of all where
// there are several.
func (d Plan) paths(path string) (string, []string) {
	for _, l := range d.listed {
		rest, ok := strings.CutPrefix(path, l.table+"."+l.name)
		if !ok || rest != "" && rest[0] != '.' && rest[0] != '[' {
			continue
		}
		var all []string
		for _, name := range l.units {
			all = append(all, l.table+"."+name+rest)
		}
		return all[0], all
	}
	return path, nil
}

func (d Plan) items(name string) (string, []string) {
	for _, l := range d.listed {
		if l.name == name {
			return l.units[0], l.units
		}
	}
	return name, nil
}
