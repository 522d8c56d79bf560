// Package conductor selects the conductors of a circuit or a feeder: size by
// both ampacity tests and by what protects it, enlargement for voltage drop, the
// equipment grounding conductor, and the raceway.
//
// The order is that of the trade:
//
//  1. required rating: continuous load with its allowance, plus the rest;
//  2. the smallest size whose ampacity in the termination column is not below
//     the required rating, before any correction;
//  3. the smallest size whose ampacity at the insulation's rating, times the
//     factors for ambient temperature and for the number of current-carrying
//     conductors, is not below the load itself;
//  4. the smallest size that the overcurrent device protects: the device is not
//     above the ampacity that may be used, or is the next standard rating above
//     it where that is allowed, and is within the limit of small conductors;
//  5. the largest of these;
//  6. larger still until the voltage drop is within its limit;
//  7. the grounding conductor by the device, in proportion where the circuit
//     conductors grew beyond the size they needed.
//
// All tables, columns and clauses come from the profile; nothing here assumes a
// wire gauge. What is not known (the length of a run) makes what rests on it
// unknown, never zero.
//
// Not covered: the neutral's own size, the smaller drop of balanced circuits that
// share a neutral, metal raceways as grounding conductors, more than one
// insulation in a raceway.
package conductor
