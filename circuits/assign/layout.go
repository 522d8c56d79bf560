package assign

import (
	"fmt"
	"math"
	"sort"

	"branchwork/circuits"
	"branchwork/circuits/panel"
	"branchwork/loads/abreast"
	"branchwork/loads/inventory"
	"branchwork/loads/units"
)

// levels returns the panels, those that are fed before those that feed them. What is
// decided of a panel does not touch the others of its level.
func (pl *planner) levels() [][]inventory.Panel {
	depth := map[string]int{}
	var of func(x inventory.Panel) int
	of = func(x inventory.Panel) int {
		up, ok := pl.panel(x.FedBy)
		if !ok {
			return 0
		}
		return 1 + of(up)
	}
	deepest := 0
	for _, x := range pl.inv.Panels {
		depth[x.Name] = of(x)
		deepest = max(deepest, depth[x.Name])
	}
	out := make([][]inventory.Panel, deepest+1)
	for _, x := range pl.inv.Panels {
		i := deepest - depth[x.Name]
		out[i] = append(out[i], x)
	}
	return out
}

// layOut settles every circuit and, from the outermost panel inwards, gives
// breakers their spaces and legs and each panel its figures and feeder.
func (pl *planner) layOut() error {
	for i := range pl.plan.Circuits {
		pl.settle(&pl.plan.Circuits[i])
	}
	pl.sortCircuits()
	before := 0
	for _, level := range pl.levels() {
		if err := pl.layOutLevel(level, before); err != nil {
			return err
		}
		before += len(level)
	}
	pl.sortCircuits()
	sort.SliceStable(pl.plan.Panels, func(i, j int) bool { return units.NaturalLess(pl.plan.Panels[i].Name, pl.plan.Panels[j].Name) })
	return nil
}

// board is a panel with what needs spaces in it.
type board struct {
	panel   inventory.Panel
	own     []*circuits.Circuit
	feeders []*circuits.Feeder
	wants   []panel.Want
	day     panel.Day
	states  []string
	layout  panel.Layout
}

// layOutLevel lays out the panels of a level; so many were before.
func (pl *planner) layOutLevel(level []inventory.Panel, before int) error {
	boards := make([]board, len(level))
	for i, x := range level {
		boards[i] = pl.board(x)
	}
	abreast.Do(len(boards), func(i int) {
		b := &boards[i]
		b.layout = pl.place(b.panel, b.panel.Spaces.Or(0), b.wants, b.day)
	}, func(i int) { pl.tell("spaces and legs of panel "+level[i].Name, before+i+1, len(pl.inv.Panels)) })
	for _, b := range boards {
		if err := pl.adopt(b); err != nil {
			return fmt.Errorf("panel %s: %w", b.panel.Name, err)
		}
	}
	return nil
}

func (pl *planner) board(x inventory.Panel) board {
	b := board{panel: x}
	for i := range pl.plan.Circuits {
		if pl.plan.Circuits[i].Panel == x.Name {
			b.own = append(b.own, &pl.plan.Circuits[i])
		}
	}
	b.feeders = pl.feedersFrom(x.Name)
	b.wants = pl.wants(b.own, b.feeders)
	b.day, b.states = pl.dayOf(x, b.own, b.feeders, b.wants)
	return b
}

// adopt takes a layout into the plan and works the panel's figures out.
func (pl *planner) adopt(b board) error {
	x := b.panel
	out := circuits.Panel{Name: x.Name, System: x.System, LegNames: pl.p.Legs[:x.System.Legs], Main: x.Main, Bus: x.Bus, Spaces: x.Spaces, OtherSpaces: x.OtherSpaces}
	for i, c := range b.own {
		c.Spaces, c.Legs = b.layout.Spaces[i], b.layout.Legs[i]
		out.SpacesUsed += len(c.Spaces)
	}
	for i, f := range b.feeders {
		f.Spaces, f.Legs = b.layout.Spaces[len(b.own)+i], b.layout.Legs[len(b.own)+i]
		out.SpacesUsed += len(f.Spaces)
		out.Feeds = append(out.Feeds, f.Panel)
	}
	pl.name(x.Name, b.own)
	out.Balance = balanceOf(b.layout, b.states)
	pl.plan.Panels = append(pl.plan.Panels, out)
	return pl.panelFigures(x)
}

