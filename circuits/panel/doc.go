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
// Files: spaces.go is the numbering of spaces and their legs, legs.go the
// phasors; layout.go places breakers, by way of kinds.go (breakers that may be
// exchanged), fill.go (which breakers fit the free rows), split.go and
// table.go (which sums the legs can reach), and order.go (who goes where among
// equals).
package panel
