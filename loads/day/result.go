package day

import (
	"branchwork/loads"
	"branchwork/loads/clock"
	"branchwork/loads/heat"
	"branchwork/loads/steps"
	"branchwork/loads/units"
)

// Day is 24 hours of a site.
type Day struct {
	Site       Group
	Rooms      []Group // in natural order; loads of no room last, under an empty name
	Categories []Group // in the order of loads' categories, those that there are
	Panels     []Panel // in natural order; loads of no panel last, under an empty name

	Heat heat.Result // the balance that running shares come from; its Block is the cooling peak
	Cost units.Known[Cost]

	Missing     []Missing // loads whose watts are not known: every total is a least value
	Assumptions []loads.Assumption
	Notes       []string
	Steps       []steps.Step // of the cost; a group has its own
}

// AtLeast reports whether the site's totals are least values.
func (d Day) AtLeast() bool { return d.Site.AtLeast }

// Room returns the group of a room.
func (d Day) Room(name string) (Group, bool) { return named(d.Rooms, name) }

// Category returns the group of a category.
func (d Day) Category(c loads.Category) (Group, bool) { return named(d.Categories, string(c)) }

// Panel returns the groups of a panel.
func (d Day) Panel(name string) (Panel, bool) {
	for _, p := range d.Panels {
		if p.All.Name == name {
			return p, true
		}
	}
	return Panel{}, false
}

func named(list []Group, name string) (Group, bool) {
	for _, g := range list {
		if g.Name == name {
			return g, true
		}
	}
	return Group{}, false
}

// Group is some loads through the day: the site, a room, a category or a panel.
type Group struct {
	Name       string
	Hours      [24]Hour
	Energy     units.Energy // of a day
	Month      units.Energy // of 365/12 days
	LoadFactor units.Known[units.Ratio]

	Peak   Peak // largest 15-minute mean as it runs, mean day
	Demand Peak // largest 15-minute mean with the cycling loads coincident, worst day

	PeakVA   PeakVA // likewise, of apparent power
	DemandVA PeakVA

	AtLeast bool // a load of the group has unknown watts
	of      []*curve
}

// Hour is the mean of one hour of the mean day.
type Hour struct {
	At         int // the hour it begins
	Power      units.Power
	Apparent   units.Apparent
	Coincident units.Power // largest quarter-hour with the cycling loads coincident, worst day
	Heat       units.Heat  // to remove on the mean day; of the site and of rooms only
}

// Peak is the largest mean of a quarter-hour; of equals, the earliest.
type Peak struct {
	Power units.Power
	At    clock.Minute // the quarter-hour begins
	Day   heat.DayName
}

// PeakVA is the largest mean apparent power of a quarter-hour.
type PeakVA struct {
	Apparent units.Apparent
	At       clock.Minute
	Day      heat.DayName
}

// Panel is what hangs on a panel. A load that several panels can feed is counted on the
// first of them.
type Panel struct {
	Own   Group  // on the panel itself
	All   Group  // with all panels that it feeds, directly or not
	FedBy string // the panel that feeds it, empty at the service
}

// Missing is a load that is left out because its watts are not known.
type Missing struct {
	Path  string
	Room  string
	Count int
	Why   string
}
