package cli

import (
	"encoding/json"
	"math"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"branchwork/cmd/internal/document"
)

// reportOn works a site out and returns what its report is made of.
func reportOn(t *testing.T, file string) (document.Results, document.Report) {
	t.Helper()
	s := silent()
	src, shown, err := readInput(s, file)
	require.NoError(t, err)
	inv, p, err := parseSite(s, shown, src, "", defaultWidth)
	require.NoError(t, err)
	r, err := silent().work(inv, p, false)
	require.NoError(t, err)
	return r, document.NewReport(document.ReportOf{Results: r, Legs: legsOfDay(inv, r.Set, p, r.Plan), Raceways: raceways(r)})
}

func eachSite(t *testing.T, check func(t *testing.T, r document.Results, d document.Report)) {
	files, err := filepath.Glob(filepath.Join(top, "testdata", "sites", "*.toml"))
	require.NoError(t, err)
	require.NotEmpty(t, files)
	for _, f := range files {
		t.Run(strings.TrimSuffix(filepath.Base(f), ".toml"), func(t *testing.T) {
			r, d := reportOn(t, f)
			check(t, r, d)
		})
	}
}

// TestFloorPlansStandWhereTheHomeRunsWereMeasuredTo holds the drawing to the
// plan: the length of a new lighting circuit is the room's run and the way along
// the rows to its first unit, as it is drawn.
func TestFloorPlansStandWhereTheHomeRunsWereMeasuredTo(t *testing.T) {
	compared := 0
	eachSite(t, func(t *testing.T, r document.Results, d document.Report) {
		for _, f := range d.Floors {
			run := 0.0
			for _, x := range r.Inventory.Rooms {
				if x.Name == f.Room {
					run = float64(x.Run.Or(0))
				}
			}
			for _, c := range d.Plan.Circuits {
				if c.Existing || len(c.Loads) != 1 || c.Loads[0].Item != f.Item || c.Conductor.LengthFeet == nil || !f.Placed {
					continue
				}
				first := f.Units[c.Loads[0].FirstUnit-1]
				require.Equal(t, c.Name, first.Circuit)
				// unit 1 stands at the first outlet; rows are walked there and back
				way := math.Abs(*first.AlongFeet-*f.Units[0].AlongFeet) + *first.AcrossFeet - *f.Units[0].AcrossFeet
				require.InDelta(t, *c.Conductor.LengthFeet, run+way, 1e-6, "%s in %s", c.Name, f.Room)
				compared++
			}
		}
	})
	require.Greater(t, compared, 100)
}

func TestEveryUnitIsDrawnOnceWithItsCircuit(t *testing.T) {
	eachSite(t, func(t *testing.T, _ document.Results, d document.Report) {
		on := map[string]int{}
		for _, c := range d.Plan.Circuits {
			for _, l := range c.Loads {
				on[l.Item+"\x00"+c.Name] += l.Count
			}
		}
		for _, f := range d.Floors {
			require.Len(t, f.Units, f.Count)
			drawn := map[string]int{}
			for i, u := range f.Units {
				require.Equal(t, i+1, u.Number)
				drawn[u.Circuit]++
			}
			for circuit, n := range drawn {
				if circuit != "" {
					require.Equal(t, on[f.Item+"\x00"+circuit], n, "%s on %s", f.Item, circuit)
				}
			}
		}
	})
}

// TestLoadSheetsAddUp: groups, other load and what is not added make the demand
// that the panel was judged by, and the classes of the letter hold every load.
func TestLoadSheetsAddUp(t *testing.T) {
	eachSite(t, func(t *testing.T, _ document.Results, d document.Report) {
		require.NotEmpty(t, d.Services)
		for _, s := range d.Services {
			sum := s.ConnectedVA + s.AllowanceVA - s.NotAddedVA
			for _, more := range []*float64{s.OtherVA, s.MeasuredVA} {
				if more != nil {
					sum += *more
				}
			}
			require.InDelta(t, s.DemandVA, sum, 1, "demand of %s", s.Panel)
			require.GreaterOrEqual(t, s.NotAddedVA, 0.0)
			var va float64
			for _, c := range s.Classes {
				va += *c.VA
			}
			require.InDelta(t, s.ConnectedVA, va, 0.01, "classes of %s", s.Panel)
			require.GreaterOrEqual(t, s.DemandWatts, s.PeakWatts-1e-6)
		}
	})
}

