package air_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"branchwork/loads/air"
	"branchwork/loads/units"
)

// rowSI is one state worked by PsychroLib 2.5.0 in SI units: what the same equations
// give in another hand.
type rowSI struct {
	id       string
	t        units.Temperature
	rh       units.Ratio
	p        air.Pressure
	pws, pw  air.Pressure
	vpd      air.Pressure
	w        air.HumidityRatio
	dew, wet units.Temperature
	h        air.Enthalpy
	v        air.Volume
	rho      air.Density
}

// Tolerances: pws, pw, VPD 1e-4 and W 1e-5 of the value; dew point and wet bulb
// 0.002 °C, because PsychroLib stops its search at 0.001; h 1 J/kg; v and ρ 1e-5.
// They catch: ice and liquid swapped, the enthalpy without the vapour's own warmth,
// 0.622 for 0.621945 (9e-5 of W), a wet bulb on the perfect-gas slope of 0.00066.
func TestStatesAgreeWithPsychroLibInSI(t *testing.T) {
	for _, r := range []rowSI{
		{"S1", 18, 0.5, 101325, 2064.29, 1032.15, 1032.15, 0.0064006, 7.433, 12.140, 34330.3, 0.83328, 1.20775},
		{"S2", 20, 0.4, 101325, 2338.80, 935.52, 1403.28, 0.0057959, 6.004, 12.355, 34831.0, 0.83820, 1.19995},
		{"S4", 20, 0.75, 101325, 2338.80, 1754.10, 584.70, 0.0109566, 15.438, 17.067, 47930.0, 0.84509, 1.19627},
		{"S5", 22, 0.5, 101325, 2644.75, 1322.38, 1322.38, 0.0082242, 11.110, 15.425, 43037.4, 0.84718, 1.19009},
		{"S6", 24, 0.5, 101325, 2985.13, 1492.56, 1492.56, 0.0092985, 12.946, 17.068, 47814.6, 0.85438, 1.18133},
		{"S7", 24, 0.6, 101325, 2985.13, 1791.08, 1194.05, 0.0111917, 15.763, 18.605, 52634.0, 0.85694, 1.18000},
		{"S8", 25, 0.5, 101325, 3169.22, 1584.61, 1584.61, 0.0098810, 13.864, 17.889, 50322.0, 0.85804, 1.17696},
		{"S10", 25, 0.8, 101325, 3169.22, 2535.37, 633.84, 0.0159618, 21.309, 22.380, 65812.7, 0.86630, 1.17276},
		{"S11", 26, 0.55, 101325, 3363.13, 1849.72, 1513.41, 0.0115649, 16.267, 19.537, 55639.2, 0.86322, 1.17186},
		{"S13", 28, 0.7, 101325, 3782.21, 2647.54, 1134.66, 0.0166870, 22.017, 23.686, 70771.2, 0.87601, 1.16058},
		{"S14", 30, 0.5, 101325, 4246.03, 2123.02, 2123.02, 0.0133102, 18.447, 22.005, 64211.5, 0.87717, 1.15521},
		{"S15", 32, 0.4, 101325, 4758.53, 1903.41, 2855.12, 0.0119071, 16.717, 21.610, 62680.3, 0.88100, 1.14858},
		{"S16", 35, 0.4, 101325, 5627.82, 2251.13, 3376.69, 0.0141317, 19.385, 23.934, 71473.2, 0.89279, 1.13592},
		{"S17", 10, 1, 101325, 1228.00, 1228.00, 0.00, 0.0076301, 10.000, 10.000, 29284.7, 0.81197, 1.24097},
		{"S18", 13, 0.95, 101325, 1497.81, 1422.92, 74.89, 0.0088585, 12.218, 12.539, 35447.2, 0.82218, 1.22706},
		{"A1", 24, 0.6, 89875, 2985.13, 1791.08, 1194.05, 0.0126465, 15.763, 18.393, 56337.4, 0.96833, 1.04576},
		{"A3", 18, 0.5, 84307, 2064.29, 1032.15, 1032.15, 0.0077087, 7.433, 11.695, 37645.5, 1.00357, 1.00412},
		{"A4", 24, 0.6, 84307, 2985.13, 1791.08, 1194.05, 0.0134998, 15.763, 18.282, 58509.7, 1.03367, 0.98048},
		{"A5", 26, 0.55, 84307, 3363.13, 1849.72, 1513.41, 0.0139518, 16.267, 19.164, 61724.1, 1.04137, 0.97367},
		{"A6", 28, 0.7, 84307, 3782.21, 2647.54, 1134.66, 0.0201646, 22.017, 23.475, 79649.7, 1.05858, 0.96371},
		{"A8", 26, 0.55, 69682, 3363.13, 1849.72, 1513.41, 0.0169599, 16.267, 18.802, 69392.8, 1.26590, 0.80335},
		{"A9", 24, 0.5, 69682, 2985.13, 1492.56, 1492.56, 0.0136134, 12.946, 16.196, 58798.9, 1.25085, 0.81034},
		// Over ice.
		{"ice-5", -5, 0.8, 101325, 401.764, 321.411, 80.3528, 0.00197914, -7.5853, -5.8840, -98.58, 0.762055, 1.314838},
		{"ice-20", -20, 0.7, 89875, 103.26038, 72.28227, 30.97811, 0.000500604, -23.6626, -20.5084, -18886.6, 0.809159, 1.236470},
		{"ice-40", -40, 0.9, 101325, 12.845249, 11.560724, 1.284525, 0.0000709692, -40.9275, -40.0213, -40067.8, 0.660562, 1.513969},
		{"frozen", 2, 0.3, 101325, 705.9544, 211.7863, 494.1681, 0.00130269, -12.2859, -2.7560, 5274.88, 0.781101, 1.281912},
	} {
		t.Run(r.id, func(t *testing.T) {
			pws, err := air.SaturationPressure(r.t)
			require.NoError(t, err)
			pw, err := air.VapourPressure(r.t, r.rh)
			require.NoError(t, err)
			vpd, err := air.Deficit(r.t, r.rh)
			require.NoError(t, err)
			w, err := air.HumidityOf(r.t, r.rh, r.p)
			require.NoError(t, err)
			dew, err := air.DewPoint(pw)
			require.NoError(t, err)
			wet, err := air.WetBulb(r.t, w, r.p)
			require.NoError(t, err)
			near(t, "pws", r.pws, pws, 1e-4*r.pws)
			near(t, "pw", r.pw, pw, 1e-4*r.pw)
			near(t, "VPD", r.vpd, vpd, max(1e-4*r.vpd, 0.005))
			near(t, "W", r.w, w, 1e-5*r.w)
			near(t, "dew point", r.dew, dew, 0.002)
			near(t, "wet bulb", r.wet, wet, 0.002)
			near(t, "enthalpy", r.h, air.EnthalpyOf(r.t, w), 1)
			near(t, "volume", r.v, air.VolumeOf(r.t, w, r.p), 1e-5)
			near(t, "density", r.rho, air.DensityOf(r.t, w, r.p), 1e-5)
		})
	}
}

