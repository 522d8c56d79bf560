package codes_test

import (
	"bufio"
	"fmt"
	"maps"
	"math"
	"os"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"branchwork/codes"
	"branchwork/codes/cec"
	"branchwork/codes/nec"
)

// TestTablesCopiedTwiceAgree compares tables with a second copy of them, cell by cell
// and row by row: neither has a row or a figure that the other has not.
func TestTablesCopiedTwiceAgree(t *testing.T) {
	for _, family := range []struct {
		file     string
		profiles []*codes.Profile
		tables   []string
	}{
		{"nec/testdata/copied.txt", nec.Profiles(), []string{"ampacity", "ampacity-aluminum", "ambient-correction", "bundle-adjustment", "grounding", "motor-1", "motor-3", "properties"}},
		{"cec/testdata/copied.txt", cec.Profiles(), []string{"ampacity", "ampacity-aluminum", "ambient-correction", "bundle-adjustment", "bonding"}},
	} {
		copies := copied(t, family.file)
		assert.ElementsMatch(t, family.tables, slices.Collect(maps.Keys(copies)), family.file)
		require.NotEmpty(t, family.profiles, family.file)
		for _, p := range family.profiles {
			compared := 0
			for _, x := range p.Tables {
				rows, ok := copies[x.ID]
				if !ok {
					continue
				}
				compared++
				assert.Equal(t, rows["columns"], x.Columns, "%s: %s", p.Name, x.ID)
				for _, r := range x.Rows {
					cells := r.Text
					for _, v := range r.Values {
						cells = append(cells, figure(v))
					}
					want, ok := rows[r.Key]
					if assert.True(t, ok, "%s: %s: the second copy has no row %q", p.Name, x.ID, r.Key) {
						assert.Equal(t, want, cells, "%s: %s: row %q", p.Name, x.ID, r.Key)
					}
				}
				assert.Len(t, rows, len(x.Rows)+1, "%s: %s", p.Name, x.ID)
			}
			assert.Equal(t, len(copies), compared, p.Name)
		}
	}
}

func figure(v float64) string {
	if math.IsNaN(v) {
		return "nan"
	}
	return fmt.Sprint(v)
}

// copied reads "key | cell | cell" under "table | name" and "columns | …".
func copied(t *testing.T, file string) map[string]map[string][]string {
	f, err := os.Open(file)
	require.NoError(t, err)
	defer f.Close()
	out := map[string]map[string][]string{}
	var rows map[string][]string
	s := bufio.NewScanner(f)
	for s.Scan() {
		cells := strings.Split(s.Text(), " | ")
		switch {
		case len(cells) < 2:
			continue
		case cells[0] == "table":
			rows = map[string][]string{}
			out[cells[1]] = rows
			continue
		}
		require.Empty(t, rows[cells[0]], "%s twice", cells[0])
		for _, c := range cells[1:] {
			if v, err := strconv.ParseFloat(c, 64); err == nil {
				c = figure(v)
			}
			rows[cells[0]] = append(rows[cells[0]], c)
		}
	}
	require.NoError(t, s.Err(), file)
	return out
}