// TestDirectoriesAgreeWithThePlan: each pole of each breaker is on the leg that
// the plan gave it, and the legs add up to what is connected.
func TestDirectoriesAgreeWithThePlan(t *testing.T) {
	eachSite(t, func(t *testing.T, r document.Results, d document.Report) {
		for i, x := range d.Directories {
			legs := map[int]string{}
			var slots float64
			for _, row := range x.Rows {
				legs[row.Left.Space], legs[row.Right.Space] = row.Leg, row.Leg
				for _, x := range []*float64{row.Left.VA, row.Right.VA} {
					if x != nil {
						slots += *x
					}
				}
			}
			var sum float64
			for _, l := range x.LegVA {
				sum += *l.VA
			}
			p := d.Plan.Panels[i]
			require.InDelta(t, p.ConnectedVA, sum, 0.5, p.Name)
			require.InDelta(t, sum, slots, 0.5, p.Name)
			for _, c := range d.Plan.Circuits {
				if c.Panel != x.Panel {
					continue
				}
				for k, n := range c.Spaces {
					require.Equal(t, c.Legs[k], legs[n], "%s, space %d", c.Name, n)
				}
			}
		}
	})
}

func TestEveryNewRunHasARaceway(t *testing.T) {
	eachSite(t, func(t *testing.T, _ document.Results, d document.Report) {
		for _, h := range d.HomeRuns {
			if h.Existing || h.Wires[0].Size == nil {
				continue
			}
			require.NotNil(t, h.Raceway, "%s%s", h.Circuit, h.Feeds)
			require.NotEmpty(t, h.Raceway.Trade, h.Raceway.Why)
			require.LessOrEqual(t, h.Raceway.FillPercent, h.Raceway.AllowedPercent+5, "within the fill, or by count where all are of one size")
			n := 0
			for _, w := range h.Wires {
				n += w.Count
			}
			require.Equal(t, n*h.OnCircuits, h.Raceway.Conductors)
		}
	})
}

func TestBillOfMaterialsBuysEveryNewBreakerOnce(t *testing.T) {
	eachSite(t, func(t *testing.T, _ document.Results, d document.Report) {
		want, got := 0, 0
		for _, c := range d.Plan.Circuits {
			if !c.Existing && c.BreakerAmps != nil {
				want++
			}
		}
		for _, p := range d.Plan.Panels {
			if p.Feeder != nil && !p.Feeder.Existing && p.Feeder.BreakerAmps != nil {
				want++
			}
		}
		for _, b := range d.Materials.Breakers {
			got += b.Count
		}
		require.Equal(t, want, got)
	})
}

