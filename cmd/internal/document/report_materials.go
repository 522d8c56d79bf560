package document

import (
	"fmt"
	"slices"
	"sort"
	"strings"

	"branchwork/circuits"
	"branchwork/loads/units"
)

// wastePercent is put on every length that is bought: ends, drops into boxes and
// what is left on the reel. Common practice, no source.
const wastePercent = 10

// Materials is the bill of materials of what is new. What exists is not in it.
type Materials struct {
	WastePercent float64        `json:"waste_percent" jsonschema_description:"put on every length"`
	Breakers     []BreakerLine  `json:"breakers"`
	Protection   []GroundFault  `json:"protection" jsonschema_description:"circuits that call for ground-fault protection, at breaker or outlet"`
	Conductors   []WireLine     `json:"conductors"`
	Raceways     []RacewayLine  `json:"raceways"`
	Receptacles  []OutletLine   `json:"receptacles"`
	Transformers []WoundLine    `json:"transformers"`
	NotCounted   []string       `json:"not_counted"`
	tally        map[string]int // lines by key, while they are collected
}

// BreakerLine is breakers of one kind.
type BreakerLine struct {
	Amps   float64  `json:"amps"`
	Poles  int      `json:"poles"`
	Count  int      `json:"count"`
	Panels []string `json:"panels"`
}

// GroundFault is circuits that one kind of protection is called for on.
type GroundFault struct {
	Class  string   `json:"class"`
	TripMA *float64 `json:"trip_ma" jsonschema:"nullable"`
	Count  int      `json:"count"`
}

// WireLine is conductor of one kind.
type WireLine struct {
	Use        string  `json:"use" jsonschema:"enum=circuit,enum=ground"`
	Size       string  `json:"size"`
	Material   string  `json:"material"`
	Insulation string  `json:"insulation"`
	NetFeet    float64 `json:"net_ft" jsonschema_description:"runs to the last outlet, times conductors"`
	OrderFeet  float64 `json:"order_ft" jsonschema_description:"with waste"`
}

// RacewayLine is raceway of one kind.
type RacewayLine struct {
	Kind      string  `json:"kind"`
	Trade     string  `json:"trade"`
	NetFeet   float64 `json:"net_ft"`
	OrderFeet float64 `json:"order_ft" jsonschema_description:"with waste"`
}

// OutletLine is receptacles of one configuration.
type OutletLine struct {
	Configuration string `json:"configuration"`
	Count         int    `json:"count" jsonschema_description:"one for each unit with a cord"`
}

// WoundLine is transformers of one rating.
type WoundLine struct {
	VA             float64 `json:"va"`
	Phases         int     `json:"phases"`
	PrimaryVolts   float64 `json:"primary_volts"`
	SecondaryVolts float64 `json:"secondary_volts"`
	Count          int     `json:"count"`
}

// line returns the index of the line of a key, adding it where there is none.
func (m *Materials) line(key string, add func() int) int {
	if i, ok := m.tally[key]; ok {
		return i
	}
	m.tally[key] = add()
	return m.tally[key]
}

func materials(o ReportOf, runs []HomeRun) Materials {
	m := Materials{WastePercent: wastePercent, Breakers: []BreakerLine{}, Protection: []GroundFault{}, Conductors: []WireLine{}, Raceways: []RacewayLine{},
		Receptacles: []OutletLine{}, Transformers: []WoundLine{}, NotCounted: []string{}, tally: map[string]int{}}
	var open []string
	for _, c := range o.Results.Plan.Circuits {
		if c.Existing {
			continue
		}
		if c.Protection.Open != "" {
			open = append(open, c.Name)
		}
		m.breaker(c.Breaker, c.Supply.Poles, c.Panel)
		m.protection(c)
		m.receptacles(c)
	}
	if len(open) > 0 {
		m.NotCounted = append(m.NotCounted, "ground-fault protection of circuits "+strings.Join(open, ", ")+": their location is not stated")
	}
	for _, p := range o.Results.Plan.Panels {
		if f := p.Feeder; f != nil && !f.Existing {
			m.breaker(f.Breaker, f.Poles, f.From)
			m.transformer(f.Transformer)
			if f.Transformer != nil {
				m.NotCounted = append(m.NotCounted, "secondary of the transformer of panel "+p.Name+": "+SecondaryOpen)
			}
		}
	}
	m.lengths(runs)
	m.sort(o.Results.Profile.Wires.Sizes)
	m.tally = nil
	return m
}

func (m *Materials) breaker(rating units.Known[units.Current], poles int, panel string) {
	a, ok := rating.Get()
	if !ok {
		return
	}
	i := m.line(fmt.Sprintf("breaker %v %d", float64(a), poles), func() int {
		m.Breakers = append(m.Breakers, BreakerLine{Amps: float64(a), Poles: poles, Panels: []string{}})
		return len(m.Breakers) - 1
	})
	b := &m.Breakers[i]
	b.Count++
	if !slices.Contains(b.Panels, panel) {
		b.Panels = append(b.Panels, panel)
	}
}

