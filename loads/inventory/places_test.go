package inventory

import (
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/BurntSushi/toml"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// awkward has keys and values in every shape that TOML has.
const awkward = `"quoted key" = 1
'literal' = 2
a.b . "c d" = { x = 1, "y z" = [1, [2, 3], { k = "v" }] } # comment
[table]
key	=	'value'
list = [
  "one", # with a comment, and a comma
  "two",
  { deep = { er = true }, also = [ ] },
]
[table."sub.table"]
"µ é" = """
several
lines"""
[[array]]
name = 1
[array.inner]
k = 1
[[array]]
name = 2
[ spaced . "header" ] # odd
multi = {
  a = 1, # TOML 1.1
  b = 2,
}
`

// everyKeyHasAPlace checks that each key that the decoder saw has a place, and
// that the text there is that key.
func everyKeyHasAPlace(t *testing.T, src []byte) {
	t.Helper()
	var values map[string]any
	meta, err := toml.Decode(string(src), &values)
	require.NoError(t, err)
	tree, err := growTree(src)
	require.NoError(t, err)
	seen := map[string]bool{}
	var walk func(n *node, path string)
	walk = func(n *node, path string) {
		for _, k := range n.kids {
			below := path
			if !k.element {
				below += "\x00" + k.name
				seen[below] = true
				assert.Equal(t, k.name, written(t, src[k.key.start:k.key.end]))
			}
			walk(k, below)
		}
	}
	walk(tree.root, "")
	for _, key := range meta.Keys() {
		assert.True(t, seen["\x00"+strings.Join(key, "\x00")], "no place for %v", key)
	}
}

// written returns the name that a key in the file spells.
func written(t *testing.T, raw []byte) string {
	t.Helper()
	if len(raw) == 0 || raw[0] != '"' && raw[0] != '\'' {
		return string(raw)
	}
	var one map[string]string
	_, err := toml.Decode("k = "+string(raw), &one)
	require.NoError(t, err)
	return one["k"]
}

func TestEveryKeyHasAPlaceAndTheTextThereIsThatKey(t *testing.T) {
	sources := map[string][]byte{"awkward": []byte(awkward), "starter": Starter()}
	for _, glob := range []string{"testdata/*.toml", brokenFolder + "/*.toml"} {
		names, err := filepath.Glob(glob)
		require.NoError(t, err)
		require.NotEmpty(t, names)
		for _, name := range names {
			src, err := os.ReadFile(name)
			require.NoError(t, err)
			sources[name] = src
		}
	}
	checked := 0
	for name, src := range sources {
		var values map[string]any
		if _, err := toml.Decode(string(src), &values); err != nil || strings.Contains(name, "too-") {
			continue // not TOML, or refused for its size
		}
		checked++
		t.Run(filepath.Base(name), func(t *testing.T) { everyKeyHasAPlace(t, src) })
	}
	assert.Greater(t, checked, 40)
}

func TestValuesAndElementsHavePlaces(t *testing.T) {
	tree, err := growTree([]byte(awkward))
	require.NoError(t, err)
	text := func(n *node) string {
		require.NotNil(t, n)
		return awkward[n.value.start:n.value.end]
	}
	list := tree.root.down("table", "list")
	assert.Equal(t, `"two"`, text(list.kids[1]))
	assert.Equal(t, `{ deep = { er = true }, also = [ ] }`, text(list.kids[2]))
	assert.Equal(t, `{ er = true }`, text(list.kids[2].kid("deep")))
	assert.Equal(t, `[ ]`, text(list.kids[2].kid("also")))
	yz := tree.root.down("a", "b", "c d", "y z")
	assert.Equal(t, `[1, [2, 3], { k = "v" }]`, text(yz))
	assert.Equal(t, `[2, 3]`, text(yz.kids[1]))
	assert.Equal(t, `3`, text(yz.kids[1].kids[1]))
	assert.Equal(t, `a.b.c d.y z[1][1]`, yz.kids[1].kids[1].path())
	assert.Equal(t, `2`, text(tree.root.kid("array").kids[1].kid("name")))
	assert.True(t, strings.HasPrefix(text(tree.root.down("spaced", "header", "multi")), "{\n"))
	assert.True(t, strings.HasSuffix(text(tree.root.down("spaced", "header", "multi")), "\n}"))
}

func TestPlaceOfAMissingKeyIsTheTableAboveIt(t *testing.T) {
	inv := sound(t, "full.toml", file(t, "testdata/full.toml"))
	src := string(file(t, "testdata/full.toml"))
	for _, row := range []struct{ path, at, why string }{
		{"circuits.LP1-7.breaker", "breaker = \"20 A\"", "the key itself"},
		{"circuits.LP1-7.spaces[1]", "7]", "an element of a list"},
		{"circuits.LP1-7.spaces[4]", "spaces = [9, 7]", "a list without that element"},
		{"circuits.LP1-7.feeds.dehumidifier", "dehumidifier = 1", "inside an inline table"},
		{"circuits.LP1-7.nothing", "LP1-7]", "the header of the circuit"},
		{"fixtures.bar-320.power.deep.er", "bar-320]", "several levels up"},
		{"panels.LP1.feeder.spaces", "spaces = [2, 4, 6]", "of the right panel"},
	} {
		p, ok := inv.Place(row.path)
		require.True(t, ok, row.why)
		assert.True(t, strings.HasPrefix(src[p.Start:], row.at), "%s: %q", row.why, src[p.Start:p.End])
		assert.Equal(t, 1+strings.Count(src[:p.Start], "\n"), inv.Line(row.path), row.why)
	}
	_, ok := inv.Place("greenhouses.one")
	assert.False(t, ok)
	assert.Zero(t, inv.Line("greenhouses.one"))
	_, ok = (*Inventory)(nil).Place("site")
	assert.False(t, ok)
}

func TestColumnsCountCharactersNotBytes(t *testing.T) {
	long := strings.Repeat("é", 3000)
	src := []byte("a\nb é°c\n" + long + "x")
	lines := newLineIndex(src)
	at := strings.Index(string(src), "c")
	assert.Equal(t, Place{Line: 2, Column: 5, Start: at, End: at + 1}, lines.place(span{at, at + 1}))
	end := len(src) - 1
	assert.Equal(t, Place{Line: 3, Column: 3001, Start: end, End: end + 1}, lines.place(span{end, end + 1}))
	assert.Equal(t, Place{Line: 3, Column: 3002, Start: end + 1, End: end + 1}, lines.place(span{end + 5, end + 9}), "drawn into the file")
	assert.Equal(t, Place{Line: 1, Column: 1}, newLineIndex(nil).place(span{}))
}

func TestNearestNameIsSuggestedAndNothingFarther(t *testing.T) {
	names := []string{"count", "current", "currents", "fan", "fans"}
	for _, row := range []struct{ written, want, why string }{
		{"cuont", "count", "two letters swapped"},
		{"COUNT", "count", "wrong case"},
		{"coun", "count", "one left out"},
		{"curents", "currents", "nearest, not first"},
		{"fam", "fan", "one letter of three"},
		{"fax", "fan", "the first of equals"},
		{"power", "", "too far from all"},
		{"xx", "", "nothing in common"},
		{"", "", "nothing at all"},
	} {
		assert.Equal(t, row.want, Nearest(row.written, names), row.why)
	}
	assert.Empty(t, Nearest(strings.Repeat("x", 50), []string{strings.Repeat("y", 50)}))
}

func TestElementsOfAListAreNumbered(t *testing.T) {
	tree, err := growTree([]byte("a = [" + strings.Repeat("1, ", 30) + "]"))
	require.NoError(t, err)
	for i, k := range tree.root.kid("a").kids {
		assert.Equal(t, strconv.Itoa(i), k.name)
	}
}
