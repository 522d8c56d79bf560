// Package checks has the checks that several families of codes ask alike. The
// record of a rule, with its clause, severity and words, stays with each family,
// and so does a check as soon as a family asks for something else.
package checks
