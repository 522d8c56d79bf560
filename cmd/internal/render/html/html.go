package html

import (
	"bytes"
	"embed"
	"html/template"
	"io"
	"strconv"
	"strings"

	"branchwork/cmd/internal/document"
	"branchwork/cmd/internal/render/svg"
)

//go:embed page.gohtml page.css print.css
var files embed.FS

// Sections of the page, by anchor.
const (
	atFindings    = "findings"
	atQuestions   = "questions"
	atRoomByRoom  = "rooms"
	atOneLine     = "one-line"
	atDirectories = "directories"
	atHomeRuns    = "home-runs"
	atFloors      = "floor-plans"
	atEquipment   = "equipment"
	atMaterials   = "materials"
	atLoads       = "load-calculation"
	atLetter      = "load-letter"
	atHVAC        = "hvac"
	atHours       = "hours"
	atWorking     = "working"
	atCautions    = "cautions"
	atSigned      = "signature"
)

// part is a section with the readers it is for; for all of them where there are
// none.
type part struct {
	id, title string
	readers   []string
	blocks    func(*page) []block
	there     func(document.Report) bool // nil: always
}

// parts lists the sections in the order in which they are read.
func parts() []part {
	return []part{
		{atFindings, "Findings", nil, (*page).findings, nil},
		{atQuestions, "Open questions and assumptions", nil, (*page).questions, nil},
		{atRoomByRoom, "Which breaker feeds what", []string{"grower"}, (*page).roomByRoom, nil},
		{atOneLine, "One-line diagram", []string{"electrician", "utility", "inspector"}, (*page).oneLine, nil},
		{atDirectories, "Circuit directories", []string{"electrician", "inspector", "grower"}, (*page).directories, nil},
		{atHomeRuns, "Home runs and feeders", []string{"electrician"}, (*page).homeRuns, nil},
		{atFloors, "Floor plans", []string{"electrician", "inspector", "grower"}, (*page).floors, func(d document.Report) bool { return len(d.Floors) > 0 }},
		{atEquipment, "Equipment schedule", []string{"electrician", "inspector", "grower"}, (*page).equipment, nil},
		{atMaterials, "Bill of materials", []string{"electrician"}, (*page).materials, nil},
		{atLoads, "Load calculation", []string{"electrician", "utility", "inspector"}, (*page).loads, nil},
		{atLetter, "Load letter to the utility", []string{"utility"}, (*page).letter, nil},
		{atHVAC, "Heating, cooling and drying", []string{"hvac", "grower"}, (*page).hvac, func(d document.Report) bool { return len(d.Heat.Rooms) > 0 }},
		{atHours, "Twenty-four hours", []string{"hvac", "utility", "grower"}, (*page).hours, nil},
		{atWorking, "Worked calculations", []string{"electrician", "hvac", "inspector"}, (*page).working, nil},
		{atCautions, "Cautions", nil, (*page).cautions, nil},
		{atSigned, "Revisions and signature", nil, (*page).signed, nil},
	}
}

// page is a report on its way to its template.
type page struct {
	d   document.Report
	m   svg.Measure
	at  index
	has map[string]bool
}

// Render prints the report.
func Render(w io.Writer, d document.Report, m svg.Measure) error { return render(w, d, m, nil) }

// render prints the report, with the strip of a page that follows its file where
// there is one.
func render(w io.Writer, d document.Report, m svg.Measure, live *strip) error {
	p := &page{d: d, m: m, at: indexOf(d), has: map[string]bool{}}
	var chosen []part
	for _, x := range parts() {
		if (len(x.readers) == 0 || d.For(x.readers...)) && (x.there == nil || x.there(d)) {
			chosen = append(chosen, x)
			p.has[x.id] = true
		}
	}
	p.anchorWorking()
	v := view{Title: svg.Plain(d.Plan.Site) + " – plan of loads, circuits and heat", Strap: p.strap(), Cover: p.cover()}
	for i, x := range chosen {
		v.Sections = append(v.Sections, section{ID: x.id, Number: strconv.Itoa(i + 1), Title: x.title, For: strings.Join(x.readers, ", "), Blocks: x.blocks(p)})
	}
	var err error
	if v.Style, err = style(); err != nil {
		return err
	}
	t, err := template.New("page.gohtml").Funcs(liveFunctions()).ParseFS(files, "page.gohtml")
	if err == nil {
		t, err = t.ParseFS(liveFiles, "live.gohtml")
	}
	if err != nil {
		return err
	}
	if v.Live = live; live != nil {
		v.Style += live.Style
	}
	var b bytes.Buffer
	if err := t.Execute(&b, v); err != nil {
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
