package steps_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"branchwork/loads/steps"
)

func TestEvaluateWorksAStepOutAgain(t *testing.T) {
	var r steps.Reworker
	in := func(pairs ...any) (out []steps.Input) {
		for i := 0; i < len(pairs); i += 2 {
			out = append(out, steps.Input{Symbol: pairs[i].(string), Value: pairs[i+1].(float64)})
		}
		return out
	}
	for _, row := range []struct {
		formula string
		inputs  []steps.Input
		want    float64
	}{
		{"P / (V · pf)", in("P", 640.0, "V", 240.0, "pf", 0.98), 640 / (240 * 0.98)},
		{"S / (√3 · V)", in("S", 18000.0, "V", 208.0), 49.9630},
		{"√(P · P + Q · Q)", in("P", 3.0, "Q", 4.0), 5},
		{"max(0, measured − predicted)", in("measured", 4.0, "predicted", 5.0), 0},
		{"Σ I", in("a-1", 1.5, "b-2", 2.5), 4},
	} {
		got, err := r.Evaluate(steps.Step{Formula: row.formula, Inputs: row.inputs})
		require.NoError(t, err, row.formula)
		assert.InDelta(t, row.want, got, 5e-5, row.formula)
	}
	_, err := r.Evaluate(steps.Step{})
	assert.ErrorIs(t, err, steps.ErrNoFormula)
	for _, bad := range []string{"P / ", "P / V", "sin(P)", `"P"`, "P & P"} {
		_, err := r.Evaluate(steps.Step{Formula: bad, Inputs: in("P", 1.0)})
		assert.Error(t, err, bad)
	}
	_, ok, err := r.Agrees(steps.Step{Formula: "P + P", Inputs: in("P", 1.0), Result: 3})
	assert.NoError(t, err)
	assert.False(t, ok)
}
