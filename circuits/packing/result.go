package packing

// Result is a complete plan with a bound beside each of its figures.
type Result struct {
	Bins     []Bin // opened bins, and existing bins that were given items
	Unplaced []int // per kind, items left out

	// The figures in the order in which they were made small: each is the
	// least possible given the values used for the figures before it.
	Missing Bounded // items left out
	Width   Bounded // total width of opened bins
	Opened  Bounded // number of opened bins
	Cost    Bounded // total cost of opened bins

	Certificate *Certificate // proves a bound of Width; never nil
}

// Bounded is a figure of the plan beside the least it could be.
type Bounded struct {
	Used, Bound int64
	Proved      bool   // Used equals Bound: no plan can do better
	Why         string // one line: how the bound was found, or why it is open
}

// Bin is one bin with what the plan puts inside. Equal bins share one Holds
// slice, which must not be changed.
type Bin struct {
	Kind     int   // index in Problem.Bins, -1 for an existing bin
	Existing int   // index in Problem.Existing, -1 for an opened bin
	Holds    []int // per kind, the items placed here
}
