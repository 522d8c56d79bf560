package document

import (
	"slices"

	"branchwork/circuits"
	"branchwork/loads/inventory"
)

// HeatPower is what a panel has left for equipment.
type HeatPower struct {
	Panel        string       `json:"panel"`
	System       string       `json:"system"`
	FeedsRoom    bool         `json:"feeds_room" jsonschema_description:"false for a panel that feeds the room's panel"`
	Supplies     []HeatSupply `json:"supplies"`
	MainAmps     *float64     `json:"main_amps" jsonschema:"nullable"`
	RequiredAmps float64      `json:"required_amps" jsonschema_description:"worst leg with the continuous allowance, all planned equipment counted"`
	LeastLoad    bool         `json:"load_at_least" jsonschema_description:"true where the current of a load is not known: required_amps is a least value"`
	SpareAmps    *float64     `json:"spare_amps" jsonschema:"nullable" jsonschema_description:"main less required; null where either is not known; below zero where the main is overloaded"`
	Spaces       *int         `json:"spaces" jsonschema:"nullable"`
	SpacesUsed   int          `json:"spaces_used"`
	SpareSpaces  *int         `json:"spare_spaces" jsonschema:"nullable"`
}

// HeatSupply is a way in which a panel can serve a load.
type HeatSupply struct {
	Volts  float64 `json:"volts"`
	Phases int     `json:"phases"`
	Poles  int     `json:"poles"`
}

// power lists the panels that can feed a room, then those that feed these.
func heatPower(r Results, in inventory.Room) []HeatPower {
	own := in.Panels
	if len(own) == 0 && len(r.Plan.Panels) == 1 {
		own = []string{r.Plan.Panels[0].Name}
	}
	names := slices.Clone(own)
	for i := 0; i < len(names); i++ {
		if p := panelOf(r.Plan, names[i]); p != nil && p.Feeder != nil && !slices.Contains(names, p.Feeder.From) {
			names = append(names, p.Feeder.From)
		}
	}
	out := []HeatPower{}
	for i, n := range names {
		if p := panelOf(r.Plan, n); p != nil {
			out = append(out, heatSpare(*p, i < len(own), leastLoad(r.Plan, n)))
		}
	}
	return out
}

func heatSpare(p circuits.Panel, own, least bool) HeatPower {
	d := HeatPower{Panel: p.Name, System: p.System.Name, FeedsRoom: own, Supplies: []HeatSupply{}, MainAmps: known(p.Main),
		RequiredAmps: float64(p.Required), LeastLoad: least, Spaces: given(p.Spaces), SpacesUsed: p.SpacesUsed}
	for _, s := range p.System.Supplies() {
		d.Supplies = append(d.Supplies, HeatSupply{float64(s.Volts), s.Phases, s.Poles})
	}
	if main, ok := p.Main.Get(); ok && !least {
		d.SpareAmps = number(main - p.Required)
	}
	taken, all := p.Taken()
	if n, ok := p.Spaces.Get(); ok && all {
		spare := n - taken
		d.SpareSpaces = &spare
	}
	return d
}
