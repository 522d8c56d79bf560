package judge

import (
	"sort"

	"branchwork/circuits"
	"branchwork/codes"
	"branchwork/loads/steps"
	"branchwork/loads/units"
)

// limits gathers the upper limits of a circuit. Of a rule asked about several
// loads the fullest counts.
type limits struct {
	of []answer // by rule
	by []float64
}

func (l *limits) add(a answer) {
	share, ok := a.verdict.Share()
	if !a.rule.Bounds || !ok {
		return
	}
	for i := range l.of {
		if l.of[i].rule.ID == a.rule.ID {
			if share > l.by[i] {
				l.of[i], l.by[i] = a, share
			}
			return
		}
	}
	l.of, l.by = append(l.of, a), append(l.by, share)
}

// sorted lists the limits by the share of each that is used, the binding one
// first; of limits equally full the one whose rule stands first in the profile.
// What is only advised hides no limit that is passed: it stands behind those.
func (l *limits) sorted(order []codes.Rule, edition string) []circuits.Limit {
	at := map[string]int{}
	for i := range order {
		at[order[i].ID] = i
	}
	passed := func(l circuits.Limit) bool {
		return order[at[l.Rule]].Severity != codes.Advice && units.Exceeds(l.Share, 1)
	}
	out := make([]circuits.Limit, 0, len(l.of))
	for i, a := range l.of {
		cites, _ := a.rule.In(edition)
		out = append(out, circuits.Limit{Rule: a.rule.ID, Title: a.rule.Title,
			Actual: a.verdict.Actual, Limit: a.verdict.Limit, Share: l.by[i],
			Cites: append(append([]steps.Cite{}, cites...), a.verdict.Rests...)})
	}
	sort.Slice(out, func(i, j int) bool {
		if passed(out[i]) != passed(out[j]) {
			return passed(out[i])
		}
		if out[i].Share != out[j].Share {
			return out[i].Share > out[j].Share
		}
		return at[out[i].Rule] < at[out[j].Rule]
	})
	return out
}
