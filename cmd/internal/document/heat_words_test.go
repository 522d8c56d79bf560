package document

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"branchwork/loads/units"
)

func btus(q float64) string { return units.Round(q, 0) + " BTU/h" }

func words(x *float64, unit string) string {
	if x == nil {
		return Unknown + " " + unit
	}
	return units.Round(*x, 0) + " " + unit
}

// The hour of least dry heat is one of heating only where it asks for heat.
func TestCasesOfHeatingAreNamedAsSuch(t *testing.T) {
	c := DesignCase{Name: "least sensible", HeatCase: HeatCase{SensibleBTUH: -2691}, Exhaust: "off"}
	assert.Equal(t, "heating, worst hour, exhaust off", c.Title())
	c.SensibleBTUH = 8833
	assert.Equal(t, "least sensible, exhaust off", c.Title())
	assert.Equal(t, "largest total", DesignCase{Name: "largest total", HeatCase: HeatCase{SensibleBTUH: -1}}.Title())
	assert.Equal(t, "no water given off", DesignCase{Canopy: "small plants"}.CanopyTitle())

	k := HeatCover{What: "heating", Case: "least sensible", State: "dehumidifiers off", Needed: number(4866.0)}
	assert.Equal(t, "worst hour", k.CaseTitle())
	assert.Equal(t, "heating, dehumidifiers off", k.Title())
	k.Needed = number(0.0)
	assert.Equal(t, "least sensible", k.CaseTitle())
}

func TestWhyAnAnswerIsOpenIsSaidOnce(t *testing.T) {
	got := CoverReasons([]HeatCover{
		{What: "total cooling", Needed: number(17_463.0), NeededWhy: "no sun", Covers: "cannot tell", CoversWithout: "no"},
		{What: "sensible cooling", Needed: number(17_463.0), NeededWhy: "no sun", Covers: "no", CoversWithout: "no"},
		{What: "water", NeededWhy: "watering is not given", Covers: "cannot tell", CoversWithout: "cannot tell"},
		{What: "heating", Why: "none is stated", Covers: "cannot tell", CoversWithout: "cannot tell"},
		{What: "heating", Why: "none is stated", Covers: "cannot tell", CoversWithout: "cannot tell"},
		{What: "latent", Unit: "BTU/h", Needed: number(61_129.0), Covers: "cannot tell", CoversWithout: "no", Cycling: &Cycling{13.7, 61_129, number(12_437.0)}},
		{What: "enough", Unit: "BTU/h", Needed: number(46_271.0), Covers: "yes", CoversWithout: "yes", Cycling: &Cycling{82, 46_271, number(76_527.0)}},
		{What: "left", Unit: "pint/day", Needed: number(84.0), Covers: "no", Cycling: &Cycling{13.7, 200, number(110.0)}},
	}, words)
	assert.Equal(t, []string{
		"total cooling: what is needed is a least value: no sun",
		"water: watering is not given",
		"heating: none is stated",
		"latent: the coil counts as running the whole hour; its sensible load keeps it on for 14 %: 61,129 BTU/h needed, 12,437 BTU/h there",
	}, got)
}

func TestSizesSayWhatTheyStandOn(t *testing.T) {
	r := HeatRoom{RoomHeat: RoomHeat{AtLeast: true, SunNotCounted: true, Cases: []DesignCase{{Name: "largest latent", HeatCase: HeatCase{LatentBTUH: 61_129}}}},
		Equipment: HeatEquipment{Sizes: []NextSize{{Count: 1, Tons: 12.5}}, SizedBy: "largest sensible", SizeLatent: number(37_500.0)}}
	assert.Equal(t, "Found from: largest sensible, without the sun. The margin is no part of the load. The water that has to be taken is not known.", r.SizesText(btus))
	r.Water, r.AtLeast, r.SunNotCounted = &HeatWater{}, false, false
	assert.Equal(t, "Found from: largest sensible. The margin is no part of the load. At the largest latent, 61,129 BTU/h, 1 x 12.5 ton takes up to 37,500 BTU/h of water while it runs; "+
		"the rest, 23,629 BTU/h, needs dehumidifiers.", r.SizesText(btus))
}

// 210,000 W at 480 V three-phase are 252.6 A; at 208 V single-phase they would be more.
func TestPowerOfASizeIsHeldAgainstThePanel(t *testing.T) {
	e := HeatEquipment{CoolingWatts: number(210_000.0), CoolingAmps: sizeAmps(210_000, []HeatPower{{Panel: "MDP", SpareAmps: number(139.4), Supplies: []HeatSupply{{277, 1, 1}, {480, 1, 2}, {480, 3, 3}}}})}
	assert.Equal(t, "210,000 W, estimated; it is in no panel of the plan; 253 A at 480 V three-phase and unity power factor, more than the 139.4 A spare on MDP", e.PowerText())
	e.CoolingAmps.SpareAmps = number(300.0)
	assert.NotContains(t, e.PowerText(), "more than")
	assert.Nil(t, sizeAmps(1, nil))
}

func TestReheatIsToldBeforeAndAfterDehumidifiers(t *testing.T) {
	w := Reheat{Day: "winter design day", Hour: 8, Lights: "off", Heating: 4866, Pints: 43, After: number(1866.0)}
	pints := func(x float64) string { return units.Round(x, 0) + " pint/day" }
	assert.Equal(t, "heating and dehumidifying in the same hour; lights off at 08:00 on the winter design day: 43 pint/day of water to remove and 4,866 BTU/h of heating "+
		"before the heat that the room's dehumidifiers give back, 1,866 BTU/h after it", w.Text(btus, pints))
	w.After = number(0.0)
	assert.Contains(t, w.Text(btus, pints), "give back covers")
	w.After = nil
	assert.Contains(t, w.Text(btus, pints), "would chill it further")
}

func TestWhatAHeatLacksIsNamed(t *testing.T) {
	assert.Equal(t, "without the sun", Block{AtLeast: true, SunNotCounted: true}.LeastTitle())
	assert.Equal(t, "a part is not known", RoomHeat{AtLeast: true, PartNotKnown: true}.LeastTitle())
	assert.Equal(t, "without the sun, and a part is not known", Block{PartNotKnown: true, SunNotCounted: true}.LeastTitle())
	assert.Empty(t, RoomHeat{}.LeastTitle())
}
