package cli

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"branchwork/cmd/internal/document"
	"branchwork/cmd/internal/render/page"
)

type explainOptions struct {
	output
	code    string
	asBuilt bool
}

func newExplain(s *streams) *cobra.Command {
	o := &explainOptions{}
	cmd := &cobra.Command{
		Use: "explain FILE [NAME]",
		Long: "explain prints the working that was recorded while the plan was made: formula, the numbers put in, the\n" +
			"result, and the clause or source of each step.\n\n" +
			"NAME is a circuit, a panel or a room; without one all are explained. FILE may be - for standard input.",
		Example: example(
			"branchwork explain room.toml LP1", "every step behind the figures of a panel",
			"branchwork explain built.toml LP1-1 --as-built", "of a circuit that exists",
			"branchwork explain room.toml flower", "of a room's heat",
		),
		Args: cobra.RangeArgs(1, 2),
		ValidArgsFunction: func(cmd *cobra.Command, args []string, _ string) ([]string, cobra.ShellCompDirective) {
			return o.complete(cmd, args)
		},
		RunE: func(cmd *cobra.Command, args []string) error { return o.run(s, cmd, args) },
	}
	o.flags(cmd)
	codeFlag(cmd, &o.code)
	cmd.Flags().BoolVar(&o.asBuilt, "as-built", false, "explain the circuits in the file as check judges them")
	return cmd
}

func (o *explainOptions) run(s *streams, cmd *cobra.Command, args []string) error {
	d, err := o.explanation(s, cmd, args)
	if err != nil {
		return err
	}
	return o.print(s, d, func(page.System) page.Page { return page.Explanation(d) })
}

func (o *explainOptions) explanation(s *streams, cmd *cobra.Command, args []string) (document.Explanation, error) {
	inv, p, err := o.site(s, cmd, args[:1], o.code)
	if err != nil {
		return document.Explanation{}, err
	}
	r, err := s.work(inv, p, o.asBuilt)
	if err != nil {
		return document.Explanation{}, err
	}
	all := document.NewExplanation(r)
	if len(args) == 1 {
		return all, nil
	}
	one := all.About(args[1])
	if len(one.Subjects) == 0 {
		return one, hint(fmt.Errorf("no circuit, panel or room %q", args[1]), "there are: %s", strings.Join(all.Names(), ", "))
	}
	return one, nil
}

// complete offers files, then the names that can be explained.
func (o *explainOptions) complete(cmd *cobra.Command, args []string) ([]string, cobra.ShellCompDirective) {
	switch len(args) {
	case 0:
		return completeFile(cmd, args, "")
	case 1:
		d, err := o.explanation(silent(), cmd, args)
		if err != nil {
			return nil, cobra.ShellCompDirectiveNoFileComp
		}
		return d.Names(), cobra.ShellCompDirectiveNoFileComp
	}
	return nil, cobra.ShellCompDirectiveNoFileComp
}