// wants lists what needs spaces in a panel.
func (pl *planner) wants(own []*circuits.Circuit, feeders []*circuits.Feeder) []panel.Want {
	var wants []panel.Want
	for i, c := range own {
		w := panel.Want{ID: i, Poles: c.Supply.Poles, Amps: steps10mA(c.Load), LowLegsOnly: c.Supply.Neutral, Fixed: nil, Group: 1}
		if c.Existing {
			w.Fixed, w.Group = c.Spaces, 0
		}
		w.Apart = pl.apart(*c)
		wants = append(wants, w)
	}
	for i, f := range feeders {
		w := panel.Want{ID: len(own) + i, Poles: f.Poles, Amps: steps10mA(f.Load), Fixed: f.Spaces, Group: 2}
		wants = append(wants, w)
	}
	return wants
}

// apart numbers the circuits of an item that is to be spread.
func (pl *planner) apart(c circuits.Circuit) int {
	for i, name := range pl.inv.Plan.Spread {
		for _, l := range c.Loads {
			if l.Item == name {
				return i + 1
			}
		}
	}
	return 0
}

// place lays breakers out; a panel that is too small, or whose spaces nobody
// counted, is drawn as large as it takes, so that the figures show how many are
// missing and every breaker in the wall stands where it stands.
func (pl *planner) place(x inventory.Panel, spaces int, wants []panel.Want, day panel.Day) panel.Layout {
	for _, w := range wants {
		for _, s := range w.Fixed {
			spaces = max(spaces, s)
		}
	}
	return panel.Place(x.System, max(spaces, panel.Needs(x.System, spaces, wants)), wants, day, panel.Work{})
}

func steps10mA(i units.Current) int64 { return int64(math.Round(float64(i) * 100)) }

// name calls each new circuit after its panel and first space.
func (pl *planner) name(panelName string, own []*circuits.Circuit) {
	taken := map[string]bool{}
	for _, c := range pl.plan.Circuits {
		if c.Existing {
			taken[c.Name] = true
		}
	}
	for _, c := range own {
		if c.Existing || len(c.Spaces) == 0 {
			continue
		}
		c.Name = fmt.Sprintf("%s-%d", panelName, c.Spaces[0])
		for taken[c.Name] {
			c.Name += "-new"
		}
		taken[c.Name] = true
	}
}

// sortCircuits puts circuits in the order of a directory: by panel; before they
// have spaces, existing ones first, then by room, group and what they feed.
func (pl *planner) sortCircuits() {
	list := pl.plan.Circuits
	sort.SliceStable(list, func(i, j int) bool {
		a, b := &list[i], &list[j]
		if a.Panel != b.Panel {
			return units.NaturalLess(a.Panel, b.Panel)
		}
		if len(a.Spaces) > 0 && len(b.Spaces) > 0 {
			return a.Spaces[0] < b.Spaces[0]
		}
		if a.Existing != b.Existing {
			return a.Existing
		}
		return pl.orderOf(a) < pl.orderOf(b)
	})
}

// orderOf is a sort key for circuits that have no space yet.
func (pl *planner) orderOf(c *circuits.Circuit) string {
	room := ""
	if len(c.Rooms) > 0 {
		room = c.Rooms[0]
	}
	first := ""
	if len(c.Loads) > 0 {
		first = c.Loads[0].Item
	}
	return fmt.Sprintf("%06d %s %s %d %s", pl.roomOrder(room), pl.groupOf(c.Category), c.Controller, 9-c.Supply.Poles, first)
}

func (pl *planner) roomOrder(name string) int {
	if i, ok := pl.roomAt[name]; ok {
		return i
	}
	return len(pl.inv.Rooms)
}
