package cli

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"os/signal"
	"runtime/debug"
	"strings"
	"sync"
	"syscall"

	"github.com/spf13/cobra"

	"branchwork/cmd/internal/live"
	"branchwork/cmd/internal/render/handover"
	"branchwork/cmd/internal/render/html"
	"branchwork/cmd/internal/render/json"
	"branchwork/cmd/internal/render/page"
	"branchwork/cmd/internal/render/svg"
)

type viewOptions struct {
	reportOptions
	port int
}

func newView(s *streams) *cobra.Command {
	o := &viewOptions{}
	cmd := &cobra.Command{
		Use: "view FILE",
		Long: "view serves the page of report to this machine, on 127.0.0.1 and a free port, and prints its address. The page\n" +
			"shows the file anew each time it is saved, or what is wrong with it and where; mending it brings the page back.\n\n" +
			"On the page units can be added or removed and rooms dimmed to see what would become of circuits, panels, heat\n" +
			"and cost. Adding to a file with circuits answers as branchwork add does.\n\n" +
			"Nothing is ever written. Whoever is logged in on this machine can read the page. Ctrl-C stops it.",
		Example: example(
			"branchwork view room.toml", "open the address that it prints in a browser, then change the file",
		),
		Args:              cobra.ExactArgs(1),
		ValidArgsFunction: completeFile,
		RunE: func(cmd *cobra.Command, args []string) error {
			ctx := cmd.Context()
			if list := heeded(os.Interrupt, syscall.SIGTERM); len(list) > 0 { // of an empty list all would be
				var stop context.CancelFunc
				ctx, stop = signal.NotifyContext(ctx, list...)
				defer stop()
			}
			return o.run(ctx, s, args[0])
		},
	}
	cmd.Flags().IntVar(&o.port, "port", 0, "port to listen on (default: any that is free)")
	o.pageFlags(cmd)
	return cmd
}

func (o *viewOptions) run(ctx context.Context, s *streams, file string) error {
	if err := o.checkView(file); err != nil {
		return err
	}
	if _, _, err := readInput(s, file); err != nil {
		return err
	}
	policy, err := html.Policy()
	if err != nil {
		return fault{says: err.Error()}
	}
	l, err := live.Listen(o.port)
	if err != nil {
		return hint(fmt.Errorf("cannot listen on port %d of 127.0.0.1: %w", o.port, socketReason(err)), "leave out --port for any that is free")
	}
	said := *s
	said.err, said.progress = &oneByOne{w: s.err}, nil
	v := &viewed{o: o, s: &said, file: file}
	address := "http://" + l.Addr().String() + "/"
	if _, err := fmt.Fprintln(s.out, address); err != nil {
		return errors.Join(fmt.Errorf("cannot write the answer: %w", reason(err)), l.Close())
	}
	said.notice("%q is shown at %s until Ctrl-C", file, address)
	return live.Serve(ctx, l, live.Maker{File: file, Read: v.read, Make: v.page, Policy: policy,
		Say: func(line string) {
			said.notice("%s", page.Printable(strings.ReplaceAll(strings.TrimSpace(line), "\n", "; ")))
		}})
}

func (o *viewOptions) checkView(file string) error {
	if file == stdin {
		return hint(errors.New("standard input cannot be followed"), "name a file")
	}
	if o.port < 0 || o.port > 65535 {
		return hint(fmt.Errorf("--port %d is no port", o.port), "1 to 65535, or 0 for any that is free")
	}
	if o.code != "" {
		if _, err := profileNamed(o.code); err != nil {
			return err
		}
	}
	return o.checkPage()
}

// socketReason is what the system said, without the call that it said it to.
func socketReason(err error) error {
	var e *os.SyscallError
	if errors.As(err, &e) {
		return e.Err
	}
	return err
}

// oneByOne lets several speak without mixing their lines.
type oneByOne struct {
	mu sync.Mutex
	w  io.Writer
}

func (o *oneByOne) Write(b []byte) (int, error) {
	o.mu.Lock()
	defer o.mu.Unlock()
	return o.w.Write(b)
}

// viewed makes the pages of one file.
type viewed struct {
	o    *viewOptions
	s    *streams
	file string
}

func (v *viewed) read() ([]byte, error) {
	src, _, err := readInput(v.s, v.file)
	return src, err
}

// page is one version of the file as a page: the report, or what is wrong.
func (v *viewed) page(version string, src []byte, readErr error) (p live.Page) {
	about := html.Live{File: v.file, Version: version}
	defer func() {
		if x := recover(); x != nil {
			p = v.trouble(about, panicFault(x, debug.Stack()))
		}
	}()
	if readErr != nil {
		return v.trouble(about, readErr)
	}
	var problems bytes.Buffer
	told := *v.s
	told.err = &problems
	inv, p0, err := parseSite(&told, v.file, src, v.o.code, v.s.width)
	if err != nil {
		return v.problems(about, err, problems.String())
	}
	w := &wished{x: siteText{src: src, inv: inv, p: p0}, o: v.o, s: v.s, about: about}
	if w.before, err = silent().work(inv, p0, false); err != nil {
		return v.trouble(about, err)
	}
	w.choices()
	d := v.o.document(v.s, w.before)
	var b bytes.Buffer
	if _, err := json.Check(d); err != nil { // a figure that is no number is not shown
		return v.trouble(about, fault{says: err.Error()})
	}
	if err := html.RenderLive(&b, handover.Of(d, svg.Measure{Metric: v.o.units == "metric"}), w.about); err != nil {
		return v.trouble(about, fault{says: err.Error()})
	}
	v.s.notice("%q: %s", v.file, d.Plan.Verdict.Says)
	return live.Page{HTML: b.Bytes(), Ask: w.answer}
}

// problems is a page of what is wrong with the file, as the terminal shows it.
func (v *viewed) problems(about html.Live, err error, lines string) live.Page {
	if !errors.Is(err, errSaid) {
		return v.trouble(about, err)
	}
	fmt.Fprint(v.s.err, lines)
	return v.shown(about, html.Trouble{Title: "The file cannot be read as an inventory", Lines: lines,
		Says: "Nothing is shown of a file that cannot be read in whole: its last plan is not the plan of what it says now. Mend it and save it; the page comes back by itself."})
}

// trouble is a page of any other error, and says it on the terminal.
func (v *viewed) trouble(about html.Live, err error) live.Page {
	lines, status := spoken(err)
	t := html.Trouble{Title: "The file cannot be shown", Says: "The page comes back by itself when that has changed.", Lines: lines}
	if status == statusFault {
		t.Title = "A fault of the program"
	}
	fmt.Fprint(v.s.err, lines)
	return v.shown(about, t)
}

func (v *viewed) shown(about html.Live, t html.Trouble) live.Page {
	var b bytes.Buffer
	if err := html.TroublePage(&b, t, about); err != nil {
		panic(err) // a template of ours
	}
	return live.Page{HTML: b.Bytes()}
}
