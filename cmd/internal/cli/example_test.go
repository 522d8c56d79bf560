package cli

import (
	"bytes"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/spf13/cobra"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Every example that --help prints does what it says, with the exit status it says,
// when they are run one after the other in an empty folder.
func TestEveryExampleRuns(t *testing.T) {
	t.Chdir(t.TempDir())
	commands := newRoot(silent(), every).Commands()
	first := []string{"new", "plan", "add"} // they write what others read
	order := func(c *cobra.Command) int {
		if i := slices.Index(first, c.Name()); i >= 0 {
			return i
		}
		return len(first)
	}
	slices.SortStableFunc(commands, func(a, b *cobra.Command) int { return order(a) - order(b) })
	run := 0
	for _, c := range commands {
		if c.Name() == "view" { // it goes on until it is stopped; its own tests run it
			assert.NotEmpty(t, c.Example)
			continue
		}
		run += runExamples(t, c)
	}
	require.Greater(t, run, 25)
}

func runExamples(t *testing.T, c *cobra.Command) int {
	if !assert.NotEmpty(t, c.Example, "%s has no example", c.Name()) {
		return 0
	}
	ends := regexp.MustCompile(`exit status (\d)`)
	lines := strings.Split(c.Example, "\n")
	for i := 0; i < len(lines); i += 2 {
		why, line := strings.TrimSpace(lines[i]), strings.TrimSpace(lines[i+1])
		require.True(t, strings.HasPrefix(why, "# "), why)
		assert.LessOrEqual(t, max(len(lines[i]), len(lines[i+1])), 100, line)
		want := 0
		if m := ends.FindStringSubmatch(why); m != nil {
			want, _ = strconv.Atoi(m[1])
		}
		words := wordsOf(line)
		require.Equal(t, []string{"branchwork", c.Name()}, words[:2], line)
		var out, errs bytes.Buffer
		assert.Equal(t, want, Run(words[1:], strings.NewReader(""), &out, &errs), "%s\n%s", line, errs.String())
	}
	return len(lines) / 2
}

// wordsOf cuts a command line as a shell does: at spaces outside double quotes.
func wordsOf(line string) []string {
	var out []string
	for i, part := range strings.Split(line, `"`) {
		if i%2 == 1 {
			out = append(out, part)
		} else {
			out = append(out, strings.Fields(part)...)
		}
	}
	return out
}
