package cli

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"branchwork/cmd/internal/document"
)

func newSchema(s *streams) *cobra.Command {
	return &cobra.Command{
		Use:   "schema [ANSWER]",
		Short: "the JSON Schema of an answer (default: plan)",
		Long: "schema prints the JSON Schema, draft 2020-12, of what a command prints with --json.\n\n" +
			"ANSWER is one of: " + strings.Join(document.SchemaNames(), ", ") + ".",
		Args:              cobra.MaximumNArgs(1),
		ValidArgsFunction: completeName(document.SchemaNames),
		RunE: func(_ *cobra.Command, args []string) error {
			name := "plan"
			if len(args) > 0 {
				name = args[0]
			}
			schema, ok := document.Schema(name)
			if !ok {
				return hint(fmt.Errorf("no answer %q has a schema", name), "one of: %s", strings.Join(document.SchemaNames(), ", "))
			}
			if _, err := s.out.Write(schema); err != nil {
				return fmt.Errorf("cannot write the answer: %w", reason(err))
			}
			return nil
		},
	}
}
