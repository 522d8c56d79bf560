package document

import "branchwork/loads/heat"

// HeatDay is 24 hours of a room on one of the days that are worked.
type HeatDay struct {
	Day   string     `json:"day"`
	Whole bool       `json:"whole" jsonschema_description:"false where the air around is not known and a part that needs it is left out"`
	Hours []HeatHour `json:"hours"`
}

// HeatHour is the mean of one hour, with full canopy.
type HeatHour struct {
	Hour       int      `json:"hour"`
	LitPercent float64  `json:"lit_percent"`
	OutsideC   *float64 `json:"outside_c" jsonschema:"nullable" jsonschema_description:"the air outside the room's walls"`
	SetPointC  float64  `json:"set_point_c"`
	HeatCase
	Watts       float64      `json:"watts" jsonschema_description:"electric power used up in the room"`
	VapourBTUH  float64      `json:"vapour_btuh" jsonschema_description:"latent heat of all water given off, before dehumidifiers"`
	RemovedRate float64      `json:"removed_pints_per_day" jsonschema_description:"rate, by dehumidifiers that stand in the room"`
	Vented      HeatCase     `json:"vented" jsonschema_description:"what the room's own exhaust carries off, kept out of the sums"`
	BySource    []HeatSource `json:"by_source"`
}

func heatDays(x heat.Room) []HeatDay {
	out := []HeatDay{}
	for _, day := range x.Days() {
		d := HeatDay{Day: string(day.Name), Whole: day.Whole, Hours: []HeatHour{}}
		for _, h := range day.Hours {
			d.Hours = append(d.Hours, HeatHour{Hour: h.At, LitPercent: float64(h.Lit) * 100, OutsideC: known(h.Around), SetPointC: float64(h.SetPoint),
				HeatCase: gain(h.Gain), Watts: float64(h.Electric), VapourBTUH: h.Vapour.BTUPerHour(), RemovedRate: h.Removed.PintsPerDay(),
				Vented: gain(h.Vented), BySource: heatSources(h.Parts)})
		}
		out = append(out, d)
	}
	return out
}

func heatSources(parts []heat.Part) []HeatSource {
	out := []HeatSource{}
	for _, p := range parts {
		out = append(out, HeatSource{string(p.Source), p.Sensible.BTUPerHour(), p.Latent.BTUPerHour()})
	}
	return out
}
