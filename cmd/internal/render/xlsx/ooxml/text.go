package ooxml

import (
	"encoding/xml"
	"strconv"
	"strings"
	"unicode/utf16"
)

// number writes a figure so that it is read back as it is.
func number(x float64) string { return strconv.FormatFloat(x, 'g', -1, 64) }

// escaped is a text as it stands between tags and in attributes. What XML cannot
// hold becomes U+FFFD.
func escaped(s string) string {
	var b strings.Builder
	xml.EscapeText(&b, []byte(s)) // a Builder takes everything
	return b.String()
}

// words is a string of a cell. What reads like the code of a character, "_x0041_",
// has its first underscore coded, so that it stays as it is.
func words(s string) string { return escaped(uncoded(cut(s, mostWords), "_x005F_")) }

// uncoded puts something else for every underscore that begins what reads like a
// code.
func uncoded(s, underscore string) string {
	var b strings.Builder
	for i := range len(s) {
		if t := s[i:]; len(t) >= len("_x0041_") && t[:2] == "_x" && t[6] == '_' {
			b.WriteString(underscore)
			continue
		}
		b.WriteByte(s[i])
	}
	return b.String()
}

// cut shortens a text to so many UTF-16 units.
func cut(s string, most int) string {
	length := 0
	for i, r := range s {
		length += utf16.RuneLen(r)
		if length > most {
			return s[:i]
		}
	}
	return s
}

// quoted is the name of a sheet as formulas have it.
func quoted(name string) string { return "'" + strings.ReplaceAll(name, "'", "''") + "'" }
