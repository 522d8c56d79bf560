package page

import (
	"encoding/json"
	"testing"

	"github.com/stretchr/testify/require"

	"branchwork/cmd/internal/document"
	"branchwork/loads/units"
)

// numbersOf demands that each number of a page's tables is one of the document, as it
// stands there or in one of the given conversions.
func numbersOf(t *testing.T, d any, p Page, convert ...func(float64) float64) {
	raw, err := json.Marshal(d)
	require.NoError(t, err)
	var doc any
	require.NoError(t, json.Unmarshal(raw, &doc))
	var figures []float64
	collect(doc, &figures)
	for _, f := range figures {
		for _, c := range convert {
			figures = append(figures, c(f))
		}
	}
	seen := 0
	for _, b := range p.Blocks {
		table, ok := b.(Table)
		if !ok {
			continue
		}
		for _, row := range table.Rows {
			require.Len(t, row, len(table.Columns), "table %s", table.ID)
			for _, c := range row {
				if c.numeric {
					seen++
					require.True(t, rounds(c, figures), "%s in table %s is no figure of the document", c.Data(), table.ID)
				}
			}
		}
	}
	require.Greater(t, seen, 20)
}

func TestEveryNumberOfTheSheetIsOneOfTheDocument(t *testing.T) {
	spaces, spare := 24, 7
	half := known(0.5)
	gain := document.HeatCase{SensibleBTUH: 107_713.4, LatentBTUH: 8_041.6, TotalBTUH: 115_755}
	design := document.DesignCase{Name: "largest total", HeatCase: gain, Tons: 9.6463, KW: 33.925, Ratio: known(0.9305)}
	d := document.Heat{Rooms: []document.HeatRoom{{
		RoomHeat: document.RoomHeat{Room: "flower", WattsInRoom: 33_748, PeakHour: 3, PeakTotalBTUH: 115_755, Tons: 9.6463, Cases: []document.DesignCase{design}, LightsOn: &design, LightsOff: &design,
			BySource: []document.HeatSource{{Source: "lights", SensibleBTUH: 95_813}}, WaterPintsPerDay: known(635.2)},
		Size: document.HeatSize{FloorFeet2: known(1200), Canopy: known(768)}, HeldOn: document.HeldState{TemperatureC: 27.78, HumidityPercent: 55, DewPointC: known(17.9), VPDKPa: 1.681},
		Loads: []document.HeatLoad{{Item: "bar", Count: 48, WattsEach: known(585), Watts: known(28_080)}}, Water: &document.HeatWater{PerDay: 635.2, AmountOn: 508.9, AmountOff: 126.3, LightsOn: 1017.8, LightsOff: 252.6},
		Equipment: document.HeatEquipment{Stated: []document.StatedUnit{{Item: "unit", Count: 2, CoolingBTUH: known(90_000), RemovesPints: known(280)}},
			Covers: []document.HeatCover{{Unit: "BTU/h", Needed: known(115_755), Installed: known(180_000), WithoutLargest: known(90_000)}}, Sizes: []document.NextSize{{Count: 2, Tons: 5, MarginPercent: 3.67}}, Estimated: []document.Estimated{{Watts: 12_001}}},
		Light: []document.LightCheck{{What: "lighting", Value: 36.56, Low: 12, High: 60, Unit: "W/ft²"}},
		Power: []document.HeatPower{{Panel: "LP1", MainAmps: known(400), RequiredAmps: 277.06, SpareAmps: known(122.94), Spaces: &spaces, SpareSpaces: &spare}},
		Days:  []document.HeatDay{{Hours: []document.HeatHour{{Hour: 4, LitPercent: 100, OutsideC: half, SetPointC: 27.78, HeatCase: gain, Watts: 33_748, RemovedRate: 546.5}}}},
	}}}
	fahrenheit := func(c float64) float64 { return units.Temperature(c).Fahrenheit() }
	numbersOf(t, d, Heat(d, System{}), fahrenheit)
	kilowatts := func(x float64) float64 { return float64(units.FromBTUPerHour(x)) / 1000 }
	litres := func(x float64) float64 { return x * units.LitrePerPint }
	square := func(x float64) float64 { return units.Area(x).SquareMetres() }
	perSquare := func(x float64) float64 { return x / units.Area(1).SquareMetres() }
	numbersOf(t, d, Heat(d, System{Metric: true}), kilowatts, litres, square, perSquare)
}

