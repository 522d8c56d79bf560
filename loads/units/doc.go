// Package units holds the quantities branchwork calculates with: one defined
// type per quantity, how each is written and read, and every conversion with
// its source.
//
// Types stop the classic mix-ups: active power (Power, watts) and apparent
// power (Apparent, volt-amperes) are different types, and so are a temperature
// and a temperature difference. Go still lets two values of one type be
// multiplied, so no package outside this one multiplies or divides two
// quantities: physics goes through named functions.
//
// Base units are the ones the trade writes, so that what a user wrote comes
// back unchanged: foot, square foot, degree Celsius, cubic foot per minute,
// litre per day, British thermal unit (International Table) only at the edge.
//
// A quantity is read with its unit, never without:
//
//	p, err := units.Parse[units.Power]("640 W")
//
// A fact that may be missing is a Known[T]; it cannot be read without asking
// whether it is there.
package units
