package inventory

import (
	"errors"
	"slices"
	"strings"

	"github.com/pelletier/go-toml/v2/unstable"
)

// Limits of what is read at all, so that a hostile file costs little.
const (
	maxBytes = 64 << 20  // of the file
	maxDepth = 32        // tables in tables, and parts of a dotted key
	maxNodes = 1_000_000 // keys and list elements
	maxName  = 200       // bytes of a key
)

// span is a stretch of the file in bytes.
type span struct{ start, end int }

// node is a key of the file, or an element of a list, with where it stands.
// Children are in file order.
type node struct {
	name    string
	parent  *node
	element bool // of a list; the name is its number
	key     span // the key as written; of an element, the element
	value   span // the value; of a table under a header, the key again
	list    bool // opened by [[...]]; children are elements
	opened  bool // has a header, or a value of its own
	header  bool // has a header
	kids    []*node
	byName  map[string]*node // of children, where they are many
}

// manyKids is how many children are looked up by name rather than one by one.
const manyKids = 16

func (n *node) kid(name string) *node {
	switch {
	case n == nil:
		return nil
	case n.byName != nil:
		return n.byName[name]
	}
	for _, k := range n.kids {
		if k.name == name {
			return k
		}
	}
	return nil
}

// adopt adds a child.
func (n *node) adopt(k *node) {
	n.kids = append(n.kids, k)
	switch {
	case n.byName != nil:
		n.byName[k.name] = k
	case len(n.kids) > manyKids:
		n.byName = make(map[string]*node, 2*manyKids)
		for _, k := range n.kids {
			n.byName[k.name] = k
		}
	}
}

// find returns the node whose path is that of n and rest, of several the first in
// the file: names may hold dots and brackets too.
func (n *node) find(rest string) *node {
	switch {
	case rest == "":
		return n
	case rest[0] == '[':
		if name, after, ok := strings.Cut(rest[1:], "]"); ok {
			if k := n.kid(name); k != nil && k.element {
				return k.find(after)
			}
		}
		return nil
	}
	var found *node
	first := len(n.kids)
	for i := 1; i <= len(rest); i++ {
		if i < len(rest) && rest[i] != '.' && rest[i] != '[' {
			continue
		}
		k := n.kid(rest[1:i])
		if k == nil || k.element {
			continue
		}
		if f := k.find(rest[i:]); f != nil {
			if at := slices.Index(n.kids[:first], k); at >= 0 {
				found, first = f, at
			}
		}
	}
	return found
}

// down returns the node at the end of a path of names, nil where it is absent.
func (n *node) down(names ...string) *node {
	for _, name := range names {
		n = n.kid(name)
	}
	return n
}

// path returns the key path as problems print it: circuits.LP1-7.spaces[0].
func (n *node) path() string {
	if n == nil || n.parent == nil {
		return ""
	}
	above := n.parent.path()
	switch {
	case n.element:
		return above + "[" + n.name + "]"
	case above == "":
		return n.name
	}
	return above + "." + n.name
}

// twice is a key that the file has two times.
type twice struct{ first, again *node }

// tree is the keys of a file and where they stand.
type tree struct {
	root   *node
	twice  []twice
	nodes  int
	parser unstable.Parser
	src    []byte
}

// Files that no inventory needs.
var (
	errDeep = errors.New("tables and lists are nested more than 32 deep")
	errMany = errors.New("more than 1,000,000 keys and list elements")
	errLong = errors.New("a name of more than 200 bytes")
)

// growTree indexes a file. Where the file is not TOML the error says where as
// a *lexError, and the tree holds what came before.
func growTree(src []byte) (*tree, error) {
	t := &tree{root: &node{}, src: src}
	t.parser.Reset(src)
	at := t.root
	for t.parser.NextExpression() {
		var err error
		switch e := t.parser.Expression(); e.Kind {
		case unstable.Table:
			at, err = t.header(e, false)
		case unstable.ArrayTable:
			at, err = t.header(e, true)
		case unstable.KeyValue:
			err = t.keyValue(at, e, 0)
		}
		if err != nil {
			return t, err
		}
	}
	return t, t.lexError(t.parser.Error())
}

// lexError is a place where the file stops being TOML.
type lexError struct {
	at    span
	says  string
	final bool // a limit of ours, not a matter of syntax
}

func (e *lexError) Error() string { return e.says }

func (t *tree) lexError(err error) error {
	var pe *unstable.ParserError
	if !errors.As(err, &pe) {
		return err
	}
	start := max(0, cap(t.src)-cap(pe.Highlight))
	return &lexError{span{start, min(start+len(pe.Highlight), len(t.src))}, pe.Message, strings.Contains(pe.Message, "nested more than")}
}

