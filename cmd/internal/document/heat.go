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
	AtLeast          bool         `json:"at_least" jsonschema_description:"true where a part is not known and the totals are least values"`
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
	Tons  float64  `json:"tons" jsonschema_description:"of refrigeration"`
	KW    float64  `json:"kw" jsonschema_description:"of heat"`
	Ratio *float64 `json:"sensible_heat_ratio" jsonschema:"nullable" jsonschema_description:"null where there is no heat to remove"`
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
		Room: x.Name, LightsOn: heatCase(x.LightsOn), LightsOff: heatCase(x.LightsOff),
		PeakDay: string(x.Peak.Day), PeakHour: x.Peak.At, PeakTotalBTUH: x.Peak.Total().BTUPerHour(), Tons: x.Tons,
		AtLeast: x.AtLeast, WattsInRoom: float64(x.Watts), BySource: []HeatSource{}, Cases: []DesignCase{},
		AirflowCFM: known(x.Airflow), LeftOut: []LeftOut{}, Missing: list(x.Missing), Notes: list(x.Notes),
	}
	for _, p := range x.Peak.Parts {
		d.BySource = append(d.BySource, HeatSource{string(p.Source), p.Sensible.BTUPerHour(), p.Latent.BTUPerHour()})
	}
	for _, c := range []heat.Case{x.Peak, x.Sensible, x.Latent, x.Coldest} {
		d.Cases = append(d.Cases, designCase(c))
	}
	if w, ok := x.Water.Get(); ok {
		d.WaterPintsPerDay = number(w.PerDay.PintsPerDay())
	}
	for _, l := range x.LeftOut {
		d.LeftOut = append(d.LeftOut, LeftOut{l.Name, float64(l.Watts), l.Why})
	}
	return d
}

func heatCase(k units.Known[heat.Case]) *DesignCase {
	c, ok := k.Get()
	if !ok {
		return nil
	}
	d := designCase(c)
	return &d
}

func designCase(c heat.Case) DesignCase {
	return DesignCase{Name: c.Name, Day: string(c.Day), Hour: c.At, Canopy: string(c.Canopy), HeatCase: gain(c.Gain),
		Tons: c.Total().Tons(), KW: float64(c.Total()) / 1000, Ratio: known(c.Ratio())}
}

func gain(g heat.Gain) HeatCase {
	return HeatCase{g.Sensible.BTUPerHour(), g.Latent.BTUPerHour(), g.Total().BTUPerHour()}
}
