package judge

import (
	"fmt"
	"strings"

	"branchwork/circuits"
	"branchwork/codes"
	"branchwork/loads"
	"branchwork/loads/inventory"
	"branchwork/loads/steps"
	"branchwork/loads/units"
)

// circuitFacts gathers what is known of a circuit.
func (j *judgment) circuitFacts(c *circuits.Circuit) *codes.Facts {
	f := j.start("circuits."+c.Name, "circuit "+c.Name)
	if c.Name == "" {
		f = j.start("panels."+c.Panel, "a circuit of panel "+c.Panel+" that has no space")
	}
	worst := circuits.Worst(circuits.Carry(*c, j.set, j.p))
	codes.PutKnown(f, codes.BreakerAmps, c.Breaker)
	codes.Put(f, codes.FullRated, c.FullRated)
	missing := undrawn(c)
	putSum(f, codes.ContinuousAmps, c.Continuous, missing) // what was measured and nothing explains is in it
	putSum(f, codes.OtherAmps, worst.Other, missing)
	codes.Put(f, codes.MarkedAmps, worst.Marked)
	putSum(f, codes.LoadAmps, c.Load, missing)
	codes.Put(f, codes.StateName, worst.State.Name)
	codes.Put(f, codes.LoadList, j.pieces(c, worst))
	codes.Put(f, codes.Volts, c.Supply.Volts)
	codes.Put(f, codes.PhaseCount, c.Supply.Phases)
	codes.Put(f, codes.ToNeutral, c.Supply.Neutral)
	codes.Put(f, codes.Individual, c.Individual)
	codes.Put(f, codes.Existing, c.Existing)
	codes.Put(f, codes.CircuitName, c.Name)
	codes.PutKnown(f, codes.MeasuredAmps, c.Measured)
	codes.PutKnown(f, codes.PredictedAmps, c.Predicted)
	j.feeds(c, f)
	j.wire(c, f)
	j.drop(c, f)
	j.outlets(c, f)
	j.leakage(c, f)
	j.inrush(c, f)
	j.highLeg(c, f)
	j.neutral(c, f)
	j.raceway(c, f)
	return f
}

// pieces lists the loads that are on in a state with what a unit of each takes
// of the breaker.
func (j *judgment) pieces(c *circuits.Circuit, k circuits.Carried) []codes.Piece {
	var out []codes.Piece
	for i, cl := range c.Loads {
		if !k.State.On[i] {
			continue
		}
		each := cl.Draw.Amps
		if mca, ok := cl.Draw.MinCircuit.Get(); ok {
			each = mca
		} else if cl.ContinuousIn(k.State, i) {
			each = j.p.Continuous.Required(each, 0, c.FullRated)
		}
		out = append(out, codes.Piece{Item: cl.Who(), Count: cl.Count, Each: each, Higher: j.higher(c, cl)})
	}
	return out
}

// feeds tells what kinds of load hang on a circuit. Sums here are of everything
// connected, whatever the state of the day: the rules that ask for them limit
// ratings, not what runs.
func (j *judgment) feeds(c *circuits.Circuit, f *codes.Facts) {
	var lighting, corded, fastened, life, box bool
	var fixed, heat units.Current
	var heaters []codes.Piece
	for _, cl := range c.Loads {
		l, _ := j.set.Named(cl.Item)
		lamp := cl.Category == loads.Lighting
		lighting = lighting || lamp
		box = box || l.Item.Table == inventory.Controllers && l.Item.Feed.Known() && len(c.Loads) > 1
		corded = corded || l.Corded
		life = life || cl.Category == loads.AirMovement || cl.Category == loads.Control && cl.Item != c.Controller
		if !l.Corded && !lamp {
			fastened = true
			fixed += cl.Amps()
		}
		if l.Heater {
			heat += cl.Amps()
			heaters = append(heaters, codes.Piece{Item: cl.Who(), Count: cl.Count, Each: j.p.Continuous.Required(cl.Draw.Amps, 0, false), Higher: j.higher(c, cl)})
		}
	}
	codes.Put(f, codes.FeedsLighting, lighting)
	codes.Put(f, codes.FeedsCorded, corded)
	codes.Put(f, codes.FeedsFastened, fastened)
	codes.Put(f, codes.FeedsLife, life)
	codes.Put(f, codes.BehindBox, box)
	putSum(f, codes.FastenedAmps, fixed, undrawn(c))
	putSum(f, codes.HeaterAmps, heat, undrawn(c))
	codes.Put(f, codes.HeaterList, heaters)
	codes.Put(f, codes.ByEquipment, j.byEquipment(c))
	codes.Put(f, codes.DeviceFor, j.deviceFor(c))
}

