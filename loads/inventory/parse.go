package inventory

import (
	"bytes"
	"errors"
	"fmt"
	"strings"
	"unicode/utf8"

	"github.com/BurntSushi/toml"

	"branchwork/loads/units"
)

// parse reads the file as TOML: its values and where they stand. A file that is
// not TOML gives one problem and no more, because nothing after it can be
// trusted; keys written twice are all reported.
func parse(src []byte) (map[string]any, *tree, []Problem) {
	if len(src) > maxBytes {
		says := fmt.Sprintf("the file has %s bytes", units.Round(float64(len(src)), 0))
		return nil, nil, []Problem{{At: Place{Line: 1, Column: 1}, Says: says, Remedy: "at most 64 MiB are read"}}
	}
	one := func(s span, says, remedy string) []Problem {
		return []Problem{{At: newLineIndex(src).place(s), Says: says, Remedy: remedy}}
	}
	if s, says, remedy := badBytes(src); says != "" {
		return nil, nil, one(s, says, remedy)
	}
	plain := withoutMark(src)
	t, err := growTree(plain)
	var deep *lexError
	if errors.As(err, &deep) && deep.final {
		return nil, nil, one(deep.at, deep.says, "no inventory needs as much; look for a slip")
	}
	var values map[string]any
	_, wrong := toml.Decode(string(plain), &values)
	var pe toml.ParseError
	isPE := errors.As(wrong, &pe)
	switch {
	case len(t.twice) > 0 && (wrong == nil && err == nil || isPE && isTwice(pe.Message)):
		return nil, nil, t.writtenTwice(newLineIndex(src))
	case wrong == nil && err == nil:
		return values, t, nil
	case isPE:
		s := span{pe.Position.Start, pe.Position.Start + max(1, pe.Position.Len)}
		return nil, nil, one(lesson(plain, s, pe.Message))
	case wrong != nil:
		return nil, nil, one(span{}, wrong.Error(), "")
	case deep != nil:
		return nil, nil, one(lesson(plain, deep.at, deep.says))
	}
	return nil, nil, one(span{}, err.Error(), "")
}

// badBytes finds what no text file has.
func badBytes(src []byte) (at span, says, remedy string) {
	switch {
	case bytes.HasPrefix(src, []byte{0xff, 0xfe}), bytes.HasPrefix(src, []byte{0xfe, 0xff}):
		return span{0, 2}, "the file is UTF-16", "save it as UTF-8"
	}
	if i := bytes.IndexByte(src, 0); i >= 0 {
		return span{i, i + 1}, "a NUL byte", "an inventory is plain text; save it as UTF-8"
	}
	for i := 0; i < len(src); {
		r, n := utf8.DecodeRune(src[i:])
		if r == utf8.RuneError && n == 1 {
			return span{i, i + 1}, fmt.Sprintf("the byte 0x%02x is not UTF-8", src[i]), "save the file as UTF-8"
		}
		i += n
	}
	return span{}, "", ""
}

// withoutMark blanks a byte-order mark; offsets stay the same.
func withoutMark(src []byte) []byte {
	if !bytes.HasPrefix(src, []byte("\ufeff")) {
		return src
	}
	return append([]byte("   "), src[3:]...)
}

// isTwice tells the library's messages about a key that is there already.
func isTwice(message string) bool {
	return strings.Contains(message, "already been defined") || strings.Contains(message, "already created")
}

// writtenTwice reports the keys that the file has two times.
func (t *tree) writtenTwice(lines *lineIndex) []Problem {
	var out []Problem
	for _, d := range t.twice {
		first := lines.place(d.first.key)
		remedy := fmt.Sprintf("first written on line %d; keep one", first.Line)
		if table := d.first.parent; table != nil && table.parent == t.root && d.first.header {
			remedy = fmt.Sprintf("first written on line %d; give this one a name of its own", first.Line)
		}
		out = append(out, Problem{
			At: lines.place(d.again.key), Also: []Place{first}, Path: d.first.path(),
			Says: fmt.Sprintf("%s is written twice", quote(d.first.name)), Remedy: remedy,
		})
	}
	return inOrder(out)
}
