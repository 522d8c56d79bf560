package document

import (
	"fmt"
	"slices"
	"strings"

	"branchwork/loads/heat"
	"branchwork/loads/units"
)

// Title names a design case for a reader. The hour of least dry heat is one of heating
// only where it asks for heat.
func (c DesignCase) Title() string {
	t := c.Name
	if c.Heats() {
		t = "heating, worst hour"
	}
	if c.Exhaust != "" {
		t += ", exhaust " + c.Exhaust
	}
	return t
}

// Heats reports whether the case asks for heating: its latent heat does not warm the
// room, so that it has no total.
func (c DesignCase) Heats() bool { return c.Name == leastSensible && c.SensibleBTUH < 0 }

// Open reports whether the case cannot be picked: the wettest hour, where the room's
// water is not known.
func (c DesignCase) Open() bool { return c.Name == largestLatent && !c.LatentKnown }

// largestLatent is the name of the case of water, leastSensible that of the cases of heating.
const (
	largestLatent = "largest latent"
	leastSensible = "least sensible"
)

// CanopyTitle says what the plants of the case are.
func (c DesignCase) CanopyTitle() string {
	if c.Canopy == string(heat.SmallPlants) {
		return "no water given off"
	}
	return c.Canopy
}

// CaseTitle names the case of a comparison for a reader.
func (c HeatCover) CaseTitle() string {
	t := c.Case
	if t == leastSensible && c.Needed != nil && *c.Needed > 0 {
		t = "worst hour"
	}
	return t
}

// Title says what is compared, and what runs in the case.
func (c HeatCover) Title() string {
	if c.State != "" {
		return c.What + ", " + c.State
	}
	return c.What
}

// WorstLatent is the latent heat of the wettest hour, before any dehumidifier.
func (r RoomHeat) WorstLatent() float64 {
	for _, c := range r.Cases {
		if c.Name == largestLatent {
			return c.LatentBTUH
		}
	}
	return 0
}

// LeastTitle says what is lacking from a room's heat, empty where nothing is.
func (r RoomHeat) LeastTitle() string { return leastTitle(r.PartNotKnown, r.SunNotCounted) }

// LeastTitle says what is lacking from the building's heat, empty where nothing is.
func (b Block) LeastTitle() string { return leastTitle(b.PartNotKnown, b.SunNotCounted) }

func leastTitle(lacks, sun bool) string {
	switch {
	case sun && lacks:
		return "without the sun, and a part is not known"
	case sun:
		return "without the sun"
	case lacks:
		return "a part is not known"
	}
	return ""
}

// Sentences of the sheet.
const (
	Dehumidified = "Where dehumidifiers run, their heat is in sensible and the water that they take is out of latent."
	Rated        = "Rated is at the rating point, corrected for altitude alone; in a room cooler or drier than that a dehumidifier or a coil takes less water."
)

// CoverReasons says why answers cannot be told, each reason once, and what an answer
// about water rests on. show prints a figure of a unit.
func CoverReasons(covers []HeatCover, show func(*float64, string) string) []string {
	var out, cycling []string
	by := map[string][]string{}
	say := func(why, what string) {
		if by[why] == nil {
			out = append(out, why)
		}
		if !slices.Contains(by[why], what) {
			by[why] = append(by[why], what)
		}
	}
	for _, c := range covers {
		if c.Why != "" && c.Covers != "yes" {
			say(c.Why, c.What)
		}
		open := c.Covers == "cannot tell" || c.CoversWithout == "cannot tell"
		switch {
		case c.NeededWhy == "" || !open:
		case c.Needed == nil:
			say(c.NeededWhy, c.What)
		default:
			say("what is needed is a least value: "+c.NeededWhy, c.What)
		}
		if k := c.Cycling; k != nil && c.Covers != "no" && (open || c.Needed == nil || *c.Needed < k.Needed) {
			there := "what is there is not known"
			if k.Installed != nil {
				there = show(k.Installed, c.Unit) + " there"
			}
			cycling = append(cycling, fmt.Sprintf("%s: the coil counts as running the whole hour; its sensible load keeps it on for %s %%: %s needed, %s",
				c.What, units.Round(k.RunPercent, 0), show(&k.Needed, c.Unit), there))
		}
	}
	for i, why := range out {
		out[i] = strings.Join(by[why], "; ") + ": " + why
	}
	return append(out, cycling...)
}

// Title is a size in words: "2 x 5 ton".
func (z NextSize) Title() string { return fmt.Sprintf("%d x %s ton", z.Count, units.Round(z.Tons, 1)) }

// NoSizesText says why no sizes are given.
func (e HeatEquipment) NoSizesText() string { return "No sizes are given: " + e.SizesWhy + "." }

// SizesText says what the sizes stand on and what the first does against the water.
func (r HeatRoom) SizesText(heat func(float64) string) string {
	e := r.Equipment
	t := "Found from: " + e.SizedBy
	if why := r.LeastTitle(); why != "" {
		t += ", " + why
	}
	t += ". The margin is no part of the load. "
	if r.Water == nil || e.SizeLatent == nil {
		return t + "The water that has to be taken is not known."
	}
	have, need := *e.SizeLatent, r.WorstLatent()
	t += "At the largest latent, " + heat(need) + ", " + e.Sizes[0].Title() + " takes up to " + heat(have) + " of water while it runs"
	if need > have {
		t += "; the rest, " + heat(need-have) + ", needs dehumidifiers"
	}
	return t + "."
}

// PowerText is the electric power of the first size, and what it would draw.
func (e HeatEquipment) PowerText() string {
	t := units.Round(*e.CoolingWatts, 0) + " W, estimated; it is in no panel of the plan"
	a := e.CoolingAmps
	if a == nil {
		return t
	}
	t += fmt.Sprintf("; %s A at %s V", units.Round(a.Amps, 0), units.Round(a.Volts, 0))
	if a.Phases == 3 {
		t += " three-phase"
	}
	t += " and unity power factor"
	if a.SpareAmps != nil && a.Amps > *a.SpareAmps {
		t += ", more than the " + units.Round(*a.SpareAmps, 1) + " A spare on " + a.Panel
	}
	return t
}

// Text says what the hour asks for.
func (w Reheat) Text(heat, water func(float64) string) string {
	t := fmt.Sprintf("heating and dehumidifying in the same hour; lights %s at %02d:00 on the %s: %s of water to remove and %s of heating", w.Lights, w.Hour, w.Day, water(w.Pints), heat(w.Heating))
	switch {
	case w.After == nil:
		return t + "; no dehumidifier stands in the room, and cooling alone would chill it further"
	case *w.After <= 0:
		return t + ", which the heat that the room's dehumidifiers give back covers"
	}
	return t + " before the heat that the room's dehumidifiers give back, " + heat(*w.After) + " after it"
}
