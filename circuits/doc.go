// Package circuits is the plan as a plain value: panels, branch circuits,
// feeders, what they carry and how that was found.
//
// Nothing here decides or judges. circuits/assign makes a plan, circuits/judge
// asks the rules about it, circuits/verify re-derives it by another road, and
// every document reads it.
package circuits
