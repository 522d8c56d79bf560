package document

import (
	"fmt"
	"slices"

	"branchwork/circuits"
	"branchwork/loads/clock"
	"branchwork/loads/units"
)

// PanelDay is what a panel's legs carry hour by hour, at the fullest minute of each.
type PanelDay [24]PanelMinute

// PanelMinute is what they carry at one minute.
type PanelMinute struct {
	At      clock.Minute
	Legs    []units.Current
	Neutral units.Current
}

// DayPanel is a panel through the day: everything that its hours have on, at the current
// that sizes its circuit, with the panel's other load.
type DayPanel struct {
	Name      string       `json:"name"`
	System    string       `json:"system"`
	FedBy     string       `json:"fed_by,omitempty" jsonschema_description:"absent at the service"`
	Legs      []string     `json:"legs"`
	MainAmps  *float64     `json:"main_amps" jsonschema:"nullable"`
	Required  float64      `json:"required_amps" jsonschema_description:"worst leg with the continuous allowance; a timer takes nothing off it, an interlock does"`
	MostAmps  float64      `json:"fullest_leg_amps" jsonschema_description:"of all hours"`
	MostAt    string       `json:"fullest_at"`
	LeastLoad bool         `json:"load_at_least" jsonschema_description:"true where the current of a load is not known: amperes here are least values"`
	Worst     float64      `json:"worst_leg_amps" jsonschema_description:"fullest leg in the worst state of the day, which a changeover may be; circuits are judged by it"`
	State     string       `json:"worst_state"`
	Hours     []DayLegHour `json:"hours"`
}

// DayLegHour is what the legs carry at the fullest minute of an hour.
type DayLegHour struct {
	Hour    int                `json:"hour"`
	At      string             `json:"at"`
	Amps    map[string]float64 `json:"leg_amps"`
	Neutral *float64           `json:"neutral_amps" jsonschema:"nullable" jsonschema_description:"null where the current of a load is not known"`
}

func dayPanels(o DayOf) []DayPanel {
	out := []DayPanel{}
	for i, p := range o.Results.Plan.Panels {
		if i < len(o.Legs) {
			out = append(out, dayPanel(p, o.Legs[i], leastLoad(o.Results.Plan, p.Name)))
		}
	}
	return out
}

func dayPanel(p circuits.Panel, hours PanelDay, least bool) DayPanel {
	d := DayPanel{Name: p.Name, System: p.System.Name, Legs: list(p.LegNames), MainAmps: known(p.Main), Required: float64(p.Required), State: p.State, LeastLoad: least, Hours: []DayLegHour{}}
	if p.Feeder != nil {
		d.FedBy = p.Feeder.From
	}
	for h, x := range hours {
		k := DayLegHour{Hour: h, At: x.At.String(), Amps: map[string]float64{}}
		if !least { // more load may as well take current off the neutral
			k.Neutral = number(x.Neutral)
		}
		for i, amps := range x.Legs {
			k.Amps[p.LegNames[i]] = float64(amps)
		}
		d.Hours = append(d.Hours, k)
	}
	most := hours.Fullest()
	d.MostAmps, d.MostAt = float64(most.Most()), most.At.String()
	if len(p.Legs) > 0 {
		d.Worst = float64(slices.Max(p.Legs))
	}
	return d
}

// Brief tells of what no hour shows: at a changeover more is on for a short time.
// It is empty where no hour is exceeded.
func (d DayPanel) Brief() string {
	if !units.Exceeds(d.Worst, d.MostAmps) {
		return ""
	}
	return fmt.Sprintf("At a changeover what goes off and what comes on can be on together for a short time: %s A on the fullest leg of panel %s, %s. No hour shows that; circuits and panels are judged by it.",
		units.Round(d.Worst, 2), d.Name, d.State)
}

// Most returns the current of the fullest leg.
func (m PanelMinute) Most() units.Current {
	if len(m.Legs) == 0 {
		return 0
	}
	return slices.Max(m.Legs)
}

// Fullest returns the minute whose fullest leg is fullest; of equals, the first.
func (d PanelDay) Fullest() PanelMinute {
	most := d[0]
	for _, m := range d[1:] {
		if units.Exceeds(m.Most(), most.Most()) {
			most = m
		}
	}
	return most
}
