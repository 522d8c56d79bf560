package checks

import (
	"branchwork/codes"
	"branchwork/loads/units"
)

// VoltageDropTotal asks of circuits behind a feeder. What a transformer between
// them loses is not counted.
func VoltageDropTotal(f *codes.Facts) codes.Verdict {
	if f.No(codes.FedThrough) {
		return codes.NotConcerned()
	}
	branch, before := codes.Of[units.Ratio](f, codes.DropShare), codes.Of[units.Ratio](f, codes.FeederDrop)
	limit := f.Book().Drop.Total
	v := codes.Within(100*float64(branch+before), 100*float64(limit), "%")
	has, most := v.Figures()
	return v.Saying("enlarge the feeder or the circuit until "+units.Round(v.Actual.Value-v.Limit.Value, 2)+" % less is lost",
		"feeders drop %s %% and the circuit %s %%, together %s; %s is the limit", units.Round(100*float64(before), 2), units.Round(100*float64(branch), 2), has, most)
}
