package html_test

import (
	"bytes"
	"encoding/json"
	"encoding/xml"
	"errors"
	"io"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/require"

	"branchwork/cmd/internal/cli"
)

// element is an element of a page as it is read back.
type element struct {
	name string
	attr map[string]string
	text string // of it and everything in it
	b    strings.Builder
}

// made is a report that was made already: the sites are large and many tests read
// them.
type made struct {
	page []byte
	doc  any
}

var reports sync.Map

// report returns the page of a site and the document behind it.
func report(t *testing.T, site string, args ...string) (page []byte, doc any) {
	t.Helper()
	key := strings.Join(append([]string{site}, args...), "\x00")
	if m, ok := reports.Load(key); ok {
		return m.(made).page, m.(made).doc
	}
	m := made{page: run(t, site, "html", args...)}
	require.NoError(t, json.Unmarshal(run(t, site, "json", args...), &m.doc))
	reports.Store(key, m)
	return m.page, m.doc
}

// run makes a report anew.
func run(t *testing.T, site, format string, args ...string) []byte {
	t.Helper()
	out := filepath.Join(t.TempDir(), "report."+format)
	var said bytes.Buffer
	status := cli.Run(append([]string{"report", site, "--format", format, "-o", out}, args...), nil, io.Discard, &said)
	require.Less(t, status, 2, "%s", said.String())
	b, err := os.ReadFile(out)
	require.NoError(t, err)
	return b
}

func site(name string) string {
	return filepath.Join("..", "..", "..", "..", "testdata", "sites", name+".toml")
}

// read parses a page as XML, strictly, and returns its elements in order. A tag
// that is not closed, an attribute without quotes or a stray ampersand fails.
func read(t *testing.T, page []byte) []*element {
	t.Helper()
	var out []*element
	var open []int
	d := xml.NewDecoder(bytes.NewReader(page))
	for {
		token, err := d.Token()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			require.NoError(t, err, "line %d", line(page, d.InputOffset()))
		}
		switch x := token.(type) {
		case xml.StartElement:
			e := &element{name: x.Name.Local, attr: map[string]string{}}
			for _, a := range x.Attr {
				_, twice := e.attr[a.Name.Local]
				require.False(t, twice, "%s has %s twice", e.name, a.Name.Local)
				e.attr[a.Name.Local] = a.Value
			}
			open = append(open, len(out))
			out = append(out, e)
		case xml.EndElement:
			open = open[:len(open)-1]
		case xml.CharData:
			for _, i := range open {
				out[i].b.Write(x)
			}
		}
	}
	require.Empty(t, open)
	for _, e := range out {
		e.text = e.b.String()
	}
	return out
}

func line(page []byte, offset int64) int { return 1 + bytes.Count(page[:offset], []byte("\n")) }

// all lists the sites of the project.
func all(t *testing.T) []string {
	names, err := filepath.Glob(site("*"))
	require.NoError(t, err)
	require.NotEmpty(t, names)
	for i, n := range names {
		names[i] = strings.TrimSuffix(filepath.Base(n), ".toml")
	}
	return names
}
