package assign

import (
	"branchwork/circuits"
	"branchwork/circuits/packing"
	"branchwork/loads"
	"branchwork/loads/inventory"
)

// packedCell is a cell's packing with the supplies that its loads were given and
// what is proved of it over all choices of supply.
type packedCell struct {
	bins             []bin
	existing         []int
	result           packing.Result
	spaces, circuits packing.Bounded
	proof            circuits.Proof
}

// mostChoices bounds the choices of supply that a cell is packed for.
const mostChoices = 243

// bestVoltages packs a cell for each choice of supplies, one supply per kind of
// unit (the fixtures of a row carry one plug), and keeps the one that takes the
// fewest spaces, then the fewest circuits, then the least copper.
//
// The bound of the best is the least bound of any choice. Where there are too
// many to try, every load tries the supplies that are tried, and the bound is
// that of a packing in which each unit may take any of its supplies, which no
// choice can beat.
func (pl *planner) bestVoltages(c cell) (packedCell, error) {
	options := make([][]inventory.Supply, len(c.loads))
	for i, l := range c.loads {
		options[i] = pl.supplies(c.host, l)
	}
	list, all := choices(options)
	var tried []packedCell
	best := 0
	for _, chosen := range list {
		t, err := pl.solve(c, each(chosen))
		if err != nil {
			return packedCell{}, err
		}
		tried = append(tried, t)
		if better(t.result, tried[best].result) {
			best = len(tried) - 1
		}
	}
	out := tried[best]
	for _, t := range tried {
		if t.result.Missing.Used > out.result.Missing.Used {
			continue
		}
		out.spaces.Bound = min(out.spaces.Bound, t.result.Width.Bound)
		if t.result.Width.Bound <= out.result.Width.Used {
			out.circuits.Bound = min(out.circuits.Bound, t.result.Opened.Bound)
		}
	}
	if !all {
		free, err := pl.solve(c, options)
		if err != nil {
			return packedCell{}, err
		}
		out.spaces.Bound = min(out.spaces.Bound, free.spaces.Bound)
		out.circuits.Bound = 1 // fewer spaces may take fewer circuits still
	}
	out.spaces.Proved = out.spaces.Bound == out.spaces.Used
	out.circuits.Proved = out.circuits.Bound == out.circuits.Used && out.spaces.Proved
	out.proof = pl.proof(c, tried, list, out)
	return out, nil
}

// each makes a list of one of every supply.
func each(chosen []inventory.Supply) [][]inventory.Supply {
	out := make([][]inventory.Supply, len(chosen))
	for i, s := range chosen {
		out[i] = []inventory.Supply{s}
	}
	return out
}

// choices lists the choices of one supply per load, and whether they are all.
// Where there are too many, loads change together: each supply in turn is given
// to every load that has it.
func choices(options [][]inventory.Supply) ([][]inventory.Supply, bool) {
	total := 1
	for _, o := range options {
		total *= len(o)
		if total > mostChoices {
			return together(options), false
		}
	}
	// The last option changes fastest.
	out := make([][]inventory.Supply, total)
	for i := range out {
		out[i] = make([]inventory.Supply, len(options))
		n := i
		for k := len(options) - 1; k >= 0; k-- {
			out[i][k] = options[k][n%len(options[k])]
			n /= len(options[k])
		}
	}
	return out, true
}

func together(options [][]inventory.Supply) [][]inventory.Supply {
	var out [][]inventory.Supply
	seen := map[inventory.Supply]bool{}
	for _, list := range options {
		for _, want := range list {
			if seen[want] {
				continue
			}
			seen[want] = true
			chosen := make([]inventory.Supply, len(options))
			for i, o := range options {
				chosen[i] = o[0]
				if offers(o, want) {
					chosen[i] = want
				}
			}
			out = append(out, chosen)
		}
	}
	return out
}

// better orders two packings by what is left out, spaces, circuits and copper.
func better(a, b packing.Result) bool {
	for _, p := range [][2]int64{{a.Missing.Used, b.Missing.Used}, {a.Width.Used, b.Width.Used},
		{a.Opened.Used, b.Opened.Used}, {a.Cost.Used, b.Cost.Used}} {
		if p[0] != p[1] {
			return p[0] < p[1]
		}
	}
	return false
}

// voltageChoices records, for each item that accepts more than one supply of its
// panel, what its units would take at each, packed by themselves. It is asked
// before anything is placed; chosenVoltages adds what was decided.
func (pl *planner) voltageChoices() error {
	for i, l := range pl.set.Loads {
		pl.tell("voltages of "+l.Name, i+1, len(pl.set.Loads))
		hosts := pl.hosts(l)
		if len(hosts) == 0 || pl.left[l.Name] == 0 || l.Alone {
			continue
		}
		host := hosts[0]
		accepted := 0
		for _, s := range host.System.Supplies() {
			if l.Accepts(s) {
				accepted++
			}
		}
		if accepted < 2 {
			continue
		}
		v := circuits.VoltageChoice{Item: l.Name}
		for _, s := range host.System.Supplies() {
			d, ok := l.At(s)
			if !ok {
				continue
			}
			k := pl.keyOf([]inventory.Panel{host}, l)
			t, err := pl.solve(cell{key: k, host: host, loads: []loads.Load{l}}, [][]inventory.Supply{{s}})
			if err != nil {
				return err
			}
			if t.result.Missing.Used == 0 {
				v.Options = append(v.Options, circuits.VoltageOption{Volts: s.Volts, Phases: s.Phases, Each: d.Amps, System: host.System.Name, Own: true,
					Spaces: int(t.result.Width.Used), Circuits: int(t.result.Opened.Used)})
			}
		}
		if len(v.Options) > 1 {
			pl.plan.Choices = append(pl.plan.Choices, v)
		}
	}
	return nil
}

// chosenVoltages notes at which voltage each of those items ended.
func (pl *planner) chosenVoltages() {
	for i := range pl.plan.Choices {
		v := &pl.plan.Choices[i]
		for _, c := range pl.plan.Circuits {
			for _, cl := range c.Loads {
				if cl.Item == v.Item && !c.Existing {
					v.Chosen = c.Supply.Volts
				}
			}
		}
	}
}
