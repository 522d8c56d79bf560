package csv

import (
	"bytes"
	"encoding/csv"
	"strings"
	"testing"
	"unicode"

	"github.com/stretchr/testify/require"

	"branchwork/cmd/internal/document"
	"branchwork/cmd/internal/render/page"
)

// FuzzNames: whatever a name is, records are read back with their number of
// fields, no field begins as a formula does or holds what does not print, and the
// name is still there.
func FuzzNames(f *testing.F) {
	for _, s := range []string{"LP1-1", "=1+1", "+1", "-1", "@SUM(A1)", "\t=1", "\r\n=1", `a"b`, "a,b\nc", "'=1", "\x00", "\u202e", "\xff", "", " =1", "＝1"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, name string) {
		d := document.Plan{Site: name, Circuits: []document.Circuit{{Name: name, Panel: name, Rooms: []string{name}, Loads: []document.Load{{Item: name, Count: 1}}}},
			Panels: []document.Panel{{Name: name}}, Heat: []document.RoomHeat{{Room: name}},
			Findings: []document.Finding{{Rule: "r", Subject: name, Message: name, Severity: "violation"}}}
		var b bytes.Buffer
		require.NoError(t, Render(&b, page.Plan(d, page.System{})))
		rows, err := csv.NewReader(&b).ReadAll()
		require.NoError(t, err)
		found := false
		for _, r := range rows {
			for _, field := range r {
				require.Negative(t, strings.IndexFunc(field, func(c rune) bool { return !unicode.IsPrint(c) }), "%q", field)
				if field != "" && strings.ContainsAny(field[:1], "=+-@\t\r") {
					require.True(t, number(field), "%q", field)
				}
			}
			found = found || r[0] == "circuits" && strings.TrimPrefix(r[1], "'") == strings.TrimPrefix(page.Printable(name), "'")
		}
		require.True(t, found, "%q", name)
	})
}

// number reports whether a field that begins with a sign is a number.
func number(field string) bool {
	return strings.Trim(field[1:], "0123456789.") == "" && field[0] == '-'
}
