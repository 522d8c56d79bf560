package day

import (
	"math"
	"slices"

	"branchwork/loads"
	"branchwork/loads/clock"
	"branchwork/loads/inventory"
	"branchwork/loads/units"
)

// The integers of a problem.
const (
	perWatt  = 1000      // milliwatts
	perMoney = 1_000_000 // millionths
)

// builder makes the problem out of an inventory.
type builder struct {
	inv  *inventory.Inventory
	set  loads.Set
	grid clock.Minute
	plan *schedule // nil where only the peak counts

	moving []inventory.Room // with their starts
	starts [][]clock.Minute
	stays  map[string]string // why a room does not move
}

// newBuilder finds which rooms can move and where to. A start at which the lights would
// overlap with those of a room that does not move, and must not, is none.
func newBuilder(inv *inventory.Inventory, set loads.Set, objective Objective, grid clock.Minute) *builder {
	b := &builder{inv: inv, set: set, grid: grid, stays: map[string]string{}}
	if objective == ForCost {
		b.plan = newSchedule(inv.Tariff)
	}
	var fixed []inventory.Room
	for _, room := range inv.Rooms {
		starts, why := startsOf(room, grid)
		if why != "" {
			b.stays[room.Name] = why
			fixed = append(fixed, room)
			continue
		}
		b.moving, b.starts = append(b.moving, room), append(b.starts, starts)
	}
	for i, room := range b.moving {
		b.starts[i] = slices.DeleteFunc(b.starts[i], func(m clock.Minute) bool {
			lit := b.litAt(room, m)
			return slices.ContainsFunc(fixed, func(f inventory.Room) bool {
				return keepApart(set, room, f) && overlap(lit, litOf(f, set))
			})
		})
	}
	return b
}

// by returns how much later a start is than today's.
func by(room inventory.Room, start clock.Minute) clock.Minute {
	lights, _ := room.Lights.Get()
	now, _ := dawn(lights)
	return around(start - now)
}

// litAt returns when a room is lit if its photoperiod begins at a minute.
func (b *builder) litAt(room inventory.Room, start clock.Minute) clock.Windows {
	inv, set := Moved(b.inv, b.set, []Move{{room.Name, by(room, start)}})
	for _, r := range inv.Rooms {
		if r.Name == room.Name {
			return litOf(r, set)
		}
	}
	return clock.Never()
}

// curvesAt returns the curves of a room's loads if its photoperiod begins at a minute.
// Heat is of the room alone: rooms do not heat each other.
func (b *builder) curvesAt(room inventory.Room, start clock.Minute) []*curve {
	inv, set := Moved(b.inv, b.set, []Move{{room.Name, by(room, start)}})
	inv.Rooms = slices.DeleteFunc(inv.Rooms, func(r inventory.Room) bool { return r.Name != room.Name })
	set.Loads = slices.DeleteFunc(set.Loads, func(l loads.Load) bool { return l.Room != room.Name })
	inv.Items = slices.DeleteFunc(inv.Items, func(i inventory.Item) bool { return i.Room != room.Name })
	if slices.ContainsFunc(set.Loads, func(l loads.Load) bool { return needOf(&l) != ownHours || !l.Running.Known() }) {
		return newSite(inv, set).curves
	}
	return (&site{inv: inv, set: set}).work().curves // nothing hangs on the heat
}

// problem builds it. What does not change with a room's start, fans and pumps by their own
// hours, is part of the base.
func (b *builder) problem(g goal) *problem {
	p := &problem{goal: g, grid: b.grid}
	still := slices.DeleteFunc(newSite(b.inv, b.set).draws, func(d *draw) bool { return b.moves(d.load.Room) })
	var base sumOf
	for _, c := range curvesOf(still) {
		base.add(c)
	}
	for i, room := range b.moving {
		choice := choice{name: room.Name, now: -1}
		var all [][]*curve
		for _, m := range b.starts[i] {
			all = append(all, b.curvesAt(room, m))
		}
		still := unmoved(all)
		if len(all) > 0 {
			for k, c := range all[0] {
				if still[k] {
					base.add(c)
				}
			}
		}
		var shapes []raw
		for a, m := range b.starts[i] {
			var sum sumOf
			for k, c := range all[a] {
				if !still[k] {
					sum.add(c)
				}
			}
			o := option{start: m, by: by(room, m), lit: b.litAt(room, m), energy: b.energy(&sum)}
			if o.by == 0 {
				choice.now = a
			}
			choice.options = append(choice.options, o)
			shapes = append(shapes, sum.raw())
		}
		p.rooms = append(p.rooms, choice)
		p.shape.options = append(p.shape.options, shapes)
	}
	p.energy = b.energy(&base)
	p.shape.base = base.raw()
	p.gather(p.shape.base, p.shape.options)
	b.block(p)
	return p
}

func (b *builder) moves(room string) bool {
	return slices.ContainsFunc(b.moving, func(r inventory.Room) bool { return r.Name == room })
}

// unmoved marks the loads of a room whose curve is the same at every start.
func unmoved(all [][]*curve) []bool {
	if len(all) == 0 {
		return nil
	}
	out := make([]bool, len(all[0]))
	for k := range out {
		out[k] = true
		for _, list := range all[1:] {
			out[k] = out[k] && *list[k].minutes == *all[0][k].minutes && list[k].most == all[0][k].most
		}
	}
	return out
}

// sumOf is the sum of some curves.
type sumOf struct {
	minutes [clock.Day]units.Power
	most    [kinds][quarters]units.Power
}

func (s *sumOf) add(c *curve) {
	if !c.draw.known {
		return
	}
	for m, p := range c.minutes {
		s.minutes[m] += p
	}
	for k := range kinds {
		for q, p := range c.most[k] {
			s.most[k][q] += p
		}
	}
}

func (s *sumOf) raw() (out raw) {
	for k := range kinds {
		for q, p := range s.most[k] {
			out[k*quarters+q] = int64(math.Round(float64(p) * perWatt))
		}
	}
	return out
}

// energy returns what a month of each season costs, in millionths.
func (b *builder) energy(s *sumOf) (out [seasons]int64) {
	if b.plan == nil {
		return out
	}
	for i := range seasons {
		at, _ := b.plan.used(&s.minutes, i)
		cost := units.Money(0)
		for k, w := range at {
			cost += EnergyCost(b.inv.Tariff.Energy[k].Price, w)
		}
		out[i] = int64(math.Round(float64(cost) * perMoney))
	}
	return out
}

// block finds which options must not stand together.
func (b *builder) block(p *problem) {
	n := len(p.rooms)
	p.blocked = make([][][][]bool, n)
	for i := range p.rooms {
		p.blocked[i] = make([][][]bool, len(p.rooms[i].options))
		for a, x := range p.rooms[i].options {
			p.blocked[i][a] = make([][]bool, n)
			for j := range p.rooms {
				if i == j || !keepApart(b.set, b.moving[i], b.moving[j]) {
					continue
				}
				row := make([]bool, len(p.rooms[j].options))
				for k, y := range p.rooms[j].options {
					row[k] = overlap(x.lit, y.lit)
				}
				p.blocked[i][a][j] = row
			}
		}
	}
}

// goalOf returns what is to be least.
func goalOf(t inventory.Tariff, objective Objective) goal {
	return goal{
		objective: objective,
		price:     float64(t.Demand.Or(0)) * perMoney / (1000 * perWatt),
		ratchet:   float64(t.Ratchet.Or(0)),
		least:     int64(math.Round(float64(t.Minimum.Or(0)) * perMoney)),
	}
}
