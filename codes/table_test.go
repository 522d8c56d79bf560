package codes_test

import (
	"math"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"branchwork/codes"
	"branchwork/loads/steps"
	"branchwork/loads/units"
)

// sound is an invented table that holds together.
const sound = `[[table]]
id = "ampacity"
title = "Ampacity of invented wire"
ref = "nfpa70"
at = { all = "Table 1", 2017 = "Table 0" }
rows = "size"
columns = ["60 C", "75 C"]
unit = "A"
lookup = "exact"
row = [
  { key = "12", values = [20, 25], how = "seen", from = ["practice"] },
  { key = "10", values = [30, nan], how = "recalled" },
  { key = "8", values = [40, 50], how = "derived", from = ["practice"], editions = ["2023"] },
]
`

func readTable(text string) ([]codes.Table, error) {
	return codes.ReadTables(fstest.MapFS{"b.toml": {Data: []byte(text)}})
}

func soundTable(t *testing.T) codes.Table {
	list, err := readTable(sound)
	require.NoError(t, err)
	require.Len(t, list, 1)
	return list[0]
}

// Each row breaks the sound table in one place.
func TestBrokenTablesAreRefused(t *testing.T) {
	for _, row := range []struct{ why, old, broken, says string }{
		{"no id", `id = "ampacity"`, ``, "id, title, ref, columns and lookup are needed"},
		{"no title", `title = "Ampacity of invented wire"`, ``, "id, title, ref, columns and lookup are needed"},
		{"no source", `ref = "nfpa70"`, ``, "id, title, ref, columns and lookup are needed"},
		{"no columns", `columns = ["60 C", "75 C"]`, ``, "id, title, ref, columns and lookup are needed"},
		{"no direction of lookup", `lookup = "exact"`, ``, "id, title, ref, columns and lookup are needed"},
		{"a source that is not listed", `ref = "nfpa70"`, `ref = "hearsay"`, `table "ampacity": no reference "hearsay"`},
		{"a cell too few", `values = [20, 25]`, `values = [20]`, `table "ampacity", row "12": 1 cells for 2 columns`},
		{"a cell too many", `values = [20, 25]`, `values = [20, 25, 30]`, `row "12": 3 cells for 2 columns`},
		{"numbers and words in one row", `values = [20, 25]`, `values = [20, 25], text = ["20 A", "25 A"]`, `row "12": 4 cells for 2 columns`},
		{"a row not said how it was checked", `values = [20, 25], how = "seen"`, `values = [20, 25]`, `row "12": how it was checked is missing`},
		{"a row checked in an unknown way", `how = "seen"`, `how = "guessed"`, `row "12": how it was checked is missing`},
		{"a row seen nowhere", `how = "seen", from = ["practice"]`, `how = "seen"`, `row "12": no source`},
		{"a row derived from nothing", `how = "derived", from = ["practice"]`, `how = "derived"`, `row "8": no source`},
		{"a row of practice without its mark", `how = "seen", from = ["practice"]`, `how = "practice"`, `row "12": no source`},
		{"a row from a source that is not listed", `how = "seen", from = ["practice"]`, `how = "seen", from = ["practice", "hearsay"]`, `row "12": no reference "hearsay"`},
		{"an unknown key of a table", `unit = "A"`, `unti = "A"`, "unknown key table.unti"},
		{"an unknown key of a row", `editions = ["2023"]`, `edition = ["2023"]`, "unknown key table.row.edition"},
		{"no TOML", `unit = "A"`, `unit = A`, "b.toml"},
	} {
		broken := strings.Replace(sound, row.old, row.broken, 1)
		require.NotEqual(t, sound, broken, row.why)
		list, err := readTable(broken)
		if assert.ErrorContains(t, err, row.says, row.why) {
			assert.ErrorContains(t, err, "b.toml", "%s: the file is named", row.why)
		}
		assert.Empty(t, list, row.why)
	}
}

func TestOneBrokenFileStopsAll(t *testing.T) {
	_, err := codes.ReadTables(fstest.MapFS{"a.toml": {Data: []byte(sound)}, "b.toml": {Data: []byte("[[table]]\n")}})
	assert.ErrorContains(t, err, "b.toml")
	list, err := codes.ReadTables(fstest.MapFS{"a.toml": {Data: []byte(sound)}, "notes.txt": {Data: []byte("[[table]]\n")}})
	require.NoError(t, err)
	assert.Len(t, list, 1, "only tables are read")
}

// A value is found by its exact row and column or not at all; a hole in a table
// is not a zero.
func TestAValueThatIsNotThereIsNotZero(t *testing.T) {
	table := soundTable(t)
	v, how, ok := table.Value("12", "75 C")
	assert.True(t, ok)
	assert.InDelta(t, 25, v, 0)
	assert.Equal(t, steps.Seen, how)
	for _, at := range [][2]string{{"10", "75 C"}, {"11", "75 C"}, {"12", "90 C"}, {"", ""}} {
		_, _, ok = table.Value(at[0], at[1])
		assert.False(t, ok, "%v", at)
	}
	assert.True(t, math.IsNaN(table.Rows[1].Values[1]))
}

func TestATableIsCitedAsItStandsInAnEdition(t *testing.T) {
	table := soundTable(t)
	assert.Equal(t, steps.Cite{Ref: "nfpa70", Edition: "2023", At: "Table 1", How: steps.Seen}, table.Cite("2023", steps.Seen))
	assert.Equal(t, steps.Cite{Ref: "nfpa70", Edition: "2017", At: "Table 0", How: steps.Recalled}, table.Cite("2017", steps.Recalled))
	table.At = nil
	assert.Empty(t, table.Cite("2017", steps.Seen).Edition, "without a place there is no edition to point into")
}

func TestRowsOfOtherEditionsAreLeftOut(t *testing.T) {
	table := soundTable(t)
	assert.Len(t, table.In("2023").Rows, 3)
	assert.Len(t, table.In("2020").Rows, 2)
	_, _, ok := table.In("2020").Value("8", "60 C")
	assert.False(t, ok)
	assert.Len(t, table.Rows, 3, "the table itself keeps its rows")
}

// Bands are read upwards, to the row whose end is not below: the safe side, since
// factors fall. Beyond the last row there is no factor, not the last one.
func TestBandsAreReadOnTheSafeSide(t *testing.T) {
	list, err := readTable(`[[table]]
id = "bands"
title = "Correction of invented wire"
ref = "practice"
columns = ["90 C"]
lookup = "next-up"
row = [
  { key = "30 C", values = [1], how = "recalled" },
  { key = "35 C", values = [0.96], how = "recalled" },
  { key = "40 C", values = [0.91], how = "recalled" },
]
`)
	require.NoError(t, err)
	w := codes.Wires{Ambient: list[0]}
	for _, row := range []struct{ ambient, factor float64 }{{-10, 1}, {30, 1}, {30.1, 0.96}, {35, 0.96}, {36, 0.91}, {40, 0.91}} {
		f, _, ok := w.AmbientFactor(90, units.Temperature(row.ambient))
		assert.True(t, ok)
		assert.InDelta(t, row.factor, float64(f), 0, "at %v °C", row.ambient)
	}
	_, _, ok := w.AmbientFactor(90, 40.1)
	assert.False(t, ok, "beyond the table the conductor may not be used")
	_, _, ok = w.AmbientFactor(75, 30)
	assert.False(t, ok, "a rating that the table does not have")
}
