// Package steps records a calculation while it runs: name, formula, the numbers
// put in, the result and where the formula comes from. What is printed as
// working is what was computed; nothing is computed again for display.
//
// Formulas and clauses cite a source by its key in references.toml, the one
// list of sources of the program.
package steps

import "branchwork/loads/units"

// Step is one line of working.
type Step struct {
	Name    string  // what is computed, in the trade's words
	Formula string  // in symbols: "P / (V · pf)"
	Inputs  []Input // the numbers put in, in the order of the formula
	Result  float64
	Unit    string // "A", "%", "AWG"
	Text    string // the result where it is not a number: "12 AWG", "Broken"
	Cite    Cite
	Note    string // what was chosen and why, where a choice was made
}

// Input is one number put into a formula.
type Input struct {
	Symbol string
	Value  float64
	Unit   string
}

// Work collects steps. A nil *Work records nothing, so that calculating code
// need not ask whether anybody is listening.
type Work struct {
	steps []Step
}

// Add records a step.
func (w *Work) Add(s Step) {
	if w != nil {
		w.steps = append(w.steps, s)
	}
}

// Steps returns what was recorded, in order.
func (w *Work) Steps() []Step {
	if w == nil {
		return nil
	}
	return w.steps
}

// In returns an input of a formula. The symbol is the formula's.
func In[T ~float64](symbol string, value T, unit string) Input {
	return Input{symbol, float64(value), unit}
}

// Result returns a step with a numeric result.
func Result[T ~float64](name, formula string, result T, unit string, cite Cite, in ...Input) Step {
	return Step{Name: name, Formula: formula, Inputs: in, Result: float64(result), Unit: unit, Cite: cite}
}

// Choice returns a step that chose something by name: a size, a rating, a verdict.
func Choice(name, chosen, why string, cite Cite, in ...Input) Step {
	return Step{Name: name, Text: chosen, Note: why, Cite: cite, Inputs: in}
}

// Any returns the result as a quantity with its unit.
func (s Step) Any() units.Any { return units.Any{Value: s.Result, Unit: s.Unit} }
