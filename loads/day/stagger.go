package day

import (
	"fmt"
	"slices"
	"strings"

	"branchwork/loads"
	"branchwork/loads/clock"
	"branchwork/loads/inventory"
	"branchwork/loads/steps"
	"branchwork/loads/units"
)

// Staggered is a choice of the photoperiods' starts.
type Staggered struct {
	Objective     Objective
	Grid          clock.Minute
	Rooms         []Photoperiod // every room with lights, in natural order
	Before, After Day

	Used   units.Known[float64] // After's value: W for the peak, the currency a month for the cost
	Bound  units.Known[float64] // no choice has less; unknown where nothing tells
	Unit   string
	Proved bool   // Used is the least there is
	Why    string // where it is not proved, or nothing was chosen
	Nodes  int    // of the search

	Notes []string
	Steps []steps.Step
}

// Photoperiod is what becomes of a room's lights.
type Photoperiod struct {
	Room          string
	Before, After clock.Windows
	By            clock.Minute // later, around the clock; 0 where it stays
	Fixed         string       // why it cannot move; empty where it may
	With          []string     // items with hours of their own that move with the lights
	Stand         []string     // items with hours of their own that do not
}

// Moves returns the rooms that move, for Moved.
func (s Staggered) Moves() []Move {
	var out []Move
	for _, r := range s.Rooms {
		if r.By != 0 {
			out = append(out, Move{r.Room, r.By})
		}
	}
	return out
}

// Stagger chooses when the photoperiods begin so that the peak demand, or the cost, is
// least. Hours are kept: each room's window moves as a whole, see Moved.
//
// A room begins within its starts_from, on the grid; one without stays where it is. Rooms
// named in apart, and rooms that are different members of one interlock, are never lit
// together. The peak is the largest 15-minute mean with the cycling loads coincident, on
// the worst of the three days; the cost is the mean month's bill.
//
// The least value is found exactly, by branch and bound, where the search comes to its
// end, for up to twelve rooms as a rule. Where it does not, Proved is false and Bound
// tells how far from the least the answer can be. Among choices of one value one near
// to today's windows is taken: no room is moved for nothing.
//
// grid is Hourly or Quarterly; anything else is taken as Hourly.
//
// Loads of unknown watts take no part. With a tariff that leaves hours without a price the
// cost is not minimised: the hours would be taken as free.
func Stagger(inv *inventory.Inventory, set loads.Set, objective Objective, grid clock.Minute) Staggered {
	if grid != Quarterly {
		grid = Hourly
	}
	s := Staggered{Objective: objective, Grid: grid, Unit: "W", Before: Of(inv, set)}
	s.After = s.Before
	if objective == ForCost {
		s.Unit = join(inv.Tariff.Currency, "per month")
	}
	b := newBuilder(inv, set, objective, grid)
	s.Used = s.value(s.Before)
	if s.Why = s.refusal(b); s.Why == "" {
		s.choose(b)
	} else if len(b.moving) == 0 && s.Used.Known() {
		s.Bound, s.Proved = s.Used, true // there is one choice
	}
	if !s.Bound.Known() {
		s.Bound = units.Unknown[float64](s.Why)
	}
	s.list(b)
	s.tell(b)
	return s
}

// refusal says why nothing can be chosen.
func (s *Staggered) refusal(b *builder) string {
	if s.Objective == ForCost {
		c, ok := s.Before.Cost.Get()
		switch {
		case !ok:
			return s.Before.Cost.Why()
		case len(c.Gaps) > 0:
			return "the tariff has hours without a price, which would be taken as free: " + c.Gaps[0].When.String()
		}
	}
	if len(b.moving) == 0 {
		return "no room may move: give starts_from for the rooms that may"
	}
	for i, r := range b.moving {
		if len(b.starts[i]) == 0 {
			return fmt.Sprintf("rooms.%s: each of its starts would light it together with a room that it must be apart from", r.Name)
		}
	}
	return ""
}

// choose searches and works the day again with what was found.
func (s *Staggered) choose(b *builder) {
	p := b.problem(goalOf(b.inv.Tariff, s.Objective))
	var now []int
	for _, r := range p.rooms {
		now = append(now, r.now)
	}
	if slices.Contains(now, -1) || !p.feasible(now) {
		now = nil
		s.note("the windows as they stand are none that may be chosen: a start outside its starts_from, or lights together that must be apart; the value after may exceed the one before")
	}
	f, ok := p.search(now)
	s.Nodes = f.nodes
	if !ok {
		s.Why = "no choice of starts keeps all rooms apart that must be"
		if !f.proved {
			s.Why = "no choice of starts was met that keeps all rooms apart that must be"
		}
		return
	}
	var moves []Move
	for i, a := range f.pick {
		if o := p.rooms[i].options[a]; o.by != 0 {
			moves = append(moves, Move{p.rooms[i].name, o.by})
		}
	}
	if len(moves) > 0 {
		s.After = Of(Moved(b.inv, b.set, moves))
	}
	if now != nil && !s.better() { // equal but for the rounding of the search's whole numbers
		moves, s.After = nil, s.Before
	}
	s.moved(b, moves)
	s.Used = s.value(s.After)
	used, _ := s.Used.Get()
	switch x := b.entangled(); {
	case x != "":
		s.Why, s.Bound = x, units.Unknown[float64](x)
	case f.proved:
		s.Proved, s.Bound = true, s.Used
	default:
		s.Why = fmt.Sprintf("the search was ended after %s nodes", units.Round(float64(f.nodes), 0))
		s.Bound = units.Is(min(used, s.scale(f.bound)))
	}
	s.record(len(p.rooms))
}

