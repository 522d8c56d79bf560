package assign

import (
	"errors"
	"fmt"
	"slices"

	"branchwork/circuits"
	"branchwork/circuits/conductor"
	"branchwork/codes"
	"branchwork/loads"
	"branchwork/loads/abreast"
	"branchwork/loads/inventory"
	"branchwork/loads/steps"
	"branchwork/loads/units"
)

// defaultSpacing is the distance between outlets along a run where the file
// gives none: fixtures stand four to five feet apart. Common practice, no source.
const defaultSpacing = 4 * units.Foot

// wire gives a circuit its conductor, ground and voltage drop: chosen for a new
// circuit, worked out for the conductor that an existing one has.
func (pl *planner) wire(c *circuits.Circuit) error {
	x := pl.ask(c)
	x.answer(pl)
	return pl.land(x)
}

// wireAll is wire for every circuit of the plan, conductors being chosen side by side.
func (pl *planner) wireAll() error {
	list := pl.plan.Circuits
	asked := make([]wiring, len(list))
	for i := range list {
		asked[i] = pl.ask(&list[i])
	}
	abreast.Do(len(list), func(i int) { asked[i].answer(pl) },
		func(i int) { pl.tell("conductors of circuit "+list[i].Name, i+1, len(list)) })
	for _, x := range asked {
		if err := pl.land(x); err != nil {
			return fmt.Errorf("circuit %s: %w", x.c.Name, err)
		}
	}
	return nil
}

// wiring is what a circuit asks of its conductors, and what was found.
type wiring struct {
	c      *circuits.Circuit
	r      conductor.Request
	w      *steps.Work
	choice conductor.Choice
	why    string // why there is no choice
	err    error
}

func (pl *planner) ask(c *circuits.Circuit) wiring {
	w := &steps.Work{}
	c.Neutral = pl.neutral(c, w)
	r := pl.request(c)
	recordNeutral(c.Neutral, r.Carrying, w)
	c.Carrying, c.Ambient, c.DropLimit = r.Carrying, r.Ambient, pl.dropLimit()
	c.Length = r.Run.ToFirst
	c.LastOutlet = lastOutlet(r.Run)
	return wiring{c: c, r: r, w: w}
}

// answer chooses; it touches nothing but the circuit.
func (x *wiring) answer(pl *planner) { x.choice, x.why, x.err = pl.choose(x.c, x.r, x.w) }

// land puts what was found into the circuit.
func (pl *planner) land(x wiring) error {
	c := x.c
	switch {
	case x.err != nil:
		return fmt.Errorf("conductor: %w", x.err)
	case x.why == "":
		take(x.choice, &c.Conductor, &c.Ground)
		c.Drop = x.choice.Drop
		if c.Existing {
			c.Ground = pl.givenGround(c.Name, c.Ground)
		}
		_, without := pl.carryingOf(c.Supply, c.Neutral)
		pl.uncounted(without, &c.Neutral, x.choice, x.w)
		if f := (x.choice.UsableAmps - c.Load); f < c.Free {
			c.Free = max(0, f)
		}
	}
	c.Raceway = pl.circuitRaceway(c, x.w)
	c.Steps = slices.Concat(c.Steps, x.w.Steps())
	return nil
}

// choose chooses a circuit's conductor, or works out the one it has. Where
// there is none that the tables reach, or nobody knows it, the circuit keeps what
// is known, and why is not empty.
func (pl *planner) choose(c *circuits.Circuit, r conductor.Request, w *steps.Work) (choice conductor.Choice, why string, err error) {
	given, ok := pl.given(c.Name)
	unknown := ""
	switch {
	case ok && pl.knownWire(given):
	case given.Size != "":
		unknown = "its conductor's material is not given"
	default:
		unknown = "its conductor is not given"
	}
	choice, why, err = pl.chooseOr(given, c.Existing, unknown, r, &c.Conductor, &c.Drop, w)
	if why != "" {
		c.Free = 0
		if c.Existing {
			c.Ground = pl.givenGround(c.Name, circuits.Wire{})
		}
	}
	return choice, why, err
}

// chooseOr chooses a conductor or, where one is in the wall, works that out; where
// it is not known well enough, unknown says why. Of a conductor that is not known,
// or that the tables do not reach, what is known is kept, and why is not empty.
func (pl *planner) chooseOr(given inventory.Conductor, inWall bool, unknown string, r conductor.Request,
	wire *circuits.Wire, drop *units.Known[units.Ratio], w *steps.Work) (choice conductor.Choice, why string, err error) {
	switch {
	case !inWall:
		given = inventory.Conductor{Material: units.Is(r.Material), Insulation: units.Is(r.Insulation)}
		choice, err = conductor.Select(r, pl.p, w)
	case unknown != "":
		why = unknown
	default: // it is judged, not enlarged
		r.Material, r.Insulation, r.DropLimit = given.Material.Or(r.Material), given.Insulation.Or(r.Insulation), 0
		given.Insulation = units.Is(r.Insulation)
		choice, err = conductor.Evaluate(given.Size, max(1, given.Sets), r, pl.p, w)
	}
	var beyond conductor.Beyond
	if errors.As(err, &beyond) {
		why, err = beyond.Why, nil
	}
	if why != "" {
		*wire = unknownWire(given, why)
		wire.Beyond = beyond.Why
		*drop = units.Unknown[units.Ratio](why)
	}
	return choice, why, err
}

