package judge_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"branchwork/circuits"
	"branchwork/circuits/judge"
	"branchwork/codes"
)

// A motor whose current no table has, beside a heater of 12 A, behind a
// controller, on a sub-panel behind a transformer.
const undrawn = `# check
[site]
name = "undrawn"
use  = "commercial"
code = "nec-2023"

[panels.MDP]
system = "208Y/120 V 3ph"
main   = "100 A"
spaces = 12

[panels.LP1]
system = "120/240 V 1ph"
fed_by = "MDP"
main   = "60 A"
bus    = "100 A"
spaces = 12
transformer = "15 kVA"
feeder = { length = "20 ft" }

[rooms.flower]
panel  = "LP1"
lights = "06:00-18:00"

[controllers.box]
room      = "flower"
voltage   = "240 V"
power     = "5 W"
feed      = "50 A"
outlets   = 4
outlet_rating = "50 A"
contactor = "50 A"

[equipment.heater]
kind  = "heater"
room  = "flower"
power = "2880 W"
voltage = "240 V"
controller = "box"

[equipment.pump]
kind  = "pump"
room  = "flower"
hp    = "1 hp" # the motor
voltage = "240 V"
controller = "box"

[circuits.LP1-1]
panel   = "LP1"
spaces  = [1, 3]
breaker = "40 A"
conductor = "8 AWG copper THHN"
ground  = "10 AWG copper"
length  = "20 ft"
feeds   = { box = 1, heater = 1, pump = 1 }
`

// What a sum without one current is within, the sum with it may be beyond: no
// rule that limits it holds, on the circuit, its controller, its panel, the feeder
// and all that stands before. What is known of it may break the limit all the same.
func TestASumThatLacksACurrentIsNeverWithinItsLimit(t *testing.T) {
	p := defaultProfile(t)
	states := func(text string) map[string]codes.State {
		s := planned(t, "undrawn.toml", text, p)
		out := map[string]codes.State{}
		for _, a := range judge.Ask(s.inv, s.set, p, &s.plan) {
			if a.Verdict.State != codes.NotAsked {
				out[a.Rule.ID+" "+a.Facts.Subject] = a.Verdict.State
			}
		}
		return out
	}
	bounded := []string{"continuous-load circuits.LP1-1", "conductor-ampacity circuits.LP1-1", "controller-feed controllers.box",
		"controller-outlet-rating controllers.box", "controller-contactor controllers.box", "panel-main panels.LP1", "panel-main panels.MDP",
		"feeder-device panels.LP1", "transformer-capacity panels.LP1"}
	known, lacking := states(undrawn), states(strings.Replace(undrawn, "1 hp", "15 hp", 1))
	for _, x := range bounded {
		require.Equal(t, codes.Holds, known[x], x)
		assert.Equal(t, codes.CannotTell, lacking[x], x)
	}
	beyond := states(strings.NewReplacer("1 hp", "15 hp", `"40 A"`, `"15 A"`, `feed      = "50 A"`, `feed      = "10 A"`).Replace(undrawn))
	assert.Equal(t, codes.Broken, beyond["continuous-load circuits.LP1-1"], "the heater alone asks for 15 A and the box for more")
	assert.Equal(t, codes.Broken, beyond["controller-feed controllers.box"])
}

// Nothing is promised of a breaker, a main or a bus behind which a current is not
// known: no ampere is free and no room is counted.
func TestNothingIsPromisedBesideACurrentThatIsNotKnown(t *testing.T) {
	p := defaultProfile(t)
	for text, promised := range map[string]bool{undrawn: true, strings.Replace(undrawn, "1 hp", "15 hp", 1): false} {
		s := planned(t, "undrawn.toml", text, p)
		require.Len(t, s.plan.Circuits, 1)
		assert.Equal(t, promised, s.plan.Circuits[0].Free > 0)
		found := map[string]circuits.Scarce{}
		for _, x := range circuits.Scarcest(s.plan) {
			found[x.What+" of "+x.Panel] = x
		}
		assert.False(t, found["spaces of LP1"].Least)
		for _, what := range []string{"main of LP1", "bus of LP1", "main of MDP"} {
			require.Contains(t, found, what)
			assert.Equal(t, !promised, found[what].Least, what)
			if what != "main of MDP" { // behind a transformer, in no circuit's terms
				assert.Equal(t, promised, found[what].Buys != "" && found[what].Fits > 0, what)
			}
		}
	}
}