// rowIP is one state worked by PsychroLib 2.5.0 in inch-pound units.
type rowIP struct {
	id               string
	f                float64 // dry bulb, °F
	rh               units.Ratio
	psia, pws, vpd   float64
	w                air.HumidityRatio
	grains, dew, wet float64
	h, v, rho        float64
}

// The inch-pound equations round their constants apart from the SI ones, and we
// calculate in SI: wet bulbs differ by up to 0.007 °F, so 0.01 °F is allowed there.
// Enthalpy and volume are compared in both sets: EnthalpyIP and VolumeIP at the digits
// shown, VolumeOf converted at 2e-5.
func TestStatesAgreeWithPsychroLibInInchPound(t *testing.T) {
	for _, r := range []rowIP{
		{"I1", 55, 1, 14.696, 0.214101, 0.000000, 0.0091949, 64.36, 55.000, 55.000, 23.1803, 13.1666, 0.076648},
		{"I3", 68, 0.5, 14.696, 0.339215, 0.169607, 0.0072617, 50.83, 48.690, 56.805, 24.2439, 13.4579, 0.074846},
		{"I4", 70, 0.5, 14.696, 0.363277, 0.181639, 0.0077833, 54.48, 50.528, 58.448, 25.3000, 13.5201, 0.074540},
		{"I5", 75, 0.5, 14.696, 0.430075, 0.215037, 0.0092357, 64.65, 55.120, 62.552, 28.1066, 13.6792, 0.073779},
		{"I6", 75, 0.6, 14.696, 0.430075, 0.172030, 0.0111158, 77.81, 60.186, 65.312, 30.1640, 13.7199, 0.073697},
		{"I7", 78, 0.55, 14.696, 0.475101, 0.213795, 0.0112588, 78.81, 60.539, 66.486, 31.0555, 13.8000, 0.073279},
		{"I8", 80, 0.5, 14.696, 0.507354, 0.253677, 0.0109244, 76.47, 59.707, 66.662, 31.1788, 13.8440, 0.073022},
		{"I10", 82, 0.65, 14.696, 0.541499, 0.189524, 0.0152613, 106.83, 69.075, 72.849, 36.4279, 13.9906, 0.072568},
		{"I11", 85, 0.5, 14.696, 0.596465, 0.298232, 0.0128828, 90.18, 64.288, 70.780, 34.5549, 14.0156, 0.072268},
		{"I13", 95, 0.4, 14.696, 0.816246, 0.489748, 0.0141316, 98.92, 66.892, 75.076, 38.3897, 14.3010, 0.070914},
		{"IA1", 78, 0.55, 13.416, 0.475101, 0.213795, 0.0123543, 86.48, 60.539, 66.148, 32.2558, 15.1428, 0.066854},
		{"IA2", 78, 0.55, 12.228, 0.475101, 0.213795, 0.0135808, 95.07, 60.539, 65.813, 33.5996, 16.6461, 0.060890},
		{"IA4", 78, 0.55, 11.126, 0.475101, 0.213795, 0.0149583, 104.71, 60.539, 65.483, 35.1088, 18.3345, 0.055358},
		{"IA5", 78, 0.55, 10.107, 0.475101, 0.213795, 0.0165065, 115.55, 60.539, 65.159, 36.8050, 20.2321, 0.050242},
	} {
		t.Run(r.id, func(t *testing.T) {
			db, p := units.FromFahrenheit(r.f), air.FromPSI(r.psia)
			pws, err := air.SaturationPressure(db)
			require.NoError(t, err)
			pw, err := air.VapourPressure(db, r.rh)
			require.NoError(t, err)
			vpd, err := air.Deficit(db, r.rh)
			require.NoError(t, err)
			w, err := air.Humidity(pw, p)
			require.NoError(t, err)
			dew, err := air.DewPoint(pw)
			require.NoError(t, err)
			wet, err := air.WetBulb(db, w, p)
			require.NoError(t, err)
			near(t, "pws", r.pws, pws.PSI(), 1e-4*r.pws)
			near(t, "VPD", r.vpd, vpd.PSI(), max(1e-4*r.vpd, 5e-7))
			near(t, "W", r.w, w, 1e-5*r.w)
			near(t, "grains", r.grains, w.Grains(), 0.005)
			near(t, "dew point", r.dew, dew.Fahrenheit(), 0.002)
			near(t, "wet bulb", r.wet, wet.Fahrenheit(), 0.01)
			near(t, "enthalpy", r.h, air.EnthalpyIP(db, w), 1e-4)
			near(t, "volume", r.v, air.VolumeIP(db, w, p), 1e-4)
			near(t, "density", r.rho, (1+float64(w))/air.VolumeIP(db, w, p), 1e-6)
			si := float64(air.VolumeOf(db, w, p)) / air.CubicMetrePerKilogramPerCubicFootPerPound
			near(t, "volume from SI", r.v, si, 2e-5*r.v)
		})
	}
}

