package html_test

import (
	"bufio"
	"bytes"
	"encoding/json"
	"io"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"branchwork/cmd/internal/cli"
)

// viewed is a branchwork view that runs in this process until the test ends, which it
// does by Ctrl-C.
type viewed struct {
	file, address string
	errs          *lockedBuffer
}

type lockedBuffer struct {
	mu sync.Mutex
	b  bytes.Buffer
}

func (l *lockedBuffer) Write(p []byte) (int, error) {
	l.mu.Lock()
	defer l.mu.Unlock()
	return l.b.Write(p)
}

func (l *lockedBuffer) String() string {
	l.mu.Lock()
	defer l.mu.Unlock()
	return l.b.String()
}

// view serves a copy of a file.
func view(t *testing.T, from string) viewed {
	if runtime.GOOS == "windows" {
		t.Skip("Ctrl-C cannot be sent to oneself here")
	}
	text, err := os.ReadFile(from)
	require.NoError(t, err)
	v := viewed{file: write(t, string(text)), errs: &lockedBuffer{}}
	out, in := io.Pipe()
	status := make(chan int, 1)
	go func() { status <- cli.Run([]string{"view", v.file}, nil, in, v.errs) }()
	line, err := bufio.NewReader(out).ReadString('\n')
	require.NoError(t, err)
	v.address = strings.TrimSpace(line)
	t.Cleanup(func() {
		self, err := os.FindProcess(os.Getpid())
		require.NoError(t, err)
		require.NoError(t, self.Signal(os.Interrupt))
		select {
		case got := <-status:
			require.Zero(t, got, "exit status after Ctrl-C; %s", v.errs.String())
		case <-time.After(20 * time.Second):
			require.Fail(t, "Ctrl-C does not stop it")
		}
	})
	return v
}

func built(name string) string {
	return filepath.Join("..", "..", "..", "..", "testdata", "sites-built", name+".toml")
}

// rename saves a text as many editors do: as a new file that takes the place of the
// old one.
func (v viewed) rename(t *testing.T, text string) {
	t.Helper()
	require.NoError(t, os.WriteFile(v.file+".new", []byte(text), 0o644))
	require.NoError(t, os.Rename(v.file+".new", v.file))
}

// overwrite saves it as others do: the file is emptied, then written.
func (v viewed) overwrite(t *testing.T, text string) {
	t.Helper()
	f, err := os.Create(v.file)
	require.NoError(t, err)
	half := len(text) / 2
	_, err = f.WriteString(text[:half])
	require.NoError(t, err)
	time.Sleep(20 * time.Millisecond)
	_, err = f.WriteString(text[half:])
	require.NoError(t, err)
	require.NoError(t, f.Close())
}

func (b *browser) visit(address string) {
	b.t.Helper()
	b.events = nil
	b.call("Page.navigate", map[string]any{"url": address}, nil)
	b.soon(`document.readyState === 'complete'`)
}

// soon waits until an expression holds in the page, over reloads.
func (b *browser) soon(expression string) {
	b.t.Helper()
	for range 600 {
		id := b.send("Runtime.evaluate", map[string]any{"expression": "Boolean(" + expression + ")", "returnByValue": true})
		for {
			got, raw, err := b.next()
			if got != id {
				require.NoError(b.t, err)
				continue
			}
			var r struct {
				Result struct {
					Value bool `json:"value"`
				} `json:"result"`
			}
			if err == nil && json.Unmarshal(raw, &r) == nil && r.Result.Value {
				return
			}
			break // not yet, or the page is just being left
		}
		time.Sleep(100 * time.Millisecond)
	}
	require.Fail(b.t, "it does not come to hold", expression)
}

// quietWithin demands that the page asked nobody but its server and complained of
// nothing.
func quietWithin(t *testing.T, b *browser, address string) {
	t.Helper()
	asked := 0
	for _, e := range b.events {
		switch e.Method {
		case "Network.requestWillBeSent":
			asked++
			var r struct {
				Request struct {
					URL string `json:"url"`
				} `json:"request"`
			}
			require.NoError(t, json.Unmarshal(e.Params, &r))
			require.True(t, strings.HasPrefix(r.Request.URL, address), r.Request.URL)
		case "Runtime.exceptionThrown", "Runtime.consoleAPICalled", "Log.entryAdded":
			require.Fail(t, e.Method, string(e.Params))
		}
	}
	require.NotZero(t, asked)
}

const answerSays = `(document.querySelector('#answer .says') || {}).textContent`

