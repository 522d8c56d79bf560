package day

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"branchwork/loads"
	"branchwork/loads/clock"
	"branchwork/loads/inventory"
	"branchwork/loads/units"
)

// rooms draws rooms that may begin within stretches of the clock, on a grid.
func rooms(t *rapid.T, most, starts int, grid clock.Minute) *inventory.Inventory {
	inv := &inventory.Inventory{}
	n := rapid.IntRange(1, most).Draw(t, "rooms")
	sizes := rapid.SliceOfN(rapid.IntRange(1, 5), 1, 3).Draw(t, "sizes")
	lengths := rapid.SliceOfN(rapid.IntRange(4, 80), 1, 3).Draw(t, "lengths")
	for i := range n {
		at := clock.Minute(rapid.IntRange(0, int(clock.Day/grid)-1).Draw(t, "at")) * grid
		length := clock.Minute(lengths[rapid.IntRange(0, len(lengths)-1).Draw(t, "length")]) * quarter
		w, err := clock.Between(at, (at+length)%clock.Day)
		require.NoError(t, err)
		span := clock.Minute(rapid.IntRange(1, starts-1).Draw(t, "starts")) * grid
		from := around(at - clock.Minute(rapid.IntRange(0, int(span/grid)).Draw(t, "before"))*grid)
		may, err := clock.Between(from, (from+span)%clock.Day)
		require.NoError(t, err)
		if rapid.IntRange(0, 9).Draw(t, "anywhere") == 0 && n < 4 {
			may = clock.Always()
		}
		r := inventory.Room{Name: fmt.Sprintf("room-%d", i), Lights: units.Is(w), StartsFrom: units.Is(may)}
		if rapid.IntRange(0, 4).Draw(t, "ramps") == 0 {
			r.Ramp = units.Is(clock.Minute(rapid.IntRange(5, 60).Draw(t, "ramp")))
		}
		if i > 0 && rapid.IntRange(0, 4).Draw(t, "apart") == 0 {
			r.Apart = []string{fmt.Sprintf("room-%d", rapid.IntRange(0, i-1).Draw(t, "from"))}
		}
		if rapid.IntRange(0, 4).Draw(t, "interlock") == 0 {
			r.Interlock = rapid.SampledFrom([]string{"flip:A", "flip:B"}).Draw(t, "side")
		}
		inv.Rooms = append(inv.Rooms, r)
		size := sizes[rapid.IntRange(0, len(sizes)-1).Draw(t, "size")]
		inv.Items = append(inv.Items, inventory.Item{Table: inventory.Fixtures, Name: "lights-" + r.Name, Room: r.Name, Count: size, Power: units.Is(777 * units.Watt)})
		if rapid.IntRange(0, 2).Draw(t, "pumps") == 0 {
			hour := clock.Minute(rapid.IntRange(0, 95).Draw(t, "pump at")) * quarter
			h, err := clock.Between(hour, (hour+clock.Minute(rapid.IntRange(1, 20).Draw(t, "pump for"))*quarter)%clock.Day)
			require.NoError(t, err)
			inv.Items = append(inv.Items, inventory.Item{Table: inventory.Equipment, Kind: inventory.Pump, Name: "pump-" + r.Name, Room: r.Name, Count: 1,
				Power: units.Is(units.Power(rapid.IntRange(100, 3000).Draw(t, "pump"))), Hours: units.Is(h)})
		}
	}
	dear, err := clock.Between(clock.Minute(rapid.IntRange(0, 47).Draw(t, "dear"))*15, 20*clock.Hour)
	require.NoError(t, err)
	inv.Tariff.Energy = []inventory.EnergyPrice{{Price: 0.11}}
	for range rapid.IntRange(0, 1).Draw(t, "by time") {
		inv.Tariff.Energy = append(inv.Tariff.Energy, inventory.EnergyPrice{Price: units.Money(rapid.Float64Range(0, 1).Draw(t, "price")), Hours: units.Is(dear), Season: units.Is("summer")})
	}
	if rapid.Bool().Draw(t, "demand") {
		inv.Tariff.Demand = units.Is(units.Money(rapid.Float64Range(0, 20).Draw(t, "per kW")))
		inv.Tariff.Ratchet = units.Is(units.Ratio(rapid.Float64Range(0, 1).Draw(t, "ratchet")))
	}
	if rapid.IntRange(0, 3).Draw(t, "least") == 0 {
		inv.Tariff.Minimum = units.Is(units.Money(rapid.Float64Range(0, 1000).Draw(t, "minimum")))
	}
	return inv
}

// every visits all choices that keep apart what must be.
func (p *problem) every(visit func(pick []int)) {
	pick := make([]int, len(p.rooms))
	var try func(i int)
	try = func(i int) {
		if i == len(pick) {
			visit(pick)
			return
		}
		for a := range p.rooms[i].options {
			fits := true
			for j := range i {
				fits = fits && p.free(i, a, j, pick[j])
			}
			if fits {
				pick[i] = a
				try(i + 1)
			}
		}
	}
	try(0)
}

func (p *problem) leastOfAll() (least int64, ok bool) {
	p.every(func(pick []int) {
		if v := p.value(pick); !ok || v < least {
			least, ok = v, true
		}
	})
	return least, ok
}

