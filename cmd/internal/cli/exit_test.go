package cli

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

func speaking() (*streams, *bytes.Buffer, *bytes.Buffer) {
	var out, err bytes.Buffer
	return newStreams(strings.NewReader(""), &out, &err), &out, &err
}

func TestEachErrorHasItsStatus(t *testing.T) {
	for _, c := range []struct {
		why    string
		err    error
		status int
		says   string
	}{
		{"nothing wrong", nil, 0, ""},
		{"a broken rule was part of the answer", errBroken, 1, ""},
		{"problems were printed already", errSaid, 2, ""},
		{"a wrong command line", errors.New(`unknown flag "x"`), 2, "branchwork: unknown flag \"x\"\n"},
		{"a hint starts a line of its own", hint(errors.New("no"), "try a\nor b"), 2, "branchwork: no\n  try a\n  or b\n"},
		{"wrapped is the same", fmt.Errorf("while reading: %w", errBroken), 1, ""},
	} {
		s, out, errs := speaking()
		require.Equal(t, c.status, s.status(c.err), c.why)
		require.Equal(t, c.says, errs.String(), c.why)
		require.Empty(t, out.String(), c.why)
	}
}

func TestOurOwnFaultSaysSoAndHowToReport(t *testing.T) {
	s, out, errs := speaking()
	require.Equal(t, 3, s.status(fault{says: "the plan does not hold", complaints: []string{"unit 3 of bar is fed twice"}}))
	require.Empty(t, out.String())
	require.Contains(t, errs.String(), "our own fault, not a mistake in the file: the plan does not hold\n  unit 3 of bar is fed twice\n")
	require.Contains(t, errs.String(), "please report it to the project with the inventory")
}

// breaking is a reader that panics, as a slip of ours would.
type breaking struct{}

func (breaking) Read([]byte) (int, error) { panic("a slip") }

func TestAPanicIsOurFaultAndPrintsNoAnswer(t *testing.T) {
	var out, errs bytes.Buffer
	require.Equal(t, 3, Run([]string{"plan", "-"}, breaking{}, &out, &errs))
	require.Empty(t, out.String())
	require.Contains(t, errs.String(), "our own fault, not a mistake in the file: a slip")
}

// endless is a file that is longer than any inventory.
type endless struct{ read int }

func (e *endless) Read(p []byte) (int, error) {
	e.read += len(p)
	return len(p), nil
}

func TestAFileThatIsTooLargeIsRefusedWithoutReadingOn(t *testing.T) {
	var out, errs bytes.Buffer
	in := &endless{}
	require.Equal(t, 2, Run([]string{"plan", "-"}, in, &out, &errs))
	require.Empty(t, out.String())
	require.Equal(t, "branchwork: standard input is larger than 64 MiB\n", errs.String())
	require.Less(t, in.read, 2*mostBytes)
}

// closed is a screen that is gone.
type closed struct{}

func (closed) Write([]byte) (int, error) { return 0, io.ErrClosedPipe }

func TestAnAnswerThatCannotBeWrittenIsNoSuccess(t *testing.T) {
	for _, args := range [][]string{{"amps", "640 W"}, {"new"}, {"schema"}} {
		var errs bytes.Buffer
		require.Equal(t, 2, Run(args, strings.NewReader(""), closed{}, &errs), "%v", args)
		require.Contains(t, errs.String(), "cannot write the answer", "%v", args)
	}
}
