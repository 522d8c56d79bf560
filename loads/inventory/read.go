package inventory

import (
	"fmt"
	"slices"
	"strings"
	"unicode"
)

// Read reads an inventory: the typed values, or every problem the file has, in
// order of place. With any problem the inventory is nil, so that a file with a
// mistake cannot be planned by accident. Names that a code of practice decides
// are checked against words; an empty list of words is not checked.
//
// file is the name that problems are printed with; Read opens nothing.
func Read(file string, src []byte, words Vocabulary) (*Inventory, []Problem) {
	return ReadFor(file, src, func(string) Vocabulary { return words })
}

// ReadFor is Read with the words of the code that the file names, which is empty
// where it names none. words is not asked where the file is not TOML.
func ReadFor(file string, src []byte, words func(code string) Vocabulary) (*Inventory, []Problem) {
	if s, ok := shorten(src); ok && len(s.left) >= fewest {
		if inv := readShort(file, s, words); inv != nil {
			return inv, nil
		}
	}
	return read(file, src, words, nil)
}

// readShort reads what is left of a file; nil where the whole has to be read.
func readShort(file string, s *short, words func(code string) Vocabulary) *Inventory {
	inv, problems := read(file, s.text, words, s)
	if len(problems) > 0 {
		return nil
	}
	return inv
}

// read reads a text: the whole file, or what is left of it. Of the latter the inventory
// is nil too where it does not tell what the file means.
func read(file string, src []byte, words func(code string) Vocabulary, part *short) (*Inventory, []Problem) {
	values, tree, problems := parse(src)
	if len(problems) > 0 {
		return nil, problems
	}
	site, _ := values["site"].(map[string]any)
	code, _ := site["code"].(string)
	r := &reader{src: src, tree: tree, words: words(code), lines: newLineIndex(src), meant: map[meaning][]*node{}, inv: &Inventory{File: file}}
	r.tables(values)
	r.check()
	if len(r.problems) > 0 {
		return nil, inOrder(r.problems)
	}
	if part != nil {
		if !part.restore(r.inv, tree.root) {
			return nil, nil
		}
		r.lines = newLineIndex(part.src)
	}
	r.inv.sort()
	r.inv.gather()
	r.inv.places = newPlaceIndex(r.inv, r.lines, tree.root, part)
	return r.inv, nil
}

// reader walks the file and gathers values and problems.
type reader struct {
	src      []byte
	tree     *tree
	lines    *lineIndex
	words    Vocabulary
	inv      *Inventory
	refs     []ref // names to look up once all tables are read
	meant    map[meaning][]*node
	problems []Problem
	example  string // a right value of the key that is read
}

// meaning is a key of a table that a misspelt key was taken for, so that it is
// not reported as missing too.
type meaning struct {
	table *node
	key   string
}

// has reports whether a table has a key, if only misspelt.
func (r *reader) has(n *node, key string) bool {
	return n.kid(key) != nil || len(r.meant[meaning{n, key}]) > 0
}

// mean notes what a misspelt key was meant to be, and returns the remedy.
func (r *reader) mean(n *node, names []string, here string) string {
	best, remedy := r.suggest(n.name, names, here)
	if best != "" {
		r.meant[meaning{n.parent, best}] = append(r.meant[meaning{n.parent, best}], n)
	}
	return remedy
}

// cell is a value of the file with where it stands.
type cell struct {
	*node
	v any
}

// report notes a problem with a stretch of the file.
func (r *reader) report(s span, path, says, remedy string, also ...span) {
	p := Problem{At: r.lines.place(s), Path: path, Says: says, Remedy: remedy}
	for _, a := range also {
		p.Also = append(p.Also, r.lines.place(a))
	}
	r.problems = append(r.problems, p)
}

// bad notes a problem with a value.
func (r *reader) bad(c cell, says, remedy string) { r.report(c.value, c.path(), says, remedy) }

