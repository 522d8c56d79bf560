package judge

import (
	"fmt"
	"slices"
	"sort"
	"strings"

	"branchwork/circuits"
	"branchwork/codes"
	"branchwork/loads"
	"branchwork/loads/inventory"
	"branchwork/loads/units"
)

// neutral gives the facts of a circuit's neutral, and of the circuits that share
// it.
func (j *judgment) neutral(c *circuits.Circuit, f *codes.Facts) {
	neutralCount(c.Neutral, c.Conductor, false, f)
	codes.Put(f, codes.NeutralWith, []string{})
	group := j.sharing(c)
	if len(group) < 2 || j.speaker(group) != c.Name {
		return
	}
	var names, detail []string
	legs := map[string]bool{}
	onePanel, neighbours := true, true
	for i, x := range group {
		names = append(names, x.Name)
		detail = append(detail, j.whereabouts(x))
		legs[fmt.Sprint(x.Legs)] = true
		onePanel = onePanel && x.Panel == group[0].Panel
		neighbours = neighbours && (i == 0 || x.Panel == group[i-1].Panel && x.Spaces[0] == group[i-1].Spaces[0]+2)
	}
	codes.Put(f, codes.NeutralWith, names)
	codes.Put(f, codes.SharedSpaces, strings.Join(detail, ", "))
	codes.Put(f, codes.OnePanel, onePanel)
	codes.Put(f, codes.LegsDiffer, len(legs) == len(group))
	codes.Put(f, codes.Neighbours, neighbours)
	switch tied, told := j.tied(names); {
	case told:
		codes.Put(f, codes.OneHandle, tied)
	case !neighbours: // no handle reaches from one to the other
		codes.Put(f, codes.OneHandle, false)
	default:
		f.Miss(codes.OneHandle, "it is not told whether one handle opens "+strings.Join(names, " and "), "")
	}
}

// sharing returns the circuits of the plan that share a neutral with one, itself
// among them, by panel and space.
func (j *judgment) sharing(c *circuits.Circuit) []*circuits.Circuit {
	group := []*circuits.Circuit{c}
	for i := range j.plan.Circuits {
		if x := &j.plan.Circuits[i]; slices.Contains(c.Neutral.SharedWith, x.Name) && len(x.Spaces) > 0 {
			group = append(group, x)
		}
	}
	sort.SliceStable(group, func(a, b int) bool {
		if group[a].Panel != group[b].Panel {
			return units.NaturalLess(group[a].Panel, group[b].Panel)
		}
		return group[a].Spaces[0] < group[b].Spaces[0]
	})
	return group
}

// speaker is the circuit of a group that is asked for all: the first, by name, of
// those whose table says that the neutral is shared.
func (j *judgment) speaker(group []*circuits.Circuit) string {
	for _, x := range j.inv.Circuits { // in order of name
		if len(x.SharesNeutral) > 0 && slices.ContainsFunc(group, func(c *circuits.Circuit) bool { return c.Name == x.Name }) {
			return x.Name
		}
	}
	return ""
}

// whereabouts says where a circuit's breaker stands: "LP1-1 in space 1 on leg A".
func (j *judgment) whereabouts(c *circuits.Circuit) string {
	leg := ""
	if len(c.Legs) > 0 && c.Legs[0] < len(j.p.Legs) {
		leg = " on leg " + j.p.Legs[c.Legs[0]]
	}
	return fmt.Sprintf("%s in space %d of %s%s", c.Name, c.Spaces[0], c.Panel, leg)
}

// tied tells whether one handle opens some circuits, where the file says: no, as
// soon as one of them says no.
func (j *judgment) tied(names []string) (tied, told bool) {
	tied = true
	for _, x := range j.inv.Circuits {
		if t, ok := x.HandleTie.Get(); ok && slices.Contains(names, x.Name) {
			tied, told = tied && t, true
		}
	}
	return tied, told
}

