package cec

import (
	"branchwork/codes"
	"branchwork/loads/steps"
	"branchwork/loads/units"
)

// Class A devices trip at 6 mA at the latest, about 5 mA in ordinary use, and not
// below 4 mA, the least at which one may open. From memory.
const (
	classA     = "Class A GFCI"
	classATrip = 4 * units.Milliampere
)

// Receptacles 5-15R and 5-20R: 120 V to neutral, up to 20 A.
const (
	smallVolts units.Voltage = 120
	smallUpTo  units.Current = 20
)

// protection tells which ground-fault protection an outlet calls for: receptacles
// of 15 and 20 A at 120 V where it is damp or wet. No clause is held that asks it
// of horticultural lighting, or of circuits at 208 V and more, or of equipment
// wired permanently.
func protection(e edition) func(codes.Outlet) codes.Protection {
	return func(o codes.Outlet) codes.Protection {
		if !o.Corded || !o.Wet || o.Phases == 3 || units.Exceeds(o.Volts, smallVolts) || units.Exceeds(o.Rating, smallUpTo) {
			return codes.Protection{}
		}
		return codes.Protection{Needed: true, Class: classA, Trip: classATrip, Cite: e.cite("26-704", steps.Recalled),
			Why: "a receptacle of 15 or 20 A at 120 V exposed to moisture; whether a room with foliar feeding or washing counts as damp is the inspector's to say"}
	}
}
