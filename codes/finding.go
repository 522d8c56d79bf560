package codes

import (
	"fmt"
	"sort"
	"strings"

	"branchwork/loads/steps"
	"branchwork/loads/units"
)

// Finding is a rule that does not hold, or cannot be told, of one subject.
type Finding struct {
	Rule     string
	Also     []string // further rules that the same missing facts leave open
	Title    string
	Severity Severity
	State    State
	Cites    []steps.Cite
	Subject  string   // key path of what was judged, or of the table that would tell
	Judged   []string // key paths of all that were judged, where several lack the same thing
	At       string   // key path of the entry to look at: the subject's, or one below it
	Message  string
	Remedy   string
	Actual   units.Any
	Limit    units.Any
	Missing  []Fact
}

// Clause returns the cites in print.
func (f Finding) Clause() string {
	parts := make([]string, len(f.Cites))
	for i, c := range f.Cites {
		parts[i] = c.String()
	}
	return strings.Join(parts, "; ")
}

// Names reports whether the finding is of a rule, alone or among others.
func (f Finding) Names(rule string) bool {
	for _, r := range f.Also {
		if r == rule {
			return true
		}
	}
	return f.Rule == rule
}

// Report makes a finding of a verdict, nil where there is nothing to find.
func (r Rule) Report(f *Facts, v Verdict, edition string) *Finding {
	cites, ok := r.In(edition)
	if !ok || v.State == Holds || v.State == NotAsked {
		return nil
	}
	if v.State == CannotTell {
		out := ReportUnsettled(f.Subject, f.Label, []Rule{r}, f, v, edition)
		return &out
	}
	out := &Finding{Rule: r.ID, Title: r.Title, Severity: r.Severity, State: v.State, Cites: resting(cites, v),
		Subject: f.Subject, At: r.at(f.Subject), Actual: v.Actual, Limit: v.Limit, Remedy: v.Remedy}
	out.Message = f.Label + ": " + v.Says
	if v.Says == "" {
		a, l := v.Figures()
		out.Message = fmt.Sprintf("%s: it is not so that %s: %s against %s", f.Label, r.Title, a, l)
	}
	out.say(f.Book())
	return out
}

// say puts a finding into the words of the code.
func (f *Finding) say(p *Profile) { f.Message, f.Remedy = p.Say(f.Message), p.Say(f.Remedy) }

// resting returns a rule's clauses with the values from memory that decided.
func resting(cites []steps.Cite, v Verdict) []steps.Cite {
	return append(append([]steps.Cite{}, cites...), v.Rests...)
}

// at is the key path that a finding about a subject points to.
func (r Rule) at(subject string) string {
	if r.Key == "" {
		return subject
	}
	return subject + "." + r.Key
}

// ReportUnsettled makes one finding of rules that the same missing facts leave
// open. subject and label say where; they differ from those of the facts where
// several subjects lack the same thing.
func ReportUnsettled(subject, label string, rules []Rule, f *Facts, v Verdict, edition string) Finding {
	first := rules[0]
	out := Finding{Rule: first.ID, Title: first.Title, Severity: first.WhenUntold(), State: CannotTell,
		Subject: subject, At: subject, Actual: v.Actual, Limit: v.Limit, Missing: v.Missing, Remedy: v.Remedy}
	if subject == f.Subject && len(rules) == 1 {
		out.At = first.at(subject)
	}
	titles := make([]string, len(rules))
	seen := map[steps.Cite]bool{}
	for i, r := range rules {
		titles[i] = "whether " + r.Title
		if i > 0 {
			out.Also = append(out.Also, r.ID)
		}
		cites, _ := r.In(edition)
		for _, c := range cites {
			if !seen[c] {
				seen[c] = true
				out.Cites = append(out.Cites, c)
			}
		}
	}
	out.Message = label + ": cannot tell " + strings.Join(titles, ", nor ") + ": " + sayMissing(f, v)
	if out.Remedy == "" {
		out.Remedy = settle(f, v.Missing)
	}
	out.say(f.Book())
	return out
}

func sayMissing(f *Facts, v Verdict) string {
	if v.Says != "" {
		return v.Says
	}
	says, _ := f.Missing(v.Missing)
	return says
}

// Missing says which facts are missing and why, each reason once, and gives the
// key path of the table that would tell, where it is another than the subject's
// own.
func (f *Facts) Missing(missing []Fact) (says, at string) {
	var parts []string
	seen := map[string]bool{}
	for _, m := range missing {
		why := f.Why(m)
		if why == "" {
			why = "the " + string(m) + " is not known"
		}
		if !seen[why] {
			seen[why] = true
			parts = append(parts, why)
		}
		if at == "" {
			at = f.At(m)
		}
	}
	return strings.Join(parts, ", "), at
}

// settle tells how missing facts are found out; of facts that are missing for
// one reason, how the first is.
func settle(f *Facts, missing []Fact) string {
	var parts []string
	seen := map[string]bool{}
	for _, m := range missing {
		how, ok := f.settled(m), true
		if how == "" {
			how, ok = settledBy[m]
		}
		why := f.Why(m)
		if !ok || seen[how] || why != "" && seen[why] {
			continue
		}
		seen[how], seen[why] = true, true
		parts = append(parts, how)
	}
	if len(parts) == 0 {
		return "find out and add it to the file; until then this counts as not passed"
	}
	return strings.Join(parts, "; ")
}

// SortFindings puts the gravest last, so that it is what stays on the screen:
// advice, warnings, then violations; within one severity by subject and rule.
func SortFindings(list []Finding) {
	sort.SliceStable(list, func(i, j int) bool {
		a, b := list[i], list[j]
		if a.Severity != b.Severity {
			return a.Severity > b.Severity
		}
		if a.Subject != b.Subject {
			return units.NaturalLess(a.Subject, b.Subject)
		}
		return a.Rule < b.Rule
	})
}

// Passed reports whether no rule of the code is broken or left untold: the
// ground of exit status 0. Warnings and advice do not count.
func Passed(list []Finding) bool {
	for _, f := range list {
		if f.Severity == Violation {
			return false
		}
	}
	return true
}
