package panel

// Want is a breaker that is to have spaces.
type Want struct {
	ID    int   // decides the order among equals; lower is nearer the top
	Poles int   // 1, 2 or 3
	Amps  int64 // current per pole with everything on, in steps of 10 mA
	// At is the same at each moment of the day; nil where it is always Amps.
	At []int64
	// LowLegsOnly keeps line-to-neutral loads off the high leg of a high-leg
	// system: one pole on A or C, or two poles on C and A. It means nothing on
	// other systems.
	LowLegsOnly bool
	// Fixed is the spaces of a breaker that is there already; it stays.
	Fixed []int
	// Group keeps breakers together: groups follow one another by number,
	// where balance does not care.
	Group int
	// Apart, where not zero, is shared by breakers that should not all sit on
	// one leg or one set of legs.
	Apart int
}

// Layout is where breakers go. Slices by want have the order of the wants.
type Layout struct {
	Spaces   [][]int // by want, from the top; nil where it found no space
	Legs     [][]int // by want, the leg of each space
	Unplaced []int   // indices of wants that found no space
	Sums     []int64 // by leg: arithmetic sum of branch currents with everything on, in 10 mA
	Worst    int64   // the fullest leg at any moment of the day
	Even     int64   // an equal share at that moment, rounded up
	At       int     // the moment of Worst, an index of Day.Moments; 0 without a day
	Bound    int64   // no layout of the breakers placed, apart where these are, has a smaller Worst
	Proved   bool    // Worst is the least there is
	Why      string  // what the bound rests on, or why it is not proved
	// Lit is the fullest legs of the lit moments added up. Of the lit moments
	// those count that no other exceeds on every breaker; where none is lit, all.
	Lit      int64
	LitEven  int64 // the same with every leg at its equal share
	LitBound int64 // no layout with this Worst has a smaller Lit
}

// Work limits the search for a layout. It is counted, never timed, so that a
// layout does not depend on the machine. Zero takes the default.
type Work struct {
	Cells int64 // sums kept in tables, together
	Pairs int64 // pairs of sums compared
	Tries int64 // spaces tried while filling the panel
}
