package codes

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"branchwork/loads/units"
)

func TestAFindingSaysWhatWhereAndWhatCures(t *testing.T) {
	r, f := within(), subject()
	Put(f, LoadAmps, 12*units.Ampere)
	found := r.Report(f, r.Judge(f), "2023")
	require.NotNil(t, found)
	assert.Equal(t, "circuit x: it carries 12 A of 10 A", found.Message)
	assert.Equal(t, "NEC 2023 1.1", found.Clause())
	assert.Equal(t, "circuits.x", found.Subject)
	assert.Equal(t, "circuits.x.feeds", found.At)
	assert.Equal(t, units.Any{Value: 12, Unit: "A"}, found.Actual)
	assert.True(t, found.Names("ten"))
	assert.False(t, found.Names("eleven"))
}

func TestNothingIsFoundWhereARuleHoldsOrDoesNotExist(t *testing.T) {
	r, f := within(), subject()
	assert.Nil(t, r.Report(f, r.Judge(f), "2023"))
	Put(f, LoadAmps, 12*units.Ampere)
	assert.Nil(t, r.Report(f, r.Judge(f), "2017"), "the edition does not have the rule")
	assert.Nil(t, r.Report(f, NotConcerned(), "2023"))
}

// A rule that forgot its sentence is still reported with its figures.
func TestABrokenRuleWithoutASentenceShowsItsFigures(t *testing.T) {
	r, f := within(), subject()
	found := r.Report(f, Within(12.0, 10.0, "A"), "2023")
	assert.Equal(t, "circuit x: it is not so that the load is 10 A at most: 12 A against 10 A", found.Message)
}

func TestWhatIsMissingIsSaidOnceWithWhatWouldSettleIt(t *testing.T) {
	r, f := within(), subject()
	other := r
	other.ID, other.Title = "eleven", "the conductor is known"
	f.Miss(WireSize, "its conductor is not known", "")
	f.Miss(WireAmps, "its conductor is not known", "")
	v := Unsettled("", "", WireSize, WireAmps)
	found := ReportUnsettled("circuits.x", "circuit x", []Rule{r, other}, f, v, "2023")
	assert.Equal(t, "circuit x: cannot tell whether the load is 10 A at most, nor whether the conductor is known: its conductor is not known", found.Message)
	assert.Equal(t, settledBy[WireSize], found.Remedy, "one reason, one way to settle it")
	assert.Equal(t, []string{"eleven"}, found.Also)
	assert.True(t, found.Names("eleven"))
	assert.Len(t, found.Cites, 1, "a clause that both cite is named once")
	unknown := ReportUnsettled("circuits.x", "circuit x", []Rule{r}, f, Unsettled("", "", StateName), "2023")
	assert.Equal(t, "find out and add it to the file; until then this counts as not passed", unknown.Remedy)
}

func TestTheGravestStandLast(t *testing.T) {
	list := []Finding{
		{Rule: "b", Severity: Violation, Subject: "circuits.LP1-10"},
		{Rule: "a", Severity: Advice, Subject: "circuits.LP1-1"},
		{Rule: "a", Severity: Violation, Subject: "circuits.LP1-10"},
		{Rule: "a", Severity: Violation, Subject: "circuits.LP1-2"},
		{Rule: "a", Severity: Warning, Subject: "circuits.LP1-1"},
	}
	SortFindings(list)
	var got []string
	for _, f := range list {
		got = append(got, f.Severity.String()+" "+f.Subject+" "+f.Rule)
	}
	assert.Equal(t, []string{"advice circuits.LP1-1 a", "warning circuits.LP1-1 a", "violation circuits.LP1-2 a",
		"violation circuits.LP1-10 a", "violation circuits.LP1-10 b"}, got)
}

func TestWhatCannotBeToldDoesNotPass(t *testing.T) {
	assert.True(t, Passed(nil))
	assert.True(t, Passed([]Finding{{Severity: Warning}, {Severity: Advice}}))
	assert.False(t, Passed([]Finding{{Severity: Violation, State: CannotTell}}))
}
