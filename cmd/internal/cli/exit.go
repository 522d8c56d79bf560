package cli

import (
	"bytes"
	"errors"
	"fmt"
	"strings"

	"branchwork/cmd/internal/render/page"
)

// Exit statuses.
const (
	statusHolds  = 0 // every rule that was checked holds
	statusBroken = 1 // worked, but a rule of the code is broken or cannot be told
	statusInput  = 2 // the input or the command line is wrong
	statusFault  = 3 // our own fault

	statusStopped = 130 // a signal ended the writing of a file, as shells count it
)

// errBroken ends a command whose answer was given and holds a broken rule.
var errBroken = errors.New("a rule is broken")

// errSaid ends a command whose problems with the input were printed already.
var errSaid = errors.New("the input has problems")

// hinted is an error with a way out on a line of its own.
type hinted struct {
	err  error
	hint string
}

func (h hinted) Error() string { return h.err.Error() }
func (h hinted) Unwrap() error { return h.err }

func hint(err error, format string, a ...any) error { return hinted{err, fmt.Sprintf(format, a...)} }

// fault is an answer of ours that does not hold together.
type fault struct {
	says       string
	complaints []string
}

func (f fault) Error() string { return f.says }

// status turns what a command returned into its exit status, and says what was
// not said yet.
func (s *streams) status(err error) int {
	var f fault
	var h hinted
	switch {
	case err == nil:
		return statusHolds
	case errors.Is(err, errBroken):
		return statusBroken
	case errors.Is(err, errSaid):
		return statusInput
	case errors.Is(err, errStopped):
		s.notice("%s", err)
		return statusStopped
	case errors.As(err, &f):
		s.sayFault(f)
		return statusFault
	case errors.As(err, &h):
		s.notice("%s", err)
		for _, l := range strings.Split(h.hint, "\n") {
			fmt.Fprintln(s.err, "  "+page.Printable(l))
		}
		return statusInput
	}
	s.notice("%s", err)
	return statusInput
}

// panicked speaks for a command that did not come to an end.
func (s *streams) panicked(value any, stack []byte) int {
	return s.status(panicFault(value, stack))
}

// panicFault is a panic as the fault of ours that it is.
func panicFault(value any, stack []byte) fault {
	return fault{says: fmt.Sprint(value), complaints: strings.Split(strings.TrimSpace(string(stack)), "\n")}
}

// spoken is what would be said of an error, and its exit status, for those who show
// it elsewhere too.
func spoken(err error) (lines string, status int) {
	var b bytes.Buffer
	s := streams{err: &b}
	status = s.status(err)
	return b.String(), status
}

func (s *streams) sayFault(f fault) {
	s.notice("our own fault, not a mistake in the file: %s", f.says)
	for _, c := range f.complaints {
		fmt.Fprintln(s.err, "  "+page.Printable(strings.ReplaceAll(c, "\t", "    ")))
	}
	fmt.Fprintln(s.err, "nothing was written; please report it to the project with the inventory, the command line and these lines")
}
