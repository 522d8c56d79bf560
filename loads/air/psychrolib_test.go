package air_test

import (
	"bytes"
	"encoding/json"
	"math"
	"os"
	"os/exec"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"branchwork/codes/outside"
	"branchwork/loads/air"
	"branchwork/loads/units"
)

// script answers a list of {t, rh, p} on standard input with PsychroLib's figures.
const script = `
const p = require(process.argv[1]);
p.SetUnitSystem(p.SI);
const out = JSON.parse(require("fs").readFileSync(0)).map(s => {
  const w = p.GetHumRatioFromRelHum(s.T, s.RH, s.P);
  const wet = p.GetTWetBulbFromRelHum(s.T, s.RH, s.P);
  return {Pws: p.GetSatVapPres(s.T), W: w, Dew: p.GetTDewPointFromRelHum(s.T, s.RH), Wet: wet,
    H: p.GetMoistAirEnthalpy(s.T, w), V: p.GetMoistAirVolume(s.T, w, s.P), Rho: p.GetMoistAirDensity(s.T, w, s.P),
    VPD: p.GetVaporPressureDeficit(s.T, w, s.P), FromWet: p.GetHumRatioFromTWetBulb(s.T, wet, s.P)};
});
const atm = [];
for (let z = -500; z <= 10000; z += 250) atm.push(p.GetStandardAtmPressure(z));
process.stdout.write(JSON.stringify({states: out, atm: atm}));
`

type question struct{ T, RH, P float64 }

type answer struct{ Pws, W, Dew, Wet, H, V, Rho, VPD, FromWet float64 }

// TestGridAgreesWithPsychroLib compares 3,696 states from −20 to 90 °C, 2 to 100 %
// and sea level to 10,000 ft with PsychroLib, run fresh.
func TestGridAgreesWithPsychroLib(t *testing.T) {
	tool := outside.Module(t, "psychrolib")
	with := beside{
		ratios: outside.Compare(t, tool, "moist air", "saturation pressure, humidity ratio, enthalpy, volume, density", 1e-8, "of the value", 0),
		bulbs:  outside.Compare(t, tool, "moist air", "dew point and wet bulb", 0.002, "K", 0),
		vpd:    outside.Compare(t, tool, "moist air", "vapour pressure deficit", 1e-6, "of saturation", 0),
		air:    outside.Compare(t, tool, "moist air", "pressure of the standard atmosphere", 1e-6, "of the value", 0),
	}
	var grid []question
	for temp := -20.0; temp <= 90; temp += 2.5 {
		if temp == 0 {
			temp = 0.5 // at 0 °C PsychroLib's ice and liquid wet bulbs both hold
		}
		for _, rh := range []float64{0.02, 0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 0.95, 1} {
			for _, p := range []float64{101325, 97000, 92000, 89875, 84307, 79000, 69682} {
				grid = append(grid, question{temp, rh, p})
			}
		}
	}
	require.GreaterOrEqual(t, len(grid), 2000)
	var reply struct {
		States []answer  `json:"states"`
		Atm    []float64 `json:"atm"`
	}
	in, err := json.Marshal(grid)
	require.NoError(t, err)
	cmd := exec.Command("node", "-e", script, tool.At)
	cmd.Stdin, cmd.Stderr = bytes.NewReader(in), os.Stderr
	out, err := cmd.Output()
	require.NoError(t, err)
	require.NoError(t, json.Unmarshal(out, &reply))
	require.Len(t, reply.States, len(grid))
	for i, q := range grid {
		with.compare(t, q, reply.States[i])
		if t.Failed() {
			t.Fatalf("at %+v", q)
		}
	}
	for i, want := range reply.Atm {
		p, err := air.PressureAt(units.FromMetres(-500 + 250*float64(i)))
		require.NoError(t, err)
		with.air.Case(math.Abs(float64(p)/want-1), "%g Pa", want)
	}
}

// beside is what is compared with PsychroLib.
type beside struct{ ratios, bulbs, vpd, air *outside.Comparison }

// ratio compares a value as a share of it; a thousandth and less counts as one.
func (b beside) ratio(what string, want, got float64, q question) {
	b.ratios.Case(math.Abs(got-want)/math.Max(1e-3, math.Abs(want)), "%s at %+v", what, q)
}

func (b beside) compare(t *testing.T, q question, want answer) {
	db, rh, p := units.Temperature(q.T), units.Ratio(q.RH), air.Pressure(q.P)
	pws, err := air.SaturationPressure(db)
	require.NoError(t, err)
	pw, err := air.VapourPressure(db, rh)
	require.NoError(t, err)
	w, err := air.Humidity(pw, p)
	if pw >= p {
		require.Error(t, err)
		return
	}
	require.NoError(t, err)
	dew, err := air.DewPoint(pw)
	require.NoError(t, err)
	wet, err := air.WetBulb(db, w, p)
	require.NoError(t, err)
	vpd, err := air.Deficit(db, rh)
	require.NoError(t, err)
	b.ratio("saturation pressure", want.Pws, float64(pws), q)
	b.ratio("humidity ratio", want.W, float64(w), q)
	b.bulbs.Case(math.Abs(want.Dew-float64(dew)), "dew point at %+v", q)
	if d := math.Abs(want.Wet - float64(wet)); d <= 0.002 {
		b.bulbs.Case(d, "wet bulb at %+v", q)
	} else {
		// Near freezing a state may have a wet and a frozen wet bulb; PsychroLib
		// returns one or the other. Its answer has to satisfy our equation.
		assert.InDelta(t, 0, want.Wet, 1, "wet bulb")
		frozen, err := air.HumidityFromWetBulb(db, units.Temperature(want.Wet), p)
		require.NoError(t, err)
		near(t, "W at the frozen wet bulb", float64(w), float64(frozen), 1e-6)
	}
	b.ratio("enthalpy", want.H, float64(air.EnthalpyOf(db, w)), q)
	b.ratio("volume", want.V, float64(air.VolumeOf(db, w, p)), q)
	b.ratio("density", want.Rho, float64(air.DensityOf(db, w, p)), q)
	b.vpd.Case(math.Abs(want.VPD-float64(vpd))/want.Pws, "at %+v", q)
	fromWet, err := air.HumidityFromWetBulb(db, min(db, units.Temperature(want.Wet)), p)
	require.NoError(t, err)
	b.ratio("humidity ratio from wet bulb", want.FromWet, float64(fromWet), q)
}