// From the wet bulb, PsychroLib in inch-pound units. Its humidity ratio differs from
// the SI equation's by up to 1e-5, which is what the tolerances allow.
func TestStatesFromWetBulbAgreeWithPsychroLib(t *testing.T) {
	for _, r := range []struct {
		db, wb        float64
		w             air.HumidityRatio
		dew, rh, h, v float64
	}{
		{80, 67, 0.0111692, 60.318, 0.51101, 31.4472, 13.8494}, // rating state of cooling coils
		{95, 75, 0.0140652, 66.759, 0.39816, 38.3164, 14.2995},
		{92, 76, 0.0156447, 69.783, 0.48471, 39.3181, 14.2574},
		{100, 65, 0.0051895, 39.976, 0.12797, 29.7365, 14.2270},
	} {
		p, db := air.FromPSI(14.696), units.FromFahrenheit(r.db)
		w, err := air.HumidityFromWetBulb(db, units.FromFahrenheit(r.wb), p)
		require.NoError(t, err)
		near(t, "W", r.w, w, 1e-5)
		rh, err := air.RelativeHumidity(db, w, p)
		require.NoError(t, err)
		near(t, "relative humidity", r.rh, float64(rh), 4e-4)
		dew, err := air.DewPoint(w.VapourPressure(p))
		require.NoError(t, err)
		near(t, "dew point", r.dew, dew.Fahrenheit(), 0.05)
		near(t, "enthalpy", r.h, air.EnthalpyIP(db, w), 0.012)
		near(t, "volume", r.v, air.VolumeIP(db, w, p), 3e-4)
	}
}

// With a frozen wick. Half a unit of the last digit shown.
func TestStatesFromFrozenWetBulbAgreeWithPsychroLib(t *testing.T) {
	for _, r := range []struct {
		db, wb units.Temperature
		w      air.HumidityRatio
	}{{1, -2, 0.0021236910}, {-3, -5, 0.0017629244}} {
		w, err := air.HumidityFromWetBulb(r.db, r.wb, air.SeaLevel)
		require.NoError(t, err)
		near(t, "W", r.w, w, 5e-11)
	}
}

func TestLeafDeficitCountsTheLeafsOwnTemperature(t *testing.T) {
	for _, r := range []struct {
		leaf, t units.Temperature
		rh      units.Ratio
		want    air.Pressure
	}{
		{25, 26, 0.55, 1319.49},
		{24, 26, 0.55, 1135.40},
		{26, 28, 0.70, 715.59},
		{22.5, 24, 0.60, 935.42},
	} {
		got, err := air.LeafDeficit(r.leaf, r.t, r.rh)
		require.NoError(t, err)
		near(t, "leaf VPD", r.want, got, 1e-4*r.want)
	}
	// A leaf below the dew point gathers water: the deficit is negative, not zero.
	got, err := air.LeafDeficit(10, 26, 0.55)
	require.NoError(t, err)
	assert.Negative(t, float64(got))
}

func near[T ~float64](t *testing.T, what string, want, got, tol T) {
	t.Helper()
	assert.InDelta(t, float64(want), float64(got), float64(tol), what)
}
