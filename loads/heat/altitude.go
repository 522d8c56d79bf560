package heat

import (
	"branchwork/loads/air"
	"branchwork/loads/steps"
	"branchwork/loads/units"
)

// derate is what is left of a cooling unit's rated capacity at altitude.
type derate struct {
	total, sensible float64
}

// derating is the published table for packaged air-cooled equipment: thinner air
// moves less heat through the coil, the dry part most of all.
var derating = []struct {
	feet float64
	left derate
}{
	{0, derate{1, 1}}, {2500, derate{0.98, 0.92}}, {5000, derate{0.96, 0.85}}, {7500, derate{0.94, 0.78}}, {10000, derate{0.92, 0.71}},
}

// Derating returns the shares of its rated total and sensible capacity that
// air-cooled cooling equipment keeps at altitude z. Between the rows of the table the
// line is straight; below sea level nothing is gained. Above 10,000 ft the table ends
// and a RangeError is returned.
//
// Source: load-calculation handbook table 4-2 (seen): packaged air-cooled units of
// sensible heat ratio 0.40 to 0.95.
func Derating(z units.Length) (total, sensible units.Ratio, err error) {
	feet := max(0, float64(z))
	for i := 1; i < len(derating); i++ {
		a, b := derating[i-1], derating[i]
		if feet <= b.feet {
			x := (feet - a.feet) / (b.feet - a.feet)
			return units.Ratio(a.left.total + x*(b.left.total-a.left.total)), units.Ratio(a.left.sensible + x*(b.left.sensible-a.left.sensible)), nil
		}
	}
	return 0, 0, &air.RangeError{What: "altitude", Value: feet, Low: 0, High: 10000, Unit: "ft"}
}

func deratingCite() steps.Cite { return seen("altitude-4-2", "") }
