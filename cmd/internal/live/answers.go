package live

import (
	"context"
	"errors"
	"fmt"
	"runtime/debug"
	"sync"
	"sync/atomic"
)

// How much is worked out at once, and kept.
const (
	mostAtWork  = 2  // questions, whatever version they are about
	mostWaiting = 64 // clients behind them, of one version
	mostKept    = 32 // answers of one version
)

// errBusy is said to a client for whom there is no room in the queue.
var errBusy = errors.New("too many questions are waiting; ask again in a moment")

// errFault is said where an answer could not be made.
var errFault = errors.New("our own fault; the terminal shows more")

// answers are those of one version of the file: each is worked out once, however many
// ask, a few at a time.
type answers struct {
	ask     func(context.Context, string) []byte
	say     func(string)
	slots   chan struct{} // those of the server: an older version may still be asked
	waiting atomic.Int64

	mu   sync.Mutex
	made map[string]*answer
}

// answer is one of them, made or on the way.
type answer struct {
	done    chan struct{}
	text    []byte // nil after done: it could not be made
	clients int    // that wait for it; the last who leaves ends it
	end     context.CancelFunc
}

func newAnswers(ask func(context.Context, string) []byte, say func(string), slots chan struct{}) *answers {
	return &answers{ask: ask, say: say, slots: slots, made: map[string]*answer{}}
}

// to returns the answer to a query. It gives up where the context ends.
func (a *answers) to(ctx context.Context, query string) ([]byte, error) {
	if a.waiting.Add(1) > mostWaiting {
		a.waiting.Add(-1)
		return nil, errBusy
	}
	defer a.waiting.Add(-1)
	x := a.join(query)
	select {
	case <-x.done:
		a.leave(query, x)
		if x.text == nil {
			return nil, errFault
		}
		return x.text, nil
	case <-ctx.Done():
		a.leave(query, x)
		return nil, ctx.Err()
	}
}

// join returns the answer to a query, and begins it where nobody asked yet.
func (a *answers) join(query string) *answer {
	a.mu.Lock()
	defer a.mu.Unlock()
	x := a.made[query]
	if x == nil {
		ctx, end := context.WithCancel(context.Background())
		x = &answer{done: make(chan struct{}), end: end}
		if len(a.made) >= mostKept {
			a.forget()
		}
		a.made[query] = x
		go a.work(ctx, query, x)
	}
	x.clients++
	return x
}

// forget drops the answers that nobody waits for.
func (a *answers) forget() {
	for q, x := range a.made {
		if x.clients == 0 {
			delete(a.made, q)
		}
	}
}

func (a *answers) leave(query string, x *answer) {
	a.mu.Lock()
	defer a.mu.Unlock()
	x.clients--
	select {
	case <-x.done:
	default:
		if x.clients == 0 {
			x.end()
			if a.made[query] == x {
				delete(a.made, query)
			}
		}
	}
}

// work makes one answer when there is a slot for it.
func (a *answers) work(ctx context.Context, query string, x *answer) {
	defer close(x.done)
	defer x.end()
	select {
	case a.slots <- struct{}{}:
		defer func() { <-a.slots }()
	case <-ctx.Done():
		return
	}
	if ctx.Err() != nil {
		return
	}
	defer func() {
		if p := recover(); p != nil {
			a.say(fmt.Sprintf("%v\n%s", p, debug.Stack()))
			a.mu.Lock()
			defer a.mu.Unlock()
			delete(a.made, query) // not kept: the next may fare better
		}
	}()
	x.text = a.ask(ctx, query)
}
