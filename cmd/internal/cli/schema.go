package cli

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"branchwork/cmd/internal/document"
	"branchwork/codes/book"
	"branchwork/loads/inventory"
)

// ofInventory names the schema of what is read; all others are of answers.
const ofInventory = "inventory"

func schemaNames() []string { return append(document.SchemaNames(), ofInventory) }

func newSchema(s *streams) *cobra.Command {
	return &cobra.Command{
		Use: "schema [NAME]",
		Long: "schema inventory prints the JSON Schema, draft 7, of the inventory: an editor that reads it completes keys and\n" +
			"words, shows what they mean and marks what cannot be right while the file is written.\n\n" +
			"With any other NAME it prints the JSON Schema, draft 2020-12, of what that command prints with --json.\n\n" +
			"NAME is one of: " + strings.Join(schemaNames(), ", ") + ".",
		Example: example(
			"branchwork schema inventory", "for the editor; name it in the file: #:schema ./inventory.schema.json",
			"branchwork schema heat", "what branchwork heat --json prints",
		),
		Args:              cobra.MaximumNArgs(1),
		ValidArgsFunction: completeName(schemaNames),
		RunE:              func(_ *cobra.Command, args []string) error { return runSchema(s, args) },
	}
}

func runSchema(s *streams, args []string) error {
	name := "plan"
	if len(args) > 0 {
		name = args[0]
	}
	schema, ok := document.Schema(name)
	if name == ofInventory {
		p, _ := book.Profile("")
		var err error
		if schema, err = inventory.JSONSchema(vocabulary(p)); err != nil {
			return fault{says: err.Error()}
		}
		ok = true
	}
	if !ok {
		return hint(fmt.Errorf("no schema %q", name), "one of: %s", strings.Join(schemaNames(), ", "))
	}
	if _, err := s.out.Write(schema); err != nil {
		return fmt.Errorf("cannot write the answer: %w", reason(err))
	}
	return nil
}
