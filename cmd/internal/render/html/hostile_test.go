package html_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// hostile are names that try to be more than names. The words after them are what
// a reader must see of them.
const (
	script  = `<script>alert(1)</script>`
	quoted  = `a" onload="alert(1)' x='`
	turned  = "abc\u202edef\u2066"
	comment = `--><b>]]></style>{{.Title}}`
)

var long = strings.Repeat("long-name-", 18)

const hostileSite = `
[site]
name = "<script>alert(1)</script> & \"co\" </title> \u0007 \u202e"
use = "commercial"

[panels.'PANEL']
system = "120/240 V 1ph"
main = "200 A"
spaces = 42

[rooms.'ROOM']
panel = 'PANEL'
size = "20 ft x 10 ft x 9 ft"
lights = "06:00-18:00"
run = "60 ft"
spacing = "4 ft"
climate = { lights_on = "82 F", lights_off = "72 F", humidity_on = 0.6, humidity_off = 0.5 }

[fixtures.'ITEM']
room = 'ROOM'
count = 6
power = "640 W"
power_factor = 0.98
voltage = "240 V"
wired = true
max_per_breaker = 8

[fans."=cmd|' /C calc'!A0"]
room = 'ROOM'
count = 2
power = "40 W"
voltage = "120 V"
hours = "always"
`

func TestHostileNamesAreOnlyText(t *testing.T) {
	for why, name := range map[string]string{"a tag": script, "quotes": quoted, "direction": turned, "a comment and a template": comment, "length": long, "another script": "نور-أخضر"} {
		t.Run(why, func(t *testing.T) {
			toml := strings.NewReplacer("'PANEL'", tomlString("p"+name), "'ROOM'", tomlString("r"+name), "'ITEM'", tomlString("i"+name)).Replace(hostileSite)
			page, doc := report(t, write(t, toml), "--date", `1 <b>"March"</b>`)
			standsAlone(t, page)
			seen := false
			for _, e := range read(t, page) {
				require.NotEqual(t, "b", e.name, "no element of theirs")
				seen = seen || e.name == "bdi" && e.text == "i"+plain(name)
				if key, ok := e.attr["data-key"]; ok {
					require.NoError(t, agrees(doc, key, e.attr["data-scale"], strings.TrimSpace(e.text), false))
				}
			}
			require.True(t, seen, "the name is there, as it is or with what is hidden shown")
			require.NotContains(t, string(page), "\u202e")
			require.NotContains(t, string(page), "\a")
		})
	}
}

func write(t *testing.T, toml string) string {
	file := filepath.Join(t.TempDir(), "site.toml")
	require.NoError(t, os.WriteFile(file, []byte(toml), 0o644))
	return file
}

// tomlString writes a text as a basic TOML string.
func tomlString(s string) string {
	var b strings.Builder
	b.WriteByte('"')
	for _, r := range s {
		switch {
		case r == '"' || r == '\\':
			b.WriteString(`\` + string(r))
		default:
			b.WriteRune(r)
		}
	}
	return b.String() + `"`
}

func plain(s string) string {
	return strings.NewReplacer("\u202e", `\u202e`, "\u2066", `\u2066`).Replace(s)
}
