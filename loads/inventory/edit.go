package inventory

import (
	"bytes"
	"fmt"
	"slices"
	"sort"
	"strconv"
	"strings"
)

// Edit sets one key of a file. Path is the key path by parts, so that a name may
// hold dots; Value is TOML text. An empty Value takes the key out, of a table all
// that is in it.
type Edit struct {
	Path  []string
	Value string
}

// Rewrite returns the file with keys set: the text of a value that is there is
// replaced, a key that is not is added to its table, a table that is not is
// added at the end, and a key or table that is taken out leaves with its lines.
// Everything else, comments and order included, stays as it is to the byte. An
// error means that the file is not TOML or that a path runs through something that
// is not a table.
func Rewrite(src []byte, edits []Edit) ([]byte, error) {
	for len(edits) > 0 {
		t, err := growTree(src)
		if err != nil {
			return nil, err
		}
		if n := t.newTables(edits); n > 0 {
			if src, err = t.withTables(edits[:n]); err != nil {
				return nil, err
			}
			edits = edits[n:]
			continue
		}
		if src, err = t.rewritten(edits[0]); err != nil {
			return nil, err
		}
		edits = edits[1:]
	}
	return src, nil
}

// rewritten is the file with one key set.
func (t *tree) rewritten(e Edit) ([]byte, error) {
	if e.Value == "" {
		return t.without(e.Path)
	}
	at, text, err := t.splice(e)
	if err != nil {
		return nil, err
	}
	out := make([]byte, 0, len(t.src)+len(text))
	out = append(out, t.src[:at.start]...)
	out = append(out, text...)
	return append(out, t.src[at.end:]...), nil
}

// newTables is how many edits, from the first, fill tables that the file does not have,
// one table after the other. They can be written without looking through the file anew
// for each key.
func (t *tree) newTables(edits []Edit) int {
	done := map[string]bool{}
	last := ""
	for i, e := range edits {
		if len(e.Path) < 3 || e.Value == "" {
			return i
		}
		above := t.root.kid(e.Path[0])
		if above != nil && (above.header || above.list || above.opened || above.kid(e.Path[1]) != nil) {
			return i
		}
		table := bareKey(e.Path[0]) + "." + bareKey(e.Path[1])
		if table != last && done[table] {
			return i
		}
		done[table], last = true, table
	}
	return len(edits)
}

// withTables is the file with new tables at its end, each made as a file of its own.
func (t *tree) withTables(edits []Edit) ([]byte, error) {
	out, line := slices.Clone(t.src), t.lineEnd()
	if len(out) > 0 && out[len(out)-1] != '\n' {
		out = append(out, line...)
	}
	for len(edits) > 0 {
		n := 1
		for n < len(edits) && slices.Equal(edits[n].Path[:2], edits[0].Path[:2]) {
			n++
		}
		table := []byte(line)
		for _, e := range edits[:n] {
			own, err := growTree(table)
			if err != nil {
				return nil, err
			}
			if table, err = own.rewritten(e); err != nil {
				return nil, err
			}
		}
		out = append(out, table[len(line):]...)
		edits = edits[n:]
	}
	return out, nil
}

// splice finds the stretch of the file that an edit replaces and its new text.
func (t *tree) splice(e Edit) (span, string, error) {
	if n := t.root.down(e.Path...); n != nil {
		if n.header {
			return span{}, "", fmt.Errorf("%s is a table, not a value", n.path())
		}
		return n.value, e.Value, nil
	}
	// The deepest part of the path that is there decides how the rest is added.
	n, rest := t.root, e.Path
	for len(rest) > 0 && n.kid(rest[0]) != nil {
		n, rest = n.kid(rest[0]), rest[1:]
	}
	value := e.Value
	for i := len(rest) - 1; i > 0 && (n.parent != nil && (n.header || t.inline(n))); i-- {
		value = "{ " + bareKey(rest[i]) + " = " + value + " }"
	}
	switch {
	case n.parent != nil && t.inline(n):
		return t.intoInline(n, bareKey(rest[0])+" = "+value)
	case n.parent != nil && n.header:
		return t.intoTable(n, bareKey(rest[0])+" = "+value)
	case len(e.Path) >= 3 && (n == t.root || n.parent == t.root):
		return t.newTable(e.Path, value)
	}
	return span{}, "", fmt.Errorf("%s: its table is written in a way that cannot be added to", strings.Join(e.Path, "."))
}

