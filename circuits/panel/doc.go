// Package panel answers two questions about a panelboard: where each breaker
// goes, and what each leg and the neutral carry.
//
// It decides nothing about what is on a circuit. A breaker comes as poles and a
// current per pole and leaves as spaces:
//
//	at := panel.Place(sys, 42, wants, panel.Work{})
//	at.Spaces[0] // [1 3], the spaces of the first want
//	at.Worst     // the largest leg sum, in steps of 10 mA
//	at.Proved    // whether no placing has a smaller one
//
// Breakers are placed by the arithmetic sum of branch currents on each leg, as
// a panel schedule adds them up; whole numbers, so that what is proved is
// proved. What the conductors of the panel really carry is a sum of phasors;
// Currents gives it.
//
// Place asks three things in turn, each in files of its own:
//
//   - Which breakers find space at all? start.go, with fill.go, the search for
//     spaces.
//   - On which legs should they be? divide.go: breakers that may be exchanged
//     for one another (kinds.go) are cut into parts with all ways of dividing
//     them (parts.go) and dealt into two lists (deal.go); a table of reachable
//     sums for each (table.go) is searched for the pair that is best together
//     (meet.go), against bounds below which nothing can be (bound.go).
//   - In which order do they stand? order.go, again with fill.go.
package panel
