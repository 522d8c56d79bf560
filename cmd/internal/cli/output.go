package cli

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"os"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"branchwork/cmd/internal/render/csv"
	"branchwork/cmd/internal/render/json"
	"branchwork/cmd/internal/render/markdown"
	"branchwork/cmd/internal/render/page"
	"branchwork/cmd/internal/render/terminal"
)

// output is how an answer is printed, and where.
type output struct {
	format string
	json   bool
	file   string
	units  string
	colour string
	width  int
	input  string // file that must not be written over
}

// formats, unit systems and colour settings, the default first.
func formats() []string   { return []string{"text", "json", "csv", "markdown"} }
func systems() []string   { return []string{"us", "metric"} }
func colouring() []string { return []string{"auto", "always", "never"} }

func (o *output) flags(cmd *cobra.Command) {
	f := cmd.Flags()
	f.StringVar(&o.format, "format", "text", "text, json, csv or markdown")
	f.BoolVar(&o.json, "json", false, "same as --format json")
	f.StringVarP(&o.file, "output", "o", "", "write to this file, whole or not at all, instead of the screen; a link is followed")
	f.StringVar(&o.units, "units", "us", "us or metric; JSON keeps its own units")
	f.StringVar(&o.colour, "color", "auto", "auto, always or never; colour only marks severity")
	f.IntVar(&o.width, "width", 0, "columns of text (default: the terminal's, or 80)")
	complete(cmd, "format", formats)
	complete(cmd, "units", systems)
	complete(cmd, "color", colouring)
}

// check reports a flag that is not one of its words, before any work is done.
func (o *output) check(cmd *cobra.Command) error {
	for _, f := range []struct {
		name, value string
		words       []string
	}{{"format", o.format, formats()}, {"units", o.units, systems()}, {"color", o.colour, colouring()}} {
		if !slices.Contains(f.words, f.value) {
			return hint(fmt.Errorf("--%s %q is not known", f.name, f.value), "one of: %s", strings.Join(f.words, ", "))
		}
	}
	if o.json && cmd.Flags().Changed("format") && o.format != "json" {
		return fmt.Errorf("--json and --format %q ask for two formats", o.format)
	}
	if o.json {
		o.format = "json"
	}
	if cmd.Flags().Changed("width") && (o.width < leastWidth || o.width > mostWidth) {
		return hint(fmt.Errorf("--width %d is not a width that can be printed on", o.width), "%d to %d", leastWidth, mostWidth)
	}
	return nil
}

// print prints a document: as it is, or laid out for readers.
func (o *output) print(s *streams, document any, layout func(page.System) page.Page) error {
	answer, err := o.rendered(s, document, layout)
	if err != nil {
		return err
	}
	return o.write(s, answer)
}

// answer prints what was worked out; nothing that it is made of can fail any more.
type answer func(io.Writer) error

// text is an answer that is there already.
func text(b []byte) answer {
	return func(w io.Writer) error {
		_, err := w.Write(b)
		return err
	}
}

// rendered returns a document as it will be printed.
func (o *output) rendered(s *streams, document any, layout func(page.System) page.Page) (answer, error) {
	defer s.progress.begin("printing")()
	// What cannot be printed as JSON holds a figure that is no number; it is
	// printed in no other format either.
	checked, err := json.Check(document)
	if err != nil {
		return nil, fault{says: err.Error()}
	}
	if o.format == "json" {
		return checked.Render, nil
	}
	var b bytes.Buffer
	if err := o.render(&b, s, layout); err != nil {
		return nil, fault{says: err.Error()}
	}
	return text(b.Bytes()), nil
}

func (o *output) render(w io.Writer, s *streams, layout func(page.System) page.Page) error {
	p := layout(page.System{Metric: o.units == "metric"})
	switch o.format {
	case "csv":
		return csv.Render(w, p)
	case "markdown":
		return markdown.Render(w, p)
	}
	return terminal.Render(w, p, terminal.Screen{Width: o.columns(s), Colour: o.coloured(s), Blocks: o.blocks(s)})
}

func (o *output) columns(s *streams) int {
	if o.width > 0 {
		return o.width
	}
	if !o.toScreen() {
		return defaultWidth
	}
	return s.width
}

func (o *output) coloured(s *streams) bool {
	return o.colour == "always" || o.colour == "auto" && s.colour && o.toScreen()
}

func (o *output) write(s *streams, a answer) error {
	if o.toScreen() {
		if err := buffered(s.out, a); err != nil {
			return fmt.Errorf("cannot write the answer: %w", reason(err))
		}
		return nil
	}
	if err := writeAnswer(o.file, a, true); err != nil {
		return fmt.Errorf("cannot write %q: %w", o.file, reason(err))
	}
	s.notice("wrote %q", o.file)
	return nil
}

// toScreen reports whether the answer goes to standard output.
func (o *output) toScreen() bool { return o.file == "" || o.file == stdin }

// mayPrint refuses, before any work is done, to write the answer over the inventory.
func (o *output) mayPrint() error {
	if !o.toScreen() && o.input != "" && sameFile(o.file, o.input) {
		return hint(fmt.Errorf("%q is the inventory itself", o.file), "name another file with --output; nothing was written")
	}
	return nil
}

// reason is what the system said, without the name of a temporary file.
func reason(err error) error {
	var p *os.PathError
	var l *os.LinkError
	switch {
	case errors.As(err, &p):
		return p.Err
	case errors.As(err, &l):
		return l.Err
	}
	return err
}
