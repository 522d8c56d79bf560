package heat

import (
	"fmt"
	"slices"

	"branchwork/loads"
	"branchwork/loads/steps"
	"branchwork/loads/units"
)

// record collects, for one room, the working and everything that a reader has to be
// told beside the figures.
type record struct {
	work    steps.Work
	room    string
	assumed []loads.Assumption
	missing []string
	notes   []string
	leftOut []LeftOut
	atLeast bool
	sunless bool // sun on walls or roof is left out
}

// leastWhy says why a cooling load is a least value; empty where it is not.
func (r *record) leastWhy() string {
	switch {
	case r.atLeast:
		return notWhole
	case r.sunless:
		return noSun
	}
	return ""
}

// Reasons for which a load is a least value.
const (
	notWhole = "a part of the load is not known"
	noSun    = "sun on walls and roof is not counted"
)

// assume lists a value that the file does not give, under the room's key path.
func (r *record) assume(key, value, why string, cite steps.Cite) {
	r.assumeOf("rooms."+r.room+"."+key, value, why, cite)
}

// assumeOf lists a value that the file does not give, once.
func (r *record) assumeOf(subject, value, why string, cite steps.Cite) {
	for _, a := range r.assumed {
		if a.Subject == subject {
			return
		}
	}
	r.assumed = append(r.assumed, loads.Assumption{Subject: subject, Value: value, Why: why, Cite: cite})
}

// miss lists something whose heat cannot be told; totals become a least value.
func (r *record) miss(format string, a ...any) {
	r.atLeast = true
	r.missing = appendOnce(r.missing, fmt.Sprintf(format, a...))
}

// note lists something worth knowing that changes no figure.
func (r *record) note(format string, a ...any) {
	r.notes = appendOnce(r.notes, fmt.Sprintf(format, a...))
}

func appendOnce(list []string, s string) []string {
	if slices.Contains(list, s) {
		return list
	}
	return append(list, s)
}

// noted adds a remark to a step.
func noted(s steps.Step, note string) steps.Step {
	s.Note = note
	return s
}

// poundsPerHour writes a rate of water in lb/h, a litre taken as a kilogram.
func poundsPerHour(symbol string, w units.WaterRate) steps.Input {
	return steps.In(symbol, float64(w)/24/units.KilogramPerPound, "lb/h")
}

// seen cites a source that was read.
func seen(ref, at string) steps.Cite { return steps.Cite{Ref: ref, At: at, How: steps.Seen} }

// recalled cites a source that was not read.
func recalled(ref, at string) steps.Cite { return steps.Cite{Ref: ref, At: at, How: steps.Recalled} }
