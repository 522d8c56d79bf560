package cli

import (
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"

	"github.com/stretchr/testify/require"
)

// On a full disk an older file stays as it is, a new one does not come to be, and
// nothing stands beside them.
func TestAFullDiskLosesNothing(t *testing.T) {
	dir := t.TempDir()
	if err := syscall.Mount("tmpfs", dir, "tmpfs", 0, "size=64k"); err != nil {
		t.Skip("a small disk needs root: ", err)
	}
	t.Cleanup(func() { require.NoError(t, syscall.Unmount(dir, syscall.MNT_DETACH)) })
	name := filepath.Join(dir, "plan.txt")
	require.NoError(t, os.WriteFile(name, []byte("mine"), 0o600))
	long := []byte(strings.Repeat("x", 1<<20))
	err := writeWhole(name, long, true)
	require.ErrorIs(t, err, syscall.ENOSPC)
	require.Equal(t, "no space left on device", reason(err).Error())
	require.ErrorIs(t, writeWhole(filepath.Join(dir, "new.txt"), long, false), syscall.ENOSPC)
	got, err := os.ReadFile(name)
	require.NoError(t, err)
	require.Equal(t, "mine", string(got))
	left, err := os.ReadDir(dir)
	require.NoError(t, err)
	require.Len(t, left, 1, "nothing stands beside it")
	require.NoError(t, writeWhole(name, []byte("new"), true), "what fits is written")
	got, err = os.ReadFile(name)
	require.NoError(t, err)
	require.Equal(t, "new", string(got))
}
