package document

import (
	"branchwork/loads"
	"branchwork/loads/heat"
	"branchwork/loads/inventory"
	"branchwork/loads/units"
)

// HeatEquipment is what cools, dries and heats a room against what it asks for.
type HeatEquipment struct {
	Stated       []StatedUnit `json:"stated"`
	Covers       []HeatCover  `json:"covers"`
	Sizes        []NextSize   `json:"next_sizes" jsonschema_description:"as sold, where no cooling is stated; the margin is no part of the load"`
	SizedBy      string       `json:"sized_by" jsonschema_description:"the design case that governs them"`
	CoolingWatts *float64     `json:"cooling_watts,omitempty" jsonschema_description:"electric power of the first of next_sizes, at a usual efficiency"`
	Estimated    []Estimated  `json:"estimated" jsonschema_description:"electric power of stated cooling, found from its capacity"`
}

// StatedUnit is equipment of the file.
type StatedUnit struct {
	Item         string   `json:"item"`
	Kind         string   `json:"kind"`
	Count        int      `json:"count"`
	CoolingBTUH  *float64 `json:"cooling_btuh,omitempty" jsonschema_description:"of each, rated"`
	SensibleBTUH *float64 `json:"sensible_btuh,omitempty" jsonschema_description:"of each, rated"`
	RemovesPints *float64 `json:"removes_pints_per_day,omitempty" jsonschema_description:"of each"`
	AddsPints    *float64 `json:"adds_pints_per_day,omitempty" jsonschema_description:"of each"`
	HeatBTUH     *float64 `json:"heat_btuh,omitempty" jsonschema_description:"of each, of an electric heater"`
	BurnsBTUH    *float64 `json:"burns_btuh,omitempty" jsonschema_description:"fuel, of each"`
}

// What a unit is for is not known where it is missing, unless a value is assumed in
// its place, as of sensible capacity and of dehumidifiers.

// Cools reports a unit that is there to cool.
func (u StatedUnit) Cools() bool {
	return u.Kind == inventory.AirConditioner || u.Kind == inventory.Chiller
}

// Wets reports a unit that is there to give water to the air.
func (u StatedUnit) Wets() bool { return u.Kind == inventory.Humidifier }

// Heats reports a unit that is there to heat by electricity.
func (u StatedUnit) Heats() bool { return u.Kind == inventory.Heater && u.BurnsBTUH == nil }

// HeatCover compares what is installed with what a design case asks for.
type HeatCover struct {
	What           string   `json:"what"`
	Case           string   `json:"case"`
	Unit           string   `json:"unit" jsonschema:"enum=BTU/h,enum=pint/day,enum=CFM"`
	Needed         float64  `json:"needed"`
	Installed      *float64 `json:"installed" jsonschema:"nullable"`
	WithoutLargest *float64 `json:"without_largest" jsonschema:"nullable" jsonschema_description:"with the largest unit out of service"`
	Covers         string   `json:"covers" jsonschema:"enum=yes,enum=no,enum=cannot tell"`
	CoversWithout  string   `json:"covers_without_largest" jsonschema:"enum=yes,enum=no,enum=cannot tell"`
	Why            string   `json:"why" jsonschema_description:"why the capacity is not known"`
}

// NextSize is a size of cooling equipment as the trade sells it.
type NextSize struct {
	Count         int     `json:"count"`
	Tons          float64 `json:"tons" jsonschema_description:"of each"`
	MarginPercent float64 `json:"margin_percent" jsonschema_description:"above the load"`
}

// Estimated is a unit's electric power found from its cooling capacity.
type Estimated struct {
	Item  string  `json:"item"`
	Watts float64 `json:"watts"`
}

func heatEquipment(r Results, x heat.Room) HeatEquipment {
	e := x.Equipment
	d := HeatEquipment{Stated: []StatedUnit{}, Covers: []HeatCover{}, Sizes: []NextSize{}, SizedBy: e.SizedBy, Estimated: []Estimated{}}
	for _, l := range r.Set.Loads {
		if l.Room == x.Name {
			if u, ok := statedUnit(l); ok {
				d.Stated = append(d.Stated, u)
			}
		}
	}
	for _, c := range e.Cooling {
		d.Covers = append(d.Covers, heatCover(c, "BTU/h", units.Heat.BTUPerHour))
	}
	for _, c := range e.Dehumidifying {
		d.Covers = append(d.Covers, heatCover(c, "pint/day", units.WaterRate.PintsPerDay))
	}
	d.Covers = append(d.Covers, heatCover(e.Heating, "BTU/h", units.Heat.BTUPerHour))
	if c, ok := e.Exhaust.Get(); ok {
		d.Covers = append(d.Covers, heatCover(c, "CFM", func(v units.Airflow) float64 { return float64(v) }))
	}
	for _, s := range e.Sizes {
		d.Sizes = append(d.Sizes, NextSize{s.Count, s.Tons, float64(s.Margin) * 100})
	}
	if len(e.Sizes) > 0 {
		d.CoolingWatts = number(e.CoolingPower)
	}
	for _, p := range e.Estimated {
		d.Estimated = append(d.Estimated, Estimated{p.Item, float64(p.Watts)})
	}
	return d
}

// statedUnit returns the capacities of a load that has any.
func statedUnit(l loads.Load) (StatedUnit, bool) {
	i := l.Item
	u := StatedUnit{Item: l.Name, Kind: heatKind(l), Count: l.Count, CoolingBTUH: btuh(i.Cooling), SensibleBTUH: btuh(i.Sensible), RemovesPints: pints(i.Removes), AddsPints: pints(i.Adds), BurnsBTUH: btuh(i.Burns)}
	if p, ok := l.Power.Get(); ok && l.Heater && u.BurnsBTUH == nil {
		u.HeatBTUH = number(p.Heat().BTUPerHour())
	}
	climate := l.Heater || i.Kind == inventory.AirConditioner || i.Kind == inventory.Chiller || i.Kind == inventory.Dehumidifier || i.Kind == inventory.Humidifier
	return u, climate || u.CoolingBTUH != nil || u.BurnsBTUH != nil
}

func btuh(k units.Known[units.Heat]) *float64 {
	q, ok := k.Get()
	if !ok {
		return nil
	}
	return number(q.BTUPerHour())
}

func pints(k units.Known[units.WaterRate]) *float64 {
	w, ok := k.Get()
	if !ok {
		return nil
	}
	return number(w.PintsPerDay())
}

func heatCover[T ~float64](c heat.Cover[T], unit string, in func(T) float64) HeatCover {
	d := HeatCover{What: c.What, Case: c.Case, Unit: unit, Needed: in(c.Needed), Covers: string(c.Holds), CoversWithout: string(c.HoldsWithoutOne), Why: c.Installed.Why()}
	if x, ok := c.Installed.Get(); ok {
		d.Installed = number(in(x))
	}
	if x, ok := c.WithoutLargest.Get(); ok {
		d.WithoutLargest = number(in(x))
	}
	return d
}
