// Package json prints a document as it is: the contract, to the key.
package json

import (
	"encoding/json"
	"fmt"
	"io"
	"unicode"
	"unicode/utf16"
	"unicode/utf8"
)

// Render prints a document. A figure that is not a number is refused: nothing
// is printed and the error says so.
func Render(w io.Writer, document any) error {
	e := json.NewEncoder(printable{w}) // which writes once, and only what is whole
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	if err := e.Encode(document); err != nil {
		return fmt.Errorf("json: %w", err)
	}
	return nil
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
