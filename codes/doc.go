// Package codes is the vocabulary of rules: a Profile (one edition of one
// electrical code as data), its Tables with the provenance of every value, and
// Rules that look at Facts and answer with a three-valued Verdict.
//
// A rule reads facts, not the world: it does not know how a circuit came to be,
// so circuits in the wall and circuits on paper are judged by the same lines.
//
// Outside a profile nothing assumes a wire gauge, a factor of 125 % or legs of a
// certain name.
package codes
