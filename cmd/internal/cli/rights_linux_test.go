package cli

import (
	"os"
	"runtime"
	"syscall"
	"testing"

	"github.com/stretchr/testify/require"
)

// unprivileged takes the rights of root over files from the test until it ends, and
// makes it the owner of those that are named.
func unprivileged(t *testing.T, owned ...string) {
	t.Helper()
	if os.Getuid() != 0 {
		return
	}
	const nobody = 65534
	for _, name := range owned {
		require.NoError(t, os.Chown(name, nobody, nobody))
	}
	runtime.LockOSThread() // the right is one of the thread
	require.NoError(t, syscall.Setfsuid(nobody))
	t.Cleanup(func() {
		require.NoError(t, syscall.Setfsuid(0))
		runtime.UnlockOSThread()
	})
}
