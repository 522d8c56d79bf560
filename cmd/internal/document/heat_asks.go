package document

import (
	"fmt"
	"slices"
	"strings"

	"branchwork/loads"
	"branchwork/loads/heat"
	"branchwork/loads/inventory"
	"branchwork/loads/units"
)

// establishAll lists what the installer has to establish whatever the rooms are.
func establishAll(inv *inventory.Inventory) []string {
	out := []string{
		"capacity of the equipment at each room's own temperature and humidity and at the outdoor design temperature: total, sensible and latent apart, from its maker's data",
		"redundancy: the file does not say whether a spare unit is wanted; each comparison is given with and without the largest unit",
		"growth: the file does not say what is to be added later; no margin stands in any load",
		"outdoor air for people and the ventilation that the mechanical code asks for, and where carbon dioxide or fuel gas is fed its alarm, purge exhaust and make-up air: in no load",
		"where condensers stand, where condensate and defrost water go, and what ducts and filters cost in air flow",
	}
	o := inv.Site.Outdoor
	var missing []string
	for _, x := range []struct {
		what  string
		known bool
	}{{"summer dry bulb", o.Summer.Known()}, {"summer wet bulb", o.SummerWetBulb.Known()}, {"winter dry bulb", o.Winter.Known()}} {
		if !x.known {
			missing = append(missing, x.what)
		}
	}
	switch {
	case len(missing) > 0 && slices.ContainsFunc(inv.Rooms, func(r inventory.Room) bool { return !r.Inside }):
		out = append(out, "outdoor design of the place, from the climate table that its code names: "+strings.Join(missing, ", "))
	case len(missing) == 0:
		out = append(out, "whether the outdoor design temperatures of the file are those that the place's code asks for")
	}
	return out
}

// establish lists what the installer has to establish about one room.
func establish(r Results, in inventory.Room, x heat.Room) []string {
	out := []string{}
	add := func(format string, a ...any) { out = append(out, fmt.Sprintf(format, a...)) }
	for _, s := range []struct {
		when string
		held heat.Held
	}{{"on", x.HeldOn}, {"off", x.HeldOff}} {
		if !s.held.Given {
			add("temperature and humidity with the lights %s: not both in the file", s.when)
		}
	}
	switch {
	case !x.Water.Known() && !in.Canopy.Known():
		add("water that the room gives off in a day; of a drying room, the weight that the product loses")
	case !x.Water.Known():
		add("water: how much is applied and drained a day, by meter, and how it divides between lit and dark hours")
	default:
		add("water by meter, by stage of the crop; its division between lit and dark hours is an assumption")
	}
	switch e := x.Equipment; {
	case len(e.Sizes) > 0:
		add("cooling: none is stated; the kind of system, its power and its circuit")
	case slices.ContainsFunc(e.Cooling, func(c heat.Cover[units.Heat]) bool { return !c.Installed.Known() }):
		add("cooling: %s", e.Cooling[0].Installed.Why())
	}
	if e := x.Equipment.Heating; e.Needed > 0 && !e.Installed.Known() {
		add("heating: %s; a heater is stated by its power, or by what it burns; the heating of a heat pump has no key", e.Installed.Why())
	}
	if x.HeatAndDry {
		add("how heat and dryness are held in the same hour: reheat, dehumidifiers that give their heat back, or a heater beside the cooling")
	}
	if !in.Inside && (in.Roof.U.Known() || in.Walls.U.Known()) {
		add("sun on the roof and through glass: not counted here")
	}
	if !in.Inside && !in.Walls.U.Known() && !in.Roof.U.Known() {
		add("walls and roof: area, insulation, and what lies beyond them")
	}
	if in.Inside {
		add("what the building around the room takes and gives: it is taken as conditioned all year")
	}
	if slices.ContainsFunc(r.Set.Loads, func(l loads.Load) bool {
		return l.Room == in.Name && l.Item.Kind == inventory.Heater && l.Item.Burns.Known()
	}) {
		add("heaters that burn fuel: flue and air for combustion")
	}
	if roomHas(r, in.Name, inventory.CO2Burner) {
		add("carbon dioxide: alarm, purge and the air that the code asks for where people work")
	}
	return out
}
