package cli

import (
	"bytes"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"branchwork/loads/inventory"
)

// What the README shows is what the program prints, and its inventory plans with
// every rule held.
func TestTheReadmeShowsWhatTheProgramPrints(t *testing.T) {
	readme, err := os.ReadFile("../../../README.md")
	require.NoError(t, err)
	_, shown, ok := strings.Cut(string(readme), "$ branchwork amps \"640 W\" --pf 0.98\n")
	require.True(t, ok)
	shown, _, ok = strings.Cut(shown, "\n```")
	require.True(t, ok)
	var out, errs bytes.Buffer
	require.Zero(t, Run([]string{"amps", "640 W", "--pf", "0.98", "--width", "80"}, strings.NewReader(""), &out, &errs), errs.String())
	assert.Equal(t, strings.TrimRight(out.String(), "\n"), shown)

	_, file, ok := strings.Cut(string(readme), "```toml\n")
	require.True(t, ok)
	file, _, _ = strings.Cut(file, "```")
	_, problems := inventory.Read("README", []byte(file), inventory.Vocabulary{})
	assert.Empty(t, problems)
	assert.Zero(t, Run([]string{"plan", "-"}, strings.NewReader(file), &out, &errs), errs.String())
}
