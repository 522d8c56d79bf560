package inventory

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
	"unicode"
	"unicode/utf8"

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
	f.Add([]byte(listedSite+fixturesNamed(oneUnit, "a-1", "a-2")+"[fixtures.a-3]\n"+oneUnit+"\n[fixtures.a-4]\n"+oneUnit+"\n[fixtures.a-4.link]\nrating = \"10 A\"\n"), 80)
	f.Add([]byte(awkward), 0)
	f.Fuzz(func(t *testing.T, src []byte, width int) {
		inv, problems := Read("fuzz.toml", src, testWords())
		require.Equal(t, len(problems) == 0, inv != nil)
		if s, ok := shorten(src); ok && len(s.left) > 0 { // what repeats may be left out, or the whole is read
			if short := readShort("fuzz.toml", s, func(string) Vocabulary { return testWords() }); short != nil {
				require.Empty(t, problems)
				short.places = inv.places
				require.Equal(t, inv, short)
			}
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
	line, _, _ := strings.Cut(string(src[strings.LastIndexByte(string(src[:p.Start]), '\n')+1:]), "\n")
	require.True(t, 1 <= p.Column && p.Column <= len(line)+1, "column %d of a line of %d bytes", p.Column, len(line))
}

// FuzzRewrite: a key that is set in a file that can be read is set there, and
// every other line of the file stays as it was.
func FuzzRewrite(f *testing.F) {
	f.Add(Starter(), "LP1-9", "bar 640")
	f.Add([]byte("[site]\nname = \"a\"\nuse = \"dwelling\""), "x.y", `q"uo\te`)
	f.Add([]byte(awkward), "é", "\t")
	f.Fuzz(func(t *testing.T, src []byte, circuit, item string) {
		inv, _ := Read("fuzz.toml", src, Vocabulary{})
		if inv == nil || badName(circuit) != "" || badName(item) != "" || !utf8.ValidString(circuit+item) {
			return
		}
		out, err := Rewrite(src, []Edit{{[]string{"circuits", circuit, "breaker"}, `"20 A"`}, {[]string{"circuits", circuit, "feeds", item}, "7"}})
		if err != nil {
			return // circuits written in a way that cannot be added to: said, and nothing is written
		}
		var values struct {
			Circuits map[string]struct {
				Breaker string
				Feeds   map[string]int
			}
		}
		require.NoError(t, toml.Unmarshal(out, &values), "%s", out)
		require.Equal(t, "20 A", values.Circuits[circuit].Breaker, "%s", out)
		require.Equal(t, 7, values.Circuits[circuit].Feeds[item], "%s", out)
		before, after := strings.Split(string(src), "\n"), strings.Split(string(out), "\n")
		require.GreaterOrEqual(t, len(after), len(before))
	})
}
