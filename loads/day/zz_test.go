package day

import (
	"fmt"
	"math/rand"
	"testing"
	"time"

	"branchwork/loads"
	"branchwork/loads/clock"
	"branchwork/loads/inventory"
	"branchwork/loads/units"
)

func synth(r *rand.Rand, n int, lens []int, full bool, ramp bool, tou bool) (*inventory.Inventory, loads.Set) {
	inv := &inventory.Inventory{}
	for i := range n {
		name := fmt.Sprintf("r%d", i)
		st := clock.Minute(r.Intn(24) * 60)
		l := clock.Minute(lens[r.Intn(len(lens))] * 60)
		w, _ := clock.Between(st, (st+l)%1440)
		room := inventory.Room{Name: name, Lights: units.Is(w), StartsFrom: units.Is(clock.Always())}
		if !full {
			a := (st + clock.Minute(r.Intn(6)*60) + 1440 - 300) % 1440
			f, _ := clock.Between(a, (a+480)%1440)
			room.StartsFrom = units.Is(f)
		}
		if ramp {
			room.Ramp = units.Is(clock.Minute(30))
		}
		inv.Rooms = append(inv.Rooms, room)
		inv.Items = append(inv.Items, inventory.Item{Table: "fixtures", Name: "f" + name, Room: name, Count: 10 + r.Intn(50), Power: units.Is(units.Power(300 + r.Intn(500)))},
			inventory.Item{Table: "fans", Name: "a" + name, Room: name, Count: 10, Power: units.Is(units.Power(50)), Hours: units.Is(clock.Always())})
	}
	pw, _ := clock.Parse("05:00-06:00")
	inv.Items = append(inv.Items, inventory.Item{Table: "equipment", Kind: "pump", Name: "pump", Room: "r0", Count: 1, Power: units.Is(units.Power(3000)), Hours: units.Is(pw)})
	inv.Tariff = inventory.Tariff{Currency: "USD", Energy: []inventory.EnergyPrice{{Price: 0.11}}, Demand: units.Is(units.Money(15))}
	if tou {
		p, _ := clock.Parse("14:00-20:00")
		inv.Tariff.Energy = append(inv.Tariff.Energy, inventory.EnergyPrice{Price: 0.2, Hours: units.Is(p), Season: units.Is("summer"), Days: units.Is("weekdays")})
	}
	return inv, loads.Build(inv, loads.CodeValues{})
}

func TestZZ(t *testing.T) {
	for _, c := range []struct {
		n          int
		lens       []int
		full, ramp bool
		o          Objective
		tou        bool
		grid       clock.Minute
	}{
		{12, []int{12}, true, false, ForPeak, false, 60},
		{12, []int{12}, false, false, ForPeak, false, 60},
		{12, []int{12, 18}, true, false, ForPeak, false, 60},
		{12, []int{12, 18}, false, false, ForPeak, false, 60},
		{12, []int{12, 18, 16}, true, false, ForPeak, false, 60},
		{12, []int{12, 18, 16, 14}, false, false, ForPeak, false, 60},
		{12, []int{12, 18}, true, true, ForPeak, false, 60},
		{12, []int{12, 18}, false, true, ForPeak, false, 60},
		{12, []int{12, 18}, false, true, ForPeak, false, 15},
		{12, []int{12, 18}, true, false, ForCost, false, 60},
		{12, []int{12, 18}, true, false, ForCost, true, 60},
		{12, []int{12, 18}, false, false, ForCost, true, 60},
		{8, []int{12, 18}, true, false, ForCost, true, 60},
		{8, []int{12, 18, 16}, false, false, ForPeak, false, 60},
	} {
		for seed := range 4 {
			r := rand.New(rand.NewSource(int64(seed)))
			inv, set := synth(r, c.n, c.lens, c.full, c.ramp, c.tou)
			t0 := time.Now()
			b := newBuilder(inv, set, c.o, c.grid)
			p := b.problem(goalOf(inv.Tariff, c.o))
			t1 := time.Now()
			red := p.reduced()
			k := []int{}
			for _, x := range red.index {
				k = append(k, len(x))
			}
			var now []int
			for _, r := range p.rooms {
				now = append(now, r.now)
			}
			t2 := time.Now()
			f, ok := p.search(now)
			fmt.Println(c.n, c.lens, c.full, c.ramp, c.o, c.tou, c.grid, "cols", len(p.base), "opts", k, "|", ok, p.value(now), f.value, f.bound, fmt.Sprintf("%.3f%%", 100*float64(f.value-f.bound)/float64(f.value)), f.proved, f.nodes, t1.Sub(t0).Round(time.Millisecond), time.Since(t2).Round(time.Millisecond))
		}
	}
}
