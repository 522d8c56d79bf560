package heat

import (
	"math"

	"branchwork/loads/steps"
	"branchwork/loads/units"
)

// Sold returns the sizes of cooling equipment that the trade sells, in tons. Common
// practice, no source; that unitary equipment starts near 1.5 or 2 tons and jumps a
// ton between 4 and 5 is published (ACCA blog, seen).
func Sold() []float64 {
	return []float64{1, 1.5, 2, 2.5, 3, 3.5, 4, 5, 7.5, 10, 12.5, 15, 20, 25}
}

// NextSizes returns the two smallest choices of equal units whose capacity covers q,
// with the margin of each above it. left is the share of the rated capacity that
// remains at the site's altitude. Beyond the largest size several equal units are
// taken, as few as will do.
//
//	margin = n · tons · left / Q − 1
//
// The margin is no part of the load and is never added to it.
//
// Source: sizes common practice, no source; arithmetic derived.
func NextSizes(q units.Heat, left units.Ratio) []Size {
	if q <= 0 || left <= 0 {
		return nil
	}
	need := q.Tons() / float64(left)
	sold := Sold()
	largest := sold[len(sold)-1]
	n := max(1, int(math.Ceil(need/largest-units.Slack)))
	var out []Size
	last := 0.0
	for ; len(out) < 2; n++ {
		for _, tons := range sold {
			have := float64(n) * tons
			if !units.Exceeds(need, have) && have > last && len(out) < 2 {
				out = append(out, Size{Count: n, Tons: tons, Margin: units.Ratio(have/need - 1)})
				last = have
			}
		}
	}
	return out
}

// CoolingPower returns the electric power that cooling of capacity q draws at an
// energy efficiency ratio eer.
//
//	P = Q / EER      W, Q in BTU/h, EER in BTU/h per W at one stated point
//
// A seasonal ratio (SEER) is not an EER and gives too little power for a circuit.
//
// Source: mesubjects.net (seen).
func CoolingPower(q units.Heat, eer float64) units.Power {
	return units.Power(q.BTUPerHour() / eer)
}

// size picks the next sizes where no cooling is stated. The load is the larger of the
// total and of what the dry heat asks for at the usual share of a unit's capacity.
func (m *model) size(r *Room) {
	switch vented := r.Peak.Part(Ventilation).Total(); {
	case m.glazed():
		r.Equipment.SizesWhy = "walls or roof may let light through, and the sun, which is not counted, would then be a large part of the load"
		return
	case units.Exceeds(2*vented, r.Peak.Total()):
		r.Equipment.SizesWhy = "most of the load is the outdoor air that the exhaust draws in"
		return
	}
	total, sensible, err := Derating(m.inv.Site.Altitude.Or(0))
	if err != nil {
		m.note("sizes of cooling equipment: %v", err)
		return
	}
	need, left, by := r.Peak.Total(), total, "largest total"
	air := units.Times(r.Sensible.Hour.Sensible, 1/usualSensible)
	if units.Exceeds(air.Tons()/float64(sensible), need.Tons()/float64(total)) {
		need, left, by = air, sensible, "largest sensible, at 0.75 of a unit's capacity"
	}
	if need <= 0 {
		return
	}
	r.Equipment.Sizes = NextSizes(need, left)
	r.Equipment.SizedBy = by
	first := r.Equipment.Sizes[0]
	r.Equipment.SizeLatent = units.Times(units.FromTons(float64(first.Count)*first.Tons), float64(total)-usualSensible*float64(sensible))
	r.Equipment.CoolingPower = CoolingPower(units.FromTons(float64(first.Count)*first.Tons), usualEER)
	for _, s := range r.Equipment.Sizes {
		m.work.Add(steps.Step{Name: "size as sold, by " + by, Formula: "n · tons · left / Q − 1", Result: 100 * float64(s.Margin), Unit: "% margin",
			Cite: seen("acca-steps", ""), Inputs: []steps.Input{steps.In("n", float64(s.Count), ""), steps.In("tons", s.Tons, "ton"),
				steps.In("left", left, ""), steps.In("Q", need.Tons(), "ton")}})
	}
	m.work.Add(steps.Result("electric power of cooling of that size", "Q / EER", r.Equipment.CoolingPower, "W", seen("eer", ""),
		steps.In("Q", float64(first.Count)*first.Tons*units.BTUPerHourPerTon, "BTU/h"), steps.In("EER", float64(usualEER), "BTU/h per W")))
}
