package inventory

import (
	"branchwork/loads/clock"
	"branchwork/loads/units"
)

// The tables that a key of an item may stand in.
type tables uint8

const (
	inFixtures tables = 1 << iota
	inFans
	inControllers
	inEquipment

	inAll   = inFixtures | inFans | inControllers | inEquipment
	inLoads = inFixtures | inFans | inEquipment
	inLamps = inFixtures | inFans // keys that fans share with fixtures
)

// itemKey is a key with the tables it may stand in and those that demand it.
type itemKey struct {
	in, need tables
	Key
}

// itemKeys returns the keys of one table of items.
func itemKeys(table tables) []Key {
	var out []Key
	for _, k := range allItemKeys() {
		if k.in&table != 0 {
			k.Required = k.need&table != 0
			out = append(out, k.Key)
		}
	}
	return out
}

func allItemKeys() []itemKey {
	keys := []itemKey{
		{inEquipment, inEquipment, key("kind", `"dehumidifier"`, word(must(func(i *Item) *string { return &i.Kind }), Kinds()...), "", "what it is")},
		{inAll, inAll &^ inEquipment, key("room", `"flower"`, reference(must(func(i *Item) *string { return &i.Room }), "a room", "rooms"), "none", "where it stands")},
		{inLoads, inLamps, key("count", `12`, count(must(func(i *Item) *int { return &i.Count }), aCount()), "1", "how many").or("quantity", "qty", "number", "amount")},
	}
	keys = append(keys, powerKeys()...)
	keys = append(keys, useKeys()...)
	keys = append(keys, supplyKeys()...)
	return append(keys, climateItemKeys()...)
}

// powerKeys say what an item draws.
func powerKeys() []itemKey {
	return []itemKey{
		{inAll, 0, key("power", `"640 W"`, power(), "from current or currents", "each, measured at the wall or nameplate, the larger").or("watts", "wattage", "load")},
		{inAll, 0, key("current", `"2.7 A"`, quantity(opt(func(i *Item) *known[units.Current] { return &i.Current }), usual[units.Current]()), "from power", "each, at the one voltage given").or("amps", "amperage")},
		{inAll, 0, key("currents", `{ "120 V" = "5.6 A", "277 V" = "2.5 A" }`, labelCurrents(), "from power", "each, by voltage, as on the label")},
		{inFans | inEquipment, 0, key("hp", `"1.5 hp"`, horsepower(), "", "rating of its motor").or("horsepower")},
		{inEquipment, 0, key("nameplate", `{ min_circuit = "18 A", max_breaker = "30 A" }`, insideKnown("a table of the nameplate", func(i *Item) *known[Nameplate] { return &i.Nameplate }, nameplateKeys()...), "", "as marked: minimum circuit ampacity (MCA) and maximum overcurrent device (MOCP)").or("mca", "mocp")},
		{inAll, 0, key("power_factor", `0.98`, factor(opt(func(i *Item) *known[units.Ratio] { return &i.PowerFactor }), someShare()), "by kind of item, listed among the assumptions", "power divided by volts and amps").or("pf", "powerfactor")},
		{inLoads, 0, key("boost", `"720 W"`, quantity(opt(func(i *Item) *known[units.Power] { return &i.Boost }), usual[units.Power]()), "none", "power it can be set to above nominal")},
		{inAll, 0, key("voltage", `"100-277 V"`, voltages(opt(func(i *Item) *known[units.VoltageSet] { return &i.Voltage })), "those of currents, else 120 V until the label is read", "what it accepts: one voltage, a range or a list").or("volts", "voltages")},
		{inAll, 0, key("phases", `1`, phases(), "1", "1 or 3").or("phase")},
		{inAll, 0, key("basis", `"sheet"`, word(opt(func(i *Item) *known[string] { return &i.Basis }), "label", "sheet", "measured", "assumed"), "not said", "where the power comes from")},
	}
}

func nameplateKeys() []Key {
	return []Key{
		key("min_circuit", `"18 A"`, quantity(opt(func(n *Nameplate) *known[units.Current] { return &n.MinCircuit }), usual[units.Current]()), "", "minimum circuit ampacity"),
		key("max_breaker", `"30 A"`, quantity(opt(func(n *Nameplate) *known[units.Current] { return &n.MaxBreaker }), usual[units.Current]()), "", "largest breaker"),
	}
}

