package csv_test

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"io"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"branchwork/cmd/internal/cli"
)

// tables writes the tables of a file into a new folder and reads them all back.
func tables(t *testing.T, file string, args ...string) (map[string][][]string, string) {
	folder := filepath.Join(t.TempDir(), "not", "there", "yet")
	var said bytes.Buffer
	require.Less(t, cli.Run(append([]string{"report", file, "--csv", folder}, args...), nil, io.Discard, &said), 2, "%s", &said)
	return read(t, folder), folder
}

func read(t *testing.T, folder string) map[string][][]string {
	out := map[string][][]string{}
	entries, err := os.ReadDir(folder)
	require.NoError(t, err)
	for _, e := range entries {
		f, err := os.Open(filepath.Join(folder, e.Name()))
		require.NoError(t, err)
		records, err := csv.NewReader(f).ReadAll()
		require.NoError(t, err, "%s: all records have the same number of fields", e.Name())
		require.NoError(t, f.Close())
		out[e.Name()] = records
	}
	return out
}

func site(name string) string {
	return filepath.Join("..", "..", "..", "..", "testdata", "sites", name+".toml")
}

// column finds a column by its heading.
func column(t *testing.T, table [][]string, head string) int {
	for i, h := range table[0] {
		if h == head {
			return i
		}
	}
	require.Fail(t, "no column", "%q in %q", head, table[0])
	return 0
}

func TestTablesOfAReport(t *testing.T) {
	got, _ := tables(t, site("warehouse"), "--date", "2026-03-14")
	for _, name := range []string{"equipment", "directories", "circuits", "home-runs", "feeders", "breakers", "conductors", "raceways", "receptacles", "load-calculation", "load-letter",
		"load-classes", "heat-rooms", "heat-cases", "hours", "assumptions", "working", "panels"} {
		require.Greater(t, len(got[name+".csv"]), 1, name)
	}
	list := got["contents.csv"]
	require.Len(t, list, len(got), "headings, and a line for each file but itself")
	for _, r := range list[1:] {
		n, err := strconv.Atoi(r[2])
		require.NoError(t, err)
		require.Len(t, got[r[0]], n+1, r[0])
	}
	for name, table := range got {
		seen := map[string]bool{}
		for _, h := range table[0] {
			require.NotEmpty(t, h, name)
			require.False(t, seen[h], "%s has %q twice", name, h)
			seen[h] = true
		}
	}
}

// TestCircuitsAreThoseOfTheReport compares the circuits with the JSON.
func TestCircuitsAreThoseOfTheReport(t *testing.T) {
	got, folder := tables(t, site("building"))
	file := filepath.Join(filepath.Dir(folder), "report.json")
	require.Less(t, cli.Run([]string{"report", site("building"), "--format", "json", "-o", file}, nil, io.Discard, io.Discard), 2)
	raw, err := os.ReadFile(file)
	require.NoError(t, err)
	var d struct {
		Plan struct {
			Circuits []struct {
				Name  string  `json:"name"`
				Panel string  `json:"panel"`
				Load  float64 `json:"load_amps"`
			} `json:"circuits"`
		} `json:"plan"`
	}
	require.NoError(t, json.Unmarshal(raw, &d))
	table := got["circuits.csv"]
	require.Len(t, table, len(d.Plan.Circuits)+1)
	loads := map[string]string{}
	for _, r := range table[1:] {
		loads[r[0]+"\x00"+r[1]] = r[column(t, table, "Load, A")]
	}
	for _, c := range d.Plan.Circuits {
		load, err := strconv.ParseFloat(loads[c.Panel+"\x00"+c.Name], 64)
		require.NoError(t, err)
		require.InDelta(t, c.Load, load, 0.005000001, c.Name)
	}
	require.Len(t, got["home-runs.csv"], len(d.Plan.Circuits)+1)
}

func TestNamesInTablesAreDisarmed(t *testing.T) {
	names := []string{`=cmd|' /C calc'!A0`, "+1", "-1", "@SUM(A1)", "＝1+1", "a\"b", "a,b"}
	toml := "[site]\nname = \"x\"\nuse = \"commercial\"\n"
	for _, n := range names {
		toml += strings.ReplaceAll("[panels.NAME]\nsystem = \"120/240 V 1ph\"\nmain = \"200 A\"\nspaces = 12\n", "NAME", `"`+strings.ReplaceAll(n, `"`, `\"`)+`"`)
	}
	file := filepath.Join(t.TempDir(), "site.toml")
	require.NoError(t, os.WriteFile(file, []byte(toml), 0o600))
	got, _ := tables(t, file)
	for name, table := range got {
		for _, r := range table {
			for _, f := range r {
				if f == "" {
					continue
				}
				if _, err := strconv.ParseFloat(f, 64); err != nil {
					require.NotContains(t, "=+-@\t\r＝＋－＠", string([]rune(f)[0]), "%s: %q", name, f)
				}
			}
		}
	}
	panels := got["panels.csv"]
	require.Len(t, panels, len(names)+1)
	var written []string
	for _, r := range panels[1:] {
		written = append(written, r[0])
	}
	require.ElementsMatch(t, []string{`'=cmd|' /C calc'!A0`, "'+1", "'-1", "'@SUM(A1)", "'＝1+1", `a"b`, "a,b"}, written)
}

// TestAFolderIsReplacedAsAWholeOrLeftAlone: a second report takes the place of the
// first; what is not a report's is never touched.
func TestAFolderIsReplacedAsAWholeOrLeftAlone(t *testing.T) {
	_, folder := tables(t, site("warehouse"))
	require.FileExists(t, filepath.Join(folder, "feeders.csv"))
	again := func(folder string) (int, string) {
		var said bytes.Buffer
		return cli.Run([]string{"report", site("tent"), "--csv", folder}, nil, io.Discard, &said), said.String()
	}
	status, said := again(folder)
	require.Less(t, status, 2, said)
	require.NoFileExists(t, filepath.Join(folder, "feeders.csv"), "of the first report")
	require.FileExists(t, filepath.Join(folder, "circuits.csv"))

	mine := filepath.Join(folder, "mine.txt")
	require.NoError(t, os.WriteFile(mine, []byte("mine"), 0o600))
	before := read(t, folder)
	status, said = again(folder)
	require.Equal(t, 2, status)
	require.Contains(t, said, `"mine.txt", which no report wrote there`)
	require.Equal(t, before, read(t, folder), "nothing was written")

	foreign := t.TempDir()
	require.NoError(t, os.WriteFile(filepath.Join(foreign, "circuits.csv"), []byte("theirs\n"), 0o600))
	status, _ = again(foreign)
	require.Equal(t, 2, status, "a file of such a name, and no list that a report wrote")

	status, said = again(filepath.Join(mine, "below"))
	require.Equal(t, 2, status, said)
	left, err := filepath.Glob(filepath.Join(filepath.Dir(folder), "*.tmp"))
	require.NoError(t, err)
	require.Empty(t, left)
}
