package document

import (
	"branchwork/loads/heat"
	"branchwork/loads/units"
)

// RoomHeat is the heat of a room.
type RoomHeat struct {
	Room             string       `json:"room"`
	LightsOn         *DesignCase  `json:"lights_on" jsonschema:"nullable" jsonschema_description:"the worst hour fully lit; null where there is none"`
	LightsOff        *DesignCase  `json:"lights_off" jsonschema:"nullable" jsonschema_description:"the worst hour fully dark; null where there is none"`
	PeakDay          string       `json:"peak_day"`
	PeakHour         int          `json:"peak_hour"`
	PeakTotalBTUH    float64      `json:"peak_total_btuh"`
	Tons             float64      `json:"tons" jsonschema_description:"of the peak"`
	PeakUndimmedBTUH *float64     `json:"peak_undimmed_btuh,omitempty" jsonschema_description:"largest total with all lights at full level, where some are dimmed"`
	AtLeast          bool         `json:"at_least" jsonschema_description:"true where a part is not known and the totals are least values"`
	PartNotKnown     bool         `json:"part_not_known" jsonschema_description:"see missing"`
	SunNotCounted    bool         `json:"sun_not_counted" jsonschema_description:"the room has walls or a roof out of doors; the sun on them is in no figure"`
	WattsInRoom      float64      `json:"watts_in_room" jsonschema_description:"electric power used up in the room at the peak"`
	BySource         []HeatSource `json:"by_source" jsonschema_description:"at the peak; the parts add up to it"`
	Cases            []DesignCase `json:"cases"`
	WaterPintsPerDay *float64     `json:"water_pints_per_day" jsonschema:"nullable"`
	AirflowCFM       *float64     `json:"airflow_cfm" jsonschema:"nullable" jsonschema_description:"to hold the set point by ventilation alone"`
	LeftOut          []LeftOut    `json:"left_out" jsonschema_description:"loads whose heat, or part of it, goes elsewhere"`
	Missing          []string     `json:"missing" jsonschema_description:"parts that cannot be told"`
	Notes            []string     `json:"notes"`
}

// HeatCase is the heat of a room in one state.
type HeatCase struct {
	SensibleBTUH float64 `json:"sensible_btuh"`
	LatentBTUH   float64 `json:"latent_btuh"`
	TotalBTUH    float64 `json:"total_btuh"`
}

// DesignCase is an hour picked for what is largest in it.
type DesignCase struct {
	Name   string `json:"name"`
	Day    string `json:"day"`
	Hour   int    `json:"hour"`
	Canopy string `json:"canopy"`
	HeatCase
	Tons          float64  `json:"tons" jsonschema_description:"of refrigeration"`
	KW            float64  `json:"kw" jsonschema_description:"of heat"`
	Ratio         *float64 `json:"sensible_heat_ratio" jsonschema:"nullable" jsonschema_description:"null where it is not known or either part is not to be removed"`
	LatentKnown   bool     `json:"latent_known" jsonschema_description:"false where the room's watering is not given: latent holds the other parts only, and all other heat counts as sensible"`
	Dehumidifiers string   `json:"dehumidifiers" jsonschema:"enum=running,enum=off,enum=none" jsonschema_description:"where running, their heat is in sensible and the water that they take is out of latent"`
	Exhaust       string   `json:"exhaust,omitempty" jsonschema:"enum=running,enum=off" jsonschema_description:"in the cases of heating of a room that has one"`
}

// HeatSource is the part of one source.
type HeatSource struct {
	Source       string  `json:"source"`
	SensibleBTUH float64 `json:"sensible_btuh"`
	LatentBTUH   float64 `json:"latent_btuh"`
}

// LeftOut is a load whose heat goes elsewhere.
type LeftOut struct {
	Item  string  `json:"item"`
	Watts float64 `json:"watts"`
	Why   string  `json:"why"`
}

func rooms(r heat.Result) []RoomHeat {
	out := []RoomHeat{}
	for _, x := range r.Rooms {
		out = append(out, room(x))
	}
	return out
}

func room(x heat.Room) RoomHeat {
	d := RoomHeat{
		Room: x.Name, LightsOn: heatCase(x.LightsOn, x.Water.Known()), LightsOff: heatCase(x.LightsOff, x.Water.Known()),
		PeakUndimmedBTUH: btuh(x.Undimmed), PartNotKnown: x.Lacks, SunNotCounted: x.Sunless,
		PeakDay: string(x.Peak.Day), PeakHour: x.Peak.At, PeakTotalBTUH: x.Peak.Total().BTUPerHour(), Tons: x.Tons,
		AtLeast: x.AtLeast, WattsInRoom: float64(x.Watts), BySource: []HeatSource{}, Cases: []DesignCase{},
		AirflowCFM: known(x.Airflow), LeftOut: []LeftOut{}, Missing: list(x.Missing), Notes: list(x.Notes),
	}
	for _, p := range x.Peak.Parts {
		d.BySource = append(d.BySource, HeatSource{string(p.Source), p.Sensible.BTUPerHour(), p.Latent.BTUPerHour()})
	}
	cases := []heat.Case{x.Peak, x.Sensible, x.Latent, x.Coldest}
	if c, ok := x.ColdestVented.Get(); ok {
		cases = append(cases, c)
	}
	for _, c := range cases {
		d.Cases = append(d.Cases, designCase(c, x.Water.Known()))
	}
	if w, ok := x.Water.Get(); ok {
		d.WaterPintsPerDay = number(w.PerDay.PintsPerDay())
	}
	for _, l := range x.LeftOut {
		d.LeftOut = append(d.LeftOut, LeftOut{l.Name, float64(l.Watts), l.Why})
	}
	return d
}

func heatCase(k units.Known[heat.Case], wet bool) *DesignCase {
	c, ok := k.Get()
	if !ok {
		return nil
	}
	d := designCase(c, wet)
	return &d
}

// designCase is a case; wet says that the room's water is known.
func designCase(c heat.Case, wet bool) DesignCase {
	d := DesignCase{Name: c.Name, Day: string(c.Day), Hour: c.At, Canopy: string(c.Canopy), HeatCase: gain(c.Gain),
		Tons: c.Total().Tons(), KW: float64(c.Total()) / 1000, LatentKnown: wet, Dehumidifiers: string(c.Dehumidifiers), Exhaust: string(c.Exhaust)}
	if wet {
		d.Ratio = known(c.Ratio())
	}
	return d
}

func gain(g heat.Gain) HeatCase {
	return HeatCase{g.Sensible.BTUPerHour(), g.Latent.BTUPerHour(), g.Total().BTUPerHour()}
}
