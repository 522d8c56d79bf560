// Package assign decides: which units go on which circuit, at which voltage,
// behind which breaker, on which spaces and legs of which panel, with which
// conductor.
//
// A plan is made in one direction: circuits that exist are read as they are;
// what they do not feed is grouped into cells that may share circuits (one
// panel, one room, one group of categories, one controller); each cell is packed
// into the fewest panel spaces and then the fewest circuits; conductors, panel
// spaces, legs and feeders follow.
//
// Whole units only. A new circuit is sized as if everything on it ran at once,
// whatever the clocks say: a timer is not an interlock.
package assign