// useKeys say when and how hard an item runs.
func useKeys() []itemKey {
	hours := windows(opt(func(i *Item) *known[clock.Windows] { return &i.Hours }))
	return []itemKey{
		{inFixtures, 0, key("lights", `"06:00-18:00"`, hours, "as the room", "when they are on").or("hours", "photoperiod", "schedule")},
		{inAll &^ inFixtures, 0, key("hours", `"always"`, hours, "not known; counts as continuous", "when it runs").or("lights", "schedule")},
		{inAll &^ inFixtures, 0, key("duty", `0.6`, factor(opt(func(i *Item) *known[units.Ratio] { return &i.Duty }), share()), "1", "share of its hours that it runs; acts on energy and heat only")},
		{inLoads, 0, key("level", `0.8`, factor(opt(func(i *Item) *known[units.Ratio] { return &i.Level }), share()), "1", "dimming or speed; acts on energy and heat only").or("dimming", "dim")},
		{inAll, 0, key("continuous", `true`, truth(opt(func(i *Item) *known[bool] { return &i.Continuous })), "by its hours", "counts as on for three hours or more")},
		{inAll, 0, key("interlock", `"cool-or-heat"`, filled(must(func(i *Item) *string { return &i.Interlock })), "none", "items of one such name cannot run together")},
	}
}

// supplyKeys say how an item is connected and what its maker allows.
func supplyKeys() []itemKey {
	return []itemKey{
		{inAll, 0, key("panel", `"LP1"`, reference(must(func(i *Item) *string { return &i.Panel }), "a panel", "panels"), "as the room", "a panel of its own choice")},
		{inAll, 0, key("plug", `true`, plug(), "not known", "true, or the receptacle it needs").or("receptacle")},
		{inAll, 0, key("wired", `true`, truth(opt(func(i *Item) *known[bool] { return &i.Wired })), "not known", "wired in, without a plug").or("hardwired")},
		{inLoads, 0, key("controller", `"north"`, reference(must(func(i *Item) *string { return &i.Controller }), "a controller", Controllers), "none", "what switches it")},
		{inLoads, 0, key("dedicated", `true`, truth(opt(func(i *Item) *known[bool] { return &i.Dedicated })), "by kind of item", "each alone on its circuit")},
		{inLoads, 0, key("max_per_breaker", `{ "20 A" = 7, "15 A" = 5 }`, perBreaker(), "no limit but the amps", "the maker's limit on one breaker, as a count or by rating")},
		{inAll, 0, key("max_breaker", `"20 A"`, quantity(opt(func(i *Item) *known[units.Current] { return &i.MaxBreaker }), usual[units.Current]()), "by the code", "the largest breaker its maker allows")},
		{inAll, 0, key("location", `"damp"`, word(opt(func(i *Item) *known[string] { return &i.Location }), "dry", "damp", "wet"), "not said", "what the place is like")},
		{inLamps, 0, key("drivers", `1`, count(opt(func(i *Item) *known[int] { return &i.Drivers }), fromOne(1000)), "1", "power supplies in each").or("driver", "ballasts")},
		{inLoads, 0, key("inrush", `{ peak = "60 A", time = "2 ms" }`, insideKnown("a table of the inrush", func(i *Item) *known[Inrush] { return &i.Inrush }, inrushKeys()...), "not known", "current at switch-on, each")},
		{inAll, 0, key("leakage", `"0.5 mA"`, quantity(opt(func(i *Item) *known[units.Current] { return &i.Leakage }), orZero[units.Current]()), "not known", "earth leakage of each driver, or of each unit")},
		{inControllers, 0, key("outlets", `8`, count(opt(func(i *Item) *known[int] { return &i.Outlets }), fromOne(10_000)), "not known", "that it switches")},
		{inControllers, 0, key("outlet_rating", `"15 A"`, quantity(opt(func(i *Item) *known[units.Current] { return &i.OutletRating }), usual[units.Current]()), "not known", "of each outlet")},
		{inControllers, 0, key("feed", `"50 A"`, quantity(opt(func(i *Item) *known[units.Current] { return &i.Feed }), usual[units.Current]()), "not known", "rating of its own supply")},
		{inControllers, 0, key("contactor", `"30 A"`, quantity(opt(func(i *Item) *known[units.Current] { return &i.Contactor }), usual[units.Current]()), "not known", "rating of its contacts for such loads, per pole").or("relay", "contacts")},
		{inFixtures, 0, key("link", `{ rating = "10 A", most = 8, units = 6 }`, insideKnown("a table of the chain", func(i *Item) *known[Link] { return &i.Link }, linkKeys()...), "not linked", "fixtures that are fed through one another").or("chain", "daisy_chain")},
	}
}

