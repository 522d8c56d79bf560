package cli

import (
	"github.com/spf13/cobra"

	"branchwork/cmd/internal/document"
	"branchwork/cmd/internal/render/page"
	"branchwork/codes"
)

func newRules(s *streams) *cobra.Command {
	l := &listing{
		kind:  "rule",
		names: ruleNames,
		all: func(p *codes.Profile) (any, page.Page) {
			d := document.NewRules(p)
			return d, page.Rules(d)
		},
		one: func(p *codes.Profile, i int) (any, page.Page) {
			d := document.NewRule(p, p.Rules[i])
			return d, page.OneRule(d)
		},
	}
	return l.command(s, "rules [ID]", example(
		"branchwork rules", "every rule with its clause",
		"branchwork rules continuous-load", "one of them, with why it exists",
	))
}

func ruleNames(p *codes.Profile) []string {
	names := make([]string, len(p.Rules))
	for i, x := range p.Rules {
		names[i] = x.ID
	}
	return names
}
