package cli

import (
	"fmt"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"branchwork/cmd/internal/render/page"
	"branchwork/loads/inventory"
)

func itemNames(inv *inventory.Inventory) []string {
	return namesOf(items(inv), func(i inventory.Item) string { return i.Name })
}

// items are those of the file, one for each table.
func items(inv *inventory.Inventory) []inventory.Item {
	var out []inventory.Item
	for _, i := range inv.Items {
		out = append(out, i.Each()...)
	}
	return out
}

func circuitNames(inv *inventory.Inventory) []string {
	return namesOf(inv.Circuits, func(c inventory.Circuit) string { return c.Name })
}

func roomNames(inv *inventory.Inventory) []string {
	return namesOf(inv.Rooms, func(r inventory.Room) string { return r.Name })
}

func namesOf[T any](list []T, name func(T) string) []string {
	out := make([]string, len(list))
	for i, x := range list {
		out[i] = name(x)
	}
	return out
}

func itemNamed(inv *inventory.Inventory, name string) (inventory.Item, bool) {
	all := items(inv)
	i := slices.IndexFunc(all, func(x inventory.Item) bool { return x.Name == name })
	if i < 0 {
		return inventory.Item{}, false
	}
	return all[i], true
}

// unknownName refuses a name that the file does not have, with the nearest that
// it has.
func unknownName(what, name string, names []string) error {
	err := fmt.Errorf("no %s %q in this file", what, name)
	if near := inventory.Nearest(name, names); near != "" {
		return hint(err, "did you mean %q?", near)
	}
	return hint(err, "%ss here: %s", what, listed(names))
}

// mostListed is how many names a hint lists.
const mostListed = 40

func listed(names []string) string {
	switch {
	case len(names) == 0:
		return "none"
	case len(names) > mostListed:
		return listed(names[:mostListed]) + fmt.Sprintf(" and %d more", len(names)-mostListed)
	}
	return page.Printable(strings.Join(names, ", "))
}

// names offers names of the file that the arguments name.
func (o *output) names(cmd *cobra.Command, args []string, code string, of func(*inventory.Inventory) []string) ([]string, cobra.ShellCompDirective) {
	if len(args) == 0 {
		return nil, cobra.ShellCompDirectiveNoFileComp
	}
	inv, _, err := o.site(silent(), cmd, args[:1], code)
	if err != nil {
		return nil, cobra.ShellCompDirectiveNoFileComp
	}
	return of(inv), cobra.ShellCompDirectiveNoFileComp
}

// completeWith offers a flag's words, which depend on the arguments.
func completeWith(cmd *cobra.Command, flag string, words func(args []string) ([]string, cobra.ShellCompDirective)) {
	err := cmd.RegisterFlagCompletionFunc(flag, func(_ *cobra.Command, args []string, _ string) ([]string, cobra.ShellCompDirective) {
		return words(args)
	})
	if err != nil {
		panic(err) // a flag that this command does not have: our own slip
	}
}