func spanOf(r unstable.Range) span {
	return span{int(r.Offset), int(r.Offset) + int(r.Length)}
}

// grow adds a child, or returns the one there is.
func (t *tree) grow(at *node, name string, key span) (n *node, isNew bool, err error) {
	if k := at.kid(name); k != nil {
		return k, false, nil
	}
	if t.nodes++; t.nodes > maxNodes {
		return nil, false, t.at(key, errMany)
	}
	if len(name) > maxName {
		return nil, false, t.at(key, errLong)
	}
	n = &node{name: name, parent: at, key: key, value: key}
	at.adopt(n)
	return n, true, nil
}

// at marks a limit with its place.
func (t *tree) at(s span, err error) error { return &lexError{s, err.Error(), true} }

// header enters [a.b] or [[a.b]] and returns where its keys belong.
func (t *tree) header(e *unstable.Node, list bool) (*node, error) {
	n, depth := t.root, 0
	for it := e.Key(); it.Next(); depth++ {
		raw := spanOf(it.Node().Raw)
		if depth >= maxDepth {
			return nil, t.at(raw, errDeep)
		}
		if n.list && len(n.kids) > 0 { // [a.b] below [[a]] belongs to the last a
			n = n.kids[len(n.kids)-1]
		}
		last := it.IsLast()
		kid, isNew, err := t.grow(n, string(it.Node().Data), raw)
		if err != nil {
			return nil, err
		}
		n = kid
		if !last || list {
			continue
		}
		if !isNew && n.opened {
			again := &node{name: n.name, parent: n.parent, key: raw}
			t.twice = append(t.twice, twice{n, again})
			n = again // its keys are its own; the file is refused anyway
		} else if !isNew {
			n.key, n.value = raw, raw // its own header is its place, not that of a table inside it
		}
		n.opened, n.header = true, true
	}
	if !list {
		return n, nil
	}
	n.list = true
	return t.element(n, n.value)
}

// element adds the next element of a list.
func (t *tree) element(list *node, s span) (*node, error) {
	n, _, err := t.grow(list, itoa(len(list.kids)), s)
	if err == nil {
		n.element, n.opened = true, true
	}
	return n, err
}

// keyValue adds a.b = value below a node.
func (t *tree) keyValue(at *node, e *unstable.Node, depth int) error {
	n := at
	var raw span
	isNew, opened := true, false
	for it := e.Key(); it.Next(); depth++ {
		raw = spanOf(it.Node().Raw)
		if depth >= maxDepth {
			return t.at(raw, errDeep)
		}
		var err error
		if n, isNew, err = t.grow(n, string(it.Node().Data), raw); err != nil {
			return err
		}
		opened = n.opened
	}
	if !isNew || opened {
		t.twice = append(t.twice, twice{n, &node{name: n.name, parent: n.parent, key: raw}})
		return nil
	}
	n.opened = true
	whole := spanOf(e.Raw)
	n.value = span{t.pastEquals(raw.end), whole.end}
	return t.inside(n, e.Value(), depth)
}

// inside adds what a list or an inline table holds. The lexer gives no end of
// either, so it is found by stepping over what may stand between two elements.
func (t *tree) inside(n *node, v *unstable.Node, depth int) error {
	if v.Kind != unstable.Array && v.Kind != unstable.InlineTable {
		return nil
	}
	if depth >= maxDepth {
		return t.at(n.value, errDeep)
	}
	at := n.value.start + 1
	for it := v.Children(); it.Next(); {
		c := it.Node()
		if v.Kind == unstable.InlineTable {
			if err := t.keyValue(n, c, depth); err != nil {
				return err
			}
			at = int(c.Raw.Offset + c.Raw.Length)
			continue
		}
		at = t.pastFiller(at)
		s := span{at, at}
		if c.Kind != unstable.Array && c.Kind != unstable.InlineTable {
			s = spanOf(c.Raw)
		}
		e, err := t.element(n, s)
		if err != nil {
			return err
		}
		e.value = s
		if err := t.inside(e, c, depth+1); err != nil {
			return err
		}
		e.key = e.value
		at = e.value.end
	}
	n.value.end = min(t.pastFiller(at)+1, len(t.src))
	return nil
}

// pastEquals returns where the value after a key begins.
func (t *tree) pastEquals(i int) int {
	for i < len(t.src) && (t.src[i] == ' ' || t.src[i] == '\t' || t.src[i] == '=') {
		i++
	}
	return i
}

// pastFiller steps over white space, commas, newlines and comments.
func (t *tree) pastFiller(i int) int {
	for i < len(t.src) {
		switch t.src[i] {
		case ' ', '\t', '\r', '\n', ',':
			i++
		case '#':
			for i < len(t.src) && t.src[i] != '\n' {
				i++
			}
		default:
			return i
		}
	}
	return i
}
