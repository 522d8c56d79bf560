package inventory

import (
	"bytes"
	"fmt"
	"slices"
	"strings"
)

// without returns the file without a key, or without a table and all that is in
// it. A key that is not there is an error, and so is one inside a list, which nothing
// of ours takes out.
func (t *tree) without(path []string) ([]byte, error) {
	n := t.root.down(path...)
	if n == nil {
		return nil, fmt.Errorf("%s is not there", strings.Join(path, "."))
	}
	for p := n; p != t.root; p = p.parent {
		if p.list || p.element {
			return nil, fmt.Errorf("%s is written in a way that cannot be taken out", n.path())
		}
	}
	var gone []span
	if t.inline(n.parent) {
		gone = append(gone, n.betweenBraces())
	} else {
		t.linesOf(n, &gone)
	}
	slices.SortFunc(gone, func(a, b span) int { return a.start - b.start })
	var out []byte
	at := 0
	for _, s := range gone {
		if s.start > at {
			out = append(out, t.src[at:s.start]...)
		}
		at = max(at, s.end)
	}
	return append(out, t.src[at:]...), nil
}

// betweenBraces is the stretch of a key of an inline table, with the comma that goes
// with it.
func (n *node) betweenBraces() span {
	all := n.parent.kids
	switch i := slices.Index(all, n); {
	case i > 0:
		return span{all[i-1].value.end, n.value.end}
	case len(all) > 1:
		return span{n.key.start, all[1].key.start}
	}
	return span{n.key.start, n.value.end}
}

// linesOf collects the lines of a key: its header, and those of each value in it.
func (t *tree) linesOf(n *node, gone *[]span) {
	if n.opened {
		*gone = append(*gone, t.line(n.key.start, max(n.key.end, n.value.end)))
	}
	if n.header || !n.opened { // no header and no value: other headers and dotted keys go through it
		for _, k := range n.kids {
			t.linesOf(k, gone)
		}
	}
}

// line widens a stretch of the file to whole lines.
func (t *tree) line(start, end int) span {
	start = bytes.LastIndexByte(t.src[:start], '\n') + 1
	if i := bytes.IndexByte(t.src[end:], '\n'); i >= 0 {
		return span{start, end + i + 1}
	}
	return span{start, len(t.src)}
}