func (t *tree) inline(n *node) bool {
	return !n.header && n.value.start < len(t.src) && t.src[n.value.start] == '{'
}

// intoInline adds a key before the closing brace of an inline table.
func (t *tree) intoInline(n *node, entry string) (span, string, error) {
	closing := n.value.end - 1
	at := closing
	for at > n.value.start+1 && (t.src[at-1] == ' ' || t.src[at-1] == '\t') {
		at--
	}
	if len(n.kids) == 0 {
		return span{n.value.start, n.value.end}, "{ " + entry + " }", nil
	}
	return span{at, closing}, ", " + entry + " ", nil
}

// intoTable adds a line after the last key of a table that has a header.
func (t *tree) intoTable(n *node, entry string) (span, string, error) {
	end := n.value.end
	for _, k := range n.kids {
		if !k.header {
			end = max(end, t.endOf(k))
		}
	}
	for end < len(t.src) && t.src[end] != '\n' {
		end++
	}
	if end < len(t.src) && t.src[end-1] == '\r' {
		end--
	}
	return span{end, end}, t.lineEnd() + entry, nil
}

// lineEnd is how the file ends its lines: as it ends its first.
func (t *tree) lineEnd() string {
	if i := bytes.IndexByte(t.src, '\n'); i > 0 && t.src[i-1] == '\r' {
		return "\r\n"
	}
	return "\n"
}

// endOf returns where the last value of a key ends, dotted keys included.
func (t *tree) endOf(n *node) int {
	end := n.value.end
	for _, k := range n.kids {
		if !k.header {
			end = max(end, t.endOf(k))
		}
	}
	return end
}

// newTable adds a table of the file's two levels at its end.
func (t *tree) newTable(path []string, value string) (span, string, error) {
	end, line := len(t.src), t.lineEnd()
	gap := line
	if end > 0 && t.src[end-1] != '\n' {
		gap = line + line
	}
	rest := path[2:]
	for i := len(rest) - 1; i > 0; i-- {
		value = "{ " + bareKey(rest[i]) + " = " + value + " }"
	}
	return span{end, end}, fmt.Sprintf("%s[%s.%s]%s%s = %s%s", gap, bareKey(path[0]), bareKey(path[1]), line, bareKey(rest[0]), value, line), nil
}

// bareKey writes a key, in quotes where it needs them.
func bareKey(s string) string {
	if s == "" || strings.ContainsFunc(s, func(r rune) bool { return !bare(r) }) {
		return Quote(s)
	}
	return s
}

// bare reports a character that a key may have without quotes.
func bare(r rune) bool {
	return r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z' || r >= '0' && r <= '9' || r == '-' || r == '_'
}

// Quote writes a TOML basic string.
func Quote(s string) string {
	var b strings.Builder
	b.WriteByte('"')
	for _, r := range s {
		switch {
		case r == '"' || r == '\\':
			b.WriteByte('\\')
			b.WriteRune(r)
		case r < 0x20 || r == 0x7f:
			fmt.Fprintf(&b, `\u%04X`, r)
		default:
			b.WriteRune(r)
		}
	}
	b.WriteByte('"')
	return b.String()
}

// FeedsEdits returns the edits that make a circuit feed so many of each item,
// in order of name.
func FeedsEdits(circuit string, feeds map[string]int) []Edit {
	names := make([]string, 0, len(feeds))
	for n := range feeds {
		names = append(names, n)
	}
	sort.Strings(names)
	var out []Edit
	for _, n := range names {
		out = append(out, Edit{[]string{"circuits", circuit, "feeds", n}, strconv.Itoa(feeds[n])})
	}
	return out
}
