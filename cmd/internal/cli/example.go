package cli

import "strings"

// example lays out the examples of a command: pairs of a command line and what it
// is for. A line that ends otherwise than with status 0 says so in those words:
// "exit status 1". They follow one another as a user's first steps do, so that each
// can be run after those of branchwork new and branchwork plan.
func example(pairs ...string) string {
	var lines []string
	for i := 0; i+1 < len(pairs); i += 2 {
		lines = append(lines, "  # "+pairs[i+1], "  "+pairs[i])
	}
	return strings.Join(lines, "\n")
}
