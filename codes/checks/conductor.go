package checks

import (
	"fmt"

	"branchwork/codes"
	"branchwork/loads/units"
)

// ConductorFor names the conductor that the breaker of a circuit may protect, as a
// first reading before a selection.
func ConductorFor(f *codes.Facts) string {
	breaker := codes.Of[units.Current](f, codes.BreakerAmps)
	material, _ := codes.Get[string](f, codes.WireMaterial)
	size, ok := f.Book().Wires.Carrying(material, breaker, breaker)
	if !ok {
		return fmt.Sprintf("a conductor that a device of %s protects", breaker)
	}
	return fmt.Sprintf("a conductor that a device of %s may protect (%s)", breaker, size)
}

// VoltageDrop compares a drop with its limit: it is as its current, its length and its
// resistance are. The next size that keeps the limit is named.
func VoltageDrop(f *codes.Facts, drop, limit units.Ratio) codes.Verdict {
	v := codes.Within(100*float64(drop), 100*float64(limit), "%")
	has, most := v.Figures()
	times := float64(drop / max(limit, 1e-9))
	larger := "a conductor of " + units.Round(times, 2) + " times the area"
	if enough, _ := codes.Get[string](f, codes.WireEnough); enough != "" {
		larger = "a larger conductor (" + enough + " keeps the limit)"
	} else if size, ok := codes.Get[string](f, codes.WireSize); ok {
		if next, ok := f.Book().Wires.Enlarged(size, times); ok {
			larger += " (" + next + ")"
		}
	}
	less := units.Round(100*(1-float64(limit/max(drop, 1e-9))), 0)
	return v.Saying(fmt.Sprintf("take %s %% of its load off it, or have a licensed electrician run %s, or a run shorter by %s %%", less, larger, less),
		"its voltage drops by %s, %s is the limit", has, most)
}