func drawProblem(t *rapid.T, most, starts int) (*problem, *inventory.Inventory) {
	grid := rapid.SampledFrom([]clock.Minute{Hourly, Hourly, Quarterly}).Draw(t, "grid")
	inv := rooms(t, most, starts, grid)
	objective := rapid.SampledFrom([]Objective{ForPeak, ForCost}).Draw(t, "objective")
	b := newBuilder(inv, loads.Build(inv, loads.CodeValues{}), objective, grid)
	return b.problem(goalOf(inv.Tariff, objective)), inv
}

func todays(p *problem) []int {
	var now []int
	for _, r := range p.rooms {
		now = append(now, r.now)
	}
	for _, a := range now {
		if a < 0 {
			return nil
		}
	}
	if !p.feasible(now) {
		return nil
	}
	return now
}

func TestSearchFindsTheLeastOfAllChoices(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, _ := drawProblem(t, 4, 7)
		least, ok := p.leastOfAll()
		f, found := p.search(todays(p))
		require.Equal(t, ok, found)
		require.True(t, f.proved)
		if !ok {
			return
		}
		assert.Equal(t, least, f.value)
		assert.Equal(t, least, f.bound)
		assert.True(t, p.feasible(f.pick))
		assert.Equal(t, least, p.value(f.pick), "also after rooms went back to where they stand")
	})
}

// What is left out keeps the optimum: to the rounding of money where energy has its hours.
func TestOptionsLeftOutAreNotMissed(t *testing.T) {
	left := 0
	rapid.Check(t, func(t *rapid.T) {
		p, _ := drawProblem(t, 3, 12)
		r := p.reduced()
		whole, ok := p.leastOfAll()
		some, okSome := r.leastOfAll()
		require.Equal(t, ok, okSome)
		slack := int64(0)
		if p.goal.objective == ForCost {
			slack = perMoney / 100
		}
		assert.GreaterOrEqual(t, some, whole)
		assert.LessOrEqual(t, some, whole+slack)
		for i := range p.rooms {
			left += len(p.rooms[i].options) - len(r.rooms[i].options)
			require.Len(t, r.index[i], len(r.rooms[i].options))
		}
	})
	assert.Positive(t, left, "something is left out now and then")
}

// The bounds at the root hold for every choice, and so does what is struck out.
func TestBoundsHoldForEveryChoice(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, _ := drawProblem(t, 3, 6)
		tree := reducedProblem{p, nil}.newTree()
		tree.lighten(&tree.frames[0])
		bound := tree.bound(&tree.frames[0])
		p.every(func(pick []int) {
			load, energy := p.load(pick)
			d := p.peaks(load)
			v := p.value(pick)
			assert.LessOrEqual(t, bound, v)
			for _, w := range tree.weights {
				total := w.base
				for i, a := range pick {
					total += w.of[i][a]
				}
				if w.season == wholeCost {
					assert.LessOrEqual(t, w.bound(total), v)
				} else {
					assert.LessOrEqual(t, w.bound(total), d[w.season])
				}
			}
			assert.LessOrEqual(t, p.goal.floor(parts{d, energy}, yearly(energy)), v, "the floor of a whole choice is its value")
		})
	})
}

// Gathering quarter-hours into columns changes no value.
func TestColumnsCarryWhatQuarterHoursDo(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, _ := drawProblem(t, 3, 5)
		p.every(func(pick []int) {
			var d [seasons]int64
			for slot, x := range p.shape.base {
				for i, a := range pick {
					x += p.shape.options[i][a][slot]
				}
				for s := range seasons {
					if p.seasonOf(slot)&(1<<s) != 0 {
						d[s] = max(d[s], x)
					}
				}
			}
			load, energy := p.load(pick)
			if p.goal.objective == ForCost && p.goal.price == 0 {
				assert.Empty(t, load)
				return
			}
			assert.Equal(t, p.goal.value(parts{d, energy}), p.value(pick))
		})
	})
}

// A search that is ended says so, and its bound holds.
func TestSearchThatIsEndedIsNotProved(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, _ := drawProblem(t, 4, 6)
		least, ok := p.leastOfAll()
		if !ok {
			return
		}
		tree := p.reduced().newTree()
		tree.limit = 0
		tree.descend(0)
		if tree.cut {
			assert.LessOrEqual(t, tree.open, least)
			assert.Zero(t, tree.nodes)
		}
	})
}

// Rooms that stand twice in a site are found to be alike, and exchanging rooms found to be
// alike changes nothing.
func TestExchangingLikeRoomsChangesNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		inv := rooms(t, 2, 4, Hourly)
		for _, r := range inv.Rooms {
			r.Name += "-again"
			inv.Rooms = append(inv.Rooms, r)
		}
		for _, i := range inv.Items {
			i.Name, i.Room = i.Name+"-again", i.Room+"-again"
			inv.Items = append(inv.Items, i)
		}
		b := newBuilder(inv, loads.Build(inv, loads.CodeValues{}), ForPeak, Hourly)
		p := b.problem(goalOf(inv.Tariff, ForPeak))
		twins := 0
		for j, i := range p.twins() {
			if i < 0 {
				continue
			}
			twins++
			p.every(func(pick []int) {
				v := p.value(pick)
				pick[i], pick[j] = pick[j], pick[i]
				assert.True(t, p.feasible(pick))
				assert.Equal(t, v, p.value(pick))
				pick[i], pick[j] = pick[j], pick[i]
			})
		}
		if len(inv.Rooms) == 2 {
			assert.Equal(t, 1, twins)
		}
	})
}
