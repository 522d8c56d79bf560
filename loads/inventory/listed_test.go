package inventory

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestListingTellsNamesThatCountOn(t *testing.T) {
	for _, c := range []struct {
		names []string
		want  string
	}{
		{nil, ""},
		{[]string{"bar-7"}, "bar-7"},
		{[]string{"bar-7", "bar-8"}, "bar-7, bar-8"},
		{[]string{"bar-7", "bar-8", "bar-9", "bar-10"}, "bar-7 to bar-10"},
		{[]string{"bar-07", "bar-08", "bar-09", "bar-10"}, "bar-07 to bar-10"},
		{[]string{"bar-98", "bar-99", "bar-100", "bar-102"}, "bar-98 to bar-100, bar-102"},
		{[]string{"bar-09", "bar-010", "bar-011"}, "bar-09, bar-010, bar-011"},
		{[]string{"a", "b", "c"}, "a, b, c"},
		{[]string{"1", "2", "3"}, "1 to 3"},
		{[]string{"a1", "b2", "c3"}, "a1, b2, c3"},
		{[]string{"row 1.8", "row 1.9", "row 1.10"}, "row 1.8 to row 1.10"},
		{[]string{"x99999999999999999999", "x100000000000000000000", "x100000000000000000001"}, "x99999999999999999999, x100000000000000000000, x100000000000000000001"},
	} {
		require.Equal(t, c.want, Listing(c.names))
	}
}

const listedSite = "[site]\nname = \"A\"\nuse = \"commercial\"\n[panels.LP1]\nsystem = \"120/240 V 1ph\"\n[rooms.r1]\npanel = \"LP1\"\n[rooms.r2]\npanel = \"LP1\"\n"

// lists writes a table of one fixture for each name.
func fixturesNamed(keys string, names ...string) string {
	var b strings.Builder
	for _, n := range names {
		fmt.Fprintf(&b, "[fixtures.%q]\n%s\n", n, keys)
	}
	return b.String()
}

const oneUnit = "room = \"r1\"\ncount = 1\npower = \"100 W\"\nvoltage = \"120 V\""

func TestFixturesThatAreAlikeAreOneItem(t *testing.T) {
	for _, c := range []struct {
		why, text string
		want      []string // names and counts
	}{
		{"alike", fixturesNamed(oneUnit, "a-10", "a-9", "a-8"), []string{"3 a-8 to a-10"}},
		{"names that do not count on", fixturesNamed(oneUnit, "left", "right", "door"), []string{"3 door and 2 alike"}},
		{"the same in other units", fixturesNamed(oneUnit, "a-1") + fixturesNamed(strings.Replace(oneUnit, "100 W", "0.1 kW", 1), "a-2", "a-3"), []string{"3 a-1 to a-3"}},
		{"another power", fixturesNamed(oneUnit, "a-1") + fixturesNamed(strings.Replace(oneUnit, "100 W", "101 W", 1), "a-2"), []string{"1 a-1", "1 a-2"}},
		{"another room", fixturesNamed(oneUnit, "a-1") + fixturesNamed(strings.Replace(oneUnit, "r1", "r2", 1), "a-2"), []string{"1 a-1", "1 a-2"}},
		{"a limit of the maker's", fixturesNamed(oneUnit, "a-1") + fixturesNamed(oneUnit+"\nmax_per_breaker = 5", "a-2"), []string{"1 a-1", "1 a-2"}},
		{"the same limit", fixturesNamed(oneUnit+"\nmax_per_breaker = 5", "a-1", "a-2"), []string{"2 a-1 and 1 alike"}},
		{"counted", fixturesNamed(strings.Replace(oneUnit, "count = 1", "count = 2", 1), "a-1", "a-2"), []string{"2 a-1", "2 a-2"}},
		{"an interlock, of which each is a member", fixturesNamed(oneUnit+"\ninterlock = \"x\"", "a-1", "a-2"), []string{"1 a-1", "1 a-2"}},
		{"one of them to be spread", fixturesNamed(oneUnit, "a-1", "a-2", "a-3") + "[plan]\nspread = [\"a-2\"]\n", []string{"2 a-1 and 1 alike", "1 a-2"}},
		{"circuits, which feed items by name", fixturesNamed(oneUnit, "a-1", "a-2") + "[circuits.LP1-1]\npanel = \"LP1\"\nspaces = [1]\nbreaker = \"20 A\"\nfeeds = { \"a-1\" = 1 }\n", []string{"1 a-1", "1 a-2"}},
		{"fans", strings.ReplaceAll(fixturesNamed(oneUnit, "a-1", "a-2"), "fixtures", "fans"), []string{"1 a-1", "1 a-2"}},
		{"a name that the item would have", fixturesNamed(oneUnit, "a-1", "a-2", "a-3") + fixturesNamed(strings.Replace(oneUnit, "100", "90", 1), "a-1 to a-3"), []string{"1 a-1", "1 a-1 to a-3", "1 a-2", "1 a-3"}},
	} {
		inv := sound(t, "x.toml", []byte(listedSite+c.text))
		var got []string
		units := 0
		for _, i := range inv.Items {
			got = append(got, fmt.Sprintf("%d %s", i.Count, i.Name))
			units += len(i.Each())
			assert.True(t, i.Listed == nil || len(i.Listed) == i.Count && i.Count > 1, c.why)
		}
		assert.Equal(t, c.want, got, c.why)
		assert.Equal(t, strings.Count(c.text, "[fixtures.")+strings.Count(c.text, "[fans."), units, "%s: none is lost", c.why)
	}
}

func TestWhatIsSaidOfAListStandsAtItsFirst(t *testing.T) {
	inv := sound(t, "x.toml", []byte(listedSite+fixturesNamed(oneUnit, "row 1.10", "row 1.9", "row 1.8")))
	i := inv.Items[0]
	require.Equal(t, "row 1.8 to row 1.10", i.Name)
	require.Equal(t, 20, inv.Line(i.Path()))
	require.Equal(t, 23, inv.Line(i.Path()+".power"))
	require.Equal(t, 20, inv.Line(i.Path()+".leakage"))
	require.Equal(t, 15, inv.Line("fixtures.row 1.9"))
}
