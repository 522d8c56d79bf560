package cli

import (
	"bytes"
	"errors"
	"fmt"
	"path/filepath"
	"slices"
	"strings"
	"unicode"

	"github.com/spf13/cobra"

	"branchwork/cmd/internal/document"
	"branchwork/cmd/internal/render/csv"
	"branchwork/cmd/internal/render/handover"
	"branchwork/cmd/internal/render/html"
	"branchwork/cmd/internal/render/json"
	"branchwork/cmd/internal/render/markdown"
	"branchwork/cmd/internal/render/svg"
	"branchwork/cmd/internal/render/xlsx"
)

type reportOptions struct {
	output
	code   string
	date   string
	parts  []string
	tables string // folder for one file of comma-separated values a table
}

func newReport(s *streams) *cobra.Command {
	o := &reportOptions{}
	cmd := &cobra.Command{
		Use: "report FILE -o PAGE.html",
		Long: "report writes one page that stands alone: it needs no network and no script, and prints on Letter and A4.\n\n" +
			"--part makes it for some of its readers only: " + strings.Join(document.Readers(), ", ") + ".\n" +
			"The page carries the date of --date; no clock is asked.\n\n" +
			"--format xlsx writes its schedules as a workbook whose totals are formulas, markdown and json the whole of it.\n" +
			"--csv writes each of its tables as a file of its own into a folder, and contents.csv, which lists them. A folder\n" +
			"that an earlier report wrote is replaced as a whole; one that holds anything else is left alone.\n\n" +
			"For a PDF, print the page: from a browser, or with\n  " + printRoute + "\n\n" +
			"FILE is an inventory, or - for standard input.",
		Example: example(
			`branchwork report room.toml -o room.html --date "2026-03-14"`, "the whole document",
			"branchwork report room.toml -o electrician.html --part electrician", "what one of its readers needs",
		),
		Args:              cobra.ExactArgs(1),
		ValidArgsFunction: completeFile,
		RunE:              func(_ *cobra.Command, args []string) error { return o.run(s, args[0]) },
	}
	f := cmd.Flags()
	f.StringVarP(&o.file, "output", "o", "", "write the report to this file, whole or not at all; without it markdown and json go to the screen, and with --csv the tables are all that is written")
	f.StringVar(&o.tables, "csv", "", "write each table as comma-separated values into this folder")
	f.StringVar(&o.format, "format", "", "html, markdown, xlsx or json (default: by the ending of --output, or html)")
	complete(cmd, "format", reportFormats)
	o.pageFlags(cmd)
	return cmd
}

// pageFlags say for whom and how the page is made.
func (o *reportOptions) pageFlags(cmd *cobra.Command) {
	f := cmd.Flags()
	f.StringSliceVar(&o.parts, "part", nil, "for whom: "+strings.Join(document.Readers(), ", ")+"; several with commas (default: all)")
	f.StringVar(&o.date, "date", "", `date that the page carries, as it is to be read: "2026-03-14"`)
	f.StringVar(&o.units, "units", "us", "us or metric; conductors and raceways keep their trade sizes")
	complete(cmd, "part", document.Readers)
	complete(cmd, "units", systems)
	codeFlag(cmd, &o.code)
}

// printRoute makes a PDF of the page.
const printRoute = "chromium --headless --no-pdf-header-footer --print-to-pdf=plan.pdf plan.html"

// reportFormats are the forms of a report, the default first.
func reportFormats() []string { return []string{"html", "markdown", "xlsx", "json"} }

// endings are the formats that the ending of a file's name asks for.
func endings() map[string]string {
	return map[string]string{"html": "html", "htm": "html", "md": "markdown", "markdown": "markdown", "xlsx": "xlsx", "json": "json"}
}

func (o *reportOptions) run(s *streams, file string) error {
	if err := o.checkReport(); err != nil {
		return err
	}
	o.input = file
	if err := o.mayPrint(); err != nil {
		return err
	}
	src, shown, err := readInput(s, file)
	if err != nil {
		return err
	}
	inv, p, err := parseSite(s, shown, src, o.code, s.width)
	if err != nil {
		return err
	}
	r, err := s.work(inv, p, false)
	if err != nil {
		return err
	}
	d := o.document(s, r)
	if err := o.printReport(s, d); err != nil {
		return err
	}
	s.notice("%s", d.Plan.Verdict.Says)
	if d.Plan.Verdict.ExitStatus != statusHolds {
		return errBroken
	}
	return nil
}