// request is what a circuit asks of its conductors.
func (pl *planner) request(c *circuits.Circuit) conductor.Request {
	worst := circuits.Worst(circuits.Carry(*c, pl.set, pl.p))
	w := pl.inv.Site.Conductors
	r := conductor.Request{Continuous: worst.Continuous, Other: worst.Load - worst.Continuous, FullRated: c.FullRated,
		Device: c.Breaker.Or(0), RoundUp: c.Wired || c.Individual, SmallLimits: true,
		Material: w.Material.Or(pl.p.Wires.Material), Insulation: w.Insulation.Or(pl.p.Wires.Insulation), Raceway: w.Raceway.Or(pl.p.Wires.Raceway),
		Ambient: pl.ambient(c), Terminals: w.Terminals, Volts: c.Supply.Volts, Phases: c.Supply.Phases, Neutral: c.Supply.Neutral,
		DropLimit: pl.dropLimit(), Cite: pl.p.Continuous.WireCite}
	if !c.Existing && r.Material == "aluminum" && !units.Exceeds(r.Device, codes.CopperUpTo) {
		r.Material = "copper"
		pl.assume("site.conductors.material of branch circuits up to "+codes.CopperUpTo.String(), "copper",
			"aluminum is asked for; at these ratings its joints loosen, and what is in the wall of it is to be inspected: see branch-wiring", steps.CommonPractice)
	}
	if worst.Marked > 0 {
		r.Least = worst.Required
	}
	switch p := pl.p; c.Governed() {
	case circuits.ByNameplate:
		r.SmallLimits, r.Cite, r.LeastCite, r.DeviceCite = false, steps.Cite{}, p.Marked.WireCite, p.Marked.DeviceCite
	case circuits.ByMotor:
		r.SmallLimits, r.DeviceCite = false, p.Motors.BreakerCite
		r.Least = units.Times(c.Loads[0].Draw.Amps, p.Motors.Allowance(p.Continuous.Factor()))
		if p.Motors.Held() {
			r.Cite = p.Motors.WireCite
		}
	}
	r.Carrying, _ = pl.carryingOf(c.Supply, c.Neutral)
	r.Run = pl.run(c, worst.State)
	if c.Existing {
		r.DropLimit = 0 // a conductor in the wall is judged, not enlarged
	}
	if !pl.inv.Plan.MaxDrop.Known() {
		pl.assume("plan.max_drop", units.Round(100*float64(pl.p.Drop.Branch), 2)+" %", "not given; what the code says of a branch circuit is taken", pl.p.Drop.Cite)
	}
	pl.assumeWiring(w)
	return r
}

// dropLimit is the voltage drop that a branch circuit may have.
func (pl *planner) dropLimit() units.Ratio { return pl.inv.Plan.MaxDrop.Or(pl.p.Drop.Branch) }

// carrying is the current-carrying conductors of one circuit.
func carrying(s inventory.Supply) int {
	if s.Neutral {
		return s.Poles + 1
	}
	return s.Poles
}

func (pl *planner) assumeWiring(w inventory.Wiring) {
	if !w.Material.Known() {
		pl.assume("site.conductors.material", pl.p.Wires.Material, "not given", steps.CommonPractice)
	}
	if !w.Insulation.Known() {
		pl.assume("site.conductors.insulation", pl.p.Wires.Insulation, "not given", steps.CommonPractice)
	}
	if !w.Raceway.Known() {
		pl.assume("site.conductors.raceway", pl.p.Wires.Raceway, "not given", steps.CommonPractice)
	}
	if !w.Terminals.Known() {
		pl.assume("site.conductors.terminals", fmt.Sprintf("%s up to %s, %s above", pl.p.Wires.LowColumn, pl.p.Wires.LowUpTo, pl.p.Wires.HighColumn),
			"not given; the columns for terminations that carry no marking are taken", pl.p.Wires.ColumnCite)
	}
	if !w.PerRaceway.Known() {
		pl.assume("site.conductors.per_raceway", "1", "not given; each home run has a raceway to itself", steps.CommonPractice)
	}
}

