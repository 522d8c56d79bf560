package steps

import (
	"errors"
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"math"
	"strconv"
	"strings"
)

// Formulas of steps are written in a small language, so that a figure can be
// worked out again from what is printed beside it: numbers, the symbols of the
// inputs, + − · /, √, min and max, and "Σ name", the sum of all inputs.

// ErrNoFormula is a step that states a value, or a choice, without computing it.
var ErrNoFormula = errors.New("no formula")

// Reworker evaluates steps, keeping the formulas it has read.
type Reworker struct {
	read map[string]ast.Expr
}

// Evaluate computes a step's result from its formula and inputs alone. It
// returns ErrNoFormula for a step without a formula, and an error for a formula
// that is not in the language or names an input that is not there.
func (r *Reworker) Evaluate(s Step) (float64, error) {
	if s.Formula == "" {
		return 0, ErrNoFormula
	}
	if strings.HasPrefix(s.Formula, "Σ") {
		sum := 0.0
		for _, i := range s.Inputs {
			sum += i.Value
		}
		return sum, nil
	}
	e, err := r.parse(s.Formula)
	if err != nil {
		return 0, fmt.Errorf("%q: %w", s.Formula, err)
	}
	in := make(map[string]float64, len(s.Inputs))
	for _, i := range s.Inputs {
		in[i.Symbol] = i.Value
	}
	return value(e, in)
}

// Agrees reports whether a step's result is what its formula gives. A step
// without a formula agrees with itself.
func (r *Reworker) Agrees(s Step) (got float64, ok bool, err error) {
	got, err = r.Evaluate(s)
	if errors.Is(err, ErrNoFormula) {
		return s.Result, true, nil
	}
	return got, err == nil && math.Abs(got-s.Result) <= 1e-9*math.Max(1, math.Abs(s.Result)), err
}

func (r *Reworker) parse(formula string) (ast.Expr, error) {
	if e, ok := r.read[formula]; ok {
		return e, nil
	}
	text := strings.NewReplacer("·", "*", "−", "-", "√(", "sqrt(", "√3", "sqrt(3)").Replace(formula)
	e, err := parser.ParseExpr(text)
	if err != nil {
		return nil, err
	}
	if r.read == nil {
		r.read = map[string]ast.Expr{}
	}
	r.read[formula] = e
	return e, nil
}

func value(e ast.Expr, in map[string]float64) (float64, error) {
	switch e := e.(type) {
	case *ast.ParenExpr:
		return value(e.X, in)
	case *ast.BasicLit:
		return strconv.ParseFloat(e.Value, 64)
	case *ast.Ident:
		v, ok := in[e.Name]
		if !ok {
			return 0, fmt.Errorf("no input %q", e.Name)
		}
		return v, nil
	case *ast.CallExpr:
		return call(e, in)
	case *ast.BinaryExpr:
		x, err := value(e.X, in)
		if err != nil {
			return 0, err
		}
		y, err := value(e.Y, in)
		switch e.Op {
		case token.ADD:
			return x + y, err
		case token.SUB:
			return x - y, err
		case token.MUL:
			return x * y, err
		case token.QUO:
			return x / y, err
		}
	}
	return 0, fmt.Errorf("%T does not belong in a formula", e)
}

func call(e *ast.CallExpr, in map[string]float64) (float64, error) {
	name, ok := e.Fun.(*ast.Ident)
	if !ok || len(e.Args) == 0 {
		return 0, errors.New("not a function of a formula")
	}
	var args []float64
	for _, a := range e.Args {
		v, err := value(a, in)
		if err != nil {
			return 0, err
		}
		args = append(args, v)
	}
	out := args[0]
	switch name.Name {
	case "sqrt":
		return math.Sqrt(out), nil
	case "min":
		for _, v := range args[1:] {
			out = math.Min(out, v)
		}
		return out, nil
	case "max":
		for _, v := range args[1:] {
			out = math.Max(out, v)
		}
		return out, nil
	}
	return 0, fmt.Errorf("no function %q", name.Name)
}
