package html_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
	"unicode"
	"unicode/utf8"

	"github.com/stretchr/testify/require"
)

// FuzzNames: whatever the names in a file are, the page is well-formed, holds no
// element of theirs, nothing that does not print, and shows the name as text.
// Seeds run as a test; go test -fuzz FuzzNames tries more.
func FuzzNames(f *testing.F) {
	for _, s := range []string{script, quoted, turned, comment, `&amp;&#60;&lt;`, `javascript:alert(1)`, `{{.}}`, `]]>`, `</title>`, "a\u2028b", `" style="x`} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, name string) {
		if !utf8.ValidString(name) || len(name) > 150 || strings.ContainsFunc(name, unicode.IsControl) || strings.TrimSpace(name) == "" {
			t.Skip("the reader refuses it")
		}
		toml := strings.NewReplacer("'PANEL'", tomlString("p"+name), "'ROOM'", tomlString("r"+name), "'ITEM'", tomlString("i"+name)).Replace(hostileSite)
		dir := t.TempDir()
		file := filepath.Join(dir, "site.toml")
		require.NoError(t, os.WriteFile(file, []byte(toml), 0o644))
		page := run(t, file, "html")
		seen := false
		for _, e := range read(t, page) {
			require.NotContains(t, []string{"b", "img", "iframe", "object"}, e.name, "no element of theirs")
			seen = seen || e.name == "bdi" && strings.HasPrefix(e.text, "i")
			for key, value := range e.attr {
				require.False(t, strings.HasPrefix(key, "on"), "%s=%s", key, value)
			}
		}
		require.True(t, seen)
		hidden := strings.IndexFunc(string(page), func(c rune) bool { return !unicode.IsPrint(c) && !unicode.IsSpace(c) })
		require.Negative(t, hidden, "nothing that does not print")
	})
}
