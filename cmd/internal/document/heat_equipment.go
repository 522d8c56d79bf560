package document

import (
	"math"

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
	SizesWhy     string       `json:"next_sizes_why,omitempty" jsonschema_description:"why there are none, where the load has to be known better first"`
	SizedBy      string       `json:"sized_by" jsonschema_description:"the design case that governs them"`
	SizeLatent   *float64     `json:"next_size_latent_btuh,omitempty" jsonschema_description:"what the first of next_sizes leaves for water, at its usual sensible share"`
	CoolingWatts *float64     `json:"cooling_watts,omitempty" jsonschema_description:"electric power of the first of next_sizes, at a usual efficiency"`
	CoolingAmps  *SizeAmps    `json:"cooling_amps,omitempty" jsonschema_description:"cooling_watts on the room's first panel"`
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
	State          string   `json:"state,omitempty" jsonschema_description:"what runs in the case: exhaust, dehumidifiers"`
	Unit           string   `json:"unit" jsonschema:"enum=BTU/h,enum=pint/day,enum=CFM"`
	Needed         *float64 `json:"needed" jsonschema:"nullable"`
	NeededWhy      string   `json:"needed_why,omitempty" jsonschema_description:"why needed is not known, or why it is a least value"`
	Installed      *float64 `json:"installed" jsonschema:"nullable"`
	WithoutLargest *float64 `json:"without_largest" jsonschema:"nullable" jsonschema_description:"with the largest unit out of service"`
	Covers         string   `json:"covers" jsonschema:"enum=yes,enum=no,enum=cannot tell"`
	CoversWithout  string   `json:"covers_without_largest" jsonschema:"enum=yes,enum=no,enum=cannot tell"`
	Why            string   `json:"why" jsonschema_description:"why the capacity is not known"`
	Cycling        *Cycling `json:"cycling,omitempty" jsonschema_description:"where coils count as running the whole hour and the dry load would not keep them on"`
}

// Cycling is a comparison with the coils on only as much as the dry load asks.
type Cycling struct {
	RunPercent float64  `json:"run_percent" jsonschema_description:"of the hour"`
	Needed     float64  `json:"needed"`
	Installed  *float64 `json:"installed" jsonschema:"nullable"`
}

// SizeAmps is what a size of cooling would draw on a panel.
type SizeAmps struct {
	Panel     string   `json:"panel"`
	Volts     float64  `json:"volts"`
	Phases    int      `json:"phases"`
	Amps      float64  `json:"amps" jsonschema_description:"at unity power factor: the least that it can be"`
	SpareAmps *float64 `json:"spare_amps" jsonschema:"nullable"`
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

func heatEquipment(r Results, x heat.Room, power []HeatPower) HeatEquipment {
	e := x.Equipment
	d := HeatEquipment{Stated: []StatedUnit{}, Covers: []HeatCover{}, Sizes: []NextSize{}, SizesWhy: e.SizesWhy, SizedBy: e.SizedBy, Estimated: []Estimated{}}
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
	for _, c := range append([]heat.Cover[units.Heat]{e.Heating}, e.HeatingAlso...) {
		d.Covers = append(d.Covers, heatCover(c, "BTU/h", units.Heat.BTUPerHour))
	}
	if c, ok := e.Exhaust.Get(); ok {
		d.Covers = append(d.Covers, heatCover(c, "CFM", func(v units.Airflow) float64 { return float64(v) }))
	}
	for _, s := range e.Sizes {
		d.Sizes = append(d.Sizes, NextSize{s.Count, s.Tons, float64(s.Margin) * 100})
	}
	if len(e.Sizes) > 0 {
		d.CoolingWatts, d.SizeLatent = number(e.CoolingPower), number(e.SizeLatent.BTUPerHour())
		d.CoolingAmps = sizeAmps(float64(e.CoolingPower), power)
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

// sizeAmps puts watts on the first panel, at the supply where they draw least.
func sizeAmps(watts float64, power []HeatPower) *SizeAmps {
	if len(power) == 0 {
		return nil
	}
	p := power[0]
	var least *SizeAmps
	for _, s := range p.Supplies {
		amps := watts / s.Volts
		if s.Phases == 3 {
			amps /= math.Sqrt(3)
		}
		if least == nil || amps < least.Amps {
			least = &SizeAmps{p.Panel, s.Volts, s.Phases, amps, p.SpareAmps}
		}
	}
	return least
}

func heatCover[T ~float64](c heat.Cover[T], unit string, in func(T) float64) HeatCover {
	d := HeatCover{What: c.What, Case: c.Case, State: c.State, Unit: unit, NeededWhy: c.Least, Covers: string(c.Holds), CoversWithout: string(c.HoldsWithoutOne), Why: c.Installed.Why()}
	if c.NeededWhy == "" {
		d.Needed = number(in(c.Needed))
	} else {
		d.NeededWhy = c.NeededWhy
	}
	if x, ok := c.Installed.Get(); ok {
		d.Installed = number(in(x))
	}
	if x, ok := c.WithoutLargest.Get(); ok {
		d.WithoutLargest = number(in(x))
	}
	if x, ok := c.Cycling.Get(); ok {
		d.Cycling = &Cycling{RunPercent: float64(x.Run) * 100, Needed: in(x.Needed)}
		if d.Installed != nil {
			d.Cycling.Installed = number(in(x.Installed))
		}
	}
	return d
}
