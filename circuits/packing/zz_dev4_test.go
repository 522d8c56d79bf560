package packing

import (
	"fmt"
	"math/rand/v2"
	"os"
	"sort"
	"strings"
	"testing"
	"time"
)

type gen struct {
	name string
	make func(r *rand.Rand) Problem
}

func amps(r *rand.Rand, unit int64) int64 { // in 1/unit A
	switch r.IntN(4) {
	case 0:
		return unit/5 + r.Int64N(unit)
	case 1:
		return unit + r.Int64N(2*unit)
	case 2:
		return 2*unit + r.Int64N(4*unit)
	}
	return 5*unit + r.Int64N(9*unit)
}

var ratings = []int64{15, 20, 30, 40, 50}
var costs = []int64{96, 100, 141, 188, 236}

func basic(r *rand.Rand, unit int64, kinds, most int, from, bins int, items []int64) Problem {
	p := Problem{Resources: 2}
	for range kinds {
		p.Kinds = append(p.Kinds, Kind{1 + r.IntN(most), []Form{{0, []int64{amps(r, unit), 1}}}})
	}
	for b := range bins {
		lim := int64(1 << 20)
		if items != nil {
			lim = items[b]
		}
		p.Bins = append(p.Bins, BinKind{Family: 0, Limits: []int64{ratings[from+b] * unit * 8 / 10, lim}, Width: 1, Cost: costs[from+b]})
	}
	return p
}

func gens() []gen {
	return []gen{
		{"multi", func(r *rand.Rand) Problem { return basic(r, 10, 4+r.IntN(26), 60, 0, 5, nil) }},
		{"fine", func(r *rand.Rand) Problem { return basic(r, 100, 4+r.IntN(26), 60, 0, 3, []int64{8, 10, 12}) }},
		{"mA", func(r *rand.Rand) Problem {
			return basic(r, 5000, 4+r.IntN(16), 60, 0, 4, nil)
		}},
		{"mAitems", func(r *rand.Rand) Problem {
			return basic(r, 5000, 4+r.IntN(16), 60, 0, 4, []int64{8, 10, 12, 13})
		}},
		{"conf", func(r *rand.Rand) Problem {
			p := basic(r, 10, 5+r.IntN(20), 40, 1, 2, nil)
			n := len(p.Kinds)
			for i := range n {
				for j := range i {
					if r.IntN(5) == 0 {
						p.Conflicts = append(p.Conflicts, [2]int{i, j})
					}
				}
			}
			return p
		}},
		{"mask", func(r *rand.Rand) Problem {
			p := basic(r, 10, 4+r.IntN(16), 40, 0, 5, []int64{8, 10, 12, 14, 16})
			for b := range p.Bins {
				for range p.Kinds {
					p.Bins[b].Allow = append(p.Bins[b].Allow, r.IntN(3) > 0)
				}
			}
			return p
		}},
		{"three", func(r *rand.Rand) Problem {
			p := basic(r, 100, 4+r.IntN(16), 40, 0, 3, []int64{8, 10, 12})
			p.Resources = 4
			for i := range p.Kinds {
				a := p.Kinds[i].Forms[0].Uses[0]
				p.Kinds[i].Forms[0].Uses = append(p.Kinds[i].Forms[0].Uses, a*(3+r.Int64N(30)), r.Int64N(600))
			}
			for b := range p.Bins {
				p.Bins[b].Limits = append(p.Bins[b].Limits, p.Bins[b].Limits[0]*20, 3500)
			}
			return p
		}},
		{"forms", func(r *rand.Rand) Problem {
			p := basic(r, 10, 4+r.IntN(14), 40, 1, 2, nil)
			for i := range p.Kinds {
				a := p.Kinds[i].Forms[0].Uses[0]
				if r.IntN(3) > 0 {
					p.Kinds[i].Forms = append(p.Kinds[i].Forms, Form{1, []int64{(a*120 + 207) / 208, 1}})
				}
				if r.IntN(3) == 0 {
					p.Kinds[i].Forms = append(p.Kinds[i].Forms, Form{2, []int64{(a*120 + 276) / 277, 1}})
				}
			}
			for b := range 2 {
				k := p.Bins[b]
				p.Bins = append(p.Bins, BinKind{Family: 1, Limits: k.Limits, Width: 2, Cost: k.Cost*17/10 + 3})
				p.Bins = append(p.Bins, BinKind{Family: 2, Limits: k.Limits, Width: 1, Cost: k.Cost*14/10 + 31})
			}
			return p
		}},
		{"huge", func(r *rand.Rand) Problem {
			unit := []int64{10, 100}[r.IntN(2)]
			items := []int64{8, 10, 12, 16, 20}
			if r.IntN(2) == 0 {
				items = nil
			}
			p := basic(r, unit, 30, 1, 0, 5, items)
			if r.IntN(3) == 0 {
				p.Bins = p.Bins[1:3]
			}
			for i := range p.Kinds {
				p.Kinds[i].Count = 1000 + r.IntN(4667)
			}
			return p
		}},
		{"existing", func(r *rand.Rand) Problem {
			p := basic(r, 10, 4+r.IntN(14), 30, 1, 2, nil)
			for range 10 + r.IntN(40) {
				p.Existing = append(p.Existing, Existing{Family: 0, Limits: []int64{r.Int64N(160), 100}})
			}
			return p
		}},
		{"max", func(r *rand.Rand) Problem {
			p := basic(r, 10, 4+r.IntN(14), 30, 0, 5, nil)
			for b := range p.Bins {
				p.Bins[b].Max = 1 + r.IntN(6)
			}
			return p
		}},
	}
}

func TestGen(t *testing.T) {
	pat := os.Getenv("GEN")
	if pat == "" {
		t.Skip()
	}
	n := 20
	fmt.Sscan(os.Getenv("N"), &n)
	for _, g := range gens() {
		if pat != "all" && !strings.Contains(g.name, pat) {
			continue
		}
		var times []time.Duration
		open := ""
		for seed := range n {
			if o := os.Getenv("SEED"); o != "" && o != fmt.Sprint(seed) {
				times = append(times, 0)
				continue
			}
			p := g.make(rand.New(rand.NewPCG(uint64(seed), 7)))
			t0 := cpu()
			r, err := Solve(p)
			d := cpu() - t0
			if err == nil {
				err = Check(p, r)
			}
			if err == nil {
				t1 := cpu()
				err = r.Certificate.Verify(p)
				if v := cpu() - t1; v > 500*time.Millisecond {
					fmt.Println("slow verify", g.name, seed, v)
				}
			}
			if err != nil {
				fmt.Println("ERROR", g.name, seed, err)
			}
			times = append(times, d)
			for _, b := range []struct {
				n string
				Bounded
			}{{"miss", r.Missing}, {"width", r.Width}, {"opened", r.Opened}, {"cost", r.Cost}} {
				if !b.Proved {
					open += fmt.Sprintf("\n    seed %d kinds %d %s %d/%d %v", seed, len(p.Kinds), b.n, b.Used, b.Bound, d)
				}
			}
		}
		worst := 0
		for i := range times {
			if times[i] > times[worst] {
				worst = i
			}
		}
		w := times[worst]
		sort.Slice(times, func(a, b int) bool { return times[a] < times[b] })
		fmt.Println(g.name, "median", times[n/2], "p90", times[n*9/10], "worst", w, "seed", worst, open)
	}
}
