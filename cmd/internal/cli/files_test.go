package cli

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"
)

func TestAFileIsReplacedWholeAndKeepsItsRights(t *testing.T) {
	dir := t.TempDir()
	name := filepath.Join(dir, "plan.txt")
	require.NoError(t, os.WriteFile(name, []byte("an older and longer answer"), 0o600))
	require.NoError(t, writeWhole(name, []byte("new"), true))
	got, err := os.ReadFile(name)
	require.NoError(t, err)
	require.Equal(t, "new", string(got))
	info, err := os.Stat(name)
	require.NoError(t, err)
	require.Equal(t, os.FileMode(0o600), info.Mode().Perm())
	left, err := os.ReadDir(dir)
	require.NoError(t, err)
	require.Len(t, left, 1, "nothing stands beside it")
}

func TestAFileThatIsThereIsNotReplacedUnasked(t *testing.T) {
	name := filepath.Join(t.TempDir(), "a.toml")
	require.NoError(t, os.WriteFile(name, []byte("mine"), 0o600))
	require.ErrorIs(t, writeWhole(name, []byte("new"), false), errThere)
	got, err := os.ReadFile(name)
	require.NoError(t, err)
	require.Equal(t, "mine", string(got))
}

func TestADeviceIsWrittenNotReplaced(t *testing.T) {
	if _, err := os.Stat("/dev/null"); err != nil {
		t.Skip("no /dev/null here")
	}
	require.NoError(t, writeWhole("/dev/null", []byte("x"), true))
	info, err := os.Stat("/dev/null")
	require.NoError(t, err)
	require.NotZero(t, info.Mode()&os.ModeDevice)
}

func TestTemporaryFilesOfOthersAreLeftAlone(t *testing.T) {
	dir := t.TempDir()
	name := filepath.Join(dir, "plan.txt")
	require.NoError(t, os.WriteFile(name+".0.tmp", []byte("another's"), 0o600))
	require.NoError(t, writeWhole(name, []byte("new"), true))
	got, err := os.ReadFile(name + ".0.tmp")
	require.NoError(t, err)
	require.Equal(t, "another's", string(got))
}
