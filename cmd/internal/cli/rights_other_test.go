//go:build !linux

package cli

import (
	"os"
	"testing"
)

// unprivileged skips a test of what root may do all the same.
func unprivileged(t *testing.T, _ ...string) {
	t.Helper()
	if os.Getuid() == 0 {
		t.Skip("root may write everything")
	}
}
