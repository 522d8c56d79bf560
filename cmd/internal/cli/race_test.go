//go:build race

package cli

// share of the cases that properties of whole sites are tried on.
const share = 4
