package document

import (
	"slices"
	"strings"
)

// ReportSchema names the contract of Report.
const ReportSchema = "branchwork/report/1"

// Report is the hand-over document: the plan with everything that its readers
// need beside it, as schedules, sheets and drawings print it.
type Report struct {
	Schema      string          `json:"schema" jsonschema:"enum=branchwork/report/1"`
	Date        string          `json:"date" jsonschema_description:"as the user gave it; empty where none was given"`
	Parts       []string        `json:"parts" jsonschema_description:"readers it is made for"`
	Plan        Plan            `json:"plan"`
	Heat        Heat            `json:"heat"`
	Working     Explanation     `json:"working"`
	About       []Place         `json:"about" jsonschema_description:"what each finding of the plan concerns, in their order"`
	Equipment   []EquipmentType `json:"equipment"`
	ConnectedVA *float64        `json:"connected_va" jsonschema:"nullable" jsonschema_description:"of all equipment that circuits feed; null where the current of some is not known"`
	OneLine     []Node          `json:"one_line" jsonschema_description:"panels, each after the one that feeds it"`
	Directories []Directory     `json:"directories"`
	HomeRuns    []HomeRun       `json:"home_runs" jsonschema_description:"branch circuits, then feeders"`
	Floors      []Floor         `json:"floors" jsonschema_description:"one for each fixture type of a room"`
	Materials   Materials       `json:"materials"`
	Services    []ServiceSheet  `json:"services" jsonschema_description:"load calculation and load letter of each service"`
	Day         Day             `json:"day"`
	Unknown     []Question      `json:"unknown" jsonschema_description:"what has to be found out"`
	Assumed     []Alike         `json:"assumed" jsonschema_description:"what was taken because it was not given"`
	Evidence    Evidence        `json:"evidence" jsonschema_description:"how the program's figures were verified"`
	Caution     string          `json:"caution"`
}

// Place is what a finding concerns.
type Place struct {
	Kind string `json:"kind" jsonschema:"enum=circuit,enum=panel,enum=room,enum=item,enum=site"`
	Name string `json:"name"`
}

// Readers returns the words for whom a report can be made, in the order in
// which they are shown.
func Readers() []string { return []string{"electrician", "hvac", "utility", "inspector", "grower"} }

// ReportOf is what a report is made of.
type ReportOf struct {
	Results  Results
	Legs     []PanelDay         // by panel of the plan
	Raceways map[string]Raceway // by path: "circuits.LP1-1", "panels.M1.feeder"
	Date     string
	Parts    []string // empty: for all readers
}

// NewReport returns the hand-over document.
func NewReport(o ReportOf) Report {
	r := o.Results
	if len(o.Parts) == 0 {
		o.Parts = Readers()
	}
	d := Report{
		Schema: ReportSchema, Date: o.Date, Parts: list(o.Parts), Plan: NewPlan(r), Heat: NewHeat(r, true), Working: NewExplanation(r),
		About: []Place{}, Equipment: equipmentTypes(r), OneLine: oneLine(r), Directories: directories(r), HomeRuns: homeRuns(o),
		Floors: floors(r), Services: services(o), Day: NewDay(DayOf{Results: r, Season: Seasons()[0], Legs: o.Legs}), Evidence: NewEvidence(r.Profile), Caution: Caution,
	}
	d.ConnectedVA = number(0.0)
	for _, e := range d.Equipment {
		if len(e.Circuits) > 0 {
			d.ConnectedVA = plus(d.ConnectedVA, e.VAAll)
		}
	}
	d.Materials = materials(o, d.HomeRuns)
	for _, f := range d.Plan.Findings {
		d.About = append(d.About, place(r, f.Subject))
	}
	d.Unknown = unknowns(d)
	d.Assumed = alike(d.Plan.Assumptions)
	return d
}

// For reports whether the document is made for one of some readers.
func (d Report) For(readers ...string) bool {
	return slices.ContainsFunc(readers, func(r string) bool { return slices.Contains(d.Parts, r) })
}

// place finds what a key path leads to: the longest name that it begins with.
func place(r Results, path string) Place {
	best, length := Place{Kind: "site", Name: r.Plan.Site}, 0
	offer := func(kind, prefix, name string) {
		full := prefix + "." + name
		if len(full) > length && (path == full || strings.HasPrefix(path, full+".") || strings.HasPrefix(path, full+"[")) {
			best, length = Place{kind, name}, len(full)
		}
	}
	for _, c := range r.Plan.Circuits {
		offer("circuit", "circuits", c.Name)
	}
	for _, p := range r.Plan.Panels {
		offer("panel", "panels", p.Name)
	}
	for _, x := range r.Inventory.Rooms {
		offer("room", "rooms", x.Name)
	}
	for _, i := range r.Inventory.Items {
		offer("item", i.Table, i.Name)
	}
	return best
}
