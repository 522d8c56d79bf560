package inventory

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
	"unicode"

	"github.com/BurntSushi/toml"
	"github.com/stretchr/testify/require"
)

// FuzzRead: neither the reader nor the printer panics on any file, every
// problem's place lies inside the file, and a file without problems has a place
// for every key that the decoder saw.
func FuzzRead(f *testing.F) {
	for _, glob := range []string{"testdata/*.toml", brokenFolder + "/*.toml"} {
		names, err := filepath.Glob(glob)
		require.NoError(f, err)
		for _, name := range names {
			src, err := os.ReadFile(name)
			require.NoError(f, err)
			f.Add(src, 80)
		}
	}
	f.Add(Starter(), 40)
	f.Add([]byte(awkward), 0)
	f.Fuzz(func(t *testing.T, src []byte, width int) {
		code := CodeNamed(src)
		inv, problems := Read("fuzz.toml", src, testWords())
		require.Equal(t, len(problems) == 0, inv != nil)
		if inv != nil {
			require.Equal(t, inv.Site.Code.Or(""), code, "the code that is peeked at")
		}
		for i, p := range problems {
			placedIn(t, src, p.At)
			for _, a := range p.Also {
				placedIn(t, src, a)
			}
			require.NotEmpty(t, p.Says)
			if i > 0 {
				require.LessOrEqual(t, problems[i-1].At.Start, p.At.Start, "in order of place")
			}
		}
		var b strings.Builder
		require.NoError(t, Print(&b, "fuzz.toml", src, problems, width))
		hidden := strings.IndexFunc(b.String(), func(c rune) bool { return c != '\n' && !unicode.IsPrint(c) })
		require.Negative(t, hidden, "nothing that a terminal would obey: %q", b.String())
		var values map[string]any
		if _, err := toml.Decode(string(src), &values); err == nil && inv != nil {
			everyKeyHasAPlace(t, src)
		}
	})
}

func placedIn(t *testing.T, src []byte, p Place) {
	t.Helper()
	require.True(t, 0 <= p.Start && p.Start <= p.End && p.End <= len(src), "%+v in %d bytes", p, len(src))
	require.Equal(t, 1+strings.Count(string(src[:p.Start]), "\n"), p.Line)
	require.GreaterOrEqual(t, p.Column, 1)
}
