// Package air is moist air as a perfect-gas mixture: saturation pressure,
// humidity ratio, dew point, wet bulb, enthalpy, volume, vapour pressure
// deficit, and the pressure of the standard atmosphere at an altitude.
//
// The equations are those of the ASHRAE Handbook, Fundamentals (2017), chapter
// 1, "Psychrometrics"; each function names its equation. Against measured moist
// air the perfect-gas form errs by less than 0.7 % from −50 to 50 °C at sea level
// pressure; the tests hold it to the handbook's own tables.
//
// Quantities are SI inside. The handbook prints a second set of equations in
// inch-pound units whose constants are rounded separately: EnthalpyIP and
// VolumeIP are those, kept because published inch-pound figures rest on them.
// The two enthalpies have different zeros (0 °C and 0 °F) and are never converted
// into each other; differences are.
//
// A value outside the range of an equation is a RangeError. Nothing is
// extrapolated.
//
// What it is not: no fog, no solutions or wet surfaces other than pure water, no
// high-pressure corrections, no boundary layer of a leaf.
package air
