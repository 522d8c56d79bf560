package document

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"branchwork/codes/book"
)

// What the page of evidence adds up is what stands in the files: every case once,
// every subject with its cases, and what rests on memory as the tables say.
func TestEvidenceAddsUp(t *testing.T) {
	for _, p := range book.All() {
		d := NewEvidence(p)
		require.NoError(t, check(t, "evidence", d), p.Name)
		cases, figures, sourced := 0, 0, 0
		for _, s := range d.Subjects {
			cases += s.Cases
			figures += s.Figures
			assert.Equal(t, s.Cases, s.Published+s.Worked+s.Practice+s.Memory, s.Name)
			assert.LessOrEqual(t, s.Of, 1.0001, "%s: within its tolerance", s.Name)
			one, ok := NewEvidenceCases(s.Name)
			require.True(t, ok, s.Name)
			require.NoError(t, check(t, "evidence-cases", one), s.Name)
			assert.Len(t, one.Cases, s.Cases, s.Name)
			computed := 0
			for _, c := range one.Cases {
				if len(c.Figures) > 0 {
					computed++
				}
			}
			assert.Equal(t, s.Computed, computed, s.Name)
		}
		for _, s := range d.Sources {
			sourced += s.Cases
		}
		assert.Equal(t, []int{d.Counts.Cases, d.Counts.Cases, d.Counts.Figures}, []int{cases, sourced, figures})
		assert.Equal(t, d.Counts.Cases, d.Counts.Computed+d.Counts.NotComputed)
		for _, c := range d.Compared {
			assert.LessOrEqual(t, c.Worst, c.Most, "%s with %s", c.What, c.Tool)
			assert.Positive(t, c.Cases)
		}
		memory := 0
		for _, x := range NewTables(p).Tables {
			memory += x.Checked["from memory"]
		}
		assert.Equal(t, memory, d.Memory.RowCount, p.Name)
		for _, r := range d.Memory.Rules {
			found := false
			for _, x := range p.Rules {
				if x.ID == r.ID {
					for _, c := range NewRule(p, x).Clauses {
						found = found || c.Checked == "from memory" && strings.HasPrefix(c.At, r.Clauses[0])
					}
				}
			}
			assert.True(t, found, "%s: %s", p.Name, r.ID)
		}
	}
	_, ok := NewEvidenceCases("nothing")
	assert.False(t, ok)
}
