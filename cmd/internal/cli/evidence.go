package cli

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"branchwork/cmd/internal/document"
	"branchwork/cmd/internal/render/page"
	"branchwork/codes"
)

// evidence shows how the figures were verified: all in one page, or one subject
// case by case.
func (l *listing) evidence(s *streams, cmd *cobra.Command, args []string) error {
	if err := l.check(cmd); err != nil {
		return err
	}
	p, err := profileNamed(l.code)
	if err != nil {
		return err
	}
	if len(args) == 0 {
		d := document.NewEvidence(p)
		return l.print(s, d, func(page.System) page.Page { return page.Evidence(d) })
	}
	d, ok := document.NewEvidenceCases(args[0])
	if !ok {
		return hint(fmt.Errorf("there are no published cases of %q", args[0]), "subjects: %s", strings.Join(document.EvidenceSubjects(), ", "))
	}
	return l.print(s, d, func(page.System) page.Page { return page.EvidenceCases(d) })
}

// withEvidence adds the flag to the command of the tables.
func (l *listing) withEvidence(s *streams, cmd *cobra.Command) *cobra.Command {
	asked := cmd.Flags().Bool("evidence", false, "how the figures were verified: published cases, tools, what rests on memory; with NAME one subject case by case")
	tables, names := cmd.RunE, l.names
	l.names = func(p *codes.Profile) []string {
		if *asked {
			return document.EvidenceSubjects()
		}
		return names(p)
	}
	cmd.RunE = func(cmd *cobra.Command, args []string) error {
		if *asked {
			return l.evidence(s, cmd, args)
		}
		return tables(cmd, args)
	}
	return cmd
}
