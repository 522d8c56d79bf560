package cli

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"branchwork/cmd/internal/document"
	"branchwork/cmd/internal/render/page"
	"branchwork/codes"
)

type tablesOptions struct {
	output
	code string
}

func newTables(s *streams) *cobra.Command {
	o := &tablesOptions{}
	cmd := &cobra.Command{
		Use:   "tables [NAME]",
		Short: "the tables of a code profile, with where each value comes from",
		Args:  cobra.MaximumNArgs(1),
		ValidArgsFunction: completeName(func() []string {
			p, err := profileNamed(o.code)
			if err != nil {
				return nil
			}
			return tableNames(p)
		}),
		RunE: func(cmd *cobra.Command, args []string) error { return o.run(s, cmd, args) },
	}
	o.flags(cmd)
	codeFlag(cmd, &o.code)
	return cmd
}

func (o *tablesOptions) run(s *streams, cmd *cobra.Command, args []string) error {
	if err := o.check(cmd); err != nil {
		return err
	}
	p, err := profileNamed(o.code)
	if err != nil {
		return err
	}
	if len(args) == 0 {
		d := document.NewTables(p)
		return o.print(s, d, func(page.System) page.Page { return page.Tables(d) })
	}
	for _, t := range p.Tables {
		if t.ID == args[0] {
			d := document.NewTable(p, t)
			return o.print(s, d, func(page.System) page.Page { return page.OneTable(d) })
		}
	}
	return hint(fmt.Errorf("%s has no table %q", p.Title, args[0]), "tables: %s", strings.Join(tableNames(p), ", "))
}

func tableNames(p *codes.Profile) []string {
	names := make([]string, len(p.Tables))
	for i, t := range p.Tables {
		names[i] = t.ID
	}
	return names
}
