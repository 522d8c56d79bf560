package inventory

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

const edited = `# an invented site
[circuits.LP1-1] # the first
spaces = [1, 3]   # both legs
feeds  = { bar = 4 } # four so far

[circuits.LP1-2]
spaces = [2]
feeds = {}

[fixtures.bar]
count = 4 # bars
`

func rewrite(t *testing.T, edits ...Edit) string {
	t.Helper()
	out, err := Rewrite([]byte(edited), edits)
	require.NoError(t, err)
	return string(out)
}

func TestRewriteChangesOnlyTheValue(t *testing.T) {
	got := rewrite(t, Edit{[]string{"fixtures", "bar", "count"}, "6"}, Edit{[]string{"circuits", "LP1-1", "feeds", "bar"}, "5"})
	want := strings.NewReplacer("count = 4 #", "count = 6 #", "{ bar = 4 } #", "{ bar = 5 } #").Replace(edited)
	assert.Equal(t, want, got)
}

func TestRewriteAddsToInlineTables(t *testing.T) {
	got := rewrite(t, Edit{[]string{"circuits", "LP1-1", "feeds", "a fan"}, "2"}, Edit{[]string{"circuits", "LP1-2", "feeds", "bar"}, "1"})
	want := strings.NewReplacer("{ bar = 4 } #", `{ bar = 4, "a fan" = 2 } #`, "feeds = {}", "feeds = { bar = 1 }").Replace(edited)
	assert.Equal(t, want, got)
}

func TestRewriteAddsKeysAndTables(t *testing.T) {
	got := rewrite(t, Edit{[]string{"circuits", "LP1-2", "breaker"}, `"20 A"`}, Edit{[]string{"fixtures", "new", "count"}, "1"},
		Edit{[]string{"fixtures", "new", "power"}, `"480 W"`})
	assert.Equal(t, strings.Replace(edited, "feeds = {}\n", "feeds = {}\nbreaker = \"20 A\"\n", 1)+"\n[fixtures.new]\ncount = 1\npower = \"480 W\"\n", got)
}

func TestRewriteRefusesWhatIsNotATable(t *testing.T) {
	_, err := Rewrite([]byte(edited), []Edit{{[]string{"circuits", "LP1-1"}, "1"}})
	assert.ErrorContains(t, err, "is a table")
	_, err = Rewrite([]byte(edited), []Edit{{[]string{"circuits", "LP1-1", "spaces", "x"}, "1"}})
	assert.Error(t, err)
	_, err = Rewrite([]byte("a = "), []Edit{{[]string{"a"}, "1"}})
	assert.Error(t, err)
}

func TestRewriteWithTheSameValueKeepsEverySiteToTheByte(t *testing.T) {
	files, err := filepath.Glob("../../testdata/sites/*.toml")
	require.NoError(t, err)
	require.NotEmpty(t, files)
	for _, f := range files {
		src, err := os.ReadFile(f)
		require.NoError(t, err)
		tr, err := growTree(src)
		require.NoError(t, err)
		for _, table := range tr.root.kids {
			for _, item := range table.kids {
				if n := item.kid("count"); n != nil {
					same := string(src[n.value.start:n.value.end])
					out, err := Rewrite(src, []Edit{{[]string{table.name, item.name, "count"}, same}})
					require.NoError(t, err)
					assert.Equal(t, string(src), string(out), "%s %s", f, item.name)
				}
			}
		}
	}
}

// A file that ends its lines as Windows does keeps doing so, in what is added too.
func TestRewriteKeepsTheLineEndsOfTheFile(t *testing.T) {
	edits := []Edit{
		{[]string{"fixtures", "bar", "count"}, "6"}, {[]string{"circuits", "LP1-2", "breaker"}, `"20 A"`}, {[]string{"fixtures", "new", "count"}, "1"},
	}
	for _, src := range []string{edited, strings.TrimSuffix(edited, "\n")} {
		want, err := Rewrite([]byte(src), edits)
		require.NoError(t, err)
		got, err := Rewrite([]byte(strings.ReplaceAll(src, "\n", "\r\n")), edits)
		require.NoError(t, err)
		assert.Equal(t, strings.ReplaceAll(string(want), "\n", "\r\n"), string(got))
	}
}

// Many edits at once give what they give one after the other.
func TestManyEditsAreOneAfterTheOther(t *testing.T) {
	starter := string(Starter())
	texts := []string{"", "# empty", starter, strings.TrimRight(starter, "\n"), strings.ReplaceAll(starter, "\n", "\r\n"),
		starter + "\n[circuits]\nLP1-1 = { panel = \"LP1\" }\n", "circuits = {}\n" + starter, starter + "\n[[circuits]]\npanel = \"LP1\"\n",
		starter + "\n[circuits.LP1-1]\npanel = \"LP1\"\n", "circuits.LP1-2.panel = \"LP1\"\n" + starter}
	rapid.Check(t, func(t *rapid.T) {
		src := []byte(rapid.SampledFrom(texts).Draw(t, "file"))
		var edits []Edit
		for range rapid.IntRange(1, 12).Draw(t, "edits") {
			e := Edit{Path: []string{rapid.SampledFrom([]string{"circuits", "circuits", "panels", "site"}).Draw(t, "table"),
				rapid.SampledFrom([]string{"LP1-1", "LP1-1", "LP1-2", "a b"}).Draw(t, "name"), rapid.SampledFrom([]string{"breaker", "spaces", "feeds"}).Draw(t, "key")}, Value: `"x"`}
			if e.Path[2] == "feeds" {
				e.Path, e.Value = append(e.Path, rapid.SampledFrom([]string{"bar", "fan"}).Draw(t, "item")), "1"
			}
			if rapid.IntRange(0, 9).Draw(t, "take out") == 5 {
				e.Value = ""
			}
			edits = append(edits, e)
		}
		want, failed := src, error(nil)
		for i := range edits {
			if want, failed = Rewrite(want, edits[i:i+1]); failed != nil {
				break
			}
		}
		got, err := Rewrite(src, edits)
		require.Equal(t, failed == nil, err == nil, "%v %v", failed, err)
		if err == nil {
			require.Equal(t, string(want), string(got))
		}
	})
}
