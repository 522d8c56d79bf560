package inventory

import (
	"fmt"
	"slices"
	"strings"
	"sync"
)

// Table is one table of the file, as documents and completion need it.
type Table struct {
	Name     string
	Named    bool   // each entry has a name: [panels.LP1]
	Sample   string // a name, for examples
	Required bool
	Help     string
	Keys     []Key

	into func(inv *Inventory, table, name string) any // what its keys fill
}

// Key is one key of a table.
type Key struct {
	Name     string
	Required bool
	Default  string // what holds where it is left out; empty where that is plain
	Help     string
	Example  string   // a right value, as written in the file
	Form     string   // what belongs there: "a power"
	Words    []string // the words accepted, where it is one of a few
	Keys     []Key    // of an inline table

	read  func(r *reader, c cell, dst any)
	shape shape
	also  []string // what people write instead, for suggestions
}

func (t Table) example() string {
	s := fmt.Sprintf("[%s]", t.Name)
	for _, k := range t.Keys {
		if k.Required {
			s += fmt.Sprintf(", %s = %s", k.Name, k.Example)
		}
	}
	return s
}

// key is a line of the schema: name, a right value, how it is read, what holds
// where it is left out, and what it means.
func key(name, example string, f form, standard, help string) Key {
	return Key{Name: name, Example: example, Form: f.says, Words: f.words, Keys: f.keys, read: f.read, shape: f.shape, Default: standard, Help: help}
}

// must returns the key as a required one.
func (k Key) must() Key {
	k.Required = true
	return k
}

// or notes names that people write instead.
func (k Key) or(names ...string) Key {
	k.also = names
	return k
}

func (k Key) aka(name string) bool {
	for _, n := range k.also {
		if n == name {
			return true
		}
	}
	return false
}

// Schema returns every table and key that a file may have, in the order in
// which a file is best written. Reading, the check for unknown keys, the
// starter file, the reference and completion all follow this one list.
func Schema() []Table {
	return []Table{
		{Name: "site", Required: true, Help: "the place", Keys: siteKeys(),
			into: func(inv *Inventory, _, _ string) any { return &inv.Site }},
		{Name: "panels", Named: true, Sample: "LP1", Help: "a panelboard", Keys: panelKeys(),
			into: func(inv *Inventory, _, name string) any { return grown(&inv.Panels, Panel{Name: name}) }},
		{Name: "rooms", Named: true, Sample: "flower", Help: "a space with its own climate and lights", Keys: roomKeys(),
			into: func(inv *Inventory, _, name string) any { return grown(&inv.Rooms, Room{Name: name}) }},
		{Name: Fixtures, Named: true, Sample: "bar-640", Help: "lighting equipment", Keys: itemKeys(inFixtures), into: newItem},
		{Name: Fans, Named: true, Sample: "oscillating", Help: "fans and blowers", Keys: itemKeys(inFans), into: newItem},
		{Name: Controllers, Named: true, Sample: "climate", Help: "lighting contactor boxes, relays, climate controllers", Keys: itemKeys(inControllers), into: newItem},
		{Name: Equipment, Named: true, Sample: "dehumidifier", Help: "everything else that draws power or makes heat", Keys: itemKeys(inEquipment), into: newItem},
		{Name: "circuits", Named: true, Sample: "LP1-7", Help: "a branch circuit that exists, as built", Keys: circuitKeys(),
			into: func(inv *Inventory, _, name string) any { return grown(&inv.Circuits, Circuit{Name: name}) }},
		{Name: "plan", Help: "how to decide", Keys: planKeys(),
			into: func(inv *Inventory, _, _ string) any { return &inv.Plan }},
		{Name: "tariff", Help: "what power costs", Keys: tariffKeys(),
			into: func(inv *Inventory, _, _ string) any { return &inv.Tariff }},
	}
}

// grown appends a value and returns where it now is, good until the next.
func grown[T any](list *[]T, v T) *T {
	*list = append(*list, v)
	return &(*list)[len(*list)-1]
}

// newItem starts an item. A controller is one thing; so is a piece of equipment
// unless its count says otherwise.
func newItem(inv *Inventory, table, name string) any {
	i := Item{Table: table, Name: name}
	if table == Controllers || table == Equipment {
		i.Count = 1
	}
	return grown(&inv.Items, i)
}

func itemTables() []string { return []string{Fixtures, Fans, Controllers, Equipment} }

func tableNamed(schema []Table, name string) (Table, bool) {
	for _, t := range schema {
		if t.Name == name {
			return t, true
		}
	}
	return Table{}, false
}

func keyNamed(keys []Key, name string) (Key, bool) {
	for _, k := range keys {
		if k.Name == name {
			return k, true
		}
	}
	return Key{}, false
}

// HasKey reports whether a path leads to a key that a file may have, whatever the name
// in it: "rooms.flower.climate.lights_on".
func HasKey(path string) bool {
	head, rest, _ := strings.Cut(path, ".")
	t := keyPaths()[head]
	return slices.ContainsFunc(t.keys, func(key string) bool {
		return rest == key && !t.named || t.named && strings.HasSuffix(rest, "."+key) // names may hold dots
	})
}

type tableKeys struct {
	named bool
	keys  []string // "climate.lights_on"
}

var keyPaths = sync.OnceValue(func() map[string]tableKeys {
	out := map[string]tableKeys{}
	for _, t := range Schema() {
		x := tableKeys{named: t.Named}
		var walk func(keys []Key, above string)
		walk = func(keys []Key, above string) {
			for _, k := range keys {
				x.keys = append(x.keys, above+k.Name)
				walk(k.Keys, above+k.Name+".")
			}
		}
		walk(t.Keys, "")
		out[t.Name] = x
	}
	return out
})
