package live

import (
	"fmt"
	"net/http"
	"runtime/debug"
	"time"
)

// handler answers requests, after it refused those that are not for it.
func (s *Server) handler() http.Handler {
	mux := http.NewServeMux()
	mux.HandleFunc("/{$}", s.page)
	mux.HandleFunc("/what-if", s.question)
	mux.HandleFunc("/events", s.events)
	return s.guarded(mux)
}

// guarded lets through what a browser on this machine asks of its own accord.
func (s *Server) guarded(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		h := w.Header()
		h.Set("Content-Security-Policy", s.maker.Policy+"; frame-ancestors 'none'")
		h.Set("X-Content-Type-Options", "nosniff")
		h.Set("X-Frame-Options", "DENY")
		h.Set("Referrer-Policy", "no-referrer")
		h.Set("Cross-Origin-Resource-Policy", "same-origin")
		h.Set("Cross-Origin-Opener-Policy", "same-origin")
		h.Set("Cache-Control", "no-store")
		defer func() {
			if p := recover(); p != nil {
				s.maker.Say(fmt.Sprintf("%v\n%s", p, debug.Stack()))
				refuse(w, http.StatusInternalServerError, errFault.Error())
			}
		}()
		switch {
		case !s.hosts[r.Host]:
			refuse(w, http.StatusMisdirectedRequest, "this server answers to its own address only")
		case foreign(r):
			refuse(w, http.StatusForbidden, "another site asked for this")
		case r.Method != http.MethodGet && r.Method != http.MethodHead:
			h.Set("Allow", "GET, HEAD")
			refuse(w, http.StatusMethodNotAllowed, "nothing here can be changed: GET and HEAD only")
		case r.ContentLength != 0:
			h.Set("Connection", "close") // what is sent is not read
			refuse(w, http.StatusRequestEntityTooLarge, "a request without a body, please")
		default:
			next.ServeHTTP(w, r)
		}
	})
}

// foreign reports whether another site caused a request, as far as the browser says.
// One that was typed, or that no browser sent, says nothing.
func foreign(r *http.Request) bool {
	for _, origin := range r.Header.Values("Origin") {
		if origin != "http://"+r.Host {
			return true
		}
	}
	for _, site := range r.Header.Values("Sec-Fetch-Site") {
		if site != "same-origin" && site != "none" {
			return true
		}
	}
	return false
}

func refuse(w http.ResponseWriter, status int, why string) {
	http.Error(w, why, status)
}

func (s *Server) page(w http.ResponseWriter, r *http.Request) {
	if v, _ := s.current(r.Context()); v != nil {
		send(w, v.HTML)
	}
}

// question answers what is asked of the version that is shown.
func (s *Server) question(w http.ResponseWriter, r *http.Request) {
	v, _ := s.current(r.Context())
	switch {
	case v == nil:
		return
	case v.answers == nil:
		refuse(w, http.StatusConflict, "nothing can be asked while the file cannot be read")
		return
	}
	answer, err := v.answers.to(r.Context(), r.URL.RawQuery)
	switch {
	case r.Context().Err() != nil:
	case err != nil:
		w.Header().Set("Retry-After", "5")
		refuse(w, http.StatusServiceUnavailable, err.Error())
	default:
		send(w, answer)
	}
}

// send writes a page. Who takes too long to read it is left.
func send(w http.ResponseWriter, html []byte) {
	h := w.Header()
	h.Set("Content-Type", "text/html; charset=utf-8")
	h.Set("Content-Length", fmt.Sprint(len(html)))
	// A writer without deadlines has none to set: it is a test's.
	_ = http.NewResponseController(w).SetWriteDeadline(time.Now().Add(writeTime))
	_, _ = w.Write(html) // who is gone is not told
}

// events tells an open page the version at once and at every change, as server-sent
// events.
func (s *Server) events(w http.ResponseWriter, r *http.Request) {
	select {
	case s.open <- struct{}{}:
		defer func() { <-s.open }()
	default:
		w.Header().Set("Retry-After", "30")
		refuse(w, http.StatusServiceUnavailable, "too many pages are open")
		return
	}
	w.Header().Set("Content-Type", "text/event-stream")
	if r.Method == http.MethodHead {
		return
	}
	to := http.NewResponseController(w)
	alive := time.NewTicker(heartbeat)
	defer alive.Stop()
	for line := "retry: 1000\n"; ; line = "" {
		v, changed := s.current(r.Context())
		if v == nil {
			return
		}
		_ = to.SetWriteDeadline(time.Now().Add(writeTime)) // as in send
		if _, err := fmt.Fprintf(w, "%sdata: %s\n\n", line, v.id); err != nil || to.Flush() != nil {
			return
		}
		select {
		case <-r.Context().Done():
			return
		case <-changed:
		case <-alive.C:
		}
	}
}
