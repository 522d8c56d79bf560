package checks

import (
	"branchwork/codes"
	"branchwork/loads/units"
)

// LoadVoltage asks whether equipment accepts its supply.
func LoadVoltage(f *codes.Facts) codes.Verdict {
	volts := codes.Of[units.Voltage](f, codes.Volts)
	v := codes.Whether(f.Yes(codes.Accepts))
	v.Actual = units.Any{Value: float64(volts), Unit: "V"}
	supply := volts.String()
	if codes.Of[int](f, codes.PhaseCount) == 3 {
		supply += " three-phase"
	}
	accepted := codes.Of[string](f, codes.Accepted)
	return v.Saying("move it to a circuit of "+accepted+", or use equipment made for "+supply,
		"the circuit supplies %s, it accepts %s", supply, accepted)
}