// tables walks the file's tables in file order.
func (r *reader) tables(values map[string]any) {
	schema := Schema()
	items := 0
	for _, table := range []string{Fixtures, Fans, Controllers, Equipment} {
		if n := r.tree.root.kid(table); n != nil {
			items += len(n.kids)
		}
	}
	r.inv.Items = slices.Grow(r.inv.Items, items)
	for _, n := range r.tree.root.kids {
		t, ok := tableNamed(schema, n.name)
		if !ok {
			r.unknownTable(schema, cell{n, values[n.name]})
			continue
		}
		c := cell{n, values[n.name]}
		m, ok := c.v.(map[string]any)
		switch {
		case !ok:
			r.notATable(c, t)
		case !t.Named:
			r.keys(c.node, m, t.Keys, t.into(r.inv, n.name, ""))
		default:
			for _, k := range n.kids {
				r.named(t, cell{k, m[k.name]})
			}
		}
	}
	for _, t := range schema {
		if t.Required && !r.has(r.tree.root, t.Name) {
			r.report(span{}, t.Name, fmt.Sprintf("no [%s] table", t.Name), "add one: "+t.example())
		}
	}
}

// named reads one entry of a table of named things.
func (r *reader) named(t Table, c cell) {
	m, ok := c.v.(map[string]any)
	if !ok {
		r.nameless(t, c)
		return
	}
	if says := badName(c.name); says != "" {
		r.report(c.key, c.path(), says, fmt.Sprintf("name it in letters, digits and dashes: [%s.%s]", t.Name, t.Sample))
	}
	r.keys(c.node, m, t.Keys, t.into(r.inv, t.Name, c.name))
}

func badName(name string) string {
	if strings.TrimSpace(name) == "" {
		return "an empty name"
	}
	for _, c := range name {
		if unicode.IsControl(c) {
			return fmt.Sprintf("control character in the name %q", name)
		}
	}
	return ""
}

// keys reads the keys of one table in file order, then says what is missing.
func (r *reader) keys(n *node, m map[string]any, keys []Key, dst any) {
	for _, kid := range n.kids {
		if k, ok := keyNamed(keys, kid.name); ok {
			outer := r.example
			r.example = k.Example
			k.read(r, cell{kid, m[kid.name]}, dst)
			r.example = outer
		} else {
			r.unknownKey(keys, kid)
		}
	}
	for _, k := range keys {
		if k.Required && !r.has(n, k.Name) {
			r.report(n.key, n.path(), fmt.Sprintf("%s has no %q", n.path(), k.Name),
				fmt.Sprintf("add it, for example %s = %s", k.Name, k.Example))
		}
	}
}

func (r *reader) unknownTable(schema []Table, n cell) {
	names := make([]string, len(schema))
	for i, t := range schema {
		names[i] = t.Name
	}
	if _, ok := n.v.(map[string]any); !ok && !n.list {
		r.report(n.key, n.path(), fmt.Sprintf("key %q stands outside every table", n.name),
			"keys belong below a table's name\ntables: "+strings.Join(names, ", "))
		return
	}
	r.report(n.key, n.path(), fmt.Sprintf("unknown table %q", n.name), r.mean(n.node, names, "tables"))
}

func (r *reader) unknownKey(keys []Key, n *node) {
	names := make([]string, len(keys))
	for i, k := range keys {
		if k.aka(n.name) {
			r.meant[meaning{n.parent, k.Name}] = append(r.meant[meaning{n.parent, k.Name}], n)
			r.report(n.key, n.path(), fmt.Sprintf("unknown key %q", n.name), fmt.Sprintf("did you mean %q?", k.Name))
			return
		}
		names[i] = k.Name
	}
	r.report(n.key, n.path(), fmt.Sprintf("unknown key %q", n.name), r.mean(n, names, "keys here"))
}

func (r *reader) notATable(c cell, t Table) {
	head := "[" + t.Name + "]"
	if t.Named {
		head = fmt.Sprintf("[%s.%s]", t.Name, t.Sample)
	}
	if c.list {
		r.report(c.key, c.path(), fmt.Sprintf("[[%s]] is a list", t.Name), "each has a name of its own: "+head)
		return
	}
	r.report(c.key, c.path(), fmt.Sprintf("%s is a table, not a value", t.Name), "write "+head+" on a line of its own")
}

func (r *reader) nameless(t Table, c cell) {
	if k, ok := keyNamed(t.Keys, c.name); ok {
		r.report(c.key, c.path(), fmt.Sprintf("%q stands in [%s] without a name", k.Name, t.Name),
			fmt.Sprintf("name the table: [%s.%s]", t.Name, t.Sample))
		return
	}
	r.report(c.key, c.path(), fmt.Sprintf("%s is a table, not a value", c.path()), fmt.Sprintf("write [%s.%s] on a line of its own", t.Name, c.name))
}