// better reports whether the day after is worth moving for.
func (s *Staggered) better() bool {
	after, ok1 := s.value(s.After).Get()
	before, ok2 := s.value(s.Before).Get()
	return ok1 && ok2 && units.Exceeds(before, after)
}

// value is what the objective makes of a day.
func (s *Staggered) value(d Day) units.Known[float64] {
	if s.Objective == ForPeak {
		return units.Is(float64(d.Site.Demand.Power))
	}
	c, ok := d.Cost.Get()
	if !ok {
		return units.Unknown[float64](d.Cost.Why())
	}
	return units.Is(float64(c.Month))
}

// scale turns an integer of the search into the objective's unit.
func (s *Staggered) scale(x int64) float64 {
	if s.Objective == ForPeak {
		return float64(x) / perWatt
	}
	return float64(x) / perMoney / 12
}

// entangled names an interlock of loads other than luminaires that reaches from a moving
// room into another: what it keeps apart the search counts together.
func (b *builder) entangled() string {
	for _, l := range b.set.Loads {
		if l.Interlock == "" || l.Item.Table == inventory.Fixtures || !b.moves(l.Room) {
			continue
		}
		for _, o := range b.set.Loads {
			if o.Interlock == l.Interlock && o.Room != l.Room {
				return fmt.Sprintf("interlock %q joins %s and %s; the search counts both", l.Interlock, l.Path, o.Path)
			}
		}
	}
	return ""
}

// moved records where the rooms went.
func (s *Staggered) moved(b *builder, moves []Move) {
	for _, m := range moves {
		for _, r := range b.moving {
			if r.Name == m.Room {
				w, _ := r.Lights.Get()
				s.Rooms = append(s.Rooms, Photoperiod{Room: r.Name, Before: w, After: shifted(w, m.By), By: m.By})
			}
		}
	}
}

// list completes the rooms: those that stay, with the reason.
func (s *Staggered) list(b *builder) {
	for _, r := range b.inv.Rooms {
		w, ok := r.Lights.Get()
		if !ok {
			continue
		}
		i := slices.IndexFunc(s.Rooms, func(p Photoperiod) bool { return p.Room == r.Name })
		if i < 0 {
			s.Rooms = append(s.Rooms, Photoperiod{Room: r.Name, Before: w, After: w, Fixed: b.stays[r.Name]})
			i = len(s.Rooms) - 1
		}
		s.Rooms[i].With, s.Rooms[i].Stand = companions(b.set, r)
	}
	slices.SortStableFunc(s.Rooms, func(a, b Photoperiod) int {
		switch {
		case units.NaturalLess(a.Room, b.Room):
			return -1
		case units.NaturalLess(b.Room, a.Room):
			return 1
		}
		return 0
	})
}

// tell notes what a reader has to know beside the answer.
func (s *Staggered) tell(b *builder) {
	for _, r := range s.Rooms {
		if r.By != 0 && len(r.Stand) > 0 {
			s.note("rooms.%s: the hours of %s stand; look whether they suit the new window", r.Room, strings.Join(r.Stand, ", "))
		}
	}
	if pairs := s.turns(b); len(pairs) > 0 {
		s.note("rooms that are lit by turns count as noncoincident for the size of the service only if they are interlocked; by their windows alone are: %s", strings.Join(pairs, "; "))
	}
	if s.Before.AtLeast() {
		s.note("loads whose watts are not known take no part in the choice; all figures are least values")
	}
}

// pairsNamed is how many pairs of rooms a note names before it counts the rest.
const pairsNamed = 4

// turns names the pairs of rooms that are never lit together after the choice, and that
// nothing but their schedules keeps from it.
func (s *Staggered) turns(b *builder) []string {
	var out []string
	for i, x := range s.Rooms {
		for _, y := range s.Rooms[i+1:] {
			if x.After.IsNever() || y.After.IsNever() || overlap(x.After, y.After) || interlocked(b.set, b.roomNamed(x.Room), b.roomNamed(y.Room)) {
				continue
			}
			out = append(out, x.Room+" and "+y.Room)
		}
	}
	if n := len(out); n > pairsNamed {
		out = append(out[:pairsNamed:pairsNamed], fmt.Sprintf("%d more pairs", n-pairsNamed))
	}
	return out
}

func (b *builder) roomNamed(name string) inventory.Room {
	for _, r := range b.inv.Rooms {
		if r.Name == name {
			return r
		}
	}
	return inventory.Room{}
}

func (s *Staggered) note(format string, a ...any) {
	s.Notes = append(s.Notes, fmt.Sprintf(format, a...))
}

// record adds the working of the choice.
func (s *Staggered) record(rooms int) {
	var w steps.Work
	what := "peak demand"
	if s.Objective == ForCost {
		what = "cost of a month"
	}
	add := func(name string, x units.Known[float64], note string) {
		if v, ok := x.Get(); ok {
			w.Add(steps.Step{Name: name, Result: v, Unit: s.Unit, Cite: steps.CommonPractice, Note: note})
		}
	}
	add(what+" before", s.value(s.Before), "the windows as they stand")
	add(what+" after", s.Used, "the least that was found over the starts of "+units.Round(float64(rooms), 0)+" rooms")
	add("no starts give less than", s.Bound, "lower bound of the search")
	s.Steps = w.Steps()
}
