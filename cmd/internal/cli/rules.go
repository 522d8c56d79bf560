package cli

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"branchwork/cmd/internal/document"
	"branchwork/cmd/internal/render/page"
	"branchwork/codes"
)

type rulesOptions struct {
	output
	code string
}

func newRules(s *streams) *cobra.Command {
	o := &rulesOptions{}
	cmd := &cobra.Command{
		Use:   "rules [ID]",
		Short: "the rules of a code profile, with clause, reason and remedies",
		Args:  cobra.MaximumNArgs(1),
		ValidArgsFunction: completeName(func() []string {
			p, err := profileNamed(o.code)
			if err != nil {
				return nil
			}
			return ruleNames(p)
		}),
		RunE: func(cmd *cobra.Command, args []string) error { return o.run(s, cmd, args) },
	}
	o.flags(cmd)
	codeFlag(cmd, &o.code)
	return cmd
}

func (o *rulesOptions) run(s *streams, cmd *cobra.Command, args []string) error {
	if err := o.check(cmd); err != nil {
		return err
	}
	p, err := profileNamed(o.code)
	if err != nil {
		return err
	}
	if len(args) == 0 {
		d := document.NewRules(p)
		return o.print(s, d, func(page.System) page.Page { return page.Rules(d) })
	}
	for _, r := range p.Rules {
		if r.ID == args[0] {
			d := document.NewRule(p, r)
			return o.print(s, d, func(page.System) page.Page { return page.OneRule(d) })
		}
	}
	return hint(fmt.Errorf("%s has no rule %q", p.Title, args[0]), "rules: %s", strings.Join(ruleNames(p), ", "))
}

func ruleNames(p *codes.Profile) []string {
	names := make([]string, len(p.Rules))
	for i, r := range p.Rules {
		names[i] = r.ID
	}
	return names
}
