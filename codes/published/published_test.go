package published_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"branchwork/codes/published"
	"branchwork/loads/units"
)

const good = `subject = "currents"

[[case]]
id = "x"
says = "a current"
source = { ref = "practice", at = "here" }
how = "practice"
in = { a = "5 A", n = 3, flag = true }
want = { b = 2.5 }
tol = 0.1
`

func load(text string) ([]published.Case, error) {
	return published.Load(fstest.MapFS{"f.toml": {Data: []byte(text)}}, "f.toml")
}

func TestCaseIsReadWithItsUnits(t *testing.T) {
	list, err := load(good)
	require.NoError(t, err)
	c := list[0]
	a, err := published.Quantity[units.Current](c.In, "a")
	require.NoError(t, err)
	assert.Equal(t, 5*units.Ampere, a)
	n, err := c.In.Number("n")
	require.NoError(t, err)
	assert.Equal(t, 3.0, n)
	assert.Equal(t, []string{"in.flag", "want.b"}, c.Unread(), "what nobody asked for is told")
	_, err = published.Quantity[units.Voltage](c.In, "a")
	assert.ErrorContains(t, err, `"A" is not a unit of voltage`)
	_, err = c.Want.Number("c")
	assert.ErrorContains(t, err, `no value "c"`)
	list, err = load(strings.Replace(good, "b = 2.5", "b = nan", 1))
	require.NoError(t, err)
	_, err = list[0].Want.Number("b")
	assert.ErrorContains(t, err, `"b" is no number`)
}

func TestReaderIsStrict(t *testing.T) {
	for name, row := range map[string]struct{ text, says string }{
		"unknown key":       {good + "wants = { b = 1 }\n", "unknown key case.wants"},
		"no source":         {"subject = \"s\"\n[[case]]\nid = \"x\"\nsays = \"y\"\nhow = \"seen\"\nwant = { a = 1 }\ntol = 0\n", "has no source"},
		"unknown reference": {"subject = \"s\"\n[[case]]\nid = \"x\"\nsays = \"y\"\nsource = { ref = \"nowhere\", at = \"a\" }\nhow = \"seen\"\nwant = { a = 1 }\ntol = 0\n", `no reference "nowhere"`},
		"twice":             {good + strings.TrimPrefix(good, "subject = \"currents\""), "stands twice"},
		"no subject":        {strings.TrimPrefix(good, "subject = \"currents\""), "no subject"},
		"no place":          {strings.Replace(good, "here", " ", 1), "no place in its source"},
		"no tolerance":      {"subject = \"s\"\n[[case]]\nid = \"x\"\nsays = \"y\"\nsource = { ref = \"practice\", at = \"a\" }\nhow = \"seen\"\nwant = { a = 1 }\n", "has no tolerance"},
		"endless":           {strings.Replace(good, "tol = 0.1", "tol = inf", 1), "has no tolerance"},
		"no number":         {strings.Replace(good, "tol = 0.1", "tol = nan", 1), "has no tolerance"},
		"wants nothing":     {"subject = \"s\"\n[[case]]\nid = \"x\"\nsays = \"y\"\nsource = { ref = \"practice\", at = \"a\" }\nhow = \"seen\"\ntol = 0\n", "wants nothing"},
		"empty":             {"", "no cases"},
	} {
		_, err := load(row.text)
		assert.ErrorContains(t, err, row.says, name)
	}
}

// Every file of cases can be read and is counted, so that an emptied file fails.
func TestAllFilesRead(t *testing.T) {
	files := os.DirFS("../../testdata/published")
	names, err := published.Names(files)
	require.NoError(t, err)
	total := 0
	for _, n := range names {
		list, err := published.Load(files, n)
		require.NoError(t, err)
		total += len(list)
	}
	assert.GreaterOrEqual(t, total, 150)
}

// A difference of a value whose share cannot be told, as of one that is 0, is a
// difference all the same.
func TestSameIsWithoutADifference(t *testing.T) {
	assert.True(t, published.Figure{Want: "5 A", Got: "5 A", Within: 0.1}.Same())
	assert.False(t, published.Figure{Want: "5 A", Got: "5.2 A", Off: 0.04, Share: 0.4}.Same())
	assert.False(t, published.Figure{Want: "0", Got: "0.0044", Share: 0.88}.Same())
	assert.False(t, published.Figure{Want: "5 A", Got: "5.2 A", Off: 0.04}.Same(), "no tolerance")
}

// What is written down outlives neither the test that wrote it nor the case: a
// figure that nobody computes any longer is no evidence.
func TestWhatIsWrittenDownIsOfTestsAndCasesThatAreThere(t *testing.T) {
	files := os.DirFS("../../testdata/published")
	figures, err := published.Figures(files, published.Measured)
	require.NoError(t, err)
	comparisons, err := published.Comparisons(files, published.Compared)
	require.NoError(t, err)
	require.NotEmpty(t, figures)
	require.NotEmpty(t, comparisons)
	tests := map[string]bool{}
	for _, f := range figures {
		tests[f.Test] = true
	}
	for _, c := range comparisons {
		tests[c.Test] = true
	}
	for test := range tests {
		dir, name, _ := strings.Cut(test, " ")
		name, _, _ = strings.Cut(name, "/")
		assert.True(t, strings.Contains(testsOf(t, "../../"+dir), "func "+name+"(t *testing.T)"), "there is no test %s", test)
	}
	cases := map[string]bool{}
	names, err := published.Names(files)
	require.NoError(t, err)
	for _, n := range names {
		list, err := published.Load(files, n)
		require.NoError(t, err)
		for _, c := range list {
			cases[n+" "+c.ID] = true
		}
	}
	for _, f := range figures {
		assert.True(t, cases[f.File+" "+f.Case], "%s: no case %s in %s", f.Test, f.Case, f.File)
	}
}

// testsOf is the text of a package's tests.
func testsOf(t *testing.T, dir string) string {
	names, err := filepath.Glob(filepath.Join(dir, "*_test.go"))
	require.NoError(t, err)
	var b strings.Builder
	for _, name := range names {
		text, err := os.ReadFile(name)
		require.NoError(t, err)
		b.Write(text)
	}
	return b.String()
}
