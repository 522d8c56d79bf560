package circuits

import (
	"branchwork/loads/steps"
	"branchwork/loads/units"
)

// Neutral is the neutral that runs along a circuit or a feeder, and whether it
// counts among the conductors that carry current. The zero value is none.
type Neutral struct {
	Runs       bool
	SharedWith []string // the other circuits that share it, in order of space
	Counted    bool
	Why        string
	Cite       steps.Cite
	Amps       units.Known[units.Current] // of a shared neutral, the most that it carries
	Uncounted  units.Known[units.Current] // corrected ampacity of the conductors were it not counted
}

// Raceway is what the conductors of a run are drawn into.
type Raceway struct {
	Kind       string                   // "EMT"
	Trade      string                   // "1/2 in": the smallest that holds them, or the one that the file names; empty where unknown
	Given      bool                     // the file names it
	Smallest   string                   // that holds them; empty where unknown
	Circuits   int                      // that share it
	Conductors int                      // in it, grounding conductors among them
	Share      units.Known[units.Ratio] // filled
	Limit      units.Ratio              // that may be filled
	Why        string                   // why its trade size is not known
	Rests      []steps.Cite             // tables that its figures come from
}

// Name is the raceway in the trade's words: "1/2 in EMT", empty where its trade
// size is not known.
func (r Raceway) Name() string {
	if r.Trade == "" {
		return ""
	}
	return r.Trade + " " + r.Kind
}
