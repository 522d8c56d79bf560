package document

import "branchwork/circuits"

// Node is a panel of the one-line diagram with what hangs on it.
type Node struct {
	Panel  string   `json:"panel"`
	From   string   `json:"from,omitempty" jsonschema_description:"absent at a service"`
	Depth  int      `json:"depth" jsonschema_description:"feeders between it and the service"`
	Feeds  []string `json:"feeds"`
	Groups []Bundle `json:"groups" jsonschema_description:"branch circuits by room and category"`
}

// Bundle is the branch circuits of a panel that serve one room and category.
type Bundle struct {
	Room        string   `json:"room,omitempty"`
	Category    string   `json:"category"`
	Circuits    []string `json:"circuits"`
	Spaces      int      `json:"spaces"`
	VA          *float64 `json:"va" jsonschema:"nullable" jsonschema_description:"connected; null where the current of a load is not known"`
	BreakerAmps *float64 `json:"breaker_amps" jsonschema:"nullable" jsonschema_description:"where all have the same"`
	Poles       *int     `json:"poles" jsonschema:"nullable" jsonschema_description:"where all have the same"`
	Size        *string  `json:"size" jsonschema:"nullable" jsonschema_description:"conductor, where all have the same"`
}

// oneLine lists the panels from each service outwards.
func oneLine(r Results) []Node {
	out := []Node{}
	var follow func(p circuits.Panel, depth int)
	follow = func(p circuits.Panel, depth int) {
		n := Node{Panel: p.Name, Depth: depth, Feeds: list(p.Feeds), Groups: bundles(r, p.Name)}
		if p.Feeder != nil {
			n.From = p.Feeder.From
		}
		out = append(out, n)
		for _, x := range r.Plan.Panels {
			if x.Feeder != nil && x.Feeder.From == p.Name {
				follow(x, depth+1)
			}
		}
	}
	for _, p := range r.Plan.Panels {
		if p.Feeder == nil {
			follow(p, 0)
		}
	}
	return out
}

func bundles(r Results, panel string) []Bundle {
	out := []Bundle{}
	for _, c := range r.Plan.Circuits {
		if c.Panel != panel {
			continue
		}
		room := ""
		if len(c.Rooms) == 1 {
			room = c.Rooms[0]
		}
		b := bundle(&out, room, string(c.Category))
		if len(b.Circuits) == 0 {
			b.VA, b.BreakerAmps, b.Poles, b.Size = number(0.0), known(c.Breaker), &c.Supply.Poles, word(c.Conductor.Size)
		}
		b.Circuits = append(b.Circuits, c.Name)
		b.Spaces += len(c.Spaces)
		b.VA = plus(b.VA, connected(c))
		b.BreakerAmps, b.Poles, b.Size = same(b.BreakerAmps, known(c.Breaker)), same(b.Poles, &c.Supply.Poles), same(b.Size, word(c.Conductor.Size))
	}
	return out
}

func bundle(all *[]Bundle, room, category string) *Bundle {
	for i := range *all {
		if b := &(*all)[i]; b.Room == room && b.Category == category {
			return b
		}
	}
	*all = append(*all, Bundle{Room: room, Category: category, Circuits: []string{}})
	return &(*all)[len(*all)-1]
}

// same returns a value that two have in common, or nothing.
func same[T comparable](a, b *T) *T {
	if a == nil || b == nil || *a != *b {
		return nil
	}
	return a
}
