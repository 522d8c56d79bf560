package inventory

import (
	"fmt"
	"sort"
	"strings"
)

// taker is a breaker that takes spaces of a panel.
type taker struct {
	at     *node // its spaces
	owner  string
	panel  *Panel
	spaces []int
}

// takenSpaces checks the spaces that existing circuits and feeders take: inside
// the panel, side by side on one side, each once.
func (r *reader) takenSpaces() {
	panels := map[string]*Panel{}
	for i := range r.inv.Panels {
		panels[r.inv.Panels[i].Name] = &r.inv.Panels[i]
	}
	var all []taker
	for _, c := range r.inv.Circuits {
		if p := panels[c.Panel]; p != nil && len(c.Spaces) > 0 {
			all = append(all, taker{r.tree.root.down("circuits", c.Name, "spaces"), "circuits." + c.Name, p, c.Spaces})
		}
	}
	for _, q := range r.inv.Panels {
		if p := panels[q.FedBy]; p != nil && len(q.Feeder.Spaces) > 0 {
			all = append(all, taker{r.tree.root.down("panels", q.Name, "feeder", "spaces"), "panels." + q.Name, p, q.Feeder.Spaces})
		}
	}
	sort.Slice(all, func(i, j int) bool { return all[i].at.key.start < all[j].at.key.start })
	type slot struct {
		panel string
		space int
	}
	type hold struct {
		owner string
		at    *node
	}
	taken := map[slot]hold{}
	for _, t := range all {
		r.poles(t)
		for i, n := range t.spaces {
			at := t.at.kids[i]
			s := slot{t.panel.Name, n}
			if first, ok := taken[s]; ok {
				r.report(at.value, at.path(), fmt.Sprintf("space %d of %s is taken twice", n, printable(t.panel.Name)),
					fmt.Sprintf("first taken by %s, line %d", printable(first.owner), r.lines.place(first.at.value).Line), first.at.value)
				continue
			}
			taken[s] = hold{t.owner, at}
			if have, ok := t.panel.Spaces.Get(); ok && n > have {
				r.report(at.value, at.path(), fmt.Sprintf("space %d is outside %s, which has %d", n, printable(t.panel.Name), have),
					fmt.Sprintf("spaces here: 1 to %d", have))
			}
		}
	}
	for i := range r.inv.Circuits {
		sort.Ints(r.inv.Circuits[i].Spaces)
	}
	for i := range r.inv.Panels {
		sort.Ints(r.inv.Panels[i].Feeder.Spaces)
	}
}

// poles checks that a breaker has no more poles than the panel has legs, and
// that they lie next to each other on one side: n, n+2, n+4.
func (r *reader) poles(t taker) {
	legs := t.panel.System.Legs
	if legs > 0 && len(t.spaces) > legs {
		r.report(t.at.value, t.at.path(), fmt.Sprintf("%d spaces for one breaker on a panel of %s", len(t.spaces), legWord(legs)),
			fmt.Sprintf("a breaker on %s takes at most %d", quote(t.panel.System.Name), legs))
		return
	}
	sorted := append([]int{}, t.spaces...)
	sort.Ints(sorted)
	for i := 1; i < len(sorted); i++ {
		switch sorted[i] - sorted[i-1] {
		case 2:
		case 0:
			return // reported as taken twice
		default:
			right := make([]string, len(sorted))
			for j := range right {
				right[j] = itoa(sorted[0] + 2*j)
			}
			r.report(t.at.value, t.at.path(), fmt.Sprintf("spaces %d and %d do not lie next to each other on one side", sorted[i-1], sorted[i]),
				fmt.Sprintf("odd spaces are on the left, even ones on the right: [%s]", strings.Join(right, ", ")))
			return
		}
	}
}

func legWord(n int) string {
	if n == 1 {
		return "1 leg"
	}
	return fmt.Sprintf("%d legs", n)
}

// neutrals checks what shares a neutral: other circuits, each of one pole.
func (r *reader) neutrals() {
	poles := map[string]int{}
	for _, c := range r.inv.Circuits {
		poles[c.Name] = len(c.Spaces)
	}
	for _, c := range r.inv.Circuits {
		n := r.tree.root.down("circuits", c.Name, "shares_neutral")
		if len(c.SharesNeutral) > 0 && poles[c.Name] > 1 {
			r.report(n.key, n.path(), fmt.Sprintf("a circuit of %d poles shares a neutral", poles[c.Name]),
				"only circuits from one leg to neutral share one; leave it out here, or give the circuit one space")
			continue
		}
		for i, other := range c.SharesNeutral {
			at := n
			if len(n.kids) > i {
				at = n.kids[i]
			}
			switch {
			case other == c.Name:
				r.report(at.value, at.path(), fmt.Sprintf("circuit %s shares a neutral with itself", quote(other)), "name the other circuits")
			case poles[other] > 1:
				r.report(at.value, at.path(), fmt.Sprintf("circuit %s has %d poles and no neutral of that kind", quote(other), poles[other]),
					"name circuits of one space each")
			}
		}
	}
}
