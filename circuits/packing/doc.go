// Package packing places items in bins at the least width, and proves it.
//
// It knows whole numbers only. An item takes some of each resource; a bin of a
// kind has so much of each; a bin that is opened takes width of a row that is
// scarce, and costs something. The package answers: which bins to open, and
// what goes where, so that in this order
//
//  1. as few items as possible are left out,
//  2. the opened bins take the least total width,
//  3. their number is smallest,
//  4. their total cost is least,
//  5. loads of equal bins are even.
//
// Each of the first four figures comes with a bound: a value that no plan can
// beat. Where both meet, the figure is proved; where the work limit ended the
// search first, the gap is there to see.
//
//	r, err := packing.Solve(packing.Problem{
//		Resources: 1,
//		Kinds: []packing.Kind{
//			{Count: 3, Forms: []packing.Form{{Uses: []int64{6}}}},
//			{Count: 4, Forms: []packing.Form{{Uses: []int64{3}}}},
//		},
//		Bins: []packing.BinKind{{Limits: []int64{10}, Width: 1, Cost: 5}},
//	})
//	// r.Width.Used is 4: three bins hold a six and a three each, one the last
//	// three. r.Width.Proved is true: two sixes never share a bin, and the
//	// threes beside them leave one over.
//
// What it can say beyond that: an item may be served in several ways, each in
// bins of its own family (Form); a bin kind may refuse kinds, limit how many of
// one kind it takes, or be limited in number (BinKind); kinds may refuse to
// meet (Conflicts); bins that are there already may be filled up for free
// (Existing). It does not know an order of items in a bin, nor sizes that
// depend on what else is inside.
//
// # How it works
//
// Equal kinds are merged into lots, and the problem falls apart into cells that
// share no bin (reduce.go, cells.go). Per cell, greedy plans come first
// (greedy.go, spread.go), then bounds that need no search (bounds.go). What is still open
// goes to branch and price (search.go): a linear program over contents of a bin
// (master.go, simplex.go, dual.go), contents made on demand by a knapsack
// (pricing.go on raster.go and table.go; labels.go, lagrange.go and walk.go where
// one table does not know everything), rounding in dives and in small problems
// inside the problem (dive.go, repack.go), and branching on counts of bins
// (tighten.go, branch.go). The aims are settled one after the other
// (solver.go): merging them into one with large factors would drown the bound
// of the later ones.
//
// The linear program computes in floating point, the bounds do not: its prices
// are turned into whole numbers, the knapsack is solved anew with them, and the
// bound is added up in 128 bits. Any error of the linear program can only make
// a bound weaker, never wrong.
//
// A Certificate lets anyone check the bound of the width without any of this:
// a whole-number weight per kind, such that no bin holds more than Z of weight
// per unit of width. Check re-adds a plan, Certificate.Verify packs the weights
// with a knapsack of its own.
//
// Work is limited by counted steps, never by the clock: equal problems get
// equal plans, on every machine.
//
// # Sources
//
// Gilmore and Gomory, "A linear programming approach to the cutting-stock
// problem" (1961), for contents made on demand; Vanderbeck, "On
// Dantzig-Wolfe decomposition in integer programming" (2000), for branching on
// counts of bins; Martello and Toth, "Knapsack Problems" (1990), for the cheap
// bounds.
package packing