// unknownWire is why everything that follows from a conductor is missing where
// nobody knows the conductor.
const unknownWire = "its conductor is not known"

// beyondRemedy is what to do where the tables do not reach a conductor.
const beyondRemedy = "take a conductor, an insulation or a route that the code's tables reach; a licensed electrician tells which"

// whyWire is why nothing follows from a conductor: nobody knows it, or the
// tables do not reach it.
func whyWire(w circuits.Wire) string {
	if w.Beyond != "" {
		return w.Beyond
	}
	return unknownWire
}

// missWire makes a fact that follows from a conductor unknown.
func missWire(f *codes.Facts, name codes.Fact, w circuits.Wire) {
	f.Miss(name, whyWire(w), "")
	if w.Beyond != "" {
		f.Settle(name, beyondRemedy)
	}
}

// wire gives the facts of the conductors. Everything that follows from a
// conductor that is not known is missing for the same reason.
func (j *judgment) wire(c *circuits.Circuit, f *codes.Facts) {
	codes.Put(f, codes.AmbientTemp, c.Ambient)
	codes.Put(f, codes.WireRests, j.rests(c.Conductor))
	for name, text := range map[codes.Fact]string{codes.WireSize: c.Conductor.Size, codes.WireMaterial: c.Conductor.Material,
		codes.WireInsulation: c.Conductor.Insulation} {
		if text == "" {
			missWire(f, name, c.Conductor)
		} else {
			codes.Put(f, name, text)
		}
	}
	for name, amps := range map[codes.Fact]units.Known[units.Current]{codes.WireAmps: c.Conductor.Ampacity,
		codes.WireTableAmps: c.Conductor.TerminalAmps, codes.WireCorrected: c.Conductor.CorrectedAmps} {
		if i, ok := amps.Get(); ok {
			codes.Put(f, name, i)
		} else {
			missWire(f, name, c.Conductor)
		}
	}
	j.ground(c, f)
}

// rests are the rows of the ampacity table of a conductor that were not seen in a
// source.
func (j *judgment) rests(w circuits.Wire) []steps.Cite {
	var out []steps.Cite
	t := j.p.Wires.Ampacity[w.Material]
	for _, column := range t.Columns {
		if _, how, ok := t.Value(w.Size, column); ok && how == steps.Recalled {
			return append(out, t.Cite(j.p.Edition, how))
		}
	}
	return out
}

// ground gives the facts of the grounding conductor: of a circuit that exists as
// the file has it, whether or not the rest of its wiring is known.
func (j *judgment) ground(c *circuits.Circuit, f *codes.Facts) {
	size, material := c.Ground.Size, c.Ground.Material
	codes.Put(f, codes.GroundNeeded, "")
	if c.Existing {
		size, material = "", ""
		codes.Put(f, codes.GroundNeeded, c.Ground.BeforeDrop) // what its device and conductor ask for
		for _, x := range j.inv.Circuits {
			if g, ok := x.Ground.Get(); ok && x.Name == c.Name {
				size, material = g.Size, g.Material.Or(c.Conductor.Material)
			}
		}
	}
	for name, text := range map[codes.Fact]string{codes.GroundSize: size, codes.GroundMaterial: material} {
		if text == "" && c.Conductor.Beyond != "" && !c.Existing {
			missWire(f, name, c.Conductor)
		} else if text == "" {
			f.Miss(name, "its grounding conductor is not known", "")
		} else {
			codes.Put(f, name, text)
		}
	}
}

// drop gives the voltage drop of the circuit and of the feeders before it.
func (j *judgment) drop(c *circuits.Circuit, f *codes.Facts) {
	codes.Put(f, codes.DropLimit, c.DropLimit)
	if d, ok := c.Drop.Get(); ok {
		codes.Put(f, codes.DropShare, d)
	} else if l := undrawn(c); l.why != "" {
		missDraw(f, l)
	} else if at := j.runAt(c); at != "" {
		f.Miss(codes.DropShare, "the run from panel to first outlet is not given", at)
	} else if c.Conductor.Size == "" || c.Conductor.Material == "" || c.Conductor.Beyond != "" {
		missWire(f, codes.DropShare, c.Conductor)
	} else {
		f.Miss(codes.DropShare, "its voltage drop is not known", "")
	}
	var before units.Ratio
	var missing lack
	through := false
	for name := c.Panel; ; {
		x := j.panelNamed(name)
		if x == nil || x.Feeder == nil {
			break
		}
		through = true
		d, ok := x.Feeder.Drop.Get()
		if !ok {
			f.Miss(codes.FeederDrop, "the length of the feeder to "+x.Name+" is not given", "panels."+x.Name)
			codes.Put(f, codes.FedThrough, true)
			return
		}
		before += d
		if missing.why == "" {
			missing = j.undrawnBelow(x)
		}
		name = x.Feeder.From
	}
	codes.Put(f, codes.FedThrough, through)
	putSum(f, codes.FeederDrop, before, missing)
}

