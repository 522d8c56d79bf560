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

// AnotherCircuit says what a remedy means by it.
const AnotherCircuit = "Another circuit is an outlet behind another breaker. Outlets of one room are usually behind the same one: switch it off and see which go dead."

// NewVerdict counts the findings and says in one line what that means.
func NewVerdict(findings []codes.Finding, p *codes.Profile) Verdict {
	var v Verdict
	open := untold{rules: map[string]bool{}}
	for _, f := range findings {
		open.add(f, p)
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
	v.Says = says(v, open, p.Title)
	return v
}

// untold counts what missing facts leave open.
type untold struct {
	rules            map[string]bool // that the code or practice demands
	warnings, advice int
}

func (u *untold) add(f codes.Finding, p *codes.Profile) {
	switch {
	case f.State != codes.CannotTell:
	case f.Severity == codes.Violation:
		u.rules[f.Rule] = true
		for _, r := range p.Rules {
			if r.Severity == codes.Violation && f.Names(r.ID) {
				u.rules[r.ID] = true
			}
		}
	case f.Severity == codes.Warning:
		u.warnings++
	default:
		u.advice++
	}
}

func says(v Verdict, open untold, code string) string {
	var parts []string
	if n := v.Violations - v.Practice; n > 0 {
		parts = append(parts, count(n, "rule of "+code+" is broken", "rules of "+code+" are broken"))
	}
	if v.Practice > 0 {
		parts = append(parts, count(v.Practice, "rule of good practice is broken", "rules of good practice are broken"))
	}
	if v.CannotTell > 0 {
		parts = append(parts, count(v.CannotTell, "fact is missing", "facts are missing")+": "+count(len(open.rules), "rule cannot be told and counts as not met", "rules cannot be told and count as not met"))
	}
	if len(parts) == 0 {
		parts = append(parts, "no rule of "+code+" that was checked is broken")
	}
	if v.Warnings > 0 {
		parts = append(parts, count(v.Warnings, "warning", "warnings")+openOf(open.warnings, v.Warnings))
	}
	if v.Advice > 0 {
		parts = append(parts, count(v.Advice, "piece of advice", "pieces of advice")+openOf(open.advice, v.Advice))
	}
	return strings.Join(parts, "; ")
}

// practice reports whether a rule is of good practice and has no clause of the code.
func practice(p *codes.Profile, rule string) bool {
	return slices.ContainsFunc(p.Rules, func(r codes.Rule) bool { return r.ID == rule && r.Clauses[""] != nil })
}

// openOf says how many of some findings a missing fact leaves open.
func openOf(n, of int) string {
	switch {
	case n == 0:
		return ""
	case of == 1:
		return " that cannot be told: a fact is missing"
	case n == of:
		return " that cannot be told: facts are missing"
	}
	return fmt.Sprintf(", %d of them cannot be told", n)
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
