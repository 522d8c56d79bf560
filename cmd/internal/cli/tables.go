package cli

import (
	"github.com/spf13/cobra"

	"branchwork/cmd/internal/document"
	"branchwork/cmd/internal/render/page"
	"branchwork/codes"
)

func newTables(s *streams) *cobra.Command {
	l := &listing{
		kind:  "table",
		names: tableNames,
		all: func(p *codes.Profile) (any, page.Page) {
			d := document.NewTables(p)
			return d, page.Tables(d)
		},
		one: func(p *codes.Profile, i int) (any, page.Page) {
			d := document.NewTable(p, p.Tables[i])
			return d, page.OneTable(d)
		},
	}
	return l.withEvidence(s, l.command(s, "tables [NAME]", example(
		"branchwork tables", "which tables there are",
		"branchwork tables ampacity --code nec-2020", "one of them, of another edition",
		"branchwork tables --evidence", "how the figures of this program were verified",
	)))
}

func tableNames(p *codes.Profile) []string {
	names := make([]string, len(p.Tables))
	for i, x := range p.Tables {
		names[i] = x.ID
	}
	return names
}