// runAt is the table that would give a circuit's length, where it is only that
// which is missing: its room's, or its own.
func (j *judgment) runAt(c *circuits.Circuit) string {
	switch {
	case c.Length.Known() || c.Conductor.Size == "":
		return ""
	case len(c.Rooms) > 0:
		return "rooms." + c.Rooms[0]
	}
	return "circuits." + c.Name
}

// leakage adds the protective-conductor currents of a circuit's drivers and
// finds the threshold of the device that sees them. Of equipment other than
// luminaires what is given counts; of luminaires it must be given.
func (j *judgment) leakage(c *circuits.Circuit, f *codes.Facts) {
	var sum units.Current
	var missing []string
	at := ""
	for _, cl := range c.Loads {
		l, _ := j.set.Named(cl.Item)
		i, ok := l.Item.Leakage.Get()
		if !ok && cl.Category == loads.Lighting {
			missing = append(missing, cl.Who())
			if at == "" {
				at = cl.Path
			}
		}
		sum += units.Times(i, float64(cl.Count*max(1, l.Drivers)))
	}
	if len(missing) > 0 {
		f.Miss(codes.LeakageAmps, "the leakage of "+strings.Join(missing, " and ")+" is not given", at)
	} else {
		codes.Put(f, codes.LeakageAmps, sum)
	}
	trip := c.Protection.Trip
	if trip == 0 {
		trip = j.p.Protection(codes.Outlet{ToGround: c.ToGround, Volts: c.Supply.Volts, Phases: c.Supply.Phases,
			Rating: c.Breaker.Or(0), Lighting: true, Corded: true, Wet: true}).Trip
	}
	if trip > 0 {
		codes.Put(f, codes.TripAmps, trip)
	} else {
		f.Miss(codes.TripAmps, "the trip threshold of its ground-fault device is not known", "")
	}
}

// inrush adds up how much of their makers' limits per breaker the luminaires of
// a circuit use. Kinds that share a breaker share its limit.
func (j *judgment) inrush(c *circuits.Circuit, f *codes.Facts) {
	breaker, known := c.Breaker.Get()
	var share units.Ratio
	var detail, missing []string
	at, rating := "", ""
	for _, cl := range c.Loads {
		if cl.Category != loads.Lighting {
			continue
		}
		l, _ := j.set.Named(cl.Item)
		n, ok := makerLimit(l.Item.MaxPerBreaker, breaker)
		if !ok || !known {
			missing = append(missing, cl.Who())
			if at == "" {
				at = cl.Path
			}
			if len(l.Item.MaxPerBreaker) > 0 { // given for other ratings
				rating = " of " + breaker.String()
			}
			continue
		}
		share += units.Ratio(float64(cl.Count) / float64(n))
		detail = append(detail, fmt.Sprintf("%d %s, of which one breaker may switch %d", cl.Count, cl.Who(), n))
	}
	if len(missing) > 0 {
		f.Miss(codes.InrushShare, fmt.Sprintf("the number of %s that one breaker%s may switch is not given", strings.Join(missing, " and "), rating), at)
		return
	}
	codes.Put(f, codes.InrushShare, share)
	codes.Put(f, codes.InrushDetail, strings.Join(detail, "; "))
}

// makerLimit is the limit at a rating; one given without a rating holds for all.
func makerLimit(list []inventory.MaxPerBreaker, rating units.Current) (int, bool) {
	n, ok := 0, false
	for _, m := range list {
		if m.Count > 0 && (m.Rating == rating || m.Rating == 0 && !ok) {
			n, ok = m.Count, true
		}
	}
	return n, ok
}

// highLegIndex is the leg of a high-leg system that stands higher to ground than
// the others: the second in bus order.
const highLegIndex = 1

func (j *judgment) highLeg(c *circuits.Circuit, f *codes.Facts) {
	x := j.panelNamed(c.Panel)
	switch {
	case x == nil || x.System.Form != inventory.HighLeg:
		codes.Put(f, codes.OnHighLeg, false)
	case len(c.Legs) == 0:
		f.Miss(codes.OnHighLeg, "it has no space in the panel", "")
	default:
		on := false
		for _, leg := range c.Legs {
			on = on || leg == highLegIndex
		}
		codes.Put(f, codes.OnHighLeg, on)
	}
}

func (j *judgment) panelNamed(name string) *circuits.Panel {
	for i := range j.plan.Panels {
		if j.plan.Panels[i].Name == name {
			return &j.plan.Panels[i]
		}
	}
	return nil
}