func (m *Materials) protection(c circuits.Circuit) {
	if !c.Protection.Needed {
		return
	}
	p := protection(c.Protection)
	i := m.line("protection "+p.Class, func() int {
		m.Protection = append(m.Protection, GroundFault{Class: p.Class, TripMA: p.TripMA})
		return len(m.Protection) - 1
	})
	m.Protection[i].Count++
}

// receptacles counts one for each unit with a cord; what plugs into a controller
// needs none of its own.
func (m *Materials) receptacles(c circuits.Circuit) {
	switch {
	case c.Wired || c.Receptacle == "":
		return
	case c.Controller != "":
		m.NotCounted = append(m.NotCounted, fmt.Sprintf("receptacles of circuit %s: its loads plug into controller %s", c.Name, c.Controller))
		return
	}
	n := 0
	for _, l := range c.Loads {
		n += l.Count
	}
	i := m.line("receptacle "+c.Receptacle, func() int {
		m.Receptacles = append(m.Receptacles, OutletLine{Configuration: c.Receptacle})
		return len(m.Receptacles) - 1
	})
	m.Receptacles[i].Count += n
}

func (m *Materials) transformer(t *circuits.Transformer) {
	if t == nil || t.Rating == 0 {
		return
	}
	line := WoundLine{VA: float64(t.Rating), Phases: t.Phases, PrimaryVolts: float64(t.Primary), SecondaryVolts: float64(t.Secondary)}
	i := m.line(fmt.Sprint("transformer ", line), func() int {
		m.Transformers = append(m.Transformers, line)
		return len(m.Transformers) - 1
	})
	m.Transformers[i].Count++
}

// lengths adds up the runs that are new.
func (m *Materials) lengths(runs []HomeRun) {
	for _, h := range runs {
		if h.Existing {
			continue
		}
		name := "circuit " + h.Circuit
		if h.Feeds != "" {
			name = "the feeder of panel " + h.Feeds
		}
		l, ok := h.whole().Get()
		if !ok {
			m.NotCounted = append(m.NotCounted, "conductor and raceway of "+name+": the length of its run is not known")
			continue
		}
		m.wires(h, l)
		switch r := h.Raceway; {
		case r == nil:
		case r.Trade == "":
			m.NotCounted = append(m.NotCounted, "raceway of "+name+": "+r.Why)
		default:
			m.raceway(*r, float64(l)*float64(h.Sets)/float64(max(1, h.OnCircuits)))
		}
	}
}

func (m *Materials) wires(h HomeRun, l units.Length) {
	for _, w := range h.Wires {
		if w.Size == nil {
			continue
		}
		use := "circuit"
		if w.Use == "ground" {
			use = "ground"
		}
		line := WireLine{Use: use, Size: *w.Size, Material: text(w.Material), Insulation: text(w.Insulation)}
		i := m.line(fmt.Sprint("wire ", line), func() int {
			m.Conductors = append(m.Conductors, line)
			return len(m.Conductors) - 1
		})
		m.Conductors[i].NetFeet += float64(l) * float64(w.Count*h.Sets)
	}
}

func (m *Materials) raceway(r Raceway, feet float64) {
	i := m.line("raceway "+r.Kind+" "+r.Trade, func() int {
		m.Raceways = append(m.Raceways, RacewayLine{Kind: r.Kind, Trade: r.Trade})
		return len(m.Raceways) - 1
	})
	m.Raceways[i].NetFeet += feet
}

// sort puts the lines in the order of a shopping list and adds the waste.
func (m *Materials) sort(sizes []string) {
	sort.SliceStable(m.Breakers, func(i, j int) bool {
		a, b := m.Breakers[i], m.Breakers[j]
		return a.Poles < b.Poles || a.Poles == b.Poles && a.Amps < b.Amps
	})
	rank := func(size string) int { return slices.Index(sizes, size) }
	sort.SliceStable(m.Conductors, func(i, j int) bool {
		a, b := m.Conductors[i], m.Conductors[j]
		return a.Use < b.Use || a.Use == b.Use && rank(a.Size) < rank(b.Size)
	})
	sort.SliceStable(m.Raceways, func(i, j int) bool { return inches(m.Raceways[i].Trade) < inches(m.Raceways[j].Trade) })
	sort.SliceStable(m.Receptacles, func(i, j int) bool {
		return units.NaturalLess(m.Receptacles[i].Configuration, m.Receptacles[j].Configuration)
	})
	for i := range m.Conductors {
		m.Conductors[i].OrderFeet = m.Conductors[i].NetFeet * (1 + wastePercent/100.0)
	}
	for i := range m.Raceways {
		m.Raceways[i].OrderFeet = m.Raceways[i].NetFeet * (1 + wastePercent/100.0)
	}
}

// inches reads a trade size: "1 1/4 in".
func inches(trade string) float64 {
	var sum float64
	for _, word := range strings.Fields(trade) {
		var a, b float64
		if n, _ := fmt.Sscanf(word, "%g/%g", &a, &b); n == 2 && b != 0 {
			sum += a / b
		} else if n == 1 {
			sum += a
		}
	}
	return sum
}

func text(s *string) string {
	if s == nil {
		return ""
	}
	return *s
}