// ambient is the warmest air around a circuit's conductors: as given, or the
// base of the ampacity table and the rooms it serves, whichever is warmer.
func (pl *planner) ambient(c *circuits.Circuit) units.Temperature {
	if t, ok := pl.inv.Site.Conductors.Ambient.Get(); ok {
		return t
	}
	warmest, where := pl.p.Wires.Base, ""
	for _, name := range c.Rooms {
		if t, ok := pl.room(name).Climate.LightsOn.Get(); ok && t > warmest {
			warmest, where = t, name
		}
	}
	if where == "" {
		pl.assume("site.conductors.ambient", warmest.String(), "not given; the ampacity table's own ambient is taken, no room being warmer", steps.CommonPractice)
	} else {
		pl.assume("rooms."+where+".ambient", warmest.String(), "site.conductors.ambient is not given; the room's set point with lights on is taken for its circuits", steps.CommonPractice)
	}
	return warmest
}

// run is the circuit's run with the loads of one state, unit by unit.
func (pl *planner) run(c *circuits.Circuit, s loads.State) conductor.Run {
	r := conductor.Run{ToFirst: c.Length, Spacing: units.Unknown[units.Length]("no room is named")}
	if len(c.Rooms) > 0 {
		room := pl.room(c.Rooms[0])
		r.Spacing = room.Spacing
		if !r.ToFirst.Known() {
			r.ToFirst = room.Run
			farther, step, ok := pl.reach(c, room)
			if first, known := room.Run.Get(); ok && known {
				r.ToFirst, r.Spacing = units.Is(first+farther), units.Is(step)
			}
		}
		if !room.Spacing.Known() {
			r.Spacing = units.Is(defaultSpacing)
			if len(c.Loads) > 1 || !c.Individual {
				pl.assume("rooms."+room.Name+".spacing", defaultSpacing.String(), "not given; outlets stand about so far apart along a run", steps.CommonPractice)
			}
		}
	} else {
		r.Spacing = units.Is(defaultSpacing)
	}
	if !r.ToFirst.Known() {
		r.ToFirst = units.Unknown[units.Length]("the run from panel to first outlet is not given")
	}
	for i, cl := range c.Loads {
		if i < len(s.On) && !s.On[i] {
			continue
		}
		l, _ := pl.set.Named(cl.Item)
		for range cl.Count {
			r.Loads = append(r.Loads, conductor.Tap{VA: cl.Draw.VA, PF: cl.Draw.PF, ConstantPower: l.NonLinear})
		}
	}
	return r
}

func lastOutlet(r conductor.Run) units.Known[units.Length] {
	first, ok1 := r.ToFirst.Get()
	spacing, ok2 := r.Spacing.Get()
	if !ok1 || !ok2 || len(r.Loads) == 0 {
		return units.Unknown[units.Length]("the run is not known")
	}
	return units.Is(first + units.Times(spacing, float64(len(r.Loads)-1)))
}

func (pl *planner) given(name string) (inventory.Conductor, bool) {
	for _, x := range pl.inv.Circuits {
		if x.Name == name {
			return x.Conductor.Get()
		}
	}
	return inventory.Conductor{}, false
}

// knownWire reports whether a conductor in the wall is known well enough to have
// an ampacity: size and material. Its insulation may be taken from the site.
func (pl *planner) knownWire(g inventory.Conductor) bool {
	m, ok := g.Material.Get()
	_, table := pl.p.Wires.Ampacity[m]
	return ok && table && g.Size != ""
}

// unknownWire keeps what is said of a conductor whose ampacity cannot be known,
// so that the judge can tell what is missing.
func unknownWire(g inventory.Conductor, why string) circuits.Wire {
	amps := units.Unknown[units.Current](why)
	return circuits.Wire{Size: g.Size, Material: g.Material.Or(""), Insulation: g.Insulation.Or(""), Sets: max(1, g.Sets),
		Ampacity: amps, TerminalAmps: amps, CorrectedAmps: amps, ProtectedAt: amps}
}

func (pl *planner) givenGround(name string, needed circuits.Wire) circuits.Wire {
	for _, x := range pl.inv.Circuits {
		if g, ok := x.Ground.Get(); ok && x.Name == name {
			return circuits.Wire{Size: g.Size, Material: g.Material.Or(""), Sets: 1, BeforeDrop: needed.Size}
		}
	}
	return circuits.Wire{Material: needed.Material, Sets: 1, BeforeDrop: needed.Size}
}

// take copies a chosen conductor into the plan.
func take(k conductor.Choice, wire, ground *circuits.Wire) {
	*wire = circuits.Wire{Size: k.Size, Material: k.Material, Insulation: k.Insulation, Sets: k.Sets,
		Ampacity: units.Is(k.UsableAmps), TerminalAmps: units.Is(k.TableAmps), CorrectedAmps: units.Is(k.CorrectedAmps),
		ProtectedAt: units.Is(k.ProtectedAt), Governs: k.Governs}
	if k.BeforeDrop != k.Size {
		wire.BeforeDrop = k.BeforeDrop
	}
	*ground = circuits.Wire{Size: k.Ground, Material: k.Material, Sets: k.Sets, Governs: k.GroundGoverns}
}
