package day

import (
	"branchwork/loads"
	"branchwork/loads/heat"
	"branchwork/loads/inventory"
	"branchwork/loads/steps"
	"branchwork/loads/units"
)

// need is what a load's running share follows where its duty is not stated.
type need int

const (
	ownHours need = iota // its windows and duty
	cooling
	drying
	heating
)

// needOf returns what a load follows. It is the heat balance's own division: equipment
// whose duty is stated runs by it, and so does a heater whose hours are.
func needOf(l *loads.Load) need {
	if l.Item.Duty.Known() {
		return ownHours
	}
	switch l.Item.Kind {
	case inventory.AirConditioner, inventory.Chiller:
		return cooling
	case inventory.Dehumidifier:
		if !l.Item.Outdoors {
			return drying
		}
	case inventory.Heater:
		if !l.Item.Outdoors && !l.Item.Hours.Known() {
			return heating
		}
	}
	return ownHours
}

// ask sets the running shares of the loads of one room that follow its heat balance.
func (s *site) ask(room heat.Room, draws []*draw) {
	for k, day := range []heat.Day{room.Mean, room.Summer, room.Winter} {
		for h, hour := range day.Hours {
			for _, want := range []struct {
				need  need
				share units.Known[float64]
			}{{cooling, coolingShare(room, hour)}, {drying, dryingShare(room, h, hour, draws)}, {heating, heatingShare(room, hour)}} {
				x, ok := want.share.Get()
				for _, d := range draws {
					if ok && needOf(d.load) == want.need {
						d.runs[k][h] = x
					}
				}
			}
		}
	}
}

// coolingShare returns the share of an hour that the cooling of a room runs.
//
//	share = max(Q / C, Q_s / C_s), 0 to 1
//
// Q and Q_s are the hour's total and sensible gain, less what its exhaust carries off; C
// and C_s the capacities at the site's altitude. Running on for the sake of humidity
// alone is not counted. It is unknown where a capacity is.
//
// Source: energy balance.
func coolingShare(room heat.Room, hour heat.Hour) units.Known[float64] {
	share, found := 0.0, false
	for _, c := range room.Equipment.Cooling {
		have, ok := c.Installed.Get()
		q := hour.Total() + hour.Vented.Total()
		switch c.What {
		case "total cooling":
		case "sensible cooling":
			q = hour.Sensible + hour.Vented.Sensible
		default:
			continue
		}
		if !ok || have <= 0 {
			return units.Unknown[float64]("the cooling capacity of the room is not known")
		}
		share, found = max(share, units.Per(q, have)), true
	}
	if !found {
		return units.Unknown[float64]("the room has no cooling")
	}
	return units.Is(min(1, share))
}

// dryingShare returns the share of its time that a dehumidifier whose duty is not stated
// runs in an hour.
//
//	share = (P − P_stated) / P_full
//
// P is the electric power of all dehumidifiers of the room in the hour, which is their
// sensible and latent gain together; P_stated that of those whose duty is stated and
// P_full the full draw of the others, both within their windows.
//
// Source: energy balance; what a dehumidifier condenses moves heat and adds none.
func dryingShare(room heat.Room, h int, hour heat.Hour, draws []*draw) units.Known[float64] {
	var stated, full units.Power
	for _, d := range draws {
		if d.load.Item.Kind != inventory.Dehumidifier || d.load.Item.Outdoors {
			continue
		}
		on := units.Times(d.full, d.level.hour(h))
		if needOf(d.load) == drying {
			full += on
		} else {
			stated += units.Times(on, float64(d.load.Item.Duty.Or(1)))
		}
	}
	if full <= 0 {
		return units.Unknown[float64]("no dehumidifier runs by itself in this hour")
	}
	if !room.Water.Known() {
		return units.Unknown[float64]("the water to remove is not known")
	}
	p := units.Power(hour.Part(heat.Dehumidifiers).Total()) - stated
	share := units.Per(p, full)
	if share < noise {
		share = 0
	}
	return units.Is(min(1, share))
}

// noise is the share below which a difference of sums is zero.
const noise = 1e-9

// heatingShare returns the share of an hour that the heaters of a room run.
//
//	share = −Q_s / C, 0 to 1
//
// Q_s is the sensible gain with what the exhaust carries off, negative where heat is
// needed.
func heatingShare(room heat.Room, hour heat.Hour) units.Known[float64] {
	have, ok := room.Equipment.Heating.Installed.Get()
	if !ok || have <= 0 {
		return units.Unknown[float64]("the capacity of the heaters is not known")
	}
	return units.Is(min(1, max(0, units.Per(-(hour.Sensible+hour.Vented.Sensible), have))))
}

// hour returns the mean level in an hour.
func (l *levels) hour(h int) float64 {
	sum := 0.0
	for m := h * 60; m < (h+1)*60; m++ {
		sum += l[m]
	}
	return sum / 60
}

// tellAsked lists what the running shares of a room's equipment rest on.
func (s *site) tellAsked(room heat.Room, draws []*draw) {
	asks, whole := false, room.Mean.Whole && room.Summer.Whole && room.Winter.Whole && !room.Lacks
	for _, d := range draws {
		if !d.known {
			continue
		}
		value, why := "", ""
		switch needOf(d.load) {
		case ownHours:
			continue
		case cooling:
			value, why = "as the room's heat asks", "its cooling over its capacity, hour by hour"
			if !coolingShare(room, room.Mean.Hours[0]).Known() {
				value, why = "1", "the room's cooling capacity is not known, so that it counts as running all its hours"
			}
		case drying:
			value, why = "as the room's water asks", "the water given off over what it takes, hour by hour"
			if !room.Water.Known() {
				value, why = "1", "the water to remove is not known, so that it counts as running all its hours"
			}
		case heating:
			value, why = "as the room's heat asks", "the heat that the room lacks over its capacity, hour by hour"
			if !heatingShare(room, room.Mean.Hours[0]).Known() {
				value, why = "1", "the heaters' capacity is not known, so that it counts as running all its hours"
			}
		}
		asks = asks || value != "1"
		s.assume(d.load.Path+".duty", value, "not given; "+why, steps.CommonPractice)
	}
	if asks && !whole {
		s.note("rooms.%s: its climate equipment runs by a heat balance that lacks something; see the heat of the room", room.Name)
	}
}
