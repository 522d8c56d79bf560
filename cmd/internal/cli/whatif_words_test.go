package cli

import (
	"bytes"
	"context"
	"encoding/xml"
	"io"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// words reads the answer as its reader does: the text of each fold, and of what stands
// before them.
func (w *wished) words(t *testing.T, changes ...string) (before string, folds map[string]string) {
	t.Helper()
	d := xml.NewDecoder(bytes.NewReader(w.answer(context.Background(), strip(changes...).Encode())))
	folds = map[string]string{}
	var all, title *strings.Builder
	all = &strings.Builder{}
	head, inTitle := all, false
	for {
		token, err := d.Token()
		if err == io.EOF {
			break
		}
		require.NoError(t, err)
		switch x := token.(type) {
		case xml.StartElement:
			if x.Name.Local == "details" {
				all, title = &strings.Builder{}, &strings.Builder{}
			}
			inTitle = x.Name.Local == "summary"
			if !strings.Contains("span b bdi", x.Name.Local) {
				all.WriteByte(' ')
			}
		case xml.EndElement:
			if x.Name.Local == "details" {
				folds[title.String()] = spaced(all.String())
			}
			inTitle = false
		case xml.CharData:
			if inTitle {
				title.Write(x)
			} else {
				all.Write(x)
			}
		}
	}
	return spaced(head.String()), folds
}

func spaced(s string) string { return strings.Join(strings.Fields(s), " ") }

// said runs a command on a text and returns what it prints, wide enough that nothing is
// wrapped, as words: lines under headings left out, bullets too.
func said(t *testing.T, text string, args ...string) []string {
	t.Helper()
	var out, errs bytes.Buffer
	status := Run(append(args, "--width", "9000"), strings.NewReader(text), &out, &errs)
	require.Less(t, status, 2, errs.String())
	var cells []string
	for _, l := range strings.Split(out.String(), "\n") {
		if strings.Trim(l, "=- ") == "" {
			continue
		}
		l = regexp.MustCompile(`^(clause|remedy): `).ReplaceAllString(strings.TrimPrefix(strings.TrimSpace(l), "- "), "$1:  ")
		for _, cell := range regexp.MustCompile(`  +`).Split(l, -1) {
			cells = append(cells, spaced(cell))
		}
	}
	return cells
}

// wordForWord demands the cells one after the other. Prose is as wide as a page on the
// terminal, so that a line of it may end where the text goes on.
func wordForWord(t *testing.T, cells []string, text string) {
	t.Helper()
	rest := text
	for _, c := range cells {
		i := strings.Index(rest, c)
		require.GreaterOrEqual(t, i, 0, "%q does not follow in\n%s", c, text)
		require.Less(t, i, 400, "%q stands far away in\n%s", c, rest)
		rest = rest[i+len(c):]
	}
	require.Empty(t, strings.TrimSpace(rest), "the answer has more than the command says")
}
