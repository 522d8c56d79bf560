// Package judge asks the rules of a code profile about a plan.
//
// It gathers the facts of every subject (each circuit, each load on it, each
// panel, feeder, controller and item, and the site) from the plan and the file,
// hands them to the rules, and turns what they answer into findings. It decides
// nothing and works out no size: circuits in the wall and circuits on paper are
// judged by the same lines.
//
// A fact that is missing leaves every rule that needs it open. Rules that the
// same missing fact leaves open are reported together, and so are subjects that
// lack the same thing for the same reason; merge.go does that.
package judge