func TestEveryNumberOfTheDayIsOneOfTheDocument(t *testing.T) {
	hours := make([]document.DayHour, 24)
	legs := make([]document.DayLegHour, 24)
	for h := range hours {
		hours[h] = document.DayHour{Hour: h, Watts: 48_920.4 + float64(h), VA: 52_340.9, Coincident: 55_660.7, HeatBTUH: 118_695.3}
		legs[h] = document.DayLegHour{Hour: h, Amps: map[string]float64{"A": 134.72, "B": 184.06 + float64(h)}, Neutral: known(10.57)}
	}
	figures := document.DayFigures{Hours: hours, EnergyDay: 878.84, EnergyMonth: 26_731.4, LoadFactor: known(58.42), Peak: document.DayPeak{Watts: 62_651}, Demand: document.DayPeak{Watts: 65_797}}
	bill := document.DayBill{Lines: []document.DayBillLine{{Price: 0.1325, KWh: 26_731.4, Cost: 3_541.91}}, DemandWatts: 65_797, BilledWatts: 65_797, DemandCost: 921.15, Total: 4_463.06}
	some := document.StaggerFigures{PeakWatts: 62_651, DemandWatts: 65_797, LoadFactor: known(58.42), CoolingBTUH: 154_892, CostMonth: known(4_463.06),
		Services: []document.StaggerService{{Panel: "MDP", MostAmps: 219.66, Required: 277.06}}, Watts: make([]float64, 24)}
	d := document.Day{Season: "mean", DayFigures: figures, Rooms: []document.DayGroup{{Name: "flower", DayFigures: figures}, {Name: "veg", DayFigures: figures}},
		Categories: []document.DayGroup{{Name: "lighting", DayFigures: figures}}, Panels: []document.DayPanel{{Name: "MDP", Legs: []string{"A", "B"}, MainAmps: known(400), Required: 277.06, MostAmps: 219.66, Hours: legs}},
		Cost:    &document.DayCost{Currency: "USD", Month: 4_463.06, Energy: 3_541.91, Demand: 921.15, Summer: bill, Winter: bill, Seasonal: true},
		Stagger: &document.Stagger{Unit: "W", Used: known(65_797), Bound: known(65_797), Proved: true, Before: some, After: some, Rooms: []document.StaggerRoom{{Room: "flower", ByMinute: 1320}}},
		Missing: []document.DayMissing{{Path: "equipment.x", Count: 3}}}
	kilo := func(x float64) float64 { return x / 1000 }
	numbersOf(t, d, Day(d, System{}), kilo)
	numbersOf(t, d, Day(d, System{Metric: true}), kilo, func(x float64) float64 { return float64(units.FromBTUPerHour(x)) / 1000 })
}

func TestAMoveIsNamedByTheShorterWay(t *testing.T) {
	require.Equal(t, "2 h later", later(120))
	require.Equal(t, "2 h earlier", later(1320))
	require.Equal(t, "12 h later", later(720))
	require.Equal(t, "1.5 h earlier", later(1350))
}

func TestWhetherAStaggerIsProvedIsSaid(t *testing.T) {
	rooms := []document.StaggerRoom{{Room: "a", ByMinute: 60}}
	for _, c := range []struct {
		why  string
		x    document.Stagger
		want string
	}{
		{"proved", document.Stagger{Unit: "W", Used: known(40_000), Bound: known(40_000), Proved: true, Rooms: rooms}, "Proved: no other starts that the rooms may have give less than 40.00 kW."},
		{"proved as it is", document.Stagger{Unit: "W", Used: known(40_000), Bound: known(40_000), Proved: true}, "Proved: no other starts that the rooms may have give less than the present 40.00 kW; nothing was moved."},
		{"no room may", document.Stagger{Unit: "W", Proved: true, Why: "no room may move"}, "Nothing was moved: no room may move."},
		{"ended early", document.Stagger{Unit: "USD per month", Used: known(4000), Bound: known(3900), Why: "the search was ended after 150,000 nodes", Rooms: rooms},
			"Not proved the least: 4,000.00 USD per month; none can give less than 3,900.00 USD per month (the search was ended after 150,000 nodes)."},
		{"no tariff", document.Stagger{Unit: "USD per month", Why: "the file has no [tariff]"}, "Nothing was moved: the file has no [tariff]."},
	} {
		require.Equal(t, c.want, staggerProof(&c.x), c.why)
	}
}
