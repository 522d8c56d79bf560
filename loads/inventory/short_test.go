package inventory

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// lists draws a file that is nearly a list of assets: the same few tables under many
// names, and now and then what could mislead a reader that leaves tables out.
func lists(t *rapid.T) string {
	var b strings.Builder
	b.WriteString("[site]\nname = \"A\"\nuse = \"commercial\"\n")
	odd := func(label string) bool { return rapid.IntRange(0, 39).Draw(t, label) == 23 }
	if odd("notes") {
		quotes := rapid.SampledFrom([]string{`"""`, `'''`}).Draw(t, "quotes")
		fmt.Fprintf(&b, "notes = %s\n[fixtures.bar-1]\npower = \"1 W\"\n%s\n", quotes, quotes)
	}
	b.WriteString("[panels.LP1]\nsystem = \"120/240 V 1ph\"\n[rooms.r1]\npanel = \"LP1\"\n[rooms.r2]\npanel = \"LP1\"\n")
	if odd("dotted") {
		b.WriteString("[fixtures]\nbar-1.level = 0.5\n")
	}
	kinds := []string{
		"room = \"r1\"\ncount = 1\npower = \"100 W\"\nvoltage = \"120 V\"\n",
		"room = \"r2\"\ncount = 1\npower = \"100 W\"\nvoltage = \"120 V\"\n",
		"room = \"r1\"\ncount = 1\nvoltage = \"120 V\"\npower = \"0.1 kW\"\n",
		"room = \"r1\"\ncount = 3\npower = \"200 W\"\nvoltage = \"120 V\"\n",
		"room = \"r1\"\ncount = 1\npower = \"100 W\"\nvoltage = \"120-277 V\"\nlink = { rating = \"10 A\", most = 8 }\n",
		"room = \"r1\"\ncount = 1\npower = \"100 W\"\nvoltage = \"120 V\"\ninterlock = \"x\"\n",
		"room = \"r1\"\ncount = 1\npower = \"100 W\"\nvoltage = \"120 V\"\nmax_per_breaker = { \"20 A\" = 7, \"15 A\" = 5 }\nbasis = \"label\"\n",
		"room = \"r1\"\ncount = 1\npower = \"100 W\"\nvoltage = \"120 V\"\r\n",
	}
	wrong := []string{
		"room = \"r3\"\ncount = 1\npower = \"100 W\"\n",
		"room = \"r1\"\ncount = 1\npower = \"100 furlongs\"\n",
		"room = \"r1\"\ncount = 1\npower = [\n",
		"room = \"r1\"\ncount = 1\nmax_per_breaker = [\n[1,\n2],\n]\n",
		"room = \"r1\"\ncount = 1\npower = \"100 W\"\n\t[rooms.r4]\n",
		"room = \"r1\"\ncount = 1\npower = \"100 W\"",
	}
	few := rapid.IntRange(1, 3).Draw(t, "kinds")
	for i := range rapid.IntRange(2, 30).Draw(t, "tables") {
		name := fmt.Sprintf("bar-%d", i+1)
		if odd("name again") {
			name = fmt.Sprintf("bar-%d", rapid.IntRange(1, i+1).Draw(t, "which"))
		}
		keys := rapid.SampledFrom(kinds[:min(few*3, len(kinds))]).Draw(t, "keys")
		if odd("wrong") {
			keys = rapid.SampledFrom(wrong).Draw(t, "wrong keys")
		}
		switch {
		case odd("comment"):
			keys += "# the next row\n\n"
		case odd("within"):
			keys = strings.Replace(keys, "\n", "\n\n# as the label says\n", 1)
		case odd("part"):
			keys += fmt.Sprintf("[fixtures.%s.link]\nrating = \"10 A\"\n", name)
		case odd("spaces"):
			keys = strings.ReplaceAll(keys, " = ", "=")
		}
		header := "[fixtures." + name + "]"
		switch {
		case odd("quoted"):
			header = fmt.Sprintf("[fixtures.%q]", name)
		case odd("remark"):
			header += " # new"
		case odd("indented"):
			header = "  " + header
		case odd("fan"):
			header = "[fans." + name + "]"
		}
		b.WriteString(header + "\n" + keys)
		if odd("blank") {
			b.WriteString("\n \n")
		}
	}
	switch {
	case odd("circuit"):
		b.WriteString("[circuits.LP1-1]\npanel = \"LP1\"\nspaces = [1]\nbreaker = \"20 A\"\nfeeds = { bar-2 = 1 }\n")
	case odd("spread"):
		b.WriteString("[plan]\nspread = [\"bar-2\"]\n")
	case odd("late part"):
		b.WriteString("[fixtures.bar-1.link]\nrating = \"10 A\"\n")
	}
	return b.String()
}

