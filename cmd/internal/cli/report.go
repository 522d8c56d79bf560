package cli

import (
	"bytes"
	"errors"
	"fmt"
	"slices"
	"strings"
	"unicode"

	"github.com/spf13/cobra"

	"branchwork/circuits"
	"branchwork/circuits/conductor"
	"branchwork/cmd/internal/document"
	"branchwork/cmd/internal/render/html"
	"branchwork/cmd/internal/render/json"
	"branchwork/cmd/internal/render/svg"
	"branchwork/codes"
	"branchwork/loads/units"
)

type reportOptions struct {
	output
	code  string
	date  string
	parts []string
}

func newReport(s *streams) *cobra.Command {
	o := &reportOptions{}
	cmd := &cobra.Command{
		Use:   "report FILE -o PAGE.html",
		Short: "the hand-over document for those who build, inspect, cool, connect and use",
		Long: "report writes one page that stands alone: it needs no network and no script, and prints on Letter and A4.\n\n" +
			"--part makes it for some of its readers only: " + strings.Join(document.Readers(), ", ") + ".\n" +
			"The page carries the date of --date; no clock is asked.\n\n" +
			"FILE is an inventory, or - for standard input.",
		Args:              cobra.ExactArgs(1),
		ValidArgsFunction: completeFile,
		RunE:              func(_ *cobra.Command, args []string) error { return o.run(s, args[0]) },
	}
	f := cmd.Flags()
	f.StringVarP(&o.file, "output", "o", "", "write the page to this file, whole or not at all")
	f.StringVar(&o.format, "format", "html", "html or json")
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

// reportFormats are the forms of a report, the default first.
func reportFormats() []string { return []string{"html", "json"} }

func (o *reportOptions) run(s *streams, file string) error {
	if err := o.checkReport(); err != nil {
		return err
	}
	o.input = file
	src, shown, err := readInput(s, file)
	if err != nil {
		return err
	}
	inv, p, err := parseSite(s, shown, src, o.code, s.width)
	if err != nil {
		return err
	}
	r, err := work(inv, p, false)
	if err != nil {
		return err
	}
	d := o.document(r)
	answer, err := o.printed(d)
	if err != nil {
		return fault{says: err.Error()}
	}
	if err := o.write(s, answer); err != nil {
		return err
	}
	s.notice("%s", d.Plan.Verdict.Says)
	if d.Plan.Verdict.ExitStatus != statusHolds {
		return errBroken
	}
	return nil
}

// document is the report of what was worked out.
func (o *reportOptions) document(r document.Results) document.Report {
	return document.NewReport(document.ReportOf{Results: r, Legs: legsOfDay(r.Inventory, r.Set, r.Profile, r.Plan), Raceways: raceways(r), Date: o.date, Parts: o.readers()})
}

func (o *reportOptions) printed(d document.Report) ([]byte, error) {
	var b bytes.Buffer
	// What cannot be printed as JSON holds a figure that is no number; it is not
	// printed as a page either.
	if err := json.Render(&b, d); err != nil || o.format == "json" {
		return b.Bytes(), err
	}
	b.Reset()
	err := html.Render(&b, d, svg.Measure{Metric: o.units == "metric"})
	return b.Bytes(), err
}

// longestDate is how long a date may be.
const longestDate = 40

func (o *reportOptions) checkReport() error {
	if o.file == "" {
		return hint(errors.New("a report needs a file to be written to"), "name it: --output plan.html")
	}
	if !slices.Contains(reportFormats(), o.format) {
		return hint(fmt.Errorf("--format %q is not known", o.format), "one of: %s", strings.Join(reportFormats(), ", "))
	}
	return o.checkPage()
}

// checkPage reports a flag of the page that is not one of its words.
func (o *reportOptions) checkPage() error {
	for _, part := range o.parts {
		if !slices.Contains(document.Readers(), part) {
			return hint(fmt.Errorf("--part %q is no reader", part), "one of: %s", strings.Join(document.Readers(), ", "))
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

// raceways works out the raceway of every new run whose conductors are known.
func raceways(r document.Results) map[string]document.Raceway {
	out := map[string]document.Raceway{}
	wiring := r.Inventory.Site.Conductors
	kind, per := wiring.Raceway.Or(r.Profile.Wires.Raceway), max(1, wiring.PerRaceway.Or(1))
	for _, c := range r.Plan.Circuits {
		if !c.Existing && c.Conductor.Size != "" {
			out["circuits."+c.Name] = raceway(r.Profile, kind, c.Conductor, c.Ground, c.Supply.Poles, c.Supply.Neutral, per)
		}
	}
	for _, p := range r.Plan.Panels {
		if f := p.Feeder; f != nil && !f.Existing && f.Conductor.Size != "" {
			out["panels."+p.Name+".feeder"] = raceway(r.Profile, kind, f.Conductor, f.Ground, f.Poles, document.FeederNeutral(*f), 1)
		}
	}
	return out
}

// raceway fits the conductors of so many circuits alike, one set of parallel ones,
// each circuit with a grounding conductor of its own.
func raceway(p *codes.Profile, kind string, wire, ground circuits.Wire, live int, neutral bool, per int) document.Raceway {
	list := conductor.HomeRun(conductor.Choice{Size: wire.Size, Insulation: wire.Insulation, Ground: ground.Size}, live, neutral)
	for i := range list {
		list[i].Count *= per
	}
	fill, err := conductor.Raceway(kind, list, p, nil)
	if err != nil {
		return document.Raceway{Kind: kind, Why: err.Error()}
	}
	return document.Raceway{Kind: kind, Trade: fill.Trade, Conductors: fill.Conductors, FillPercent: 100 * units.Per(fill.Share, 1), AllowedPercent: 100 * units.Per(fill.Allowed, 1)}
}
