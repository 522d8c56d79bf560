package steps_test

import (
	"reflect"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"branchwork/codes/book"
	"branchwork/loads/steps"
	"branchwork/loads/units"
)

func TestCiteIsPrintedAsTheTradeWritesIt(t *testing.T) {
	for _, row := range []struct {
		cite steps.Cite
		want string
	}{
		{steps.Cite{}, ""},
		{steps.Cite{Edition: "2023", At: "210.20(A)"}, ""}, // a place in no source is no cite
		{steps.Cite{Ref: "nfpa70"}, "NEC"},
		{steps.Cite{Ref: "nfpa70", Edition: "2023"}, "NEC 2023"},
		{steps.Cite{Ref: "nfpa70", At: "210.20(A)"}, "NEC 210.20(A)"},
		{steps.Cite{Ref: "nfpa70", Edition: "2023", At: "210.20(A)", How: steps.Seen}, "NEC 2023 210.20(A)"},
		{steps.Cite{Ref: "nfpa70", Edition: "2023", At: "450.3(B)", How: steps.Recalled}, "NEC 2023 450.3(B) (from memory)"},
		{steps.Cite{Ref: "sp811", How: steps.Derived}, "NIST SP 811"},
		{steps.Cite{Ref: "unlisted", At: "p. 3"}, "unlisted p. 3"},
		{steps.CommonPractice, "common practice, no source"},
	} {
		assert.Equal(t, row.want, row.cite.String(), "%#v", row.cite)
	}
}

func TestHowIsSaidInWords(t *testing.T) {
	for how, want := range map[steps.How]string{steps.Seen: "seen in a source", steps.Recalled: "from memory", steps.Derived: "computed",
		steps.Practice: "common practice, no source", "": "unknown", "guessed": "unknown"} {
		assert.Equal(t, want, how.String())
	}
}

// citesOf calls visit for every cite that can be reached from a value.
func citesOf(v reflect.Value, visit func(steps.Cite)) {
	switch v.Kind() {
	case reflect.Struct:
		if c, ok := v.Interface().(steps.Cite); ok {
			visit(c)
			return
		}
		for i := range v.NumField() {
			if v.Type().Field(i).IsExported() {
				citesOf(v.Field(i), visit)
			}
		}
	case reflect.Slice:
		for i := range v.Len() {
			citesOf(v.Index(i), visit)
		}
	case reflect.Map:
		for _, k := range v.MapKeys() {
			citesOf(v.MapIndex(k), visit)
		}
	case reflect.Pointer:
		if !v.IsNil() {
			citesOf(v.Elem(), visit)
		}
	}
}

// Every cite of every edition, of rules and of values alike, names a listed
// source and says how it was checked.
func TestEveryCiteOfAProfileNamesAListedSource(t *testing.T) {
	for _, p := range book.All() {
		n := 0
		citesOf(reflect.ValueOf(p), func(c steps.Cite) {
			if c == (steps.Cite{}) {
				return // a rule that the edition does not have
			}
			n++
			_, ok := steps.Lookup(c.Ref)
			assert.True(t, ok, "%s: %#v", p.Name, c)
			assert.Contains(t, []steps.How{steps.Seen, steps.Recalled, steps.Derived, steps.Practice}, c.How, "%s: %s", p.Name, c)
		})
		assert.Greater(t, n, 20, p.Name)
		for _, table := range p.Tables {
			_, ok := steps.Lookup(table.Ref)
			assert.True(t, ok, "%s: %s", p.Name, table.ID)
		}
		for _, r := range p.Rules {
			cites, _ := r.In(p.Edition)
			for _, c := range cites {
				assert.Contains(t, []string{p.Edition, ""}, c.Edition, "%s: rule %s cites another edition", p.Name, r.ID)
			}
		}
	}
}

func TestWorkKeepsItsStepsInOrder(t *testing.T) {
	var w steps.Work
	w.Add(steps.Result("current", "P / (V · pf)", 2.5*units.Ampere, "A", steps.Cite{Ref: "sp811"},
		steps.In("P", 600*units.Watt, "W"), steps.In("V", 240*units.Volt, "V"), steps.In("pf", 1.0, "")))
	w.Add(steps.Choice("conductor", "12 AWG", "the smallest that carries it", steps.CommonPractice))
	list := w.Steps()
	require.Len(t, list, 2)
	assert.Equal(t, []steps.Input{{Symbol: "P", Value: 600, Unit: "W"}, {Symbol: "V", Value: 240, Unit: "V"}, {Symbol: "pf", Value: 1}}, list[0].Inputs)
	assert.Equal(t, units.Any{Value: 2.5, Unit: "A"}, list[0].Any())
	assert.Equal(t, "12 AWG", list[1].Text)
	assert.Equal(t, "the smallest that carries it", list[1].Note)
}

// Calculating code need not ask whether anybody is listening.
func TestNobodyListeningRecordsNothing(t *testing.T) {
	var w *steps.Work
	w.Add(steps.Choice("conductor", "12 AWG", "", steps.CommonPractice))
	assert.Nil(t, w.Steps())
}
