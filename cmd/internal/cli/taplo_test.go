package cli

import (
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"branchwork/codes/outside"
)

// The TOML checker that editors carry, the npm package @taplo/cli, takes the sites
// of the project with the schema of the inventory and refuses a file that has a key
// misspelt.
func TestAnEditorTakesTheSitesWithTheSchema(t *testing.T) {
	tool := outside.Module(t, "@taplo/cli")
	taplo := filepath.Join(tool.At, "..", "..", ".bin", "taplo")
	var out, errs bytes.Buffer
	require.Zero(t, Run([]string{"schema", "inventory"}, strings.NewReader(""), &out, &errs), errs.String())
	schema := filepath.Join(t.TempDir(), "inventory.schema.json")
	require.NoError(t, os.WriteFile(schema, out.Bytes(), 0o600))
	root, err := filepath.Abs(top)
	require.NoError(t, err)
	sites, err := filepath.Glob(filepath.Join(root, "testdata", "sites", "*.toml"))
	require.NoError(t, err)
	require.GreaterOrEqual(t, len(sites), 6)
	check := func(files ...string) (string, error) {
		c := exec.Command(taplo, append([]string{"check", "--no-auto-config", "--schema", "file://" + schema}, files...)...)
		said, err := c.CombinedOutput()
		return string(said), err
	}
	said, err := check(sites...)
	require.NoError(t, err, said)
	broken := []string{"unknown-key.toml", "no-unit.toml", "unknown-words.toml", "bare-number.toml"}
	for i, name := range broken {
		broken[i] = filepath.Join(root, "testdata", "broken", name)
	}
	said, err = check(broken...)
	require.Error(t, err)
	for _, name := range broken {
		require.Contains(t, said, name, said)
	}
}
