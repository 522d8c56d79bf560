package air

import (
	"branchwork/loads/steps"
	"branchwork/loads/units"
)

// Deficit returns the vapour pressure deficit of air at temperature t and relative
// humidity rh: how far it is from saturation.
//
//	VPD = pws(t) · (1 − rh)
//
// Source: Oke, Boundary Layer Climates (1987), eq. 2.13a, as a general
// psychrometrics library cites it (seen there).
func Deficit(t units.Temperature, rh units.Ratio) (Pressure, error) {
	return LeafDeficit(t, t, rh)
}

// LeafDeficit returns the deficit between the inside of a leaf, taken as saturated
// at the leaf's temperature, and the air around it.
//
//	VPD = pws(leaf) − rh · pws(t)
//
// It is negative where the leaf is below the air's dew point: water condenses on
// it.
//
// Source: definition of the leaf form, general encyclopaedia (seen).
func LeafDeficit(leaf, t units.Temperature, rh units.Ratio) (Pressure, error) {
	inside, err := SaturationPressure(leaf)
	if err != nil {
		return 0, err
	}
	around, err := VapourPressure(t, rh)
	return inside - around, err
}

// DeficitCite is the source of Deficit.
func DeficitCite() steps.Cite { return steps.Cite{Ref: "oke-1987", At: "eq. 2.13a", How: steps.Seen} }

// Latent is a latent heat in joules per kilogram of water.
type Latent float64

// LatentHeat returns the heat that a kilogram of water takes up when it
// evaporates at temperature t.
//
//	λ = 2.501 − 0.002361·t      MJ/kg, t in °C
//
// t runs from 0 to 50 °C; beyond it is a RangeError. Agrees with a published table
// within 0.03 % from 0 to 18 °C.
//
// It is not the 2.257 MJ/kg (970 BTU/lb) of boiling water, which trade pages use
// for moisture at room temperature and come out 8 % low.
//
// Source: FAO expert consultation 1990, annex V (seen).
func LatentHeat(t units.Temperature) (Latent, error) {
	if err := within("temperature", t, 0, 50, "°C"); err != nil {
		return 0, err
	}
	return Latent(1e6 * (2.501 - 0.002361*float64(t))), nil
}

// LatentCite is the source of LatentHeat.
func LatentCite() steps.Cite { return steps.Cite{Ref: "fao-1990", At: "annex V", How: steps.Seen} }

// BTUPerPound returns a latent heat in BTU per pound.
func (l Latent) BTUPerPound() float64 { return float64(l) / JoulePerKilogramPerBTUPerPound }

// Of returns the heat that water evaporating at a given rate takes up.
//
//	Q = λ · ṁ / 86 400      W, ṁ in kg per day, a litre of water taken as a kilogram
//
// A litre of water at 20 °C is 0.998 kg; factors built on 8.33 lb to the gallon are
// 0.2 % lower.
//
// Source: definition of the latent heat (derived).
func (l Latent) Of(rate units.WaterRate) units.Heat {
	return units.Heat(float64(l) * float64(rate) / 86400)
}

// Water returns the rate of water whose evaporation takes up heat q; Of reversed.
//
// Source: as Of.
func (l Latent) Water(q units.Heat) units.WaterRate {
	return units.WaterRate(float64(q) * 86400 / float64(l))
}
