package cli

import (
	"bytes"
	"os"
	"runtime"
	"testing"

	"github.com/stretchr/testify/require"
)

// kept demands that a file of the folder is as it was, and nothing stands beside it.
func kept(t *testing.T, name, text string) {
	t.Helper()
	require.NoError(t, os.Chmod(".", 0o700))
	require.NoError(t, os.Chmod(name, 0o600))
	got, err := os.ReadFile(name)
	require.NoError(t, err)
	require.Equal(t, text, string(got))
	left, err := os.ReadDir(".")
	require.NoError(t, err)
	require.Len(t, left, 1, "nothing stands beside it")
}

func TestAFileThatMayNotBeWrittenStays(t *testing.T) {
	t.Chdir(t.TempDir())
	require.NoError(t, os.WriteFile("kept", []byte("mine"), 0o400))
	unprivileged(t, ".", "kept")
	require.ErrorIs(t, writeWhole("kept", []byte("new"), true), os.ErrPermission)
	var out, errs bytes.Buffer
	require.Equal(t, statusInput, Run([]string{"amps", "640 W", "-o", "kept"}, nil, &out, &errs))
	require.Contains(t, errs.String(), `branchwork: cannot write "kept": `)
	kept(t, "kept", "mine")
}

func TestInAFolderThatMayNotBeWrittenNothingIs(t *testing.T) {
	if runtime.GOOS == "windows" {
		t.Skip("a folder has no such right here")
	}
	t.Chdir(t.TempDir())
	require.NoError(t, os.WriteFile("kept", []byte("mine"), 0o600))
	require.NoError(t, os.Chmod(".", 0o500))
	unprivileged(t, ".", "kept")
	require.ErrorIs(t, writeWhole("kept", []byte("new"), true), os.ErrPermission)
	require.ErrorIs(t, writeWhole("new", []byte("new"), false), os.ErrPermission)
	kept(t, "kept", "mine")
}

func TestAnInventoryThatMayNotBeReadIsNoFaultOfOurs(t *testing.T) {
	if runtime.GOOS == "windows" {
		t.Skip("a file has no such right here")
	}
	t.Chdir(t.TempDir())
	require.NoError(t, os.WriteFile("site.toml", demo, 0))
	unprivileged(t, ".", "site.toml")
	var out, errs bytes.Buffer
	require.Equal(t, statusInput, Run([]string{"plan", "site.toml"}, nil, &out, &errs))
	require.Empty(t, out.String())
	require.Equal(t, "branchwork: cannot read \"site.toml\": permission denied\n", errs.String())
	kept(t, "site.toml", string(demo))
}
