package heat_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"branchwork/loads"
	"branchwork/loads/air"
	"branchwork/loads/clock"
	"branchwork/loads/heat"
	"branchwork/loads/inventory"
	"branchwork/loads/units"
)

// anyRoom draws a room inside a building: lights, fans, controllers, pumps; set
// points, water, ramp, windows on any minute.
func anyRoom(t *rapid.T) (inventory.Room, []inventory.Item) {
	r := room(watered(units.WaterRate(rapid.Float64Range(0, 400).Draw(t, "water"))))
	from := clock.Minute(rapid.IntRange(0, 1439).Draw(t, "from"))
	long := clock.Minute(rapid.IntRange(1, 1439).Draw(t, "long"))
	w, err := clock.Between(from, (from+long)%clock.Day)
	require.NoError(t, err)
	r.Lights = units.Is(w)
	r.Ramp = units.Is(clock.Minute(rapid.IntRange(0, 90).Draw(t, "ramp")))
	r.Runoff = units.Is(units.Ratio(rapid.Float64Range(0, 0.5).Draw(t, "runoff")))
	r.Climate.LightsOn = fahrenheit(rapid.Float64Range(65, 90).Draw(t, "on"))
	r.Climate.LightsOff = fahrenheit(rapid.Float64Range(55, 80).Draw(t, "off"))
	var items []inventory.Item
	for i, table := range []string{inventory.Fixtures, inventory.Fixtures, inventory.Fans, inventory.Controllers, inventory.Equipment} {
		it := item(table, fmt.Sprintf("load-%d", i), rapid.IntRange(1, 40).Draw(t, "count"),
			units.Power(rapid.Float64Range(1, 1500).Draw(t, "watts")), kind(inventory.Pump))
		if table != inventory.Equipment {
			it.Kind = ""
		}
		if rapid.Bool().Draw(t, "own hours") {
			it.Hours = units.Is(window("22:30-04:15"))
		}
		items = append(items, it)
	}
	return r, items
}

func dryer(t *rapid.T) inventory.Item {
	return item(inventory.Equipment, "dry", rapid.IntRange(1, 4).Draw(t, "dryers"), units.Power(rapid.Float64Range(200, 3000).Draw(t, "dryer watts")),
		removes(units.WaterRate(rapid.Float64Range(10, 200).Draw(t, "takes"))))
}

func everyHour(r heat.Room, do func(d heat.Day, h heat.Hour)) {
	for _, d := range r.Days() {
		for _, h := range d.Hours {
			do(d, h)
		}
	}
}

// (a) The total does not change with the water given off or condensed, except by the
// dehumidifier's own watts. Catches: vapour added on top of the lamps; condensing heat
// given back but not taken from the vapour.
func TestWaterMovesHeatAndAddsNone(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r, items := anyRoom(t)
		dry := r
		dry.Watering = units.Is(units.WaterRate(0))
		without := balance(t, site(dry, items...))
		with := balance(t, site(r, append(items, dryer(t))...))
		for i, d := range with.Days() {
			for k, h := range d.Hours {
				base := without.Days()[i].Hours[k]
				own := h.Electric - base.Electric
				assert.InDelta(t, float64(base.Total())+float64(own), float64(h.Total()), 1e-6)
				assert.InDelta(t, 0, float64(h.Part(heat.Plants).Total()), 1e-9)
				assert.GreaterOrEqual(t, float64(h.Latent), -1e-9, "no more water is taken than there is")
			}
		}
	})
}

// (b) Without walls, people, air or burners every watt used up in the room is heat in
// it, in every hour. Catches: any load left out or counted twice, a ramp applied to
// heat and not to watts, another BTU.
func TestEveryWattInTheRoomIsHeatInIt(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r, items := anyRoom(t)
		inv := site(r, items...)
		set := loads.Build(inv, loads.CodeValues{})
		got := balance(t, inv)
		everyHour(got, func(_ heat.Day, h heat.Hour) {
			assert.InDelta(t, 3.412141633*float64(h.Electric), h.Total().BTUPerHour(), 1e-3)
		})
		// And the watts are those of the loads over the day: each for its hours, the
		// lights less half a ramp at each end.
		want := 0.0
		for _, l := range set.Loads {
			p, _ := l.Running.Get()
			hours := l.Hours.Length().Hours()
			if l.Category == loads.Lighting {
				hours = rampedHours(l.Hours, r.Ramp.Or(0))
			}
			want += float64(p) * float64(l.Count) * hours
		}
		sum := 0.0
		for _, h := range got.Summer.Hours {
			sum += float64(h.Electric)
		}
		assert.InEpsilon(t, want, sum, 1e-9)
	})
}

// rampedHours is the energy of one window with ramps, over its full power: the window
// less one ramp, or a quarter of window²/ramp where the two ramps meet. Minute by
// minute the program sums midpoints, which is exact for straight lines except where
// they meet within a minute.
func rampedHours(w clock.Windows, ramp clock.Minute) float64 {
	n := w.Length()
	switch {
	case ramp == 0 || w.IsAlways():
		return n.Hours()
	case n >= 2*ramp:
		return (n - ramp).Hours()
	}
	sum := 0.0
	for i := range n {
		sum += min((float64(i)+0.5)/float64(ramp), (float64(n-i)-0.5)/float64(ramp))
	}
	return sum / 60
}