// A motor that no table here has draws an unknown current: the report says so and
// does not add it up as nothing. By hand: 10 A at 120 V are the 1,200 VA that are known.
func TestReportAddsNoUnknownCurrentAsNothing(t *testing.T) {
	const site = `
[site]
name = "An invented pump room"
use = "commercial"
code = "cec-2024"
[panels.P]
system = "120/240 V 1ph"
main = "100 A"
spaces = 12
[rooms.r]
panel = "P"
lights = "06:00-18:00"
run = "20 m"
[fixtures.bar]
room = "r"
count = 2
power = "600 W"
power_factor = 1.0
voltage = "120 V"
wired = true
[equipment.pump]
kind = "pump"
room = "r"
hp = "1 hp"
voltage = "240 V"
[circuits.P-1]
panel = "P"
spaces = [1]
breaker = "20 A"
conductor = "12 AWG copper"
feeds = { bar = 2 }
[circuits.P-2]
panel = "P"
spaces = [2, 4]
breaker = "20 A"
conductor = "12 AWG copper"
feeds = { pump = 1 }
`
	status, out, errs := ran(site, "report", "--format", "json", "-")
	require.Equal(t, statusBroken, status, errs)
	var d document.Report
	require.NoError(t, json.Unmarshal([]byte(out), &d))
	for _, e := range d.Equipment {
		if e.Item == "pump" {
			require.NotEmpty(t, e.Circuits)
			require.Nil(t, e.AmpsEach)
			require.Nil(t, e.VAEach)
			require.Nil(t, e.VAAll)
		}
	}
	require.Nil(t, d.ConnectedVA)
	require.True(t, d.Services[0].LeastLoad)
	require.InDelta(t, 1200, d.Services[0].ConnectedVA, 1e-6)
	for _, c := range d.Plan.Circuits {
		if c.Name == "P-2" {
			require.Equal(t, []*float64{nil, nil, nil, nil}, []*float64{c.LoadAmps, c.ContinuousAmps, c.RequiredAmps, c.FreeAmps})
			require.Nil(t, c.Loads[0].AmpsEach)
			require.Nil(t, c.Loads[0].VAEach)
		} else {
			require.InDelta(t, 10, *c.LoadAmps, 1e-6)
		}
	}
	p := d.Plan.Panels[0]
	require.True(t, p.LeastLoad)
	require.Nil(t, p.ImbalancePercent, "a pump between the legs evens them out")
	require.Nil(t, p.NeutralAmps)
	for _, s := range d.Plan.Scarce {
		require.Equal(t, s.What != "spaces", s.AtLeast, s.What)
		require.True(t, !s.AtLeast || s.Buys == "", "nobody knows what is left")
	}
	door := d.Directories[0]
	require.Nil(t, door.Rows[0].Right.VA, "space 2 is the pump's")
	require.InDelta(t, 1200, *door.Rows[0].Left.VA, 1e-6)
	require.Nil(t, door.LegVA[0].VA)
	require.Nil(t, d.OneLine[0].Groups[1].VA)
	require.Nil(t, d.Services[0].MarginAmps)
	require.Nil(t, d.Heat.Rooms[0].Power[0].SpareAmps)
	_, page, _ := ran(site, "report", "--format", "markdown", "-")
	require.Contains(t, page, "| pump | 1 | P-2 findings 3, 4 | P | 2,4 | 20 | ? | ? | ? |", "which breaker feeds what")
	require.Contains(t, page, "| water | ? | ? | ? | ? | ? |", "load calculation")
	require.Contains(t, page, "| **Calculated load, a least value** |  |  |  |  | **1,500** |")
	require.Contains(t, page, "or more asked of the fullest leg")
	_, screen, _ := ran(site, "check", "-")
	require.Contains(t, screen, "amperes and volt-amperes here are least values")
	require.Regexp(t, `P-2 .* 1 x pump +\? +\?\n`, screen)
	_, day, _ := ran(site, "day", "-")
	require.Contains(t, day, "Amperes of panel P are least values")
	require.Regexp(t, `06:00 +10\.0 +0\.0 +\?\n`, day, "legs A and B, neutral")
	require.Regexp(t, `main of P: 12\.5 of 100 A, 12\.5 %, or more`, screen)
	require.Contains(t, page, "the current of a load is not known; see the findings")
	require.Contains(t, page, "| pumps | 1 | ? | ? |")
	require.Contains(t, page, "| **All** |  | **?** | **?** |")
}

// What a thing has and the file does not give is shown as unknown, not left blank.
func TestReportShowsWhatIsNotGivenAsUnknown(t *testing.T) {
	const site = `
[site]
name = "An invented room"
use = "commercial"
code = "nec-2023"
[panels.P]
system = "120/240 V 1ph"
main = "100 A"
spaces = 12
[rooms.r]
panel = "P"
lights = "06:00-18:00"
run = "20 ft"
[fixtures.bar]
room = "r"
count = 2
power = "600 W"
voltage = "120 V"
wired = true
[equipment.ac]
kind = "air-conditioner"
room = "r"
current = "8 A"
voltage = "240 V"
[equipment.chill]
kind = "chiller"
room = "r"
nameplate = { min_circuit = "12 A", max_breaker = "20 A" }
voltage = "240 V"
[equipment.mist]
kind = "humidifier"
room = "r"
current = "5 A"
voltage = "120 V"
`
	_, page, errs := ran(site, "report", "--format", "markdown", "-")
	for _, want := range []string{
		"| ac | air-conditioner | 1 | ? | – | – | – | – | – |",
		"| chill | chiller | 1 | ? | – | – | – | – | – |",
		"| mist | humidifier | 1 | – | – | – | – | – | ? |",
		"- Cooling: ? tons of refrigeration, stated capacity",
		"| F1 | 1 | ? | – | – | ? | ? | wired |",        // leakage and inrush
		"| P | 120/240 V 1ph | the service | 100 | ? |", // its bus
		"power and energy are least values: the watts of a load are not known",
		"kW** or more largest quarter-hour",
		"kWh** or more a day",
		"or more of heat at the worst hour",
	} {
		require.Contains(t, page, want, errs)
	}
	require.Regexp(t, `\| summer design day from 06:00 \| \? \|`, page, "water to remove: watering is not given")
	_, screen, _ := ran(site, "heat", "-")
	require.Regexp(t, `ac +air-conditioner +1 +\?\n`, screen)
	require.Regexp(t, `chill +chiller +1 +\?\n`, screen)
}
