package packing

import "fmt"

// Work limits what Solve may spend. It counts steps, never seconds, so that
// the answer does not depend on the machine or on what else it is doing.
//
// The limits hold for the whole problem. They are dealt out to its independent
// parts before solving, so that one part never changes the answer of another.
type Work struct {
	Nodes   int   // nodes of the search tree
	Pivots  int   // pivots of the linear programs
	Entries int64 // entries of tables and matrices looked at; the bulk of the time
}

// DefaultWork is used for each limit that is zero. Spending all of it takes
// some tens of seconds; nearly every problem needs a small fraction.
func DefaultWork() Work {
	return Work{Nodes: 20_000, Pivots: 2_000_000, Entries: 6_000_000_000}
}

// leastShare is the smallest part of the limits that an independent part of
// the problem gets, as a divisor: a problem in a hundred parts rarely has more
// than a few hard ones.
const leastShare = 20

func (w Work) validate() error {
	if w.Nodes < 0 || w.Pivots < 0 || w.Entries < 0 {
		return fmt.Errorf("work limits are %d, %d and %d, want 0 for the default or more",
			w.Nodes, w.Pivots, w.Entries)
	}
	return nil
}

// share returns a meter for one of n parts.
func (w Work) share(n int) *meter {
	d := DefaultWork()
	if w.Nodes == 0 {
		w.Nodes = d.Nodes
	}
	if w.Pivots == 0 {
		w.Pivots = d.Pivots
	}
	if w.Entries == 0 {
		w.Entries = d.Entries
	}
	n = min(max(n, 1), leastShare)
	return &meter{
		nodes:   max(w.Nodes/n, 1),
		pivots:  max(w.Pivots/n, 1),
		entries: max(w.Entries/int64(n), 1),
	}
}

// meter counts down what is left of the work limits.
type meter struct {
	nodes   int
	pivots  int
	entries int64
}

func (m *meter) spent() bool {
	return m.nodes <= 0 || m.pivots <= 0 || m.entries <= 0
}

// part returns a meter that holds at most a share of what m has left. What is
// spent on it must be given back with settle.
func (m *meter) part(nodes, pivots int, entries int64) meter {
	return meter{min(nodes, m.nodes), min(pivots, m.pivots), min(entries, m.entries)}
}

// settle takes off m what was spent of a part.
func (m *meter) settle(before, after meter) {
	m.nodes -= before.nodes - after.nodes
	m.pivots -= before.pivots - after.pivots
	m.entries -= before.entries - after.entries
}
