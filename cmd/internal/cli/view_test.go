package cli

import (
	"bufio"
	"bytes"
	"context"
	"io"
	"net"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"runtime"
	"strings"
	"sync"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// showing is a branchwork view of a file in a folder of the test's own.
type showing struct {
	file, address string
	errs          *bytes.Buffer
	mu            sync.Mutex
}

func (s *showing) Write(b []byte) (int, error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.errs.Write(b)
}

func (s *showing) said() string {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.errs.String()
}

func show(t *testing.T, text string) *showing {
	s := &showing{file: filepath.Join(t.TempDir(), "site.toml"), errs: &bytes.Buffer{}}
	require.NoError(t, os.WriteFile(s.file, []byte(text), 0o444))
	out, in := io.Pipe()
	ctx, cancel := context.WithCancel(context.Background())
	ended := make(chan error, 1)
	o := &viewOptions{}
	o.units = "us"
	go func() { ended <- o.run(ctx, newStreams(nil, in, s), s.file) }()
	line, err := bufio.NewReader(out).ReadString('\n')
	require.NoError(t, err)
	s.address = strings.TrimSpace(line)
	t.Cleanup(func() {
		cancel()
		require.NoError(t, <-ended)
	})
	return s
}

func (s *showing) get(t *testing.T, path string) (int, string) {
	t.Helper()
	w, err := http.Get(s.address + path)
	require.NoError(t, err)
	defer func() { require.NoError(t, w.Body.Close()) }()
	b, err := io.ReadAll(w.Body)
	require.NoError(t, err)
	return w.StatusCode, string(b)
}

// The page is that of report, its figures at the same places, with the strip above it;
// the page that report writes has neither script nor strip.
func TestViewServesTheReport(t *testing.T) {
	text := builtSites(t)["garage.toml"]
	s := show(t, text)
	_, page := s.get(t, "")
	file := filepath.Join(t.TempDir(), "page.html")
	var errs bytes.Buffer
	require.Zero(t, Run([]string{"report", s.file, "-o", file}, nil, io.Discard, &errs), errs.String())
	report, err := os.ReadFile(file)
	require.NoError(t, err)
	from := func(page string) string {
		i := strings.Index(page, `<header id="cover"`)
		require.Positive(t, i)
		return page[i : strings.Index(page, "</main>")+len("</main>")]
	}
	require.True(t, from(string(report)) == from(page))
	for _, live := range []string{"<script", "what-if", "EventSource", `id="follows"`, "<form"} {
		require.False(t, strings.Contains(string(report), live), live)
		require.True(t, strings.Contains(page, live), live)
	}
	require.False(t, regexp.MustCompile(`(src|href|action)="(https?:)?//`).MatchString(page), "the page asks its own server only")

	before := text
	for _, q := range []string{"what-if?do=add&by=1&item=bar-640&on=", "what-if?do=remove&by=5&item=bar-640&on=", "what-if?room=bloom&level=10"} {
		status, answer := s.get(t, q)
		require.Equal(t, 200, status)
		require.Contains(t, answer, `class="says"`)
	}
	after, err := os.ReadFile(s.file)
	require.NoError(t, err)
	require.Equal(t, before, string(after))
	left, err := os.ReadDir(filepath.Dir(s.file))
	require.NoError(t, err)
	require.Len(t, left, 1, "nothing was written beside it")
}

func TestViewShowsWhatIsWrongWithAFile(t *testing.T) {
	text := builtSites(t)["garage.toml"]
	broken := replaced(t, text, `power = "640 W"`, `power = 640`)
	hostile := replaced(t, text, `name = "Orchard Lane garage"`, `name = "<script>alert(1)</script>\u001b[31m"`+"\n\"\\u001b]0;\" = 1")
	s := show(t, broken)
	for _, x := range []string{broken, hostile} {
		require.NoError(t, os.Chmod(s.file, 0o644))
		require.NoError(t, os.WriteFile(s.file, []byte(x), 0o644))
		var said bytes.Buffer
		require.Equal(t, 2, Run([]string{"plan", s.file}, nil, io.Discard, &said))
		require.Contains(t, said.String(), "^")
		require.Eventually(t, func() bool {
			_, page := s.get(t, "")
			lines := strings.NewReplacer("&lt;", "<", "&gt;", ">", "&#34;", `"`, "&#39;", "'", "&amp;", "&", "&#43;", "+").Replace(untagged(page))
			return strings.Contains(spaced(lines), spaced(said.String()))
		}, time.Minute, 50*time.Millisecond, "%s", said.String())
		_, page := s.get(t, "")
		require.NotContains(t, page, "<script>alert")
		require.NotContains(t, page, "\x1b")
		require.NotContains(t, s.said(), "\x1b")
		require.Contains(t, s.said(), said.String())
	}
	status, _ := s.get(t, "what-if?do=add&by=1&item=bar-640&on=")
	require.Equal(t, 409, status)
	require.NoError(t, os.Remove(s.file))
	require.Eventually(t, func() bool { _, page := s.get(t, ""); return strings.Contains(page, "no file") }, time.Minute, 50*time.Millisecond)
	require.NoError(t, os.WriteFile(s.file, []byte(text), 0o644))
	require.Eventually(t, func() bool { _, page := s.get(t, ""); return strings.Contains(page, "Orchard Lane garage</bdi></h1>") }, time.Minute, 50*time.Millisecond)
}

// untagged is the text of a page.
func untagged(page string) string {
	var b strings.Builder
	for in := false; page != ""; page = page[1:] {
		switch c := page[0]; {
		case c == '<':
			in = true
		case c == '>':
			in = false
		case !in:
			b.WriteByte(c)
		}
	}
	return b.String()
}

func TestViewRefusesWhatItCannotServe(t *testing.T) {
	taken, err := net.Listen("tcp4", "127.0.0.1:0")
	require.NoError(t, err)
	defer taken.Close()
	_, port, err := net.SplitHostPort(taken.Addr().String())
	require.NoError(t, err)
	site := filepath.Join(top, "testdata", "sites", "tent.toml")
	for _, row := range []struct {
		args []string
		says string
	}{
		{[]string{"-"}, "standard input cannot be followed\n  name a file"},
		{[]string{}, "accepts 1 arg"},
		{[]string{filepath.Join(t.TempDir(), "none.toml")}, "no file"},
		{[]string{t.TempDir()}, "is a directory"},
		{[]string{site, "--port", "70000"}, "--port 70000 is no port"},
		{[]string{site, "--port", "-1"}, "--port -1 is no port"},
		{[]string{site, "--port", port}, "cannot listen on port " + port + " of 127.0.0.1: address already in use\n  leave out --port"},
		{[]string{site, "--units", "imperial"}, `--units "imperial" is not known`},
		{[]string{site, "--part", "neighbour"}, `--part "neighbour" is none of the parts`},
		{[]string{site, "--code", "nec-1897"}, `no code profile "nec-1897"`},
	} {
		var out, errs bytes.Buffer
		require.Equal(t, 2, Run(append([]string{"view"}, row.args...), strings.NewReader(""), &out, &errs), row.args)
		require.Empty(t, out.String())
		if runtime.GOOS != "windows" || !strings.Contains(row.says, "in use") {
			require.Contains(t, errs.String(), row.says)
		}
	}
}

// Ctrl-C ends the command, as a process of its own, with status 0.
func TestCtrlCEndsView(t *testing.T) {
	if runtime.GOOS == "windows" {
		t.Skip("Ctrl-C cannot be sent to another process here")
	}
	self, err := os.Executable()
	require.NoError(t, err)
	cmd := exec.Command(self, "view", filepath.Join(top, "testdata", "sites", "tent.toml"))
	cmd.Args[0] = "branchwork" // by this name the test is the command
	var errs bytes.Buffer
	cmd.Stderr = &errs
	out, err := cmd.StdoutPipe()
	require.NoError(t, err)
	require.NoError(t, cmd.Start())
	line, err := bufio.NewReader(out).ReadString('\n')
	require.NoError(t, err)
	require.Regexp(t, `^http://127\.0\.0\.1:\d+/\n$`, line)
	open, err := http.Get(strings.TrimSpace(line) + "events") // a page that stays open
	require.NoError(t, err)
	defer open.Body.Close()
	require.NoError(t, cmd.Process.Signal(os.Interrupt))
	ended := make(chan error, 1)
	go func() { ended <- cmd.Wait() }()
	select {
	case err := <-ended:
		require.NoError(t, err, errs.String())
	case <-time.After(20 * time.Second):
		require.NoError(t, cmd.Process.Kill())
		require.Fail(t, "Ctrl-C does not end it")
	}
	require.Contains(t, errs.String(), "until Ctrl-C")
}

// Started in the background of a script, which ignores Ctrl-C for it, view goes on
// serving through one.
func TestViewLeavesAnIgnoredSignalIgnored(t *testing.T) {
	if runtime.GOOS == "windows" {
		t.Skip("no shell that ignores signals for others")
	}
	cmd := exec.Command("sh", "-c", `trap "" INT; exec branchwork view "$0"`, filepath.Join(top, "testdata", "sites", "tent.toml"))
	out, err := cmd.StdoutPipe()
	require.NoError(t, err)
	require.NoError(t, cmd.Start())
	t.Cleanup(func() { _ = cmd.Process.Kill() })
	line, err := bufio.NewReader(out).ReadString('\n')
	require.NoError(t, err)
	s := &showing{address: strings.TrimSpace(line)}
	require.NoError(t, cmd.Process.Signal(os.Interrupt))
	for range 10 { // it would be gone by then
		time.Sleep(50 * time.Millisecond)
		status, _ := s.get(t, "")
		require.Equal(t, 200, status)
	}
	require.NoError(t, cmd.Process.Signal(syscall.SIGTERM))
	require.NoError(t, cmd.Wait(), "a signal that is heeded ends it as it should")
}