// (c) Over 24 hours the water given off is the watering less runoff, times the share
// taken up, whatever the lights' hours. Catches: a lit share applied per hour instead
// of per period.
func TestWaterGivenOffInADayIsWhatWasKept(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r, items := anyRoom(t)
		got := balance(t, site(r, items...))
		watering, _ := r.Watering.Get()
		runoff, _ := r.Runoff.Get()
		want := float64(watering) * (1 - float64(runoff)) * 0.97
		w, ok := got.Water.Get()
		require.True(t, ok)
		assert.InDelta(t, want, float64(w.FromPlants), 1e-9*want)
		assert.InDelta(t, want, w.AmountOn+w.AmountOff, 1e-6*want+1e-9)
		assert.InDelta(t, want, float64(w.PerDay), 1e-6*want+1e-9)
	})
}

// (d) Cooling tons follow the watts by exactly 3.412142 / 12,000.
func TestTonsFollowTheWatts(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r, items := anyRoom(t)
		got := balance(t, site(r, items...))
		assert.InEpsilon(t, float64(got.Watts)*3600/1055.05585262/12000, got.Tons, 1e-12)
		more := append([]inventory.Item{}, items...)
		for i := range more {
			more[i].Count *= 3
		}
		assert.InEpsilon(t, 3*got.Tons, balance(t, site(r, more...)).Tons, 1e-9)
	})
}

// (e) What air carries goes with the pressure at the site; lamps, people and walls do
// not. Catches: scaling the whole load by altitude; the density of the standard
// atmosphere in the place of its pressure.
func TestOnlyAirFeelsTheAltitude(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r, items := anyRoom(t)
		walled(&r)
		outside(&r)
		r.People = units.Is(2.0)
		r.AirChanges = units.Is(rapid.Float64Range(0.05, 3).Draw(t, "changes"))
		z := units.Length(rapid.Float64Range(100, 10000).Draw(t, "altitude"))
		low := weather(site(r, items...))
		high := weather(site(r, items...))
		high.Site.Altitude = units.Is(z)
		p, err := air.PressureAt(z)
		require.NoError(t, err)
		a, b := balance(t, low), balance(t, high)
		for k, h := range a.Summer.Hours {
			g := b.Summer.Hours[k]
			for _, s := range []heat.Source{heat.Lights, heat.Fans, heat.Envelope, heat.People, heat.Plants} {
				assert.Equal(t, h.Part(s), g.Part(s), s)
			}
			assert.InDelta(t, float64(p)/101325*float64(h.Part(heat.Infiltration).Sensible), float64(g.Part(heat.Infiltration).Sensible), 1e-6)
		}
		w := air.HumidityRatio(rapid.Float64Range(-0.01, 0.01).Draw(t, "dW"))
		assert.InDelta(t, float64(p)/101325*float64(heat.LatentOfAir(500, w, 1)), float64(heat.LatentOfAir(500, w, p.AgainstSeaLevel())), 1e-6)
	})
}

// (f) Dry heat below zero is a need for heating. It is never clipped: the parts still
// add up to the watts, and the coldest hour says how much.
func TestColdHoursAreHeatingNotZero(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r, _ := anyRoom(t)
		r.Watering, r.Runoff = units.Is(units.WaterRate(rapid.Float64Range(50, 400).Draw(t, "much water"))), units.Is(units.Ratio(0))
		got := balance(t, site(r, item(inventory.Fans, "small", 1, units.Power(rapid.Float64Range(1, 20).Draw(t, "watts")))))
		assert.Negative(t, float64(got.Coldest.Hour.Sensible))
		assert.InDelta(t, float64(got.Coldest.Electric), float64(got.Coldest.Total()), 1e-6)
		assert.InDelta(t, -float64(got.Coldest.Hour.Sensible), float64(got.Equipment.Heating.Needed), 1e-9)
		assert.True(t, got.HeatAndDry, "heating and water to remove in one hour")
		assert.InDelta(t, float64(got.Watts), float64(got.Peak.Total()), 1e-6, "the peak is not raised by it")
	})
}

// Whatever the site, every figure is a number, parts add up to sums, and the same
// input gives the same answer.
func TestFiguresAreNumbersAndAddUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r, items := anyRoom(t)
		if rapid.Bool().Draw(t, "outside") {
			outside(&r)
			walled(&r)
		}
		if rapid.Bool().Draw(t, "exhaust") {
			r.Exhaust = units.Is(units.Airflow(rapid.Float64Range(10, 5000).Draw(t, "flow")))
		}
		r.AirChanges = units.Unknown[float64]("")
		items = append(items, dryer(t), item(inventory.Equipment, "cool", 2, 3000, cools(units.FromTons(3))),
			item(inventory.Equipment, "warm", 1, 1500, kind(inventory.Heater)), item(inventory.Equipment, "mist", 1, 100, kind(inventory.Humidifier),
				func(i *inventory.Item) {
					i.Adds, i.Steam = units.Is(units.WaterRate(20)), rapid.Bool().Draw(t, "steam")
				}),
			item(inventory.Equipment, "flame", 1, 10, kind(inventory.CO2Burner), func(i *inventory.Item) { i.Burns = units.Is(units.FromBTUPerHour(5000)) }))
		inv := weather(site(r, items...))
		got := balance(t, inv)
		everyHour(got, func(_ heat.Day, h heat.Hour) {
			var sum heat.Gain
			for _, p := range h.Parts {
				sum = sum.Plus(p.Gain)
			}
			assert.Equal(t, sum, h.Gain)
			assert.False(t, math.IsNaN(float64(h.Total())) || math.IsInf(float64(h.Total()), 0))
		})
		for _, s := range got.Steps {
			assert.False(t, math.IsNaN(s.Result) || math.IsInf(s.Result, 0), s.Name)
		}
		assert.Equal(t, got, balance(t, inv))
	})
}
