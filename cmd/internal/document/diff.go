package document

import "branchwork/circuits"

// DiffSchema names the contract of Diff.
const DiffSchema = "branchwork/diff/1"

// Diff is the answer of diff: the change order from one plan to another, and
// nothing else.
type Diff struct {
	Schema       string   `json:"schema" jsonschema:"enum=branchwork/diff/1"`
	OldSite      string   `json:"old_site"`
	NewSite      string   `json:"new_site"`
	CodeTitle    string   `json:"code_title" jsonschema_description:"that the new plan is made by"`
	GroundCalled string   `json:"ground_called" jsonschema_description:"in short, what the trade calls an equipment grounding conductor"`
	Changes      []Change `json:"changes" jsonschema_description:"by panel, then by first space; none where the plans are the same"`
	Says         string   `json:"says"`
	Caution      string   `json:"caution"`
}

// Change is a circuit or a feeder that is new, different, or freed.
type Change struct {
	Kind    string   `json:"kind" jsonschema:"enum=added,enum=changed,enum=freed"`
	Panel   string   `json:"panel"`
	Circuit string   `json:"circuit,omitempty" jsonschema_description:"absent where it is a feeder"`
	Feeder  string   `json:"feeder,omitempty" jsonschema_description:"the panel that the feeder feeds; absent where it is a branch circuit"`
	Before  *Landed  `json:"before,omitempty" jsonschema_description:"absent where it is added"`
	After   *Landed  `json:"after,omitempty" jsonschema_description:"absent where it is freed"`
	What    []string `json:"what" jsonschema_description:"what is different, in words"`
	Off     Off      `json:"off"`
}

// Landed is what stands in a panel for a circuit or a feeder.
type Landed struct {
	Spaces      []int     `json:"spaces"`
	Poles       int       `json:"poles"`
	Volts       float64   `json:"volts"`
	BreakerAmps *float64  `json:"breaker_amps" jsonschema:"nullable"`
	Conductor   Conductor `json:"conductor"`
	Ground      Ground    `json:"ground"`
	Receptacle  string    `json:"receptacle,omitempty"`
	GFCI        *bool     `json:"gfci,omitempty"`
	Loads       []Load    `json:"loads"`
}

// Off is what must be dead while the work is done.
type Off struct {
	Panel    string   `json:"panel,omitempty" jsonschema_description:"whose inside is worked on; absent where only plugs change places"`
	At       string   `json:"at" jsonschema_description:"where it is switched off"`
	Circuits []string `json:"circuits" jsonschema_description:"that go dark with it"`
}

// NewDiff returns the document of a change order.
func NewDiff(old, now Results) Diff {
	d := Diff{Schema: DiffSchema, OldSite: old.Plan.Site, NewSite: now.Plan.Site, CodeTitle: now.Profile.Title, GroundCalled: now.Profile.Wires.GroundCalled, Changes: []Change{}, Caution: Caution}
	counts := map[circuits.ChangeKind]int{}
	for _, c := range circuits.Difference(old.Plan, now.Plan, d.GroundCalled) {
		d.Changes = append(d.Changes, change(c))
		counts[c.Kind]++
	}
	d.Says = "the two plans are the same: there is nothing to do"
	if len(d.Changes) > 0 {
		d.Says = count(len(d.Changes), "change", "changes") + ": " + count(counts[circuits.AddedCircuit], "added", "added") + ", " +
			count(counts[circuits.ChangedCircuit], "changed", "changed") + ", " + count(counts[circuits.FreedCircuit], "freed", "freed")
	}
	return d
}

func change(c circuits.Change) Change {
	d := Change{Kind: string(c.Kind), Panel: c.Panel, Circuit: c.Circuit, Feeder: c.Feeder, What: list(c.What),
		Off: Off{Panel: c.Off.Panel, At: c.Off.At, Circuits: list(c.Off.Circuits)}}
	if c.Old != nil || c.OldFeeder != nil {
		d.Before = landed(c.Old, c.OldFeeder)
	}
	if c.New != nil || c.NewFeeder != nil {
		d.After = landed(c.New, c.NewFeeder)
	}
	return d
}

func landed(c *circuits.Circuit, f *circuits.Feeder) *Landed {
	if c == nil {
		return &Landed{Spaces: list(f.Spaces), Poles: f.Poles, Volts: float64(f.Volts), BreakerAmps: known(f.Breaker),
			Conductor: conductor(f.Conductor, f.Length, f.Drop), Ground: ground(f.Ground), Loads: []Load{}}
	}
	d := &Landed{Spaces: list(c.Spaces), Poles: c.Supply.Poles, Volts: float64(c.Supply.Volts), BreakerAmps: known(c.Breaker),
		Conductor: conductor(c.Conductor, c.Length, c.Drop), Ground: ground(c.Ground), Receptacle: c.Receptacle, GFCI: given(c.GFCI), Loads: []Load{}}
	for _, l := range c.Loads {
		d.Loads = append(d.Loads, load(l))
	}
	return d
}
