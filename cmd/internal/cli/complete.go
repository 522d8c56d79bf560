package cli

import (
	"io"
	"strings"

	"github.com/spf13/cobra"
)

// completeFile offers inventories for the first argument.
func completeFile(_ *cobra.Command, args []string, _ string) ([]string, cobra.ShellCompDirective) {
	if len(args) > 0 {
		return nil, cobra.ShellCompDirectiveNoFileComp
	}
	return []string{"toml"}, cobra.ShellCompDirectiveFilterFileExt
}

// complete offers a flag's words. They are asked for only when a shell asks.
func complete(cmd *cobra.Command, flag string, words func() []string) {
	err := cmd.RegisterFlagCompletionFunc(flag, func(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective) {
		return words(), cobra.ShellCompDirectiveNoFileComp
	})
	if err != nil {
		panic(err) // a flag that this command does not have: our own slip
	}
}

// completeName offers names for the only argument.
func completeName(names func() []string) cobra.CompletionFunc {
	return func(_ *cobra.Command, args []string, _ string) ([]string, cobra.ShellCompDirective) {
		if len(args) > 0 {
			return nil, cobra.ShellCompDirectiveNoFileComp
		}
		return names(), cobra.ShellCompDirectiveNoFileComp
	}
}

// silent are streams for work that only looks.
func silent() *streams {
	return &streams{in: strings.NewReader(""), out: io.Discard, err: io.Discard, width: defaultWidth}
}
