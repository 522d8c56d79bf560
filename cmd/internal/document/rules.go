package document

import (
	"sort"

	"branchwork/codes"
)

// Schemas of the answers of rules.
const (
	RulesSchema = "branchwork/rules/1"
	RuleSchema  = "branchwork/rule/1"
)

// Rules lists the rules of a code profile.
type Rules struct {
	Schema     string        `json:"schema" jsonschema:"enum=branchwork/rules/1"`
	Code       string        `json:"code"`
	CodeTitle  string        `json:"code_title"`
	Rules      []RuleSummary `json:"rules"`
	NotCovered []string      `json:"not_covered"`
}

// RuleSummary is a rule in one line.
type RuleSummary struct {
	ID       string `json:"id"`
	Title    string `json:"title"`
	Severity string `json:"severity" jsonschema:"enum=violation,enum=warning,enum=advice"`
	Subject  string `json:"subject"`
	Clause   string `json:"clause"`
	Retired  string `json:"retired,omitempty"`
}

// Rule is one rule with why it exists.
type Rule struct {
	Schema string `json:"schema" jsonschema:"enum=branchwork/rule/1"`
	RuleSummary
	Why      string   `json:"why"`
	Clauses  []Clause `json:"clauses"`
	Needs    []string `json:"needs" jsonschema_description:"facts without which it cannot be told"`
	Remedies []string `json:"remedies"`
}

// Clause is where a rule stands in one edition.
type Clause struct {
	Edition string `json:"edition,omitempty" jsonschema_description:"absent: holds for every edition"`
	At      string `json:"at"`
	Checked string `json:"checked"`
}

// NewRules returns the list of the rules that a profile's edition has.
func NewRules(p *codes.Profile) Rules {
	d := Rules{Schema: RulesSchema, Code: p.Name, CodeTitle: p.Title, Rules: []RuleSummary{}, NotCovered: list(p.NotCovered)}
	for _, r := range p.Rules {
		if _, ok := r.In(p.Edition); ok {
			d.Rules = append(d.Rules, ruleSummary(r, p.Edition))
		}
	}
	return d
}

func ruleSummary(r codes.Rule, edition string) RuleSummary {
	cites, _ := r.In(edition)
	return RuleSummary{ID: r.ID, Title: r.Title, Severity: r.Severity.String(), Subject: string(r.Subject), Clause: codes.Finding{Cites: cites}.Clause(), Retired: r.Retired}
}

// NewRule returns one rule, its clauses in ascending order of edition.
func NewRule(p *codes.Profile, r codes.Rule) Rule {
	d := Rule{Schema: RuleSchema, RuleSummary: ruleSummary(r, p.Edition), Why: r.Why, Clauses: []Clause{}, Needs: []string{}, Remedies: []string{}}
	editions := make([]string, 0, len(r.Clauses))
	for e := range r.Clauses {
		editions = append(editions, e)
	}
	sort.Strings(editions)
	for _, e := range editions {
		for _, c := range r.Clauses[e] {
			d.Clauses = append(d.Clauses, Clause{Edition: e, At: c.String(), Checked: c.How.String()})
		}
	}
	for _, f := range r.Needs {
		d.Needs = append(d.Needs, p.Say(string(f)))
	}
	for _, x := range r.Remedies {
		d.Remedies = append(d.Remedies, p.Say(string(x)))
	}
	return d
}