// neutralCount gives what counting a neutral does to the conductors.
func neutralCount(n circuits.Neutral, w circuits.Wire, untold bool, f *codes.Facts) {
	codes.Put(f, codes.NeutralCounted, n.Runs && n.Counted)
	codes.Put(f, codes.NeutralWhy, n.Why)
	if amps, ok := n.Uncounted.Get(); ok && !untold {
		codes.Put(f, codes.WireUncounted, amps)
	} else {
		missWire(f, codes.WireUncounted, w)
	}
}

// raceway gives the facts of the raceway that a circuit's table names.
func (j *judgment) raceway(c *circuits.Circuit, f *codes.Facts) {
	r := c.Raceway
	own := slices.ContainsFunc(j.inv.Circuits, func(x inventory.Circuit) bool { return x.Name == c.Name && x.Raceway.Known() })
	codes.Put(f, codes.RacewayGiven, r.Given && own)
	codes.Put(f, codes.RacewayName, r.Name())
	codes.Put(f, codes.RacewayEnough, r.Smallest)
	codes.Put(f, codes.RacewayRests, r.Rests)
	share, ok := r.Share.Get()
	if !ok {
		f.Miss(codes.RacewayShare, r.Why, "")
		f.Miss(codes.RacewayLimit, r.Why, "")
		return
	}
	codes.Put(f, codes.RacewayShare, share)
	codes.Put(f, codes.RacewayLimit, r.Limit)
}

// link gives the facts of the chains that an item is fed in.
func link(i *inventory.Item, f *codes.Facts) {
	l, linked := i.Link.Get()
	codes.Put(f, codes.Linked, linked)
	if !linked {
		return
	}
	codes.Put(f, codes.LinkRating, l.Rating)
	for name, n := range map[codes.Fact]units.Known[int]{codes.LinkMost: l.Most, codes.LinkUnits: l.Units} {
		if v, ok := n.Get(); ok {
			codes.Put(f, name, v)
			continue
		}
		why := "how many " + i.Name + " stand in one chain is not given"
		if name == codes.LinkMost {
			why = "how many " + i.Name + " its maker allows in one chain is not given"
		}
		f.Miss(name, why, i.Path())
	}
}

// contacts finds the most current through one pole of a controller's contacts, in
// the worst state of the day. A box with outlets passes all that it switches
// through one contactor; a relay or contactor without has a pole for each
// conductor of each circuit.
func (j *judgment) contacts(box loads.Load) (units.Current, string) {
	i := box.Item
	through := i.Feed.Known() || i.Outlets.Known() || i.OutletRating.Known()
	var every []circuits.Load
	var most units.Current
	says := ""
	for _, c := range j.plan.Circuits {
		var own []circuits.Load
		for _, cl := range c.Loads {
			if l, _ := j.set.Named(cl.Item); l.Item.Controller == box.Name {
				own = append(own, cl)
			}
		}
		every = append(every, own...)
		if amps, _ := j.worstOf(own); amps > most {
			most, says = amps, "circuit "+c.Name+" draws"
		}
	}
	if !through {
		return most, says
	}
	amps, state := j.worstOf(every)
	says = "what it switches draws"
	if box.Count > 1 {
		says = "what each of them switches draws"
	}
	if state != "" {
		says = state + ", " + says
	}
	return units.Times(amps, 1/float64(max(1, box.Count))), says
}

// worstOf returns the most that some loads draw together in any state of the day.
func (j *judgment) worstOf(list []circuits.Load) (most units.Current, state string) {
	set := make([]loads.Load, len(list))
	for i, cl := range list {
		set[i], _ = j.set.Named(cl.Item)
	}
	for _, s := range loads.States(set) {
		var sum units.Current
		for i, cl := range list {
			if s.On[i] {
				sum += cl.Amps()
			}
		}
		if sum > most {
			most, state = sum, s.Name
		}
	}
	return most, state
}
