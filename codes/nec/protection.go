package nec

import (
	"branchwork/codes"
	"branchwork/loads/steps"
	"branchwork/loads/units"
)

// Classes of ground-fault protection.
const (
	classA         = "Class A GFCI"
	specialPurpose = "special-purpose GFCI"
)

// Class A devices serve circuits up to 150 V to ground. They trip at 6 mA and
// not below 4 mA (UL 943); special-purpose devices (UL 943C) trip at 20 mA.
const (
	lowToGround   units.Voltage = 150
	classATrip                  = 4 * units.Milliampere
	specialTrip                 = 20 * units.Milliampere
	singleUpTo    units.Current = 50  // receptacles on one phase, other than dwellings
	threeUpTo     units.Current = 100 // receptacles on three phases, other than dwellings
	oldDwellingUp units.Current = 20  // 2017: 125 V receptacles of 15 and 20 A in dwellings
	oldDwellingV  units.Voltage = 125
	receptaclesV  units.Voltage = 250
)

// protection returns the edition's answer to which ground-fault protection an
// outlet calls for: 410.184 for horticultural lighting on cords (from 2020),
// 210.8 for receptacles in dwellings and in damp or wet places. Equipment wired
// permanently is outside both.
func protection(e edition) func(codes.Outlet) codes.Protection {
	return func(o codes.Outlet) codes.Protection {
		if !o.Corded {
			return codes.Protection{}
		}
		if o.Lighting && e.since("2020") {
			return horticultural(e, o)
		}
		return receptacle(e, o)
	}
}

// horticultural: 410.184 by edition.
//
//	2020  a GFCI, whatever the voltage to ground
//	2023  above 150 V to ground a special-purpose GFCI instead
//	2026  the same, and the special-purpose device trips at 20 mA at most
func horticultural(e edition, o codes.Outlet) codes.Protection {
	low := !units.Exceeds(o.ToGround, lowToGround)
	p := codes.Protection{Needed: true, Class: classA, Trip: classATrip, Cite: e.seenIn2026("410.184")}
	switch {
	case e.year == "2020" && !low:
		p.Why = "horticultural lighting on cords with connectors; the 2020 text makes no difference by voltage, and Class A devices are made up to 150 V to ground, so the inspector decides"
	case low:
		p.Why = "horticultural lighting on cords with plugs or separable connectors, up to 150 V to ground"
	default:
		p.Class, p.Trip = specialPurpose, specialTrip
		p.Why = "horticultural lighting on cords with plugs or separable connectors, above 150 V to ground"
	}
	if e.since("2026") {
		p.Cite.At = "410.184(A)"
		if !low {
			p.Cite.At = "410.184(B)"
			p.Why += "; it trips at 20 mA at most and is not one listed only for double-insulated loads"
		}
	}
	return p
}

// receptacle: 210.8(A) in dwellings, 210.8(B) elsewhere. In a dwelling every
// grow-room receptacle counts, because the places listed there (garages,
// accessory buildings, basements, laundry, damp and wet indoors) are where
// growing is done; elsewhere the damp and wet ones do.
func receptacle(e edition, o codes.Outlet) codes.Protection {
	if units.Exceeds(o.ToGround, lowToGround) || units.Exceeds(o.Volts, receptaclesV) {
		return codes.Protection{}
	}
	p := codes.Protection{Needed: true, Class: classA, Trip: classATrip}
	switch {
	case o.Dwelling:
		old := e.year == "2017" && (units.Exceeds(o.Volts, oldDwellingV) || units.Exceeds(o.Rating, oldDwellingUp))
		if old || o.Phases == 3 {
			return codes.Protection{}
		}
		p.Why = "a receptacle of a dwelling's garage, accessory building, basement, laundry or damp place"
		p.Cite = e.cite("210.8(A)", receptacleHow(e))
	case o.Wet:
		upTo := singleUpTo
		if o.Phases == 3 {
			upTo = threeUpTo
		}
		if units.Exceeds(o.Rating, upTo) {
			return codes.Protection{}
		}
		p.Why = "a receptacle in a damp or wet place indoors"
		p.Cite = e.cite("210.8(B)", receptacleHow(e))
	default:
		return codes.Protection{}
	}
	return p
}

// receptacleHow: the limits of 210.8 in 2020 and 2023 were seen; 2017 is from memory.
func receptacleHow(e edition) steps.How {
	if e.since("2020") {
		return steps.Seen
	}
	return steps.Recalled
}
