package cli

import (
	"errors"

	"github.com/spf13/cobra"

	"branchwork/cmd/internal/document"
	"branchwork/cmd/internal/render/page"
)

type diffOptions struct {
	output
	code string
}

func newDiff(s *streams) *cobra.Command {
	o := &diffOptions{}
	cmd := &cobra.Command{
		Use: "diff OLD NEW",
		Long: "diff plans both inventories and lists what an electrician has to do to come from the one to the other:\n" +
			"circuits and feeders added, changed and freed, with breaker, conductor and spaces, what must be switched off\n" +
			"and what goes dark with it. Circuits in the same spaces of the same panel are the same circuit.\n\n" +
			"OLD and NEW are inventories; one of them may be - for standard input.\n\n" +
			"diff judges nothing: its exit status is 0 whatever the plans break. branchwork plan and check judge.",
		Args: cobra.ExactArgs(2),
		Example: example(
			"branchwork diff built.toml more.toml", "the change order between two inventories",
		),
		ValidArgsFunction: func(cmd *cobra.Command, args []string, _ string) ([]string, cobra.ShellCompDirective) {
			if len(args) == 1 {
				args = nil
			}
			return completeFile(cmd, args, "")
		},
		RunE: func(cmd *cobra.Command, args []string) error { return o.run(s, cmd, args) },
	}
	o.flags(cmd)
	codeFlag(cmd, &o.code)
	return cmd
}

func (o *diffOptions) run(s *streams, cmd *cobra.Command, args []string) error {
	if args[0] == stdin && args[1] == stdin {
		return errors.New("only one of two inventories can be standard input")
	}
	old, err := o.planned(s, cmd, args[0])
	if err != nil {
		return err
	}
	now, err := o.planned(s, cmd, args[1])
	if err != nil {
		return err
	}
	d := document.NewDiff(old, now)
	return o.print(s, d, func(u page.System) page.Page { return page.Diff(d, u) })
}

func (o *diffOptions) planned(s *streams, cmd *cobra.Command, file string) (document.Results, error) {
	inv, p, err := o.site(s, cmd, []string{file}, o.code)
	if err != nil {
		return document.Results{}, err
	}
	return s.work(inv, p, false)
}
