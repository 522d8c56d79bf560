// Package heat is the sensible and latent heat balance of a grow room, hour by
// hour, for a summer and a winter design day and a mean day for energy.
//
// # What adds heat and what moves it
//
// Every watt of electricity that is used up in a room becomes heat in it, whatever
// the lamp or motor: 3.412142 BTU/h for each. Plants add nothing to that. The water
// they give off takes its heat of evaporation out of the air, so that it moves heat
// from sensible to latent and leaves the total as it was. A dehumidifier standing
// in the room moves it back and adds its own watts.
//
//	latent    = w · λ
//	sensible  = watts − w · λ + people + walls + air + burners
//	total     = sensible + latent
//	ratio     = sensible / total
//
// Negative sensible heat is a need for heating and is reported as that; it is never
// clipped to zero.
//
// # What is unknown
//
// A load whose watts are not known is left out, listed under Missing, and makes the
// totals a least value. Set points, the state of the air around, a share of water
// taken up: where the file is silent a usual value is taken and listed among the
// assumptions. Outdoor design temperatures are never invented.
//
// # What it is not
//
// No heat is stored in walls, racks or soil: gain is taken as load at once, which is
// near the truth for lights that burn twelve hours and more, and on the safe side.
// No sun on roof or glass. No model of photosynthesis (about 1 % of a fixture's
// watts). No comfort cooling. Equipment is compared at its stated capacity, corrected
// for altitude only; its maker knows what it does at the room's own state.
//
// Sources are named at each formula; ASHRAE's air-side factors are used with one pair
// of constants, 1.08 and 4,840, scaled by the ratio of pressures.
package heat
