package document

import (
	"slices"
	"sort"

	"branchwork/loads"
	"branchwork/loads/heat"
	"branchwork/loads/inventory"
	"branchwork/loads/units"
)

// HeatSchema names the contract of Heat.
const HeatSchema = "branchwork/heat/1"

// Heat is the answer of heat: the sheet for the installer of the cooling.
type Heat struct {
	Schema      string       `json:"schema" jsonschema:"enum=branchwork/heat/1"`
	Site        string       `json:"site"`
	Outdoor     Outdoor      `json:"outdoor"`
	Rooms       []HeatRoom   `json:"rooms"`
	Block       Block        `json:"block"`
	Establish   []string     `json:"establish" jsonschema_description:"what the installer still has to establish for every room"`
	Notes       []string     `json:"notes" jsonschema_description:"what stands in no room"`
	Assumptions []Assumption `json:"assumptions"`
	Caution     string       `json:"caution"`
}

// Outdoor is the design state of the outdoor air.
type Outdoor struct {
	SummerC        *float64 `json:"summer_c" jsonschema:"nullable"`
	SummerWetBulbC *float64 `json:"summer_wet_bulb_c" jsonschema:"nullable"`
	WinterC        *float64 `json:"winter_c" jsonschema:"nullable"`
	SummerRatio    *float64 `json:"summer_humidity_ratio" jsonschema:"nullable" jsonschema_description:"mass of water per mass of dry air"`
	AltitudeFeet   *float64 `json:"altitude_ft" jsonschema:"nullable"`
}

// Block is the whole building at its worst hour.
type Block struct {
	Day            string  `json:"day"`
	Hour           int     `json:"hour"`
	TotalBTUH      float64 `json:"total_btuh"`
	Tons           float64 `json:"tons"`
	SumOfPeaksBTUH float64 `json:"sum_of_peaks_btuh" jsonschema_description:"more than the total where rooms peak at different times"`
	AtLeast        bool    `json:"at_least" jsonschema_description:"true where a part is not known and the figure is a least value"`
	PartNotKnown   bool    `json:"part_not_known" jsonschema_description:"as of a room of it"`
	SunNotCounted  bool    `json:"sun_not_counted" jsonschema_description:"as of a room of it"`
}

// HeatRoom is the heat of a room with all that an installer has to know about it.
type HeatRoom struct {
	RoomHeat
	Size        HeatSize        `json:"size"`
	Lights      *string         `json:"lights" jsonschema:"nullable" jsonschema_description:"when the room is lit"`
	LitHours    *float64        `json:"lit_hours" jsonschema:"nullable"`
	RampMinutes float64         `json:"ramp_minutes" jsonschema_description:"sunrise and sunset, each"`
	HeldOn      HeldState       `json:"held_lights_on"`
	HeldOff     HeldState       `json:"held_lights_off"`
	Inside      bool            `json:"inside" jsonschema_description:"stands in a conditioned building"`
	Surfaces    []HeatSurface   `json:"surfaces"`
	AirChanges  *float64        `json:"air_changes_per_hour" jsonschema:"nullable"`
	People      *float64        `json:"people" jsonschema:"nullable"`
	Loads       []HeatLoad      `json:"loads"`
	Water       *HeatWater      `json:"water" jsonschema:"nullable" jsonschema_description:"null where watering is not given"`
	Ventilation HeatVentilation `json:"ventilation"`
	HeatAndDry  bool            `json:"heat_and_dry" jsonschema_description:"heating and dehumidifying are needed in the same hour"`
	HeatDryWhy  string          `json:"heat_and_dry_why"`
	Reheat      *Reheat         `json:"reheat,omitempty" jsonschema_description:"the worst hour of heat_and_dry"`
	Equipment   HeatEquipment   `json:"equipment"`
	Light       []LightCheck    `json:"light" jsonschema_description:"figures beside their usual range; outside it is a note, not an error"`
	Power       []HeatPower     `json:"power" jsonschema_description:"for more equipment: the room's panels, then those that feed them"`
	Establish   []string        `json:"establish" jsonschema_description:"what the installer still has to establish"`
	Days        []HeatDay       `json:"days,omitempty" jsonschema_description:"hour by hour, where --hours asks for it"`
}

// Reheat is an hour that asks for heating and dehumidifying at once.
type Reheat struct {
	Day     string   `json:"day"`
	Hour    int      `json:"hour"`
	Lights  string   `json:"lights" jsonschema:"enum=on,enum=off"`
	Heating float64  `json:"heating_btuh" jsonschema_description:"without the heat that dehumidifiers give back"`
	After   *float64 `json:"after_dehumidifiers_btuh" jsonschema:"nullable" jsonschema_description:"with it; null where none stands in the room"`
	Pints   float64  `json:"water_pints_per_day" jsonschema_description:"rate"`
}