// What is read of a file without its repetitions is what is read of the whole.
func TestShortReadingIsThatOfTheWhole(t *testing.T) {
	files, short, refused, left := 0, 0, 0, 0
	rapid.Check(t, func(t *rapid.T) {
		src := []byte(lists(t))
		files++
		whole, problems := read("x.toml", src, func(string) Vocabulary { return testWords() }, nil)
		s, ok := shorten(src)
		if !ok || len(s.left) == 0 {
			return
		}
		inv := readShort("x.toml", s, func(string) Vocabulary { return testWords() })
		if inv == nil {
			refused++
			return
		}
		require.Empty(t, problems, "%s", src)
		short++
		left += len(s.left)
		paths := []string{"site", "rooms.r1.panel", "fixtures.nothing", "nothing"}
		for _, i := range whole.Items {
			paths = append(paths, i.Path(), i.Path()+".power", i.Path()+".link.rating", i.Path()+".nothing")
			for _, one := range i.Each() {
				paths = append(paths, one.Path(), one.Path()+".count", one.Path()+".max_per_breaker[0]", one.Path()+".nothing")
			}
		}
		for _, p := range paths {
			want, ok1 := whole.Place(p)
			got, ok2 := inv.Place(p)
			require.Equal(t, want, got, "%s\n%s", p, src)
			require.Equal(t, ok1, ok2)
		}
		whole.places, inv.places = nil, nil
		require.Equal(t, whole, inv, "%s", src)
	})
	if files >= 100 {
		require.Greater(t, short, files/10)
		require.Positive(t, refused)
		require.Greater(t, left, 2*short)
	}
}

// A long list is read short, and a slip in it is told where it stands.
func TestALongListIsReadShort(t *testing.T) {
	var b strings.Builder
	b.WriteString("[site]\nname = \"A\"\nuse = \"commercial\"\n[panels.LP1]\nsystem = \"120/240 V 1ph\"\n[rooms.r1]\npanel = \"LP1\"\n")
	for i := range 3 * fewest {
		fmt.Fprintf(&b, "[fixtures.bar-%d]\nroom = \"r1\"\ncount = 1\npower = \"100 W\"\nvoltage = \"120 V\"\n", i+1)
	}
	s, ok := shorten([]byte(b.String()))
	require.True(t, ok)
	require.Len(t, s.left, 3*fewest-1)
	require.Less(t, len(s.text), 250)
	inv := sound(t, "x.toml", []byte(b.String()))
	require.Len(t, inv.Items, 1)
	require.Equal(t, 3*fewest, inv.Items[0].Count)
	require.Equal(t, "bar-1 to bar-192", inv.Items[0].Name)
	require.NotNil(t, inv.places.part)
	require.Equal(t, 8+5*99+3, inv.Line("fixtures.bar-100.power"))
	require.Equal(t, 8+3, inv.Line("fixtures.bar-1 to bar-192.power"))

	_, problems := Read("x.toml", []byte(b.String()+"[fixtures.bar-5]\nroom = \"r1\"\ncount = 1\npower = \"100 W\"\nvoltage = \"120 V\"\n"), testWords())
	require.Len(t, problems, 1)
	require.Contains(t, problems[0].Says, "written twice")
	require.Equal(t, 8+5*3*fewest, problems[0].At.Line)
}

// What a table has outside its own lines is not taken for what repeats it, nor lost.
func TestWhatATableHasElsewhereIsItsOwn(t *testing.T) {
	text := listedSite
	for _, n := range []string{"a-1", "a-2", "a-3"} {
		text += "[fixtures." + n + "]\n" + oneUnit + "\n"
	}
	for _, c := range []struct {
		why, text string
		short     bool
		want      []string
	}{
		{"nothing else", "", true, []string{"a-1 to a-3"}},
		{"a table in the first", "[fixtures.a-1.link]\nrating = \"10 A\"\n", false, []string{"a-1", "a-2 and 1 alike"}},
		{"a table in one that repeats it", "[fixtures.a-2.link]\nrating = \"10 A\"\n", false, []string{"a-1 and 1 alike", "a-2"}},
	} {
		src := []byte(text + c.text)
		s, ok := shorten(src)
		require.True(t, ok, c.why)
		require.Equal(t, c.short, readShort("x.toml", s, func(string) Vocabulary { return testWords() }) != nil, c.why)
		whole, problems := read("x.toml", src, func(string) Vocabulary { return testWords() }, nil)
		require.Empty(t, problems, c.why)
		require.Equal(t, c.want, names(whole), c.why)
	}
}

func names(inv *Inventory) []string {
	var out []string
	for _, i := range inv.Items {
		out = append(out, i.Name)
	}
	return out
}
