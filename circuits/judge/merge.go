package judge

import (
	"fmt"
	"slices"
	"strings"

	"branchwork/codes"
)

// open is a set of rules that the same missing fact leaves open.
type open struct {
	rules    []codes.Rule // the gravest first
	facts    *codes.Facts
	verdict  codes.Verdict
	subjects []string // labels, in the order in which they were judged
	judged   []string // their key paths
	at       string   // key path of the table that would tell, empty: the subject's own
	says     string
}

// merge turns answers into findings. Broken rules are reported one by one. What
// cannot be told is reported once for each thing that is missing: rules of one
// subject that lack the same thing together, then subjects that lack the same
// entry of another table together, under that table. Nothing is dropped: a
// finding names every rule and counts every subject, and is as grave as the
// gravest of its rules.
func merge(answers []answer, edition string) []codes.Finding {
	var out []codes.Finding
	var list []*open
	have := map[string]*open{}
	for _, a := range answers {
		if a.verdict.State != codes.CannotTell || a.verdict.Says != "" {
			if f := a.rule.Report(a.facts, a.verdict, edition); f != nil {
				out = append(out, *f)
			}
			continue
		}
		o := &open{rules: []codes.Rule{*a.rule}, facts: a.facts, verdict: a.verdict, subjects: []string{a.facts.Label}, judged: []string{a.facts.Subject}}
		o.says, o.at = a.facts.Missing(a.verdict.Missing)
		key := fmt.Sprint(a.facts.Subject, o.says, o.at)
		if first := have[key]; first != nil {
			first.add(o)
			continue
		}
		have[key] = o
		list = append(list, o)
	}
	for _, o := range bySubject(list) {
		subject, label := o.facts.Subject, o.subjects[0]
		switch {
		case o.at != "":
			subject, label = o.at, o.at+" ("+o.named()+")"
		case len(o.subjects) > 1 && !o.within(label):
			label = o.named()
		}
		f := codes.ReportUnsettled(subject, label, o.rules, o.facts, o.verdict, edition)
		f.Judged = o.judged
		out = append(out, f)
	}
	return out
}

// add joins what another rule or subject lacks for the same reason.
func (o *open) add(other *open) {
	for _, r := range other.rules {
		if !slices.ContainsFunc(o.rules, func(x codes.Rule) bool { return x.ID == r.ID }) {
			o.rules = append(o.rules, r)
		}
	}
	slices.SortStableFunc(o.rules, func(a, b codes.Rule) int { return int(a.WhenUntold()) - int(b.WhenUntold()) })
	o.verdict.Missing = union(o.verdict.Missing, other.verdict.Missing)
	o.subjects = union(o.subjects, other.subjects)
	o.judged = union(o.judged, other.judged)
}

// union appends what a list does not have, each once.
func union[T comparable](list, more []T) []T {
	for _, x := range more {
		if !slices.Contains(list, x) {
			list = append(list, x)
		}
	}
	return list
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
			first.add(o)
			continue
		}
		have[key] = o
		out = append(out, o)
	}
	return out
}

// within reports whether all that lack the same thing are a circuit and loads on it.
func (o *open) within(circuit string) bool {
	for _, s := range o.subjects[1:] {
		if !strings.HasSuffix(s, " on "+circuit) {
			return false
		}
	}
	return true
}

// mostNamed is how many subjects a finding names before it counts the rest.
const mostNamed = 4

// named lists the subjects that lack the same thing.
func (o *open) named() string { return some(o.subjects) }

// some names the first of a list and counts the rest.
func some(list []string) string {
	rest := ""
	if len(list) > mostNamed {
		rest = fmt.Sprintf(" and %d more", len(list)-mostNamed)
		list = list[:mostNamed]
	}
	return strings.Join(list, ", ") + rest
}
