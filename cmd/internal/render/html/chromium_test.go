package html_test

import (
	"bufio"
	"bytes"
	"encoding/json"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	reference "branchwork/codes/outside"
)

// browser is a headless Chromium that is spoken to over two pipes: messages are
// JSON, each ended by a zero byte.
type browser struct {
	t       *testing.T
	to      *os.File
	from    *bufio.Reader
	id      int
	session string
	events  []event
}

type event struct {
	Method string          `json:"method"`
	Params json.RawMessage `json:"params"`
}

// chromium starts the browser, or skips the test where there is none.
func chromium(t *testing.T) *browser { return start(t, browserName(t)) }

// browserName finds the browser. BRANCHWORK_CHROMIUM names it; where
// BRANCHWORK_REQUIRE names chromium, its absence is a failure.
func browserName(t *testing.T) string {
	name := os.Getenv("BRANCHWORK_CHROMIUM")
	if name == "" {
		for _, n := range []string{"/usr/bin/chromium", "/usr/bin/chromium-browser", "/usr/bin/google-chrome"} {
			if _, err := os.Stat(n); err == nil {
				name = n
				break
			}
		}
	}
	if _, err := exec.LookPath(name); err != nil {
		reference.Absent(t, "chromium", "there is none here to look at the page; BRANCHWORK_CHROMIUM names one")
	}
	if testing.Short() {
		t.Skip("a browser takes seconds to start")
	}
	return name
}

// quietly are the settings with which a browser is started for a test.
func quietly(home string) []string {
	return []string{"--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--disable-dev-shm-usage", "--no-first-run", "--disable-background-networking",
		"--disable-component-update", "--disable-sync", "--disable-extensions", "--mute-audio", "--hide-scrollbars", "--user-data-dir=" + home}
}

func start(t *testing.T, name string) *browser {
	in, to, err := os.Pipe()
	require.NoError(t, err)
	from, out, err := os.Pipe()
	require.NoError(t, err)
	home, err := os.MkdirTemp("", "branchwork-chromium")
	require.NoError(t, err)
	cmd := exec.Command(name, append(quietly(home), "--remote-debugging-pipe", "about:blank")...)
	cmd.ExtraFiles = []*os.File{in, out} // 3 and 4 in the browser
	require.NoError(t, cmd.Start())
	require.NoError(t, in.Close())
	require.NoError(t, out.Close())
	b := &browser{t: t, to: to, from: bufio.NewReaderSize(from, 1<<20)}
	t.Cleanup(func() {
		b.send("Browser.close", map[string]any{})
		ended := make(chan struct{})
		go func() { _ = cmd.Wait(); close(ended) }()
		select {
		case <-ended:
		case <-time.After(10 * time.Second):
			_ = cmd.Process.Kill()
			<-ended
		}
		_ = to.Close()
		_ = from.Close()
		for range 20 { // its helpers may still be writing
			if os.RemoveAll(home) == nil {
				break
			}
			time.Sleep(100 * time.Millisecond)
		}
	})
	require.NoError(t, from.SetReadDeadline(time.Now().Add(4*time.Minute)))
	var target struct {
		TargetID string `json:"targetId"`
	}
	b.call("Target.createTarget", map[string]any{"url": "about:blank"}, &target)
	var attached struct {
		SessionID string `json:"sessionId"`
	}
	b.call("Target.attachToTarget", map[string]any{"targetId": target.TargetID, "flatten": true}, &attached)
	b.session = attached.SessionID
	for _, domain := range []string{"Page", "Runtime", "Network", "Log"} {
		b.call(domain+".enable", map[string]any{}, nil)
	}
	return b
}

func (b *browser) send(method string, params any) int {
	b.id++
	m := map[string]any{"id": b.id, "method": method, "params": params}
	if b.session != "" && method != "Browser.close" {
		m["sessionId"] = b.session
	}
	raw, err := json.Marshal(m)
	if err == nil {
		_, err = b.to.Write(append(raw, 0))
	}
	if err != nil && method != "Browser.close" {
		require.NoError(b.t, err)
	}
	return b.id
}

// next reads one message.
func (b *browser) next() (id int, result json.RawMessage, err error) {
	raw, err := b.from.ReadBytes(0)
	if err != nil {
		return 0, nil, fmt.Errorf("the browser does not answer: %w", err)
	}
	var m struct {
		ID     int             `json:"id"`
		Result json.RawMessage `json:"result"`
		Error  *struct {
			Message string `json:"message"`
		} `json:"error"`
		event
	}
	if err := json.Unmarshal(bytes.TrimSuffix(raw, []byte{0}), &m); err != nil {
		return 0, nil, err
	}
	if m.Error != nil {
		return m.ID, nil, fmt.Errorf("the browser refuses: %s", m.Error.Message)
	}
	if m.Method != "" {
		b.events = append(b.events, m.event)
	}
	return m.ID, m.Result, nil
}

func (b *browser) call(method string, params, result any) {
	b.t.Helper()
	id := b.send(method, params)
	for {
		got, raw, err := b.next()
		require.NoError(b.t, err, method)
		if got != id {
			continue
		}
		if result != nil {
			require.NoError(b.t, json.Unmarshal(raw, result), method)
		}
		return
	}
}

// open shows a page and waits until it is loaded.
func (b *browser) open(page []byte) {
	b.t.Helper()
	file := filepath.Join(b.t.TempDir(), "page.html")
	require.NoError(b.t, os.WriteFile(file, page, 0o644))
	b.events = nil
	b.call("Page.navigate", map[string]any{"url": "file://" + file}, nil)
	for !b.saw("Page.loadEventFired") {
		_, _, err := b.next()
		require.NoError(b.t, err)
	}
}

func (b *browser) saw(method string) bool {
	for _, e := range b.events {
		if e.Method == method {
			return true
		}
	}
	return false
}

// look makes the window so wide; media is "" or "print", scheme "light" or "dark".
func (b *browser) look(width int, media, scheme string) {
	b.t.Helper()
	b.call("Emulation.setDeviceMetricsOverride", map[string]any{"width": width, "height": 900, "deviceScaleFactor": 1, "mobile": false}, nil)
	b.call("Emulation.setEmulatedMedia", map[string]any{"media": media, "features": []map[string]string{{"name": "prefers-color-scheme", "value": scheme}}}, nil)
}

// eval runs an expression in the page and decodes its value.
func (b *browser) eval(expression string, value any) {
	b.t.Helper()
	b.evaluate(expression, false, value)
}

// wait runs an expression that promises a value.
func (b *browser) wait(expression string, value any) {
	b.t.Helper()
	b.evaluate(expression, true, value)
}

func (b *browser) evaluate(expression string, promised bool, value any) {
	b.t.Helper()
	var r struct {
		Result struct {
			Value json.RawMessage `json:"value"`
		} `json:"result"`
		Exception json.RawMessage `json:"exceptionDetails"`
	}
	b.call("Runtime.evaluate", map[string]any{"expression": expression, "returnByValue": true, "awaitPromise": promised}, &r)
	require.Empty(b.t, string(r.Exception), expression)
	require.NoError(b.t, json.Unmarshal(r.Result.Value, value))
}
