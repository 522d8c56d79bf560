package cli

import (
	"fmt"
	"io"
	"os"
	"strings"
	"time"

	"golang.org/x/term"

	"branchwork/cmd/internal/render/page"
)

// Rules of speech:
//
//   - stdout carries the answer and nothing else;
//   - stderr carries problems and notices: lower case, no full stop, the value
//     quoted, then what is accepted;
//   - in text, findings come last, the gravest of them nearest to the end;
//   - colour only marks severity and never carries meaning alone;
//   - hints start a line of their own;
//   - an answer is written whole or not at all.

// streams is where a command reads and speaks, with what is known of the
// terminal. Tests give it buffers.
type streams struct {
	in       io.Reader
	out, err io.Writer
	width    int  // of the terminal, or defaultWidth
	colour   bool // the terminal shows colour and nobody asked it not to
	blocks   bool // the terminal shows block characters
	progress *progress
}

const (
	defaultWidth = 80
	leastWidth   = 20
	mostWidth    = 10_000
)

func newStreams(in io.Reader, out, err io.Writer) *streams {
	s := &streams{in: in, out: out, err: err, width: defaultWidth}
	dumb := os.Getenv("TERM") == "dumb"
	if width, ok := terminalWidth(err); ok && !dumb {
		s.progress = &progress{w: err, width: width, since: time.Now()}
	}
	if width, ok := terminalWidth(out); ok {
		s.width = width
		s.colour = os.Getenv("NO_COLOR") == "" && !dumb
		s.blocks = !dumb && speaksUTF8(os.Getenv)
	}
	return s
}

// terminalWidth tells how wide a terminal is, at least what can be printed on, and
// whether a stream is one.
func terminalWidth(stream any) (int, bool) {
	f, ok := stream.(*os.File)
	if !ok || !term.IsTerminal(int(f.Fd())) {
		return 0, false
	}
	w, _, err := term.GetSize(int(f.Fd()))
	if err != nil || w <= 0 {
		return defaultWidth, true
	}
	return max(w, leastWidth), true
}

// notice says something beside the answer. What a terminal would obey is escaped,
// wherever it comes from.
func (s *streams) notice(format string, a ...any) {
	lines := strings.Split(strings.TrimRight(fmt.Sprintf(format, a...), "\n"), "\n")
	for i, l := range lines {
		lines[i] = page.Printable(l)
	}
	s.progress.clear()
	fmt.Fprintln(s.err, "branchwork: "+strings.Join(lines, "\n"))
}