// HeatSize is a room's dimensions.
type HeatSize struct {
	LengthFeet *float64 `json:"length_ft" jsonschema:"nullable"`
	WidthFeet  *float64 `json:"width_ft" jsonschema:"nullable"`
	HeightFeet *float64 `json:"height_ft" jsonschema:"nullable"`
	FloorFeet2 *float64 `json:"floor_ft2" jsonschema:"nullable"`
	Canopy     *float64 `json:"canopy_ft2" jsonschema:"nullable"`
}

// HeldState is what a room is held at.
type HeldState struct {
	TemperatureC    float64  `json:"temperature_c"`
	HumidityPercent float64  `json:"humidity_percent"`
	WetBulbC        *float64 `json:"wet_bulb_c" jsonschema:"nullable"`
	HumidityRatio   *float64 `json:"humidity_ratio" jsonschema:"nullable" jsonschema_description:"mass of water per mass of dry air"`
	DewPointC       *float64 `json:"dew_point_c" jsonschema:"nullable" jsonschema_description:"a coil warmer than this takes no water"`
	VPDKPa          float64  `json:"vpd_kpa" jsonschema_description:"vapour pressure deficit of the air"`
	Given           bool     `json:"given" jsonschema_description:"false where temperature or humidity is an assumption"`
}

// HeatSurface is a wall, roof or floor of the file.
type HeatSurface struct {
	Name  string   `json:"name"`
	Area  *float64 `json:"area_ft2" jsonschema:"nullable"`
	U     *float64 `json:"u_btuh_ft2_f" jsonschema:"nullable"`
	RText *float64 `json:"r_ft2_f_h_btu" jsonschema:"nullable"`
}

// HeatLoad is an item of the room that may become heat in it.
type HeatLoad struct {
	Item      string   `json:"item"`
	Kind      string   `json:"kind"`
	Count     int      `json:"count"`
	WattsEach *float64 `json:"watts_each" jsonschema:"nullable" jsonschema_description:"mean while on, level and duty applied"`
	Watts     *float64 `json:"watts" jsonschema:"nullable"`
	Level     *float64 `json:"level_percent,omitempty" jsonschema_description:"of a light that is dimmed; its circuit is sized for all of it"`
	BurnsBTUH *float64 `json:"burns_btuh,omitempty" jsonschema_description:"of each, of what burns fuel"`
	Hours     *string  `json:"hours" jsonschema:"nullable"`
	Outdoors  bool     `json:"outdoors"`
}

// HeatWater is what has to be taken out of a room's air.
type HeatWater struct {
	WateringGallons float64  `json:"watering_gal_per_day"`
	RunoffPercent   *float64 `json:"runoff_percent" jsonschema:"nullable"`
	FromPlants      float64  `json:"from_plants_pints_per_day"`
	PerDay          float64  `json:"to_remove_pints_per_day"`
	LightsOn        float64  `json:"lights_on_pints_per_day" jsonschema_description:"rate of the worst lit hour"`
	LightsOff       float64  `json:"lights_off_pints_per_day" jsonschema_description:"rate of the worst dark hour"`
	AmountOn        float64  `json:"lights_on_pints" jsonschema_description:"in all lit hours of a day"`
	AmountOff       float64  `json:"lights_off_pints" jsonschema_description:"in all dark hours of a day"`
	RemovedInRoom   float64  `json:"removed_in_room_pints_per_day" jsonschema_description:"by dehumidifiers that stand in the room"`
	Governs         string   `json:"governs" jsonschema_description:"the period whose rate sizes the dehumidifiers"`
}

// HeatVentilation is whether a room is closed, and the air it would take if it were not.
type HeatVentilation struct {
	Planned     string   `json:"planned" jsonschema:"enum=closed,enum=vented,enum=not decided"`
	ExhaustCFM  *float64 `json:"exhaust_cfm,omitempty"`
	AirflowCFM  *float64 `json:"airflow_cfm" jsonschema:"nullable" jsonschema_description:"to hold the set point by ventilation alone"`
	Hardly      bool     `json:"hardly_practical" jsonschema_description:"so little cooler is the air drawn in"`
	Why         string   `json:"why" jsonschema_description:"why it cannot"`
	HumidityCFM *float64 `json:"humidity_cfm" jsonschema:"nullable" jsonschema_description:"to carry off the water"`
	HumidityWhy string   `json:"humidity_why"`
}

