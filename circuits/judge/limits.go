package judge

import (
	"sort"

	"branchwork/circuits"
	"branchwork/codes"
	"branchwork/loads/steps"
)

// limits lists the upper limits of a circuit by the share of each that is used,
// the binding one first. Of a rule asked about several loads the fullest counts;
// of limits equally full the one whose rule stands first in the profile.
func limits(answers []answer, order []codes.Rule, edition string) []circuits.Limit {
	at := map[string]int{}
	for i, r := range order {
		at[r.ID] = i
	}
	best := map[string]circuits.Limit{}
	for _, a := range answers {
		share, ok := a.verdict.Share()
		if !a.rule.Bounds || !ok {
			continue
		}
		if old, seen := best[a.rule.ID]; !seen || share > old.Share {
			cites, _ := a.rule.In(edition)
			best[a.rule.ID] = circuits.Limit{Rule: a.rule.ID, Title: a.rule.Title,
				Actual: a.verdict.Actual, Limit: a.verdict.Limit, Share: share,
				Cites: append(append([]steps.Cite{}, cites...), a.verdict.Rests...)}
		}
	}
	out := make([]circuits.Limit, 0, len(best))
	for _, l := range best {
		out = append(out, l)
	}
	sort.Slice(out, func(i, j int) bool {
		if out[i].Share != out[j].Share {
			return out[i].Share > out[j].Share
		}
		return at[out[i].Rule] < at[out[j].Rule]
	})
	return out
}
