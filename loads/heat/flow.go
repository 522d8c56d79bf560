package heat

import (
	"branchwork/loads/air"
	"branchwork/loads/steps"
	"branchwork/loads/units"
)

// The two air-side factors of standard air at sea level, 0.075 lb/ft³, used as one
// pair: both are 60 × 0.075 = 4.5 lb/h per CFM times a property of the air.
// Factors of 1.10 (moist air) and 0.68 per grain (4,760 per lb/lb) are also in use;
// mixing a 0.68 with a 4,840 gives two answers 1.7 % apart.
//
// Source: Engineering ToolBox d_747 (seen).
const (
	sensibleFactor = 1.08 // BTU/h per CFM and °F: 4.5 × 0.240
	latentFactor   = 4840 // BTU/h per CFM and lb/lb: 4.5 × 1,076, rounded
)

func flowCite() steps.Cite { return seen("etb-d747", "") }

// SensibleOfAir returns the sensible heat that an air flow v brings when its
// temperature exceeds that of the room by rise.
//
//	Q = 1.08 · (p/p₀) · V · ΔT      BTU/h, V in CFM of room air, ΔT in °F
//
// against is p/p₀, the pressure against sea level (air.Pressure.AgainstSeaLevel), not the
// density of the standard atmosphere. The flow is of actual air; in a warm room the
// factor is 1 to 2 % too large, on the safe side.
//
// Source: Engineering ToolBox d_747 (seen). Checked: F6, F7, F8 in
// testdata/published/heat.toml.
func SensibleOfAir(v units.Airflow, rise units.TempDiff, against units.Ratio) units.Heat {
	return units.FromBTUPerHour(sensibleFactor * float64(against) * float64(v) * float64(rise) * 9 / 5)
}

// LatentOfAir returns the latent heat that an air flow v brings when its humidity
// ratio exceeds that of the room by excess, at pressure ratio against.
//
//	Q = 4840 · (p/p₀) · V · ΔW      BTU/h, V in CFM, ΔW in lb/lb
//
// Source: Engineering ToolBox d_747 (seen).
func LatentOfAir(v units.Airflow, excess air.HumidityRatio, against units.Ratio) units.Heat {
	return units.FromBTUPerHour(latentFactor * float64(against) * float64(v) * float64(excess))
}

// AirChange returns the air flow of perHour changes an hour of a room's volume, its
// length, width and height multiplied.
//
//	V = n · l · w · h / 60      CFM, dimensions in ft
//
// Source: definition; HVAC lesson M101 (seen). Checked: F8.
func AirChange(perHour float64, length, width, height units.Length) units.Airflow {
	return units.Airflow(perHour * float64(length) * float64(width) * float64(height) / 60)
}

// AirflowFor returns the air flow that carries off sensible heat q when it enters
// cooler than the room by fall, at pressure ratio against: SensibleOfAir solved for the
// flow. ok is false where the air is not cooler.
//
//	V = Q / (1.08 · (p/p₀) · ΔT)
//
// At altitude the same heat takes more cubic feet.
//
// Source: hvac-talk 85048 (seen).
func AirflowFor(q units.Heat, fall units.TempDiff, against units.Ratio) (v units.Airflow, ok bool) {
	if fall <= 0 || against <= 0 {
		return 0, false
	}
	return units.Airflow(q.BTUPerHour() / (sensibleFactor * float64(against) * float64(fall) * 9 / 5)), true
}

// Conduction returns the heat that comes through a surface of transmittance u and area a
// when the far side is warmer by rise.
//
//	Q = U · A · ΔT      BTU/h, U in BTU/(h·ft²·°F), A in ft², ΔT in °F
//
// Steady state; no sun on the surface, no heat stored in it.
//
// Source: Penn State EGEE 102 (seen). Checked: F9, F10, F11, F15.
func Conduction(u units.Transmittance, a units.Area, rise units.TempDiff) units.Heat {
	return units.FromBTUPerHour(float64(u) * float64(a) * float64(rise) * 9 / 5)
}

// rise returns how far a exceeds b.
func rise(a, b units.Temperature) units.TempDiff { return units.TempDiff(a - b) }
