package live

import (
	"bufio"
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"net"
	"net/http"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// shelf is a server of a file with the pages made of it counted.
type shelf struct {
	t       *testing.T
	file    string
	address string
	made    atomic.Int64
	asked   atomic.Int64
	running atomic.Int64
	most    atomic.Int64
	gate    chan struct{} // answers wait for it where it is there
	mu      sync.Mutex
	said    strings.Builder
}

// serve serves a file until the test ends. A file that holds PANIC breaks the maker.
func serve(t *testing.T, text string) *shelf {
	s := &shelf{t: t, file: filepath.Join(t.TempDir(), "site.toml")}
	s.write(text)
	l, err := Listen(0)
	require.NoError(t, err)
	s.address = l.Addr().String()
	ctx, cancel := context.WithCancel(context.Background())
	ended := make(chan error, 1)
	go func() { ended <- Serve(ctx, l, s.maker()) }()
	t.Cleanup(func() {
		cancel()
		select {
		case err := <-ended:
			require.NoError(t, err, "a server that is told to stop")
		case <-time.After(10 * time.Second):
			require.Fail(t, "the server does not stop")
		}
	})
	return s
}

func (s *shelf) maker() Maker {
	return Maker{File: s.file, Policy: "default-src 'none'",
		Read: func() ([]byte, error) { return os.ReadFile(s.file) },
		Say: func(line string) {
			s.mu.Lock()
			defer s.mu.Unlock()
			s.said.WriteString(line + "\n")
		},
		Make: func(version string, src []byte, err error) Page {
			s.made.Add(1)
			switch {
			case err != nil:
				return Page{HTML: []byte("missing")}
			case bytes.Contains(src, []byte("PANIC")):
				panic("a page that cannot be made")
			}
			return Page{HTML: append([]byte("page of "), src...), Ask: s.ask}
		}}
}

func (s *shelf) ask(ctx context.Context, query string) []byte {
	s.asked.Add(1)
	if n := s.running.Add(1); n > s.most.Load() {
		s.most.Store(n)
	}
	defer s.running.Add(-1)
	if strings.Contains(query, "panic") {
		panic("an answer that cannot be made")
	}
	if s.gate != nil {
		select {
		case <-s.gate:
		case <-ctx.Done():
			return nil
		}
	}
	return []byte("answer to " + query)
}

func (s *shelf) write(text string) {
	require.NoError(s.t, os.WriteFile(s.file, []byte(text), 0o644))
}

// get asks as a browser on this machine would, but for what change does to the
// request.
func (s *shelf) get(path string, change func(*http.Request)) (int, string, http.Header) {
	s.t.Helper()
	r, err := http.NewRequest(http.MethodGet, "http://"+s.address+path, nil)
	require.NoError(s.t, err)
	if change != nil {
		change(r)
	}
	w, err := http.DefaultClient.Do(r)
	require.NoError(s.t, err)
	defer func() { require.NoError(s.t, w.Body.Close()) }()
	b, err := io.ReadAll(w.Body)
	require.NoError(s.t, err)
	return w.StatusCode, string(b), w.Header
}

func (s *shelf) eventually(want string) {
	s.t.Helper()
	require.Eventually(s.t, func() bool { _, got, _ := s.get("/", nil); return got == want }, time.Minute, 20*time.Millisecond, want)
}

func TestWhoIsNotOnThisMachineOfItsOwnAccordIsRefused(t *testing.T) {
	t.Parallel()
	s := serve(t, "a")
	_, port, err := net.SplitHostPort(s.address)
	require.NoError(t, err)
	header := func(name, value string) func(*http.Request) {
		return func(r *http.Request) { r.Header.Set(name, value) }
	}
	host := func(name string) func(*http.Request) { return func(r *http.Request) { r.Host = name } }
	method := func(name string) func(*http.Request) { return func(r *http.Request) { r.Method = name } }
	for _, row := range []struct {
		why    string
		change func(*http.Request)
		status int
	}{
		{"its own address", nil, 200},
		{"its own address by name", host("localhost:" + port), 200},
		{"its own page", header("Origin", "http://"+s.address), 200},
		{"its own page, as the browser says", header("Sec-Fetch-Site", "same-origin"), 200},
		{"typed by hand", header("Sec-Fetch-Site", "none"), 200},
		{"only whether it is there", method(http.MethodHead), 200},
		{"a foreign name that leads here", host("plans.example:" + port), 421},
		{"a foreign name without a port", host("plans.example"), 421},
		{"another port of this machine", host("127.0.0.1:1"), 421},
		{"its address without the port", host("127.0.0.1"), 421},
		{"a name that only begins alike", host("127.0.0.1:" + port + ".example"), 421},
		{"another site", header("Origin", "http://plans.example"), 403},
		{"another program of this machine", header("Origin", "http://127.0.0.1:1"), 403},
		{"this machine by another name", header("Origin", "http://localhost:"+port), 403},
		{"a page without an origin", header("Origin", "null"), 403},
		{"the same host over another scheme", header("Origin", "https://"+s.address), 403},
		{"another site, as the browser says", header("Sec-Fetch-Site", "cross-site"), 403},
		{"another port, as the browser says", header("Sec-Fetch-Site", "same-site"), 403},
		{"a change", method(http.MethodPost), 405},
		{"another", method(http.MethodPut), 405},
		{"what no page needs", method(http.MethodOptions), 405},
		{"a body", func(r *http.Request) { r.Body, r.ContentLength = io.NopCloser(strings.NewReader("x")), 1 }, 413},
		{"a body of unknown length", func(r *http.Request) { r.Body, r.ContentLength = io.NopCloser(strings.NewReader("x")), -1 }, 413},
	} {
		for _, path := range []string{"/", "/what-if?a=1"} {
			status, body, h := s.get(path, row.change)
			require.Equal(t, row.status, status, "%s: %s %s", path, row.why, body)
			require.Equal(t, "default-src 'none'; frame-ancestors 'none'", h.Get("Content-Security-Policy"), row.why)
			require.Equal(t, "nosniff", h.Get("X-Content-Type-Options"))
			require.Empty(t, h.Get("Access-Control-Allow-Origin"))
			if row.status != 200 {
				require.NotContains(t, body, "page of")
			}
		}
	}
	for _, path := range []string{"/other", "/site.toml", "/../site.toml", "/what-if/x", "/%2e%2e/site.toml", "//"} {
		status, body, _ := s.get(path, nil)
		require.Contains(t, []int{404, 200}, status)
		require.False(t, status == 200 && body != "page of a", "%s: %s", path, body)
	}
}

func TestPageFollowsTheFile(t *testing.T) {
	t.Parallel()
	s := serve(t, "first")
	s.eventually("page of first")
	other := s.file + ".new"
	require.NoError(t, os.WriteFile(other, []byte("second"), 0o644))
	require.NoError(t, os.Rename(other, s.file))
	s.eventually("page of second")
	s.write("third!") // the length of the one before, in the same second
	s.eventually("page of third!")
	require.NoError(t, os.Remove(s.file))
	s.eventually("missing")
	status, _, _ := s.get("/what-if?a=1", nil)
	require.Equal(t, 409, status, "nothing to ask of")
	s.write("PANIC")
	s.eventually(faultPage)
	s.write("fourth")
	s.eventually("page of fourth")
	require.Contains(t, s.said.String(), "a page that cannot be made")
}

func TestAFileThatIsBeingWrittenIsNotShownByHalves(t *testing.T) {
	t.Parallel()
	s := serve(t, "first")
	s.eventually("page of first")
	before := s.made.Load()
	for _, text := range []string{"", "sec", "secon", "second"} {
		s.write(text)
		time.Sleep(every / 4)
	}
	s.eventually("page of second")
	require.LessOrEqual(t, s.made.Load()-before, int64(2))
	s.write("second") // saved as it was
	time.Sleep(4 * every)
	require.LessOrEqual(t, s.made.Load()-before, int64(2), "the same text is the same page")
}

// events reads the versions that an open page is told.
func (s *shelf) events(ctx context.Context, told chan<- string) error {
	r, err := http.NewRequestWithContext(ctx, http.MethodGet, "http://"+s.address+"/events", nil)
	if err != nil {
		return err
	}
	w, err := http.DefaultClient.Do(r)
	if err != nil {
		return err
	}
	defer w.Body.Close()
	if w.Header.Get("Content-Type") != "text/event-stream" {
		return fmt.Errorf("status %d", w.StatusCode)
	}
	for lines := bufio.NewScanner(w.Body); lines.Scan(); {
		if data, ok := strings.CutPrefix(lines.Text(), "data: "); ok {
			told <- data
		}
	}
	return nil
}

func TestFiftyOpenPagesAreToldAndServedAtOnce(t *testing.T) {
	t.Parallel()
	const clients = 50
	big := strings.Repeat("x", 200_000)
	s := serve(t, big)
	ctx, cancel := context.WithCancel(context.Background())
	defer cancel()
	errs := make(chan error, 2*clients)
	var ready, done sync.WaitGroup
	for range clients {
		ready.Add(1)
		done.Add(1)
		go func() {
			defer done.Done()
			told := make(chan string, 16)
			go func() { errs <- s.events(ctx, told) }()
			first := <-told
			ready.Done()
			for next := first; next == first; {
				next = <-told
			}
			if status, body, _ := s.get("/", nil); status != 200 || body != "page of "+big+"y" {
				errs <- fmt.Errorf("status %d, %d bytes", status, len(body))
			}
			if _, body, _ := s.get("/what-if?by=1", nil); body != "answer to by=1" {
				errs <- errors.New(body)
			}
		}()
	}
	ready.Wait()
	before := s.made.Load()
	s.write(big + "y")
	done.Wait()
	require.Equal(t, int64(1), s.made.Load()-before, "made once for all")
	require.Equal(t, int64(1), s.asked.Load(), "answered once for all")
	cancel()
	for range clients {
		if err := <-errs; err != nil {
			require.ErrorIs(t, err, context.Canceled)
		}
	}
}

func TestAPanicIsAnAnswerOfItsOwn(t *testing.T) {
	t.Parallel()
	s := serve(t, "a")
	for range 2 {
		status, body, _ := s.get("/what-if?panic", nil)
		require.Equal(t, 503, status)
		require.Contains(t, body, "our own fault")
	}
	_, body, _ := s.get("/what-if?x=1", nil)
	require.Equal(t, "answer to x=1", body)
	require.Contains(t, s.said.String(), "an answer that cannot be made")
}

func TestAClientThatDoesNotFinishItsRequestIsLeft(t *testing.T) {
	t.Parallel()
	s := serve(t, "a")
	start := time.Now()
	slow, err := net.Dial("tcp", s.address)
	require.NoError(t, err)
	defer slow.Close()
	_, err = slow.Write([]byte("GET / HTTP/1.1\r\nHost: "))
	require.NoError(t, err)
	status, _, _ := s.get("/", nil)
	require.Equal(t, 200, status, "others are served meanwhile")
	require.NoError(t, slow.SetReadDeadline(time.Now().Add(4*headTime)))
	_, err = io.ReadAll(slow)
	require.NoError(t, err, "the server ends it")
	require.GreaterOrEqual(t, time.Since(start), headTime/2)
}

func TestWhatIsTooLargeOrNoRequestIsRefused(t *testing.T) {
	t.Parallel()
	s := serve(t, "a")
	for why, text := range map[string]string{
		"header": "GET / HTTP/1.1\r\nHost: " + s.address + "\r\nX: " + strings.Repeat("x", 64<<10) + "\r\n\r\n",
		"path":   "GET /" + strings.Repeat("x", 64<<10) + " HTTP/1.1\r\nHost: " + s.address + "\r\n\r\n",
		"noise":  "\x16\x03\x01\x02\x00\x01\x00\x01\xfc\x03\x03\r\n\r\n",
		"host":   "GET / HTTP/1.0\r\n\r\n",
		"two":    "GET / HTTP/1.1\r\nHost: " + s.address + "\r\nHost: plans.example\r\n\r\n",
	} {
		c, err := net.Dial("tcp", s.address)
		require.NoError(t, err)
		_, _ = c.Write([]byte(text)) // the server may have closed already
		require.NoError(t, c.SetReadDeadline(time.Now().Add(20*time.Second)))
		answer, _ := io.ReadAll(c)
		require.NotContains(t, string(answer), "page of", why)
		require.NotContains(t, string(answer), "HTTP/1.1 200", why)
		require.NoError(t, c.Close())
	}
	status, _, _ := s.get("/", nil)
	require.Equal(t, 200, status)
}

func TestOnlyTheLoopbackAddressIsOpened(t *testing.T) {
	t.Parallel()
	l, err := Listen(0)
	require.NoError(t, err)
	defer l.Close()
	require.True(t, l.Addr().(*net.TCPAddr).IP.IsLoopback())
	_, err = Listen(l.Addr().(*net.TCPAddr).Port)
	require.Error(t, err, "a port that is taken")
}
