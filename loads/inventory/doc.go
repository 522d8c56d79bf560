// Package inventory reads the one file a user writes: a TOML description of a
// site, its panels, rooms, fixtures, fans, controllers, other equipment and the
// circuits that already exist.
//
// Read returns the file as typed values and every problem it has, each with its
// place, in one pass. A file with a problem is never planned: the caller prints
// the problems and stops. What a later calculation needs is read and validated
// here, whether or not that calculation is asked for.
//
// The package knows no code of practice. The names that depend on one (codes,
// wire sizes, receptacles) come in as a Vocabulary.
package inventory