func TestLivePageInABrowser(t *testing.T) {
	b := chromium(t)
	v := view(t, built("garage"))
	text, err := os.ReadFile(v.file)
	require.NoError(t, err)
	b.visit(v.address)
	for _, width := range []int{360, 768, 1280} {
		fits(t, b, width, "")
	}

	// The strip, by hand.
	b.eval(`(() => { document.querySelector('[name=by]').value = 40; document.querySelector('[name=item]').value = 'bar-640'; document.querySelector('#what-if [type=submit]').click(); return true })()`, new(bool))
	b.soon(answerSays + `.startsWith('no: of 40 x bar-640 only ')`)
	fits(t, b, 360, "")
	b.eval(`(() => { document.querySelector('[name=by]').value = 1; document.querySelector('#what-if [type=submit]').click(); return true })()`, new(bool))
	b.soon(answerSays + ` === 'yes: 1 x bar-640 can go on what is built: 1 on garage-4'`)

	// The file changes: the page follows, and what was asked is asked again.
	v.rename(t, strings.Replace(string(text), "Orchard Lane garage", "Orchard Lane barn", 1))
	b.soon(`document.querySelector('h1').textContent === 'Orchard Lane barn' && ` + answerSays + ` === 'yes: 1 x bar-640 can go on what is built: 1 on garage-4'`)
	v.overwrite(t, strings.Replace(string(text), "Orchard Lane garage", "Orchard Lane shed", 1))
	b.soon(`document.querySelector('h1').textContent === 'Orchard Lane shed'`)

	// It breaks: the page says what the terminal says, and comes back.
	broken := strings.Replace(string(text), `power = "640 W"`, `power = 640`, 1)
	v.overwrite(t, broken)
	b.soon(`document.querySelector('.terminal')`)
	fits(t, b, 360, "")
	var shown string
	b.eval(`document.querySelector('.terminal').textContent`, &shown)
	var said bytes.Buffer
	require.Equal(t, 2, cli.Run([]string{"plan", v.file}, nil, io.Discard, &said))
	require.Contains(t, said.String(), "^^^")
	require.Equal(t, strings.TrimSpace(said.String()), strings.TrimSpace(shown))
	require.Contains(t, v.errs.String(), said.String())
	v.rename(t, string(text))
	b.soon(`document.querySelector('h1').textContent === 'Orchard Lane garage' && ` + answerSays + `.startsWith('yes')`)

	// More than one change, and all of it put away.
	b.eval(`(() => {
		document.getElementById('more-units').click();
		const rows = document.querySelectorAll('.change.units');
		rows[0].querySelector('[name=do]').value = 'remove';
		rows[1].querySelector('[name=item]').value = 'circulation';
		rows[1].querySelector('[name=by]').value = 3;
		document.querySelector('[name=room]').value = 'bloom';
		document.querySelector('[name=level]').value = 70;
		document.querySelector('#what-if [type=submit]').click();
		return rows.length;
	})()`, new(int))
	b.soon(answerSays + `.startsWith('yes: 3 x circulation') && document.querySelector('#answer .over').textContent.includes('1 x bar-640 fewer')`)
	b.eval(`(() => { document.getElementById('clear').click(); return true })()`, new(bool))
	b.soon(`document.getElementById('answer').textContent === '' && document.querySelectorAll('.change.units').length === 1`)
	quietWithin(t, b, v.address)

	after, err := os.ReadFile(v.file)
	require.NoError(t, err)
	require.Equal(t, string(text), string(after), "the file was touched")
}

// TestLivePageIsAccessible runs axe-core over the strip with an answer, and over a page
// of what is wrong with a file.
func TestLivePageIsAccessible(t *testing.T) {
	axe := axeCore(t)
	b := chromium(t)
	b.call("Page.setBypassCSP", map[string]any{"enabled": true}, nil) // for axe
	v := view(t, built("garage"))
	b.visit(v.address)
	b.eval(`(() => { document.querySelector('[name=by]').value = 40; document.querySelector('#what-if [type=submit]').click(); return true })()`, new(bool))
	b.soon(answerSays)
	check := func(what string) {
		b.eval(axe, new(bool))
		for _, look := range []struct {
			width  int
			scheme string
		}{{1280, "light"}, {360, "light"}, {1280, "dark"}} {
			b.look(look.width, "", look.scheme)
			var violations []string
			b.wait(`axe.run().then(r => r.violations.map(v => v.id + ', ' + v.impact + ': ' + v.nodes[0].html))`, &violations)
			require.Empty(t, violations, "%s at %d, %s", what, look.width, look.scheme)
		}
	}
	check("answer")
	v.rename(t, "[site]\nname = 1\n")
	b.soon(`document.querySelector('.terminal')`)
	check("trouble")
}
