package inventory

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
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
