package cli

import (
	"fmt"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"branchwork/loads/inventory"
)

// adHoc describes a load that is not in the file.
type adHoc struct {
	power, voltage, room, as string
	pf                       float64
}

// kindsOfLoad are what a load may be described as: a fixture, a fan, or a kind of
// equipment. Whether equipment takes a circuit of its own depends on its kind, so
// that equipment of no kind is not among them.
func kindsOfLoad() []string { return append([]string{"fixture", "fan"}, inventory.Kinds()...) }

// tableOf is the table that a load of a kind would stand in.
func tableOf(kind string) string {
	switch kind {
	case "fixture":
		return inventory.Fixtures
	case "fan":
		return inventory.Fans
	}
	return inventory.Equipment
}

func (a *adHoc) flags(cmd *cobra.Command) {
	f := cmd.Flags()
	f.StringVar(&a.power, "power", "", "of a load that is not in the file: what one draws")
	f.StringVar(&a.voltage, "voltage", "", "of such a load: what it accepts")
	f.StringVar(&a.room, "room", "", "of such a load: where it stands")
	f.StringVar(&a.as, "as", "fixture", "of such a load: "+strings.Join(kindsOfLoad(), ", "))
	f.Float64Var(&a.pf, "pf", 0, "of such a load: power factor (default: an assumption, which is listed)")
	complete(cmd, "as", kindsOfLoad)
}

// described reports whether a flag speaks of a load that is not in the file.
func (a *adHoc) described(cmd *cobra.Command) bool {
	return slices.ContainsFunc([]string{"power", "voltage", "room", "as", "pf"}, cmd.Flags().Changed)
}

// describe returns the edits that put such a load into the file. Its values are
// read as those of any file are.
func (a *adHoc) describe(x siteText, cmd *cobra.Command, args []string, q *question) ([]inventory.Edit, error) {
	if a.as == inventory.Equipment {
		return nil, hint(fmt.Errorf("--as equipment does not say what it is, and heaters, air conditioners and others take a circuit of their own"),
			"one of: %s", strings.Join(inventory.Kinds(), ", "))
	}
	if !slices.Contains(kindsOfLoad(), a.as) {
		return nil, hint(fmt.Errorf("--as %q is not known", a.as), "one of: %s", strings.Join(kindsOfLoad(), ", "))
	}
	var missing []string
	for _, f := range []string{"power", "voltage", "room"} {
		if !cmd.Flags().Changed(f) {
			missing = append(missing, "--"+f)
		}
	}
	if len(missing) > 0 {
		return nil, hint(fmt.Errorf("a load that is not in the file needs %s too", strings.Join(missing, " and ")),
			"--power \"480 W\" --voltage \"120 V\" --room ROOM\nrooms: %s", listed(roomNames(x.inv)))
	}
	if cmd.Flags().Changed("pf") && !(a.pf > 0 && a.pf <= 1) {
		return nil, hint(fmt.Errorf("--pf %v is not a power factor", a.pf), "above 0 and up to 1")
	}
	if names := roomNames(x.inv); !slices.Contains(names, a.room) {
		return nil, unknownName("room", a.room, names)
	}
	name, err := a.name(x.inv, args)
	if err != nil {
		return nil, err
	}
	q.Item, q.path = name, tableOf(a.as)+"."+name
	return a.edits(name, q.Count, cmd.Flags().Changed("pf")), nil
}

func (a *adHoc) edits(name string, count int, withPF bool) []inventory.Edit {
	var out []inventory.Edit
	set := func(key, value string) {
		out = append(out, inventory.Edit{Path: []string{tableOf(a.as), name, key}, Value: value})
	}
	if tableOf(a.as) == inventory.Equipment {
		set("kind", inventory.Quote(a.as))
	}
	set("room", inventory.Quote(a.room))
	set("count", fmt.Sprint(count))
	set("power", inventory.Quote(a.power))
	if withPF {
		set("power_factor", fmt.Sprint(a.pf))
	}
	set("voltage", inventory.Quote(a.voltage))
	return out
}

// name is the load's: as given, or the first that is free.
func (a *adHoc) name(inv *inventory.Inventory, args []string) (string, error) {
	names := itemNames(inv)
	if len(args) > 0 {
		if slices.Contains(names, args[0]) {
			return "", hint(fmt.Errorf("%q is in the file already", args[0]), "leave out --power, --voltage, --room, --as and --pf to add more of it, or give the new load another name")
		}
		return args[0], nil
	}
	name := "added-" + a.as
	for i := 2; slices.Contains(names, name); i++ {
		name = fmt.Sprintf("added-%s-%d", a.as, i)
	}
	return name, nil
}

// wrongFlag turns a problem with a described load into one with its flag.
func wrongFlag(p inventory.Problem) error {
	key := p.Path[strings.LastIndex(p.Path, ".")+1:]
	if key == "power_factor" {
		key = "pf"
	}
	err := fmt.Errorf("--%s: %s", key, p.Says)
	if !slices.Contains([]string{"power", "voltage", "room", "pf", "count"}, key) {
		err = fmt.Errorf("%s", p.Says)
	}
	return hint(err, "%s", p.Remedy)
}
