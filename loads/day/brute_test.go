package day_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"branchwork/loads/clock"
	"branchwork/loads/day"
	"branchwork/loads/inventory"
	"branchwork/loads/units"
)

// drawSite draws a small site: two to four rooms on an hour grid, fans, pumps that cycle,
// cooling that follows the heat, prices.
func drawSite(t *rapid.T, rooms, starts int) *testSite {
	s := newSite()
	n := rapid.IntRange(2, rooms).Draw(t, "rooms")
	for i := range n {
		name := fmt.Sprintf("room-%d", i)
		at := clock.Minute(rapid.IntRange(0, 23).Draw(t, "at")) * clock.Hour
		length := clock.Minute(rapid.SampledFrom([]int{4, 8, 12, 16, 18}).Draw(t, "length")) * clock.Hour
		var also []func(*inventory.Room)
		if rapid.Bool().Draw(t, "moves") || i == 0 {
			before := clock.Minute(rapid.IntRange(0, starts-1).Draw(t, "before")) * clock.Hour
			from := (at - before + clock.Day) % clock.Day
			also = append(also, startsFrom(between(from, from+clock.Minute(starts-1)*clock.Hour).String()))
		}
		if rapid.IntRange(0, 3).Draw(t, "ramps") == 0 {
			also = append(also, ramp(clock.Minute(rapid.SampledFrom([]int{15, 30, 45}).Draw(t, "ramp"))))
		}
		if i > 0 && rapid.IntRange(0, 4).Draw(t, "apart") == 0 {
			also = append(also, apart("room-0"))
		}
		s.room(name, between(at, at+length), units.Power(rapid.IntRange(1, 9).Draw(t, "kW")*1000), also...)
		if rapid.IntRange(0, 3).Draw(t, "cooled") == 0 {
			c := s.item(inventory.Equipment, inventory.AirConditioner, name, 2000)
			c.Cooling, c.Outdoors = units.Is(units.FromTons(2)), true
		}
	}
	s.fans("room-0", units.Power(rapid.IntRange(0, 2000).Draw(t, "fans")))
	hour := clock.Minute(rapid.IntRange(0, 23).Draw(t, "pump at")) * clock.Hour
	s.equipment(inventory.Pump, "", units.Power(rapid.IntRange(0, 6000).Draw(t, "pump")), between(hour, hour+clock.Minute(rapid.IntRange(10, 300).Draw(t, "pump for")))).Duty =
		units.Is(units.Ratio(rapid.SampledFrom([]float64{0.3, 1}).Draw(t, "duty")))
	s.inv.Tariff = inventory.Tariff{Currency: "USD", Energy: []inventory.EnergyPrice{{Price: 0.1}}}
	if rapid.Bool().Draw(t, "by time") {
		s.inv.Tariff.Energy = append(s.inv.Tariff.Energy, inventory.EnergyPrice{Price: 0.3, Hours: units.Is(window("14:00-20:00")),
			Days: units.Is("weekdays"), Season: units.Is("summer")})
	}
	if rapid.Bool().Draw(t, "demand") {
		s.inv.Tariff.Demand = units.Is(units.Money(rapid.Float64Range(0, 30).Draw(t, "per kW")))
		s.inv.Tariff.Ratchet = units.Is(units.Ratio(rapid.Float64Range(0, 1).Draw(t, "ratchet")))
	}
	if rapid.IntRange(0, 3).Draw(t, "least") == 0 {
		s.inv.Tariff.Minimum = units.Is(units.Money(rapid.Float64Range(0, 2000).Draw(t, "minimum")))
	}
	return s
}

func valueOf(d day.Day, o day.Objective) float64 {
	if o == day.ForPeak {
		return float64(d.Site.Demand.Power)
	}
	c, _ := d.Cost.Get()
	return float64(c.Month)
}

// known is a value that the test knows to be there.
func known(x units.Known[float64]) float64 {
	v, ok := x.Get()
	if !ok {
		panic("not known: " + x.Why())
	}
	return v
}

// lit says whether two rooms' lights overlap, minute by minute.
func lit(a, b inventory.Room) bool {
	x, _ := a.Lights.Get()
	y, _ := b.Lights.Get()
	for m := range clock.Day {
		if x.Contains(m) && y.Contains(m) {
			return true
		}
	}
	return false
}

func kept(inv *inventory.Inventory) bool {
	for _, a := range inv.Rooms {
		for _, name := range a.Apart {
			for _, b := range inv.Rooms {
				if b.Name == name && lit(a, b) {
					return false
				}
			}
		}
	}
	return true
}

// bruteForce tries every start of every room with the day itself, and returns the least
// value; ok is false where no choice keeps apart what must be.
func bruteForce(s *testSite, o day.Objective) (least float64, ok bool) {
	var moves []day.Move
	var try func(i int)
	try = func(i int) {
		if i == len(s.inv.Rooms) {
			inv, set := day.Moved(s.inv, s.set(), moves)
			if !kept(inv) {
				return
			}
			if v := valueOf(day.Of(inv, set), o); !ok || v < least {
				least, ok = v, true
			}
			return
		}
		r := s.inv.Rooms[i]
		from, may := r.StartsFrom.Get()
		lights, _ := r.Lights.Get()
		if !may {
			try(i + 1)
			return
		}
		for h := range clock.Minute(24) {
			start := h * clock.Hour
			// The last hour of a window that ends there is its end.
			if !from.Contains(start) && !from.Contains((start+clock.Day-1)%clock.Day) {
				continue
			}
			now := clock.Minute(0)
			for !lights.Contains(now) || lights.Contains((now+clock.Day-1)%clock.Day) {
				now++
			}
			moves = append(moves, day.Move{Room: r.Name, By: (start - now + clock.Day) % clock.Day})
			try(i + 1)
			moves = moves[:len(moves)-1]
		}
	}
	try(0)
	return least, ok
}

// On small sites the choice is the best of all, found by trying every one with the whole
// calculation of a day. It is proved, and no better bound is claimed.
func TestStaggerIsTheBestOfAllChoices(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawSite(t, 3, 3)
		o := rapid.SampledFrom([]day.Objective{day.ForPeak, day.ForCost}).Draw(t, "objective")
		best, ok := bruteForce(s, o)
		st := day.Stagger(s.inv, s.set(), o, day.Hourly)
		if !ok {
			assert.NotEmpty(t, st.Why)
			assert.Empty(t, st.Moves())
			return
		}
		require.Empty(t, st.Why)
		assert.True(t, st.Proved)
		assert.InDelta(t, best, known(st.Used), 1e-3)
		assert.InDelta(t, best, known(st.Bound), 1e-3)
		assert.InDelta(t, known(st.Used), valueOf(st.After, o), 1e-9)
		inv, set := day.Moved(s.inv, s.set(), st.Moves())
		assert.True(t, kept(inv))
		assert.InDelta(t, known(st.Used), valueOf(day.Of(inv, set), o), 1e-9, "Moves are what After is of")
	})
}
