//go:build race

package packing

// underRace is true where the race detector makes everything ten times slower.
const underRace = true
