package checks

import (
	"fmt"

	"branchwork/loads/units"
)

// LessDrop is the remedy of a drop beyond its limit: a drop is as its current, its
// length, and the inverse of its conductor's area.
func LessDrop(drop, limit units.Ratio) string {
	less := units.Round(100*(1-float64(limit/max(drop, 1e-9))), 0)
	return fmt.Sprintf("take %s %% of its load off it, or have a licensed electrician run a conductor of %s times the area, or a run shorter by %s %%",
		less, units.Round(float64(drop/max(limit, 1e-9)), 2), less)
}
