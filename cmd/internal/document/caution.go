package document

import (
	"fmt"
	"slices"
	"strings"

	"branchwork/codes"
)

// Caution closes every answer that a person might build from.
const Caution = "This is a planning aid. It does not replace the code adopted where the site stands, its local amendments, " +
	"the permit and its inspection, or a licensed electrician, who reviews a plan before any of it is built."

// NewVerdict counts the findings and says in one line what that means.
func NewVerdict(findings []codes.Finding, p *codes.Profile) Verdict {
	var v Verdict
	for _, f := range findings {
		switch {
		case f.Severity == codes.Violation && f.State == codes.CannotTell:
			v.CannotTell++
		case f.Severity == codes.Violation:
			v.Violations++
			if practice(p, f.Rule) {
				v.Practice++
			}
		case f.Severity == codes.Warning:
			v.Warnings++
		default:
			v.Advice++
		}
	}
	if !codes.Passed(findings) {
		v.ExitStatus = 1
	}
	v.Says = says(v, p.Title)
	return v
}

func says(v Verdict, code string) string {
	var parts []string
	if n := v.Violations - v.Practice; n > 0 {
		parts = append(parts, count(n, "rule of "+code+" is broken", "rules of "+code+" are broken"))
	}
	if v.Practice > 0 {
		parts = append(parts, count(v.Practice, "rule of good practice is broken", "rules of good practice are broken"))
	}
	if v.CannotTell > 0 {
		parts = append(parts, count(v.CannotTell, "cannot be told until a missing fact is known", "cannot be told until missing facts are known"))
	}
	if len(parts) == 0 {
		parts = append(parts, "no rule of "+code+" that was checked is broken")
	}
	if v.Warnings > 0 {
		parts = append(parts, count(v.Warnings, "warning", "warnings"))
	}
	if v.Advice > 0 {
		parts = append(parts, count(v.Advice, "piece of advice", "pieces of advice"))
	}
	return strings.Join(parts, "; ")
}

// practice reports whether a rule is of good practice and has no clause of the code.
func practice(p *codes.Profile, rule string) bool {
	return slices.ContainsFunc(p.Rules, func(r codes.Rule) bool { return r.ID == rule && r.Clauses[""] != nil })
}

func count(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, many)
}

func checked(p *codes.Profile) Checked {
	c := Checked{CodeTitle: p.Title, NotCovered: list(p.NotCovered), Caution: Caution}
	for _, r := range p.Rules {
		if _, ok := r.In(p.Edition); ok && r.Retired == "" {
			c.Rules++
			if practice(p, r.ID) {
				c.Practice++
			}
		}
	}
	return c
}
