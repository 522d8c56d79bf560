package cli

import (
	"bytes"
	"math/rand/v2"
	"os"
	"os/exec"
	"os/signal"
	"path/filepath"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
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

func TestALinkIsFollowedAndOneThatLeadsNowhereIsRefused(t *testing.T) {
	dir := t.TempDir()
	name, end := filepath.Join(dir, "link"), filepath.Join(dir, "end")
	if err := os.Symlink(end, name); err != nil {
		t.Skip("no links here: ", err)
	}
	require.ErrorContains(t, writeWhole(name, []byte("new"), true), "leads nowhere")
	require.ErrorContains(t, writeWhole(name, []byte("new"), false), "leads nowhere")
	require.NoError(t, os.WriteFile(end, []byte("old"), 0o600))
	require.ErrorIs(t, writeWhole(name, []byte("new"), false), errThere)
	require.NoError(t, writeWhole(name, []byte("new"), true))
	info, err := os.Lstat(name)
	require.NoError(t, err)
	require.NotZero(t, info.Mode()&os.ModeSymlink, "the link stays")
	got, err := os.ReadFile(end)
	require.NoError(t, err)
	require.Equal(t, "new", string(got))
}

func TestASignalEndsAWriteBetweenTwoPieces(t *testing.T) {
	stop := make(chan os.Signal, 1)
	var all bytes.Buffer
	require.NoError(t, buffered(heedful{&all, stop}, text(make([]byte, 2*piece+1))))
	require.Equal(t, 2*piece+1, all.Len())
	stop <- os.Interrupt
	var some bytes.Buffer
	require.ErrorIs(t, buffered(heedful{&some, stop}, text(make([]byte, 2*piece+1))), errStopped)
	require.Equal(t, piece, some.Len())
	s, _, errs := speaking()
	require.Equal(t, 130, s.status(errStopped))
	require.Equal(t, "branchwork: stopped by a signal\n", errs.String())
}

// Under nohup a terminal that goes away ends nothing.
func TestASignalThatIsIgnoredStaysIgnored(t *testing.T) {
	if !signal.Ignored(syscall.SIGHUP) { // these tests may run under nohup themselves
		require.Contains(t, heeded(syscall.SIGHUP), syscall.SIGHUP)
		signal.Ignore(syscall.SIGHUP)
		defer signal.Reset(syscall.SIGHUP)
	}
	tried := false
	require.NoError(t, settle(filepath.Join(t.TempDir(), "plan.txt"), text([]byte("new")), 0o600, func(from, to string) error {
		tried = true
		require.True(t, signal.Ignored(syscall.SIGHUP))
		return os.Rename(from, to)
	}))
	require.True(t, tried)
}

// Killed at any moment, a command leaves the inventory as it was or as it will be,
// and the answer whole or not there.
func TestAKilledCommandLeavesNothingHalfWritten(t *testing.T) {
	dir := t.TempDir()
	before, err := os.ReadFile(filepath.Join(top, "testdata", "sites", "garage.toml"))
	require.NoError(t, err)
	site, answer := filepath.Join(dir, "site.toml"), filepath.Join(dir, "plan.json")
	run := func() *exec.Cmd {
		return exec.Command("branchwork", "plan", "--json", "--write", site, "-o", answer, site)
	}
	require.NoError(t, os.WriteFile(site, before, 0o600))
	start := time.Now()
	require.NoError(t, run().Run())
	whole := time.Since(start)
	after, err := os.ReadFile(site)
	require.NoError(t, err)
	require.NotEqual(t, before, after)
	for range 25 {
		require.NoError(t, os.WriteFile(site, before, 0o600))
		require.NoError(t, os.RemoveAll(answer))
		c := run()
		require.NoError(t, c.Start())
		time.Sleep(time.Duration(rand.Int64N(int64(whole))))
		_ = c.Process.Kill()
		_ = c.Wait()
		got, err := os.ReadFile(site)
		require.NoError(t, err)
		if !bytes.Equal(got, before) {
			require.Equal(t, string(after), string(got))
		}
		if got, err := os.ReadFile(answer); err == nil {
			assert.NoError(t, validate(string(got)), "the answer is whole")
		}
	}
}

// Over an inventory that somebody changed while the command ran nothing is written.
func TestAnInventoryChangedMeanwhileIsNotWrittenOver(t *testing.T) {
	name := filepath.Join(t.TempDir(), "site.toml")
	require.NoError(t, os.WriteFile(name, []byte("# changed"), 0o600))
	s, _, _ := speaking()
	o := &output{input: name}
	require.ErrorContains(t, o.writeInventory(s, name, []byte("# read"), []byte("# new")), "changed by somebody else")
	got, err := os.ReadFile(name)
	require.NoError(t, err)
	require.Equal(t, "# changed", string(got))
}
