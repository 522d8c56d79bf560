package cli

import (
	"fmt"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"branchwork/cmd/internal/render/page"
	"branchwork/codes"
)

// listing is a command that shows one kind of entry of a code profile: all of
// them, or the one that is named.
type listing struct {
	output
	code string

	kind  string // of one entry: "rule"
	names func(*codes.Profile) []string
	all   func(*codes.Profile) (any, page.Page)
	one   func(p *codes.Profile, index int) (any, page.Page)
}

func (l *listing) command(s *streams, use, examples string) *cobra.Command {
	cmd := &cobra.Command{
		Use:     use,
		Example: examples,
		Args:    cobra.MaximumNArgs(1),
		ValidArgsFunction: completeName(func() []string {
			p, err := profileNamed(l.code)
			if err != nil {
				return nil
			}
			return l.names(p)
		}),
		RunE: func(cmd *cobra.Command, args []string) error { return l.run(s, cmd, args) },
	}
	l.flags(cmd)
	codeFlag(cmd, &l.code)
	return cmd
}

func (l *listing) run(s *streams, cmd *cobra.Command, args []string) error {
	if err := l.check(cmd); err != nil {
		return err
	}
	p, err := profileNamed(l.code)
	if err != nil {
		return err
	}
	if len(args) == 0 {
		d, shown := l.all(p)
		return l.print(s, d, func(page.System) page.Page { return shown })
	}
	names := l.names(p)
	i := slices.Index(names, args[0])
	if i < 0 {
		return hint(fmt.Errorf("%s has no %s %q", p.Title, l.kind, args[0]), "%ss: %s", l.kind, strings.Join(names, ", "))
	}
	d, shown := l.one(p, i)
	return l.print(s, d, func(page.System) page.Page { return shown })
}