// LightCheck is a figure beside its usual range.
type LightCheck struct {
	What    string  `json:"what"`
	Value   float64 `json:"value"`
	Low     float64 `json:"usual_low"`
	High    float64 `json:"usual_high"`
	Unit    string  `json:"unit"`
	Outside bool    `json:"outside"`
	Source  string  `json:"source"`
}

// NewHeat returns the document of the heat of a site; with hours, of every hour too.
func NewHeat(r Results, hours bool) Heat {
	inv := r.Inventory
	d := Heat{
		Schema: HeatSchema, Site: inv.Site.Name, Rooms: []HeatRoom{}, Block: heatBlock(r.Heat.Block), Establish: establishAll(inv),
		Outdoor: Outdoor{known(inv.Site.Outdoor.Summer), known(inv.Site.Outdoor.SummerWetBulb), known(inv.Site.Outdoor.Winter), known(r.Heat.SummerRatio), known(inv.Site.Altitude)},
		Notes:   list(r.Heat.Notes), Assumptions: assumptions(heatAssumed(r)), Caution: Caution,
	}
	for _, x := range r.Heat.Rooms {
		d.Rooms = append(d.Rooms, heatRoom(r, x, hours))
	}
	return d
}

// Only returns the sheet of one room; the whole building stays as it is.
func (d Heat) Only(room string) Heat {
	d.Rooms = slices.DeleteFunc(slices.Clone(d.Rooms), func(r HeatRoom) bool { return r.Room != room })
	return d
}

// heatAssumed is what the heat rests on: its own assumptions, and those about the watts
// of what stands in the rooms.
func heatAssumed(r Results) []loads.Assumption {
	out := slices.Clone(r.Heat.Assumptions)
	for _, a := range r.Set.Assumptions {
		said := slices.ContainsFunc(out, func(b loads.Assumption) bool { return a.Subject == b.Subject })
		if !said && slices.ContainsFunc(r.Set.Loads, func(l loads.Load) bool { return l.Room != "" && bearsOnHeat(l, a.Subject) }) {
			out = append(out, a)
		}
	}
	sort.SliceStable(out, func(i, j int) bool { return units.NaturalLess(out[i].Subject, out[j].Subject) })
	return out
}

// bearsOnHeat reports whether an assumption is about the watts of a load. Its power
// factor is where they are found from a current.
func bearsOnHeat(l loads.Load, subject string) bool {
	switch subject {
	case l.Path + ".power", l.Path + ".efficiency":
		return true
	case l.Path + ".power_factor":
		return !l.Item.Power.Known() && !l.Item.Motor.Known()
	}
	return false
}

func heatBlock(b heat.Block) Block {
	return Block{Day: string(b.Day), Hour: b.At, TotalBTUH: b.Total.BTUPerHour(), Tons: b.Total.Tons(), SumOfPeaksBTUH: b.SumOfPeaks.BTUPerHour(), AtLeast: b.AtLeast, PartNotKnown: b.Lacks, SunNotCounted: b.Sunless}
}

func heatRoom(r Results, x heat.Room, hours bool) HeatRoom {
	in := inventoryRoom(r.Inventory, x.Name)
	d := HeatRoom{
		RoomHeat: room(x), Size: heatSize(in), HeldOn: heldState(x.HeldOn), HeldOff: heldState(x.HeldOff), Inside: in.Inside, Surfaces: heatSurfaces(in),
		RampMinutes: float64(in.Ramp.Or(0)), AirChanges: given(in.AirChanges), People: given(in.People), Loads: []HeatLoad{},
		HeatAndDry: x.HeatAndDry, HeatDryWhy: x.HeatAndDryWhy, Light: lightChecks(x.Light), Power: heatPower(r, in),
	}
	d.Equipment = heatEquipment(r, x, d.Power)
	if w, ok := in.Lights.Get(); ok {
		d.Lights, d.LitHours = word(w.String()), number(w.Length().Hours())
	}
	for _, l := range r.Set.Loads {
		if l.Room == x.Name {
			d.Loads = append(d.Loads, heatLoad(l))
		}
	}
	if x.HeatAndDry {
		d.Reheat = reheat(x.Reheat)
	}
	d.Water = heatWater(in, x)
	d.Ventilation = heatVentilation(r, in, x)
	d.Establish = establish(r, in, x)
	if hours {
		d.Days = heatDays(x)
	}
	return d
}

func reheat(w heat.Reheat) *Reheat {
	d := &Reheat{Day: string(w.Day), Hour: w.At, Lights: "off", Heating: w.Before.BTUPerHour(), After: btuh(w.After), Pints: w.Water.PintsPerDay()}
	if w.Lit {
		d.Lights = "on"
	}
	return d
}

