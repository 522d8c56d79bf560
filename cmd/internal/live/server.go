package live

import (
	"context"
	"errors"
	"fmt"
	"log"
	"net"
	"net/http"
	"runtime/debug"
	"strconv"
	"sync"
	"time"
)

// Maker makes what is shown of a file. Its functions are called one after the other
// but for the Ask of what they return.
type Maker struct {
	// File is the name of the file.
	File string
	// Read returns the file.
	Read func() ([]byte, error)
	// Make turns one version of it into a page; a file that cannot be read is given as
	// the error of Read. It never fails: what is wrong with the file is a page too.
	Make func(version string, src []byte, err error) Page
	// Say tells the person who runs the server what concerns no page.
	Say func(line string)
	// Policy is the content security policy of every answer.
	Policy string
}

// Page is what one version of the file is shown as.
type Page struct {
	HTML []byte
	// Ask answers a question by its query, as the text of a page; nil where nothing
	// can be asked. It gives up where the context ends. It is called with one query at
	// most once at a time, and with several at once.
	Ask func(ctx context.Context, query string) []byte
}

// Limits of what is served. Requests are small and come from this machine.
const (
	headTime   = 5 * time.Second  // for a request to be sent
	writeTime  = 30 * time.Second // for an answer to be taken, once it is made
	idleTime   = 2 * time.Minute
	workTime   = 10 * time.Minute // for an answer to be made
	farewell   = 2 * time.Second  // for answers under way when the server stops
	mostHeader = 16 << 10         // bytes of a request
	mostOpen   = 256              // pages that are told of changes
	heartbeat  = 15 * time.Second // between two signs of life to an open page
)

// Server serves the page.
type Server struct {
	maker Maker
	hosts map[string]bool // that it answers to
	open  chan struct{}   // holds a token for each open page
	slots chan struct{}   // holds a token for each question at work

	mu      sync.Mutex
	now     *version
	changed chan struct{} // closed when now is another
}

// version is a page with the answers made of it.
type version struct {
	id string
	Page
	answers *answers
}

// Listen opens a port of the loopback address; 0 is any that is free.
func Listen(port int) (net.Listener, error) {
	return net.Listen("tcp4", net.JoinHostPort("127.0.0.1", strconv.Itoa(port)))
}

// Serve serves on a listener until the context ends, which is no error.
func Serve(ctx context.Context, l net.Listener, m Maker) error {
	s := newServer(l.Addr(), m)
	h := &http.Server{Handler: s.handler(), ReadHeaderTimeout: headTime, ReadTimeout: headTime, WriteTimeout: workTime, IdleTimeout: idleTime, MaxHeaderBytes: mostHeader,
		ErrorLog: log.New(sayer(m.Say), "", 0), BaseContext: func(net.Listener) context.Context { return ctx }}
	go s.watch(ctx)
	stopped := make(chan error, 1)
	go func() {
		<-ctx.Done()
		last, cancel := context.WithTimeout(context.Background(), farewell)
		defer cancel()
		err := h.Shutdown(last)
		if errors.Is(err, context.DeadlineExceeded) {
			err = h.Close()
		}
		stopped <- err
	}()
	if err := h.Serve(l); !errors.Is(err, http.ErrServerClosed) {
		return err
	}
	return <-stopped
}

func newServer(at net.Addr, m Maker) *Server {
	s := &Server{maker: m, hosts: map[string]bool{}, open: make(chan struct{}, mostOpen), slots: make(chan struct{}, mostAtWork), changed: make(chan struct{})}
	_, port, err := net.SplitHostPort(at.String())
	if err != nil {
		port = ""
	}
	for _, name := range []string{"127.0.0.1", "localhost"} {
		s.hosts[net.JoinHostPort(name, port)] = true
		if port == "80" {
			s.hosts[name] = true
		}
	}
	return s
}

// sayer lets the library's complaints out line by line.
type sayer func(string)

func (s sayer) Write(b []byte) (int, error) {
	s(string(b))
	return len(b), nil
}

// current returns the version to show, and what is closed when it is another. It waits
// for the first.
func (s *Server) current(ctx context.Context) (*version, <-chan struct{}) {
	for {
		s.mu.Lock()
		v, changed := s.now, s.changed
		s.mu.Unlock()
		if v != nil {
			return v, changed
		}
		select {
		case <-changed:
		case <-ctx.Done():
			return nil, nil
		}
	}
}

// show makes a version the one to show.
func (s *Server) show(v *version) {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.now = v
	close(s.changed)
	s.changed = make(chan struct{})
}

// made is the page of a version. A panic of the maker is shown in its place.
func (s *Server) made(id string, src []byte, err error) (v *version) {
	defer func() {
		if p := recover(); p != nil {
			s.maker.Say(fmt.Sprintf("%v\n%s", p, debug.Stack()))
			v = &version{id: id, Page: Page{HTML: []byte(faultPage)}}
		}
	}()
	v = &version{id: id, Page: s.maker.Make(id, src, err)}
	if v.Ask != nil {
		v.answers = newAnswers(v.Ask, s.maker.Say, s.slots)
	}
	return v
}

// faultPage stands where even the page that tells of a fault could not be made.
const faultPage = "<!DOCTYPE html><html lang=\"en\"><title>fault</title><p>Our own fault, not a mistake in the file: the page could not be made. The terminal shows more.</p></html>\n"