func linkKeys() []Key {
	return []Key{
		key("rating", `"10 A"`, quantity(must(func(l *Link) *units.Current { return &l.Rating }), usual[units.Current]()), "", "of the inlet or the jumper, whichever is less").must(),
		key("most", `8`, count(opt(func(l *Link) *known[int] { return &l.Most }), fromOne(1000)), "not known", "in one chain, by the maker"),
		key("units", `6`, count(opt(func(l *Link) *known[int] { return &l.Units }), fromOne(1000)), "not known", "in the longest chain that is built"),
	}
}

func inrushKeys() []Key {
	return []Key{
		key("peak", `"60 A"`, quantity(must(func(n *Inrush) *units.Current { return &n.Peak }), usual[units.Current]()), "", "highest current").must(),
		key("time", `"2 ms"`, duration(opt(func(n *Inrush) *known[string] { return &n.Time })), "", "how long; kept for the record"),
	}
}

// climateItemKeys say what an item does to the room.
func climateItemKeys() []itemKey {
	heat := usual[units.Heat]()
	return []itemKey{
		{inLamps, 0, key("remote_driver", `0.1`, factor(opt(func(i *Item) *known[units.Ratio] { return &i.RemoteDriver }), share()), "0", "share of its heat that stays out of the room")},
		{inFixtures, 0, key("photons", `"1700 umol/s"`, quantity(opt(func(i *Item) *known[units.Photons] { return &i.Photons }), usual[units.Photons]()), "not known", "photosynthetic photon flux of each").or("ppf")},
		{inFans | inEquipment, 0, key("motor", `true`, truth(func(dst any, v bool) {
			if i := dst.(*Item); v || !i.Motor.Known() {
				i.IsMotor = v
			}
		}), "true where hp is given", "it is a motor, for rules about motors")},
		{inFans, 0, key("duct", `1.0`, factor(opt(func(i *Item) *known[units.Ratio] { return &i.Duct }), share()), "0", "share of its heat that goes out with the air")},
		{inEquipment, 0, key("removes", `"130 pint/day"`, quantity(opt(func(i *Item) *known[units.WaterRate] { return &i.Removes }), usual[units.WaterRate]()), "not known", "water it takes out of the air, as rated")},
		{inEquipment, 0, key("adds", `"20 L/day"`, quantity(opt(func(i *Item) *known[units.WaterRate] { return &i.Adds }), usual[units.WaterRate]()), "not known", "water it puts into the air")},
		{inEquipment, 0, key("steam", `true`, truth(must(func(i *Item) *bool { return &i.Steam })), "false", "a humidifier that boils its water")},
		{inEquipment, 0, key("cooling", `"3 ton"`, quantity(opt(func(i *Item) *known[units.Heat] { return &i.Cooling }), heat), "not known", "rated cooling capacity, in all; it serves the item's room alone")},
		{inEquipment, 0, key("sensible", `"2.2 ton"`, quantity(opt(func(i *Item) *known[units.Heat] { return &i.Sensible }), heat), "not known", "the part of cooling that lowers temperature")},
		{inEquipment, 0, key("burns", `"20000 BTU/h"`, quantity(opt(func(i *Item) *known[units.Heat] { return &i.Burns }), heat), "nothing", "heat of the fuel it burns")},
		{inEquipment, 0, key("fuel", `"propane"`, word(opt(func(i *Item) *known[string] { return &i.Fuel }), "natural-gas", "propane"), "natural-gas", "what it burns")},
		{inEquipment, 0, key("outdoors", `true`, truth(must(func(i *Item) *bool { return &i.Outdoors })), "false", "its heat stays out of the room")},
	}
}
