//go:build !race

package cli

const share = 1
