package document

import (
	"math"
	"regexp"
	"slices"
	"strings"
	"sync"

	"branchwork/loads/steps"
	"branchwork/loads/units"
)

// Working returns recorded steps as they are shown.
func Working(all []steps.Step) []Worked {
	out := []Worked{}
	for _, s := range all {
		out = append(out, worked(s))
	}
	return out
}

func worked(s steps.Step) Worked {
	w := Worked{Name: s.Name, Formula: s.Formula, Inputs: []Operand{}, Text: s.Text, Note: s.Note, Source: s.Cite.String(), Line: line(s)}
	if s.Cite.Ref != "" {
		w.Checked = s.Cite.How.String()
	}
	for _, in := range s.Inputs {
		w.Inputs = append(w.Inputs, Operand(in))
	}
	if s.Text == "" {
		w.Result, w.Unit = number(s.Result), s.Unit
	}
	return w
}

// line writes a step as an engineer does:
//
//	current of one unit: P / (V · pf) = 640 W / (240 V · 0.98) = 2.72109 A
func line(s steps.Step) string {
	result := s.Text
	if result == "" {
		result = quantity(s.Result, s.Unit)
	}
	numbers, rest := substitute(s.Formula, s.Inputs)
	b := s.Name + ": "
	switch {
	case s.Formula != "" && numbers != s.Formula:
		b += s.Formula + " = " + numbers + " = " + result
	case s.Formula != "":
		b += s.Formula + " = " + result
	default:
		b += result
	}
	if len(rest) > 0 {
		b += ", with " + strings.Join(rest, ", ")
	}
	return b
}

// symbols are the words of a formula that can be a symbol of its inputs.
var symbols = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`[\p{L}_][\p{L}\p{N}_′]*`) })

// substitute puts the inputs into the formula in place of their symbols, and
// returns those that have no place there. A formula that would keep a symbol of
// its own, as a sum over many loads does, stays as it is: half in symbols and
// half in numbers nobody could work it again.
func substitute(formula string, inputs []steps.Input) (numbers string, rest []string) {
	values := map[string]string{}
	for _, in := range inputs {
		values[in.Symbol] = quantity(in.Value, in.Unit)
	}
	whole := len(values) == len(inputs)
	used := map[string]bool{}
	numbers = symbols().ReplaceAllStringFunc(formula, func(word string) string {
		v, ok := values[word]
		if !ok {
			whole = whole && function(word)
			return word
		}
		used[word] = true
		return v
	})
	if !whole {
		numbers, used = formula, nil
	}
	for _, in := range inputs {
		if !used[in.Symbol] {
			rest = append(rest, in.Symbol+" = "+quantity(in.Value, in.Unit))
		}
	}
	return numbers, rest
}

// function reports whether a word of a formula is a function, not a symbol.
func function(word string) bool {
	return slices.Contains([]string{"min", "max", "sqrt", "cos", "sin", "floor", "ceil"}, word)
}

// shownDigits is how many significant digits a figure of the working keeps:
// enough that a reader who works it again meets the same result.
const shownDigits = 6

func quantity(x float64, unit string) string {
	s := significant(x)
	if unit == "" {
		return s
	}
	return s + " " + unit
}

// significant prints a number with shownDigits significant digits, whole
// numbers whole.
func significant(x float64) string {
	if x == 0 || math.IsInf(x, 0) || math.IsNaN(x) {
		return units.Round(x, 0)
	}
	magnitude := int(math.Floor(math.Log10(math.Abs(x)))) + 1
	return units.Round(x, max(0, min(12, shownDigits-magnitude)))
}
