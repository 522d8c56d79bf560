package air

import "branchwork/loads/units"

// MassFlow is a flow of dry air in kilograms per second; the water it carries comes on
// top.
type MassFlow float64

// DryAir returns the dry air in an air flow v whose volume per kilogram of dry air is
// vol.
//
//	ṁ = V / v
//
// The flow is the one measured at that state: a fan moves the same cubic feet of thin
// or warm air, and less mass.
//
// Source: definition of the specific volume, ASHRAE Fundamentals 2017 ch. 1 (seen).
// Checked: G1 in the tests of loads/heat, F13, F14, F27 in testdata/published/heat.toml.
func DryAir(v units.Airflow, vol Volume) MassFlow {
	return MassFlow(float64(v) * units.CubicMetrePerHourPerCFM / 3600 / float64(vol))
}

// Carries returns the water that a flow of air takes along when it leaves with excess
// more water per mass of dry air than it came with.
//
//	w = ṁ · ΔW      a kilogram of water taken as a litre
//
// Source: definition of the humidity ratio (derived). Checked: F13c, F14b.
func (m MassFlow) Carries(excess HumidityRatio) units.WaterRate {
	return units.WaterRate(float64(m) * float64(excess) * 86400)
}
