package page

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"branchwork/cmd/internal/document"
)

// What a circuit carries, what it requires, its breaker and its poles stand in the
// columns that are headed so; a current of milliamperes is not printed as none.
func TestFiguresOfACircuitStandInTheirColumns(t *testing.T) {
	breaker := 20.0
	c := document.Circuit{Name: "LP1-1", Panel: "LP1", Spaces: []int{1, 3}, Legs: []string{"A", "B"}, Poles: 2, Volts: 240,
		BreakerAmps: &breaker, LoadAmps: known(13.61), RequiredAmps: known(17.01), FreeAmps: known(0.04)}
	cells := circuitRow(c, System{})
	got := map[string]string{}
	for i, col := range circuitTable(document.Plan{}, System{}).Columns {
		got[col.Head()] = cells[i].Data()
	}
	for head, want := range map[string]string{"load A": "13.61", "required A": "17.01", "breaker A/poles": "20/2", "breaker A": "20", "poles": "2", "legs": "A-B",
		"volts": "240", "free A": "0.04"} {
		assert.Equal(t, want, got[head], head)
	}
}
