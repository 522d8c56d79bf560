//go:build !race

package packing

const underRace = false
