package inventory

import (
	"bytes"
	"slices"
	"sort"
)

// A list of assets says the same few tables under thousands of names. Such a file is
// read without what repeats: a table whose keys are, to the byte, those of a table
// before it is left out, whatever lines of comment stand among them, and its name kept.
// Where anything is wrong in what is left, or hints that a table means more than its own
// lines say, the whole file is read, so that what is accepted, what it means and every
// problem are those of the whole.

// short is a file without the tables that repeat others.
type short struct {
	src    []byte
	text   []byte
	joints []joint // ascending
	kept   []block // tables that others may repeat
	left   []block // tables left out, by name
}

// joint is where the text goes on, and where that is in the file.
type joint struct{ text, file int }

// block is a table of the file: its name, and the lines of its keys.
type block struct {
	name, end, keys, keysEnd int32
	like                     int32 // of one left out, where in kept the table is that says the same
}

// fewest is how many repetitions are worth it.
const fewest = 64

// shorten leaves out what repeats; ok is false where a text of several lines could hold
// what looks like a table.
func shorten(src []byte) (s *short, ok bool) {
	if len(src) > maxBytes || bytes.Contains(src, []byte(`"""`)) || bytes.Contains(src, []byte(`'''`)) {
		return nil, false
	}
	s = &short{src: src}
	first := map[string]int32{} // by keys: where in kept
	done := 0
	for at := 0; at < len(src); {
		end := at + toNextTable(src[at:])
		b, is := blockAt(src, at, end)
		at = end
		if !is {
			continue
		}
		keys, plain := withoutComments(src[b.keys:b.keysEnd])
		like, again := first[string(keys)]
		if !plain || !again {
			if plain {
				first[string(keys)] = int32(len(s.kept))
			}
			s.kept = append(s.kept, b)
			continue
		}
		b.like = like
		s.left = append(s.left, b)
		s.take(done, int(b.name)-len(opens))
		done = int(b.keysEnd)
	}
	s.take(done, len(src))
	s.left = slices.Clip(s.left)
	slices.SortFunc(s.left, func(a, b block) int { return bytes.Compare(s.called(a), s.called(b)) })
	return s, true
}

// called is the name of a table.
func (s *short) called(b block) []byte { return s.src[b.name:b.end] }

// named finds a table that was left out.
func (s *short) named(name string) (block, bool) {
	i, ok := slices.BinarySearchFunc(s.left, name, func(b block, name string) int { return bytes.Compare(s.called(b), []byte(name)) })
	if !ok {
		return block{}, false
	}
	return s.left[i], true
}

// take adds a stretch of the file to the text.
func (s *short) take(from, to int) {
	s.joints = append(s.joints, joint{len(s.text), from})
	s.text = append(s.text, s.src[from:to]...)
}

const opens = "[" + Fixtures + "."

// blockAt reads [fixtures.name] at the start of a line, with nothing else on it, and
// the lines of its keys; blank lines and comments behind the last of them are not its.
func blockAt(src []byte, at, end int) (b block, ok bool) {
	if !bytes.HasPrefix(src[at:end], []byte(opens)) {
		return b, false
	}
	name := at + len(opens)
	after := name
	for after < end && bare(rune(src[after])) {
		after++
	}
	n := bytes.IndexByte(src[after:end], '\n')
	if after == name || n < 0 || string(bytes.TrimRight(src[after:after+n], " \t\r")) != "]" {
		return b, false
	}
	keys := after + n + 1
	last := keys
	for line := keys; line < end; {
		next := end
		if i := bytes.IndexByte(src[line:end], '\n'); i >= 0 {
			next = line + i + 1
		}
		if text := bytes.TrimSpace(src[line:next]); len(text) > 0 && text[0] != '#' {
			last = next
		}
		line = next
	}
	return block{name: int32(name), end: int32(after), keys: int32(keys), keysEnd: int32(last)}, last > keys && src[last-1] == '\n'
}

// withoutComments leaves lines of comment out; plain is false where one holds what no
// comment may.
func withoutComments(keys []byte) (out []byte, plain bool) {
	if bytes.IndexByte(keys, '#') < 0 {
		return keys, true
	}
	for line := range bytes.Lines(keys) {
		text := bytes.TrimSpace(line)
		if len(text) == 0 || text[0] != '#' {
			out = append(out, line...)
			continue
		}
		for _, c := range text {
			if c < ' ' && c != '\t' || c == 0x7f {
				return nil, false
			}
		}
	}
	return out, true
}

// toNextTable is how far the next line is that begins as a table does.
func toNextTable(src []byte) int {
	for at := 0; ; {
		i := bytes.IndexByte(src[at:], '\n')
		if i < 0 {
			return len(src)
		}
		at += i + 1
		if line := bytes.TrimLeft(src[at:], " \t"); len(line) > 0 && line[0] == '[' {
			return at
		}
	}
}

// inFile is the stretch of the file that a stretch of the text is.
func (s *short) inFile(x span) span {
	i := sort.Search(len(s.joints), func(i int) bool { return s.joints[i].text > x.start }) - 1
	by := s.joints[i].file - s.joints[i].text
	return span{x.start + by, x.end + by}
}

// restore gives the items of the text the names that repeat them. It reports false
// where the text does not tell what the file means: where a name that was left out
// stands elsewhere too, or a table has keys outside its own lines.
func (s *short) restore(inv *Inventory, root *node) bool {
	repeats := make([][]string, len(s.kept))
	for i, b := range s.left {
		name := string(s.called(b))
		if i > 0 && bytes.Equal(s.called(s.left[i-1]), s.called(b)) {
			return false
		}
		for _, t := range itemTables() {
			if root.kid(t).kid(name) != nil {
				return false
			}
		}
		repeats[b.like] = append(repeats[b.like], name)
	}
	items := map[string]*Item{}
	units := 0
	for i := range inv.Items {
		items[inv.Items[i].Name] = &inv.Items[i]
		units += inv.Items[i].Count
	}
	for i, names := range repeats {
		if len(names) == 0 {
			continue
		}
		b := s.kept[i]
		item, n := items[string(s.called(b))], root.kid(Fixtures).kid(string(s.called(b)))
		if item == nil || item.Table != Fixtures || s.inFile(n.key) != (span{int(b.name), int(b.end)}) {
			return false
		}
		for _, k := range n.kids {
			if s.inFile(k.key).start < int(b.keys) || s.inFile(k.value).end > int(b.keysEnd) {
				return false
			}
		}
		item.Listed = append(names, item.Name)
		units += item.Count * len(names)
	}
	return units <= maxCount
}
