package judge

import (
	"fmt"
	"strings"

	"branchwork/codes"
)

// open is a set of rules that the same missing fact leaves open.
type open struct {
	rules    []codes.Rule
	facts    *codes.Facts
	verdict  codes.Verdict
	subjects []string // labels
	at       string   // key path of the table that would tell, empty: the subject's own
	says     string
}

// merge turns answers into findings. Broken rules are reported one by one. What
// cannot be told is reported once for each thing that is missing: rules of one
// subject that lack the same thing together, then subjects that lack the same
// entry of another table together, under that table. Nothing is dropped: a
// finding names every rule and counts every subject.
func merge(answers []answer, edition string) []codes.Finding {
	var out []codes.Finding
	var list []*open
	byRule := map[string]*open{}
	for _, a := range answers {
		if a.verdict.State != codes.CannotTell || a.verdict.Says != "" {
			if f := a.rule.Report(a.facts, a.verdict, edition); f != nil {
				out = append(out, *f)
			}
			continue
		}
		o := &open{rules: []codes.Rule{a.rule}, facts: a.facts, verdict: a.verdict, subjects: []string{a.facts.Label}}
		o.says, o.at = a.facts.Missing(a.verdict.Missing)
		key := fmt.Sprint(a.facts.Label, a.rule.Severity, o.says, o.at)
		if have := byRule[key]; have != nil {
			have.rules = append(have.rules, a.rule)
			have.verdict.Missing = union(have.verdict.Missing, a.verdict.Missing)
			continue
		}
		byRule[key] = o
		list = append(list, o)
	}
	for _, o := range bySubject(list) {
		subject, label := o.facts.Subject, o.facts.Label
		if o.at != "" {
			subject, label = o.at, o.where()
		}
		out = append(out, codes.ReportUnsettled(subject, label, o.rules, o.facts, o.verdict, edition))
	}
	return out
}

// bySubject joins what several subjects lack in the same table.
func bySubject(list []*open) []*open {
	var out []*open
	have := map[string]*open{}
	for _, o := range list {
		ids := make([]string, len(o.rules))
		for i, r := range o.rules {
			ids[i] = r.ID
		}
		key := fmt.Sprint(o.at, o.says, ids)
		if first := have[key]; o.at != "" && first != nil {
			first.subjects = append(first.subjects, o.subjects...)
			continue
		}
		have[key] = o
		out = append(out, o)
	}
	return out
}

// named is how many subjects a finding names before it counts the rest.
const named = 4

// where names the table that lacks an entry and the subjects that need it.
func (o *open) where() string {
	list := o.subjects
	rest := ""
	if len(list) > named {
		rest = fmt.Sprintf(" and %d more", len(list)-named)
		list = list[:named]
	}
	return o.at + " (" + strings.Join(list, ", ") + rest + ")"
}

func union(a, b []codes.Fact) []codes.Fact {
	for _, f := range b {
		seen := false
		for _, g := range a {
			seen = seen || f == g
		}
		if !seen {
			a = append(a, f)
		}
	}
	return a
}
