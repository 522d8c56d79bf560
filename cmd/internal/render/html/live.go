package html

import (
	"bytes"
	"crypto/sha256"
	"embed"
	"encoding/base64"
	"html/template"
	"io"
	"strconv"
	"strings"

	"branchwork/cmd/internal/render/handover"
	"branchwork/cmd/internal/render/page"
	"branchwork/cmd/internal/render/svg"
)

//go:embed live.gohtml live.css live.js
var liveFiles embed.FS

// Live is what a page that follows its file holds beside the report: where it comes
// from, and what can be asked of it.
type Live struct {
	File    string
	Version string // of the file's text; the server tells when it is another
	Built   bool   // the file has circuits, which adding is asked of
	Items   []LiveItem
	Rooms   []string // with fixtures that can be dimmed
	Names   []string // of the circuits in the file
}

// LiveItem is an item that can be added or removed.
type LiveItem struct {
	Name, Room string
	Count      int
}

// Label is an item in a list to choose from.
func (i LiveItem) Label() string {
	s := svg.Plain(i.Name) + ", " + strconv.Itoa(i.Count) + " unit"
	if i.Count != 1 {
		s += "s"
	}
	if i.Room != "" {
		s += ", " + svg.Plain(i.Room)
	}
	return s
}

// strip is a live page beside its report or in its place.
type strip struct {
	Live
	Style  template.CSS
	Policy string
	Script template.JS
	What   any // in the place of the report
}

// Shown is a name that cannot turn the text around it.
func (strip) Shown(s string) string { return svg.Plain(s) }

// Policy is the content security policy of every page that is served: nothing but
// this server, and of scripts nothing but our own, told by its hash.
func Policy() (string, error) {
	script, err := liveFiles.ReadFile("live.js")
	sum := sha256.Sum256(script)
	return "default-src 'none'; style-src 'unsafe-inline'; script-src 'sha256-" + base64.StdEncoding.EncodeToString(sum[:]) +
		"'; connect-src 'self'; form-action 'self'; base-uri 'none'", err
}

func stripOf(l Live, what any) (*strip, error) {
	policy, err := Policy()
	if err != nil {
		return nil, err
	}
	script, err := liveFiles.ReadFile("live.js")
	if err != nil {
		return nil, err
	}
	css, err := liveFiles.ReadFile("live.css")
	return &strip{Live: l, Style: template.CSS(css), Policy: policy, Script: template.JS(script), What: what}, err
}

// RenderLive prints the report with the strip above it, as a page that follows its
// file.
func RenderLive(w io.Writer, laid handover.Layout, l Live) error {
	s, err := stripOf(l, nil)
	if err != nil {
		return err
	}
	return render(w, laid, s)
}

// Trouble is what stands in the place of a page that cannot be made: lines as the
// terminal shows them.
type Trouble struct {
	Title string
	Says  string // what it is about, in a sentence
	Lines string
}

// TroublePage prints it as a page that follows its file.
func TroublePage(w io.Writer, t Trouble, l Live) error {
	return livePage(w, "trouble", l, t)
}

// ShownLines are its lines, each told apart: "place", "caret", "remedy" or none of them.
func (t Trouble) ShownLines() []shownLine {
	var out []shownLine
	for _, l := range strings.Split(strings.TrimRight(t.Lines, "\n"), "\n") {
		class := ""
		after := strings.TrimLeft(strings.TrimPrefix(strings.TrimLeft(l, " "), "|"), " ")
		switch {
		case after != "" && strings.Trim(after, "^") == "":
			class = "caret"
		case l != "" && l[0] != ' ':
			class = "place"
		case strings.HasPrefix(l, "        "):
			class = "remedy"
		}
		out = append(out, shownLine{class, l})
	}
	return out
}

type shownLine struct{ Class, Text string }

// Answer is the answer to a what-if: the figures, and pages that stand behind them.
type Answer struct {
	Asked []string
	Class string // of the verdict: none, violation, or trouble where nothing could be asked
	Says  string
	Page  page.Page
	Folds []Fold
}

// Fold is a page that is opened where it is wanted.
type Fold struct {
	Title string
	Open  bool
	Page  page.Page
}

// Render prints the answer alone, to be put into a page.
func (a Answer) Render(w io.Writer) error { return executed(w, "answer", a) }

// RenderPage prints it as a page of its own, for a browser without scripts.
func (a Answer) RenderPage(w io.Writer, l Live) error {
	return livePage(w, "answered", l, a)
}

func livePage(w io.Writer, name string, l Live, what any) error {
	s, err := stripOf(l, what)
	if err != nil {
		return err
	}
	css, err := style()
	if err != nil {
		return err
	}
	s.Style = css + s.Style
	return executed(w, name, s)
}

func executed(w io.Writer, name string, what any) error {
	t, err := template.New("live").Funcs(liveFunctions()).ParseFS(liveFiles, "live.gohtml")
	if err != nil {
		return err
	}
	var b bytes.Buffer
	if err := t.ExecuteTemplate(&b, name, what); err != nil {
		return err
	}
	_, err = w.Write(b.Bytes())
	return err
}
