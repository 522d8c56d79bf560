// Package json prints a document as it is: the contract, to the key.
package json

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"unicode"
	"unicode/utf16"
)

// Render prints a document. A figure that is not a number is refused: nothing
// is printed and the error says so.
func Render(w io.Writer, document any) error {
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	if err := e.Encode(document); err != nil {
		return fmt.Errorf("json: %w", err)
	}
	_, err := w.Write(printable(b.String()))
	return err
}

// printable writes what a terminal would act on as escapes. Such characters
// stand within strings only, where the escape means the same.
func printable(s string) []byte {
	var b bytes.Buffer
	for _, c := range s {
		switch {
		case c == '\n' || unicode.IsPrint(c):
			b.WriteRune(c)
		case c > 0xffff:
			high, low := utf16.EncodeRune(c)
			fmt.Fprintf(&b, `\u%04x\u%04x`, high, low)
		default:
			fmt.Fprintf(&b, `\u%04x`, c)
		}
	}
	return b.Bytes()
}