func inventoryRoom(inv *inventory.Inventory, name string) inventory.Room {
	i := slices.IndexFunc(inv.Rooms, func(r inventory.Room) bool { return r.Name == name })
	if i < 0 {
		return inventory.Room{Name: name}
	}
	return inv.Rooms[i]
}

func heatSize(r inventory.Room) HeatSize {
	d := HeatSize{known(r.Length), known(r.Width), known(r.Height), nil, known(r.Canopy)}
	if d.LengthFeet != nil && d.WidthFeet != nil {
		d.FloorFeet2 = number(*d.LengthFeet * *d.WidthFeet)
	}
	return d
}

func heldState(h heat.Held) HeldState {
	return HeldState{float64(h.Temperature), float64(h.Humidity) * 100, known(h.WetBulb), known(h.Ratio), known(h.Dew), float64(h.Deficit) / 1000, h.Given}
}

func heatSurfaces(r inventory.Room) []HeatSurface {
	out := []HeatSurface{}
	for _, s := range []struct {
		name string
		inventory.Surface
	}{{"walls", r.Walls}, {"roof", r.Roof}, {"floor", r.Floor}} {
		if !s.U.Known() && !s.Area.Known() {
			continue
		}
		d := HeatSurface{Name: s.name, Area: known(s.Area), U: known(s.U)}
		if u, ok := s.U.Get(); ok && u > 0 {
			d.RText = number(1 / float64(u))
		}
		out = append(out, d)
	}
	return out
}

func heatLoad(l loads.Load) HeatLoad {
	d := HeatLoad{Item: l.Name, Kind: heatKind(l), Count: l.Count, WattsEach: known(l.Running), Outdoors: l.Item.Outdoors}
	if p, ok := l.Running.Get(); ok {
		d.Watts = number(units.Times(p, float64(l.Count)))
	}
	if x, ok := l.Item.Level.Get(); ok && x < 1 {
		d.Level = percent(l.Item.Level)
	}
	if q, ok := l.Item.Burns.Get(); ok {
		d.BurnsBTUH = number(q.BTUPerHour())
	}
	if l.HoursKnown {
		d.Hours = word(l.Hours.String())
	}
	return d
}

// kindOf says in one word what a load is.
func heatKind(l loads.Load) string {
	switch {
	case l.Item.Kind != "" && l.Item.Kind != inventory.Other:
		return l.Item.Kind
	case l.Item.Table == inventory.Fixtures:
		return "light"
	case l.Item.Table == inventory.Fans:
		return "fan"
	case l.Item.Table == inventory.Controllers:
		return "controller"
	}
	return "other"
}

func heatWater(in inventory.Room, x heat.Room) *HeatWater {
	w, ok := x.Water.Get()
	applied, given := in.Watering.Get()
	if !ok || !given {
		return nil
	}
	d := HeatWater{
		WateringGallons: float64(applied) / units.LitrePerGallon, RunoffPercent: percent(in.Runoff),
		FromPlants: w.FromPlants.PintsPerDay(), PerDay: w.PerDay.PintsPerDay(),
		LightsOn: w.LightsOn.PintsPerDay(), LightsOff: w.LightsOff.PintsPerDay(),
		AmountOn: w.AmountOn / units.LitrePerPint, AmountOff: w.AmountOff / units.LitrePerPint,
		RemovedInRoom: w.RemovedByRoom.PintsPerDay(), Governs: "lights on",
	}
	if w.GovernsLightsOff {
		d.Governs = "lights off"
	}
	return &d
}

func heatVentilation(r Results, in inventory.Room, x heat.Room) HeatVentilation {
	d := HeatVentilation{Planned: "not decided", ExhaustCFM: known(in.Exhaust), AirflowCFM: known(x.Airflow), Hardly: x.AirflowHardly, Why: x.Airflow.Why(),
		HumidityCFM: known(x.AirflowHumid), HumidityWhy: x.AirflowHumid.Why()}
	switch {
	case in.Exhaust.Known():
		d.Planned = "vented"
	case roomHas(r, in.Name, inventory.AirConditioner) || roomHas(r, in.Name, inventory.CO2Burner) || roomHas(r, in.Name, inventory.Chiller):
		d.Planned = "closed"
	}
	return d
}

// has reports whether a room has equipment of a kind.
func roomHas(r Results, room, kind string) bool {
	return slices.ContainsFunc(r.Set.Loads, func(l loads.Load) bool { return l.Room == room && l.Item.Kind == kind })
}

func lightChecks(l heat.Light) []LightCheck {
	out := []LightCheck{}
	for _, c := range l.Checks {
		out = append(out, LightCheck{c.What, c.Value, c.Low, c.High, c.Unit, c.Outside, source(c.Cite)})
	}
	return out
}