// document is the report of what was worked out.
func (o *reportOptions) document(s *streams, r document.Results) document.Report {
	defer s.progress.begin("the document")()
	return document.NewReport(document.ReportOf{Results: r, Legs: legsOfDay(r.Inventory, r.Set, r.Profile, r.Plan), Raceways: raceways(r), Date: o.date, Parts: o.readers()})
}

// printReport makes everything that was asked for before any of it is written.
func (o *reportOptions) printReport(s *streams, d document.Report) error {
	answer, tables, err := o.printed(s, d)
	if err != nil {
		return fault{says: err.Error()}
	}
	if o.tables != "" {
		if err := writeTables(o.tables, tables); err != nil {
			return err
		}
		s.notice("wrote %d tables to %q", len(tables)-1, o.tables)
	}
	if o.tablesOnly() {
		return nil
	}
	return o.write(s, answer)
}

// tablesOnly reports whether the folder of --csv is all that was asked for.
func (o *reportOptions) tablesOnly() bool { return o.tables != "" && o.file == "" }

// printed is the report in the form that was asked for, and its tables.
func (o *reportOptions) printed(s *streams, d document.Report) (a answer, tables []csv.File, err error) {
	defer s.progress.begin("printing")()
	// What cannot be printed as JSON holds a figure that is no number; it is
	// printed in no other format either.
	checked, err := json.Check(d)
	if err != nil {
		return nil, nil, err
	}
	if o.format == "json" && o.tables == "" {
		return checked.Render, nil, nil
	}
	measure := svg.Measure{Metric: o.units == "metric"}
	laid := handover.Of(d, measure)
	if o.tables != "" {
		if tables, err = csv.Report(laid); err != nil || o.tablesOnly() {
			return nil, tables, err
		}
	}
	if o.format == "json" {
		return checked.Render, tables, nil
	}
	var b bytes.Buffer
	err = o.form(&b, laid, measure)
	return text(b.Bytes()), tables, err
}

// form prints the forms that people read.
func (o *reportOptions) form(b *bytes.Buffer, l handover.Layout, m svg.Measure) error {
	switch o.format {
	case "markdown":
		return markdown.Report(b, l)
	case "xlsx":
		paper := xlsx.Letter
		if m.Metric {
			paper = xlsx.A4
		}
		return xlsx.Render(b, l, paper)
	}
	return html.Render(b, l)
}

// longestDate is how long a date may be.
const longestDate = 40

func (o *reportOptions) checkReport() error {
	ending := strings.ToLower(strings.TrimPrefix(filepath.Ext(o.file), "."))
	named := endings()[ending]
	switch {
	case o.format == "pdf", ending == "pdf":
		return hint(errors.New("no PDF is written: it is printed from the page"), "write the page, then: %s", printRoute)
	case ending == "csv":
		return hint(fmt.Errorf("--output %q: a report has many tables, which are files of a folder", o.file), "name a folder: --csv tables")
	case o.format == "" && named != "":
		o.format = named
	case o.format == "":
		o.format = reportFormats()[0]
	}
	switch {
	case named != "" && named != o.format:
		return hint(fmt.Errorf("--format %q and the ending of --output %q ask for two formats", o.format, o.file), "leave --format out, or give the file another ending")
	case !slices.Contains(reportFormats(), o.format):
		return hint(fmt.Errorf("--format %q is not known", o.format), "one of: %s", strings.Join(reportFormats(), ", "))
	case o.file == "" && o.tables == "" && (o.format == "html" || o.format == "xlsx"):
		return hint(errors.New("a report needs a file to be written to"), "name it: --output plan.%s", o.format)
	}
	return o.checkPage()
}

// checkPage reports a flag of the page that is not one of its words.
func (o *reportOptions) checkPage() error {
	for _, part := range o.parts {
		if !slices.Contains(document.Readers(), part) {
			return hint(fmt.Errorf("--part %q is none of the parts", part), "one of: %s", strings.Join(document.Readers(), ", "))
		}
	}
	if !slices.Contains(systems(), o.units) {
		return hint(fmt.Errorf("--units %q is not known", o.units), "one of: %s", strings.Join(systems(), ", "))
	}
	if len([]rune(o.date)) > longestDate || strings.IndexFunc(o.date, unprintable) >= 0 {
		return hint(fmt.Errorf("--date %q is no date to print", o.date), `write it as it is to be read, in up to %d characters: "2026-03-14"`, longestDate)
	}
	return nil
}

func unprintable(r rune) bool { return !unicode.IsPrint(r) }

// readers are those asked for, each once, in the order of the page.
func (o *reportOptions) readers() []string {
	var out []string
	for _, r := range document.Readers() {
		if slices.Contains(o.parts, r) {
			out = append(out, r)
		}
	}
	return out
}
