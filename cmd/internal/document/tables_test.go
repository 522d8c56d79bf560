package document

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"branchwork/codes/book"
)

// A row that was read in a reproduction of another edition says which; one of the
// profile's own edition, and one that another source shows too, do not.
func TestARowSaysWhichEditionItsSourceShows(t *testing.T) {
	for _, want := range []struct{ code, table, key, shown string }{
		{"nec-2023", "bundle-adjustment", "6", "2014"},
		{"nec-2023", "ampacity", "12 AWG", "2011"},
		{"nec-2017", "fill", "1", ""},
		{"nec-2023", "grounding", "20 A", ""}, // one source shows no edition
		{"nec-2023", "ambient-correction", "30 C", ""},
	} {
		p, ok := book.Profile(want.code)
		require.True(t, ok)
		found := false
		for _, table := range p.Tables {
			d := NewTable(p, table)
			for _, r := range d.Rows {
				if d.ID == want.table && r.Key == want.key {
					found = true
					assert.Equal(t, want.shown, r.Shown, "%s %s", want.table, want.key)
					if want.shown != "" {
						assert.Contains(t, d.Shown, want.shown)
					}
				}
			}
		}
		assert.True(t, found, "%s %s", want.table, want.key)
	}
}
