// Package json prints a document as it is: the contract, to the key.
package json

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"reflect"
	"slices"
	"strings"
	"unicode"
	"unicode/utf16"
	"unicode/utf8"
)

// Checked is a document without a figure that is not a number.
type Checked struct{ document any }

// Check refuses a document with a figure that is not a number.
func Check(document any) (Checked, error) {
	document = asWritten(document)
	if err := write(io.Discard, document, ""); err != nil {
		return Checked{}, fmt.Errorf("json: %w", err)
	}
	return Checked{document}, nil
}

// asWritten is a document, or a part of a list, as it says that it is written.
func asWritten(x any) any {
	if w, ok := x.(interface{ Written() any }); ok {
		return w.Written()
	}
	return x
}

// Render prints a document, as it says it is written where it does, part by part: it
// may be large. The error is the writer's.
func (c Checked) Render(w io.Writer) error { return write(printable{w}, c.document, "  ") }

// write prints a struct key by key, of its lists element by element, in whole values.
func write(w io.Writer, document any, indent string) error {
	p := printer{w: w, indent: indent}
	p.e = json.NewEncoder(&p.b)
	p.e.SetEscapeHTML(false)
	v := reflect.ValueOf(document)
	if v.Kind() != reflect.Struct || slices.ContainsFunc(reflect.VisibleFields(v.Type()), func(f reflect.StructField) bool { return f.Anonymous }) {
		p.value("", document)
		p.text("\n")
		return p.err
	}
	p.text("{")
	first := true
	for i := range v.NumField() {
		key, skip := keyOf(v.Type().Field(i), v.Field(i))
		if skip {
			continue
		}
		if !first {
			p.text(",")
		}
		first = false
		p.text("\n" + indent + `"` + key + `": `)
		p.part(v.Field(i))
	}
	p.text("\n}\n")
	return p.err
}

// keyOf is the key of a field, and whether it is left out.
func keyOf(f reflect.StructField, v reflect.Value) (key string, skip bool) {
	tag := f.Tag.Get("json")
	key, options, _ := strings.Cut(tag, ",")
	if key == "" {
		key = f.Name
	}
	switch {
	case !f.IsExported(), tag == "-":
		return key, true
	case options == "omitzero":
		return key, v.IsZero()
	case options == "omitempty":
		switch v.Kind() {
		case reflect.Slice, reflect.Map, reflect.String, reflect.Array:
			return key, v.Len() == 0
		case reflect.Struct:
			return key, false
		}
		return key, v.IsZero()
	}
	return key, false
}

// printer prints values one behind the other, until one cannot be.
type printer struct {
	w      io.Writer
	b      bytes.Buffer
	e      *json.Encoder
	indent string
	err    error
}

// part prints the value of a key: a list element by element.
func (p *printer) part(v reflect.Value) {
	if v.Kind() != reflect.Slice || v.Type().Elem().Kind() != reflect.Struct || v.Len() == 0 {
		p.value(p.indent, v.Interface())
		return
	}
	for i := range v.Len() {
		p.text([]string{"[", ","}[min(i, 1)] + "\n" + p.indent + p.indent)
		p.value(p.indent+p.indent, asWritten(v.Index(i).Interface()))
	}
	p.text("\n" + p.indent + "]")
}

func (p *printer) value(prefix string, v any) {
	if p.err != nil {
		return
	}
	p.e.SetIndent(prefix, p.indent)
	p.b.Reset()
	if p.err = p.e.Encode(v); p.err == nil {
		_, p.err = p.w.Write(bytes.TrimSuffix(p.b.Bytes(), []byte("\n")))
	}
}

func (p *printer) text(s string) {
	if p.err == nil {
		_, p.err = io.WriteString(p.w, s)
	}
}

// printable writes what a terminal would act on as escapes. Such characters
// stand within strings only, where the escape means the same.
type printable struct{ w io.Writer }

func (p printable) Write(text []byte) (int, error) {
	done := 0
	for at := 0; at < len(text); {
		c, n := rune(text[at]), 1
		if ' ' <= c && c <= '~' {
			at++
			continue
		}
		if c >= utf8.RuneSelf {
			c, n = utf8.DecodeRune(text[at:])
		}
		if at += n; c == '\n' || unicode.IsPrint(c) {
			continue
		}
		if _, err := p.w.Write(text[done : at-n]); err != nil {
			return done, err
		}
		if _, err := io.WriteString(p.w, escape(c)); err != nil {
			return done, err
		}
		done = at
	}
	_, err := p.w.Write(text[done:])
	return len(text), err
}

func escape(c rune) string {
	if c > 0xffff {
		high, low := utf16.EncodeRune(c)
		return fmt.Sprintf(`\u%04x\u%04x`, high, low)
	}
	return fmt.Sprintf(`\u%04x`, c)
}
