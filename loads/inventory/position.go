package inventory

import (
	"bytes"
	"sort"
	"strconv"
	"strings"
	"unicode/utf8"
)

// Place is a span of the file, in bytes, with the line and column of its start.
// Line and column count from 1; the column counts characters, not bytes.
type Place struct {
	Line, Column int
	Start, End   int
}

// lineIndex turns byte offsets into lines and columns. Characters are counted
// once for every stride, so that a very long line costs no more than many
// short ones.
type lineIndex struct {
	src   []byte
	lines []int32 // where each line begins; no file is as long as that
	runes []int   // characters before each stride
}

const stride = 1024 // bytes between two counts

func newLineIndex(src []byte) *lineIndex {
	x := &lineIndex{src: src, lines: make([]int32, 1, bytes.Count(src, []byte{'\n'})+1)}
	count := 0
	for at := 0; at < len(src); at += stride {
		x.runes = append(x.runes, count)
		count += starts(src[at:min(at+stride, len(src))])
	}
	for at := 0; ; {
		i := bytes.IndexByte(src[at:], '\n')
		if i < 0 {
			return x
		}
		at += i + 1
		x.lines = append(x.lines, int32(at))
	}
}

// starts counts the bytes at which a character begins.
func starts(b []byte) int {
	n := 0
	for _, c := range b {
		if utf8.RuneStart(c) {
			n++
		}
	}
	return n
}

func (x *lineIndex) before(offset int) int {
	if len(x.runes) == 0 {
		return 0
	}
	k := min(offset/stride, len(x.runes)-1)
	return x.runes[k] + starts(x.src[k*stride:offset])
}

// place returns the place of a span; a span outside the file is drawn into it.
func (x *lineIndex) place(s span) Place {
	start := max(0, min(s.start, len(x.src)))
	end := max(start, min(s.end, len(x.src)))
	line := sort.Search(len(x.lines), func(i int) bool { return int(x.lines[i]) > start })
	return Place{
		Line:   line,
		Column: x.before(start) - x.before(int(x.lines[line-1])) + 1,
		Start:  start,
		End:    end,
	}
}

// placeIndex answers where a key path stands. Paths are joined by dots without
// quotes, as findings name them.
type placeIndex struct {
	lines *lineIndex
	root  *node
	part  *short            // what root is of, where that is not the whole file
	first map[string]string // by the path of an item listed one by one: that of its first unit
}

func newPlaceIndex(inv *Inventory, lines *lineIndex, root *node, part *short) *placeIndex {
	x := &placeIndex{lines, root, part, map[string]string{}}
	for _, i := range inv.Items {
		if len(i.Listed) > 0 {
			x.first[i.Path()] = i.Table + "." + i.Listed[0]
		}
	}
	return x
}

// find returns the stretch of the file that a path leads to.
func (x *placeIndex) find(path string) (s span, ok bool) {
	if n := x.root.find("." + path); n != nil {
		if x.part != nil {
			return x.part.inFile(n.key), true
		}
		return n.key, true
	}
	if x.part == nil {
		return s, false
	}
	name, fixture := strings.CutPrefix(path, Fixtures+".")
	if i := strings.IndexAny(name, ".["); i >= 0 {
		name = name[:i]
	}
	b, left := x.part.named(name)
	if !fixture || !left {
		return s, false
	}
	// A table left out is looked through by itself.
	from := int(b.name) - len(opens)
	t, err := growTree(x.part.src[from:b.keysEnd])
	if n := t.root.find("." + path); n != nil && err == nil {
		return span{n.key.start + from, n.key.end + from}, true
	}
	return s, false
}

// Place returns where a key stands in the file: "circuits.LP1-7.breaker". Where
// the file does not have that key it is the nearest table above it, so that a
// missing conductor points at the header of its circuit; ok is false where
// nothing above it is in the file either. What is said of units listed one by one is
// at the first of them.
func (inv *Inventory) Place(path string) (place Place, ok bool) {
	if inv == nil || inv.places == nil {
		return Place{}, false
	}
	for at := path; ; {
		if s, ok := inv.places.find(at); ok {
			return inv.places.lines.place(s), true
		}
		if first, ok := inv.places.first[at]; ok {
			return inv.Place(first + path[len(at):])
		}
		i := strings.LastIndexAny(at, ".[")
		if i < 0 {
			return Place{}, false
		}
		at = at[:i]
	}
}

// Line returns the line of Place, 0 where there is none.
func (inv *Inventory) Line(path string) int {
	p, _ := inv.Place(path)
	return p.Line
}

func itoa(i int) string { return strconv.Itoa(i) }
