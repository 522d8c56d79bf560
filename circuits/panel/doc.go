// Package panel answers two questions about a panelboard: where each breaker
// goes, and what each leg and the neutral carry.
//
// It decides nothing about what is on a circuit. A breaker comes as poles and a
// current per pole and leaves as spaces:
//
//	at := panel.Place(sys, 42, wants, panel.Day{}, panel.Work{})
//	at.Spaces[0] // [1 3], the spaces of the first want
//	at.Worst     // the fullest leg at any moment of the day, in steps of 10 mA
//	at.Proved    // whether no placing has a smaller one
//
// Breakers are placed by the arithmetic sum of branch currents on each leg, as
// a panel schedule adds them up; whole numbers, so that what is proved is
// proved. What the conductors of the panel really carry is a sum of phasors;
// Currents gives it.
//
// What is balanced is the day, not the sum of everything: a Day has a moment for
// each state that lasts, and a want says what it carries at each. First the
// fullest leg at any moment is made as little full as can be; then the fullest
// legs of the moments with lights on, added up; then the fullest leg with
// everything on, which is what sizes the main; then the difference between legs.
// So rooms that light by turns are even by day and by night. Moments that another
// exceeds on every breaker are left out (moments.go); what each of up to five
// carries is kept side by side in every state of a table (flat.go).
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
