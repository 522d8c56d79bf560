package page

import (
	"testing"

	"github.com/stretchr/testify/require"

	"branchwork/cmd/internal/document"
)

// What is free is a number only where something else may go on the circuit.
func TestFreeAmpsAreOfferedWhereTheyCanBeTaken(t *testing.T) {
	c := document.Circuit{BreakerAmps: known(25), RequiredAmps: known(15.5), FreeAmps: known(7.6)}
	require.Equal(t, "7.60", free(c).Shown())
	c.StandsAlone = true
	require.Equal(t, none, free(c).Shown())
	c.RequiredAmps = known(25.1)
	require.Equal(t, "over", free(c).Shown())
}

// What stands in the wall is not called a plan, nor praised as one.
func TestWhatExistsIsNotCalledPlanned(t *testing.T) {
	d := document.Plan{Circuits: []document.Circuit{{Existing: true}}, Optimality: &document.Optimality{}}
	require.Contains(t, about(d), "nothing is planned")
	require.Empty(t, optimalityBlocks(d))
	d.Circuits = append(d.Circuits, document.Circuit{})
	require.Contains(t, about(d), "planned circuits")
	require.NotEmpty(t, optimalityBlocks(d))
	fed := document.Plan{Circuits: d.Circuits[:1], Panels: []document.Panel{{Feeder: &document.Feeder{}}}}
	require.Contains(t, about(fed), "planned circuits", "its feeder is")
}

// Moving to another circuit is not moving to another outlet.
func TestAnotherCircuitIsExplainedWhereItIsARemedy(t *testing.T) {
	moved := findingBlocks([]document.Finding{{Remedy: "move bar to another circuit"}})
	require.Contains(t, moved, Block(Text{Text: document.AnotherCircuit}))
	require.NotContains(t, findingBlocks([]document.Finding{{Remedy: "add `gfci`"}}), Block(Text{Text: document.AnotherCircuit}))
}
