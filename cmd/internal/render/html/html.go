package html

import (
	"bytes"
	"embed"
	"html/template"
	"io"

	"branchwork/cmd/internal/render/handover"
	"branchwork/cmd/internal/render/svg"
)

//go:embed page.gohtml page.css print.css
var files embed.FS

// view is the page as its template reads it.
type view struct {
	handover.Layout
	Style template.CSS
	Live  *strip // of a page that follows its file
}

// Render prints the report.
func Render(w io.Writer, l handover.Layout) error { return render(w, l, nil) }

// render prints the report, with the strip of a page that follows its file where
// there is one.
func render(w io.Writer, l handover.Layout, live *strip) error {
	css, err := style()
	if err != nil {
		return err
	}
	// A drawing escaped what it holds when it was drawn.
	functions := template.FuncMap{"drawn": func(markup string) template.HTML { return template.HTML(markup) }}
	t, err := template.New("page.gohtml").Funcs(functions).Funcs(liveFunctions()).ParseFS(files, "page.gohtml")
	if err == nil {
		t, err = t.ParseFS(liveFiles, "live.gohtml")
	}
	if err != nil {
		return err
	}
	if live != nil {
		css += live.Style
	}
	var b bytes.Buffer
	if err := t.Execute(&b, view{l, css, live}); err != nil {
		return err
	}
	_, err = w.Write(b.Bytes())
	return err
}

// style is the whole style sheet: drawings, the page, which may change their
// colours, and both on paper.
func style() (template.CSS, error) {
	screen, err := files.ReadFile("page.css")
	if err != nil {
		return "", err
	}
	paper, err := files.ReadFile("print.css")
	return template.CSS(svg.Style() + string(screen) + string(paper)), err
}
