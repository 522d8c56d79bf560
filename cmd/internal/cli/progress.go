package cli

import (
	"fmt"
	"io"
	"strings"
	"sync"
	"time"

	"github.com/mattn/go-runewidth"

	"branchwork/cmd/internal/render/page"
)

// progress says on one line of a terminal which part of the work is at hand, once
// that has gone on for longer than patience. It takes its line away when the work
// ends. Where there is no terminal it is nil and does nothing.
type progress struct {
	w     io.Writer
	width int
	since time.Time

	mu    sync.Mutex
	part  string
	shown int // cells of the line that stand on the screen
	stop  chan struct{}
	gone  sync.WaitGroup
}

const (
	patience = time.Second
	refresh  = 200 * time.Millisecond
)

// begin starts to watch a stretch of work; what it returns ends it. A stretch inside
// another belongs to it.
func (p *progress) begin(part string) (end func()) {
	if p == nil {
		return func() {}
	}
	p.tell(part, 0, 0)
	if p.stop != nil {
		return func() {}
	}
	stop := make(chan struct{})
	p.stop = stop
	p.gone.Add(1)
	go func() {
		defer p.gone.Done()
		tick := time.NewTicker(refresh)
		defer tick.Stop()
		for {
			select {
			case now := <-tick.C:
				p.draw(now)
			case <-stop:
				return
			}
		}
	}()
	return func() {
		close(stop)
		p.gone.Wait()
		p.stop = nil
		p.clear()
	}
}

// tell notes the part at hand: number at of so many alike, where they are counted.
func (p *progress) tell(part string, at, of int) {
	if p == nil {
		return
	}
	if of > 1 {
		part = fmt.Sprintf("%s (%d of %d)", part, at, of)
	}
	p.mu.Lock()
	p.part = part
	p.mu.Unlock()
}

func (p *progress) draw(now time.Time) {
	took := now.Sub(p.since)
	if took < patience {
		return
	}
	p.mu.Lock()
	defer p.mu.Unlock()
	line := fmt.Sprintf("%d s: %s", int(took.Seconds()), page.Printable(p.part))
	line = runewidth.Truncate(line, p.width-1, "")
	n := runewidth.StringWidth(line)
	fmt.Fprint(p.w, "\r"+line+strings.Repeat(" ", max(0, p.shown-n)))
	p.shown = max(n, p.shown)
}

// clear takes the line away, for whoever is to speak next.
func (p *progress) clear() {
	if p == nil {
		return
	}
	p.mu.Lock()
	defer p.mu.Unlock()
	if p.shown > 0 {
		fmt.Fprint(p.w, "\r"+strings.Repeat(" ", p.shown)+"\r")
		p.shown = 0
	}
}
