package cec_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"branchwork/circuits/assign"
	"branchwork/codes"
	"branchwork/codes/book"
	"branchwork/loads/units"
)

// foreign are American words that have no place here. A grounding conductor runs
// to the ground electrode, and what bonds equipment is a bonding conductor;
// equipment is approved or marked, not listed (Section 0, from memory).
const foreign = `(?i)grounding conductor|\blisting\b|\bNEC\b|horticultural lighting`

func TestRulesSpeakTheWordsOfTheCanadianTrade(t *testing.T) {
	p, ok := book.Profile("cec-2024")
	require.True(t, ok)
	for _, r := range p.Rules {
		texts := []string{r.Title, r.Why}
		for _, need := range r.Needs {
			texts = append(texts, p.Say(string(need)))
		}
		for _, x := range r.Remedies {
			texts = append(texts, p.Say(string(x)))
		}
		for _, s := range texts {
			assert.NotRegexp(t, foreign, s, r.ID)
		}
	}
	for _, s := range p.NotCovered {
		assert.NotRegexp(t, foreign, s)
	}
}

// Of a circuit whose wiring nobody knows the words to take to an electrician are
// those of his code.
func TestFindingsSpeakOfBonding(t *testing.T) {
	plan, findings := planned(t, `
[site]
name = "shop"
use  = "commercial"
code = "cec-2024"

[panels.LP1]
system = "120/240 V 1ph"
main   = "100 A"
spaces = 12

[rooms.shop]
panel = "LP1"
run   = "5 m"

[fans.fan]
room = "shop"
count = 2
power = "100 W"
voltage = "120 V"
plug = "5-15"

[circuits.LP1-1]
panel   = "LP1"
spaces  = [1]
breaker = "20 A"
receptacle = "5-20RA"
feeds   = { "fan" = 2 }
`, assign.AsBuilt)
	bonding := 0
	rules := map[string]codes.State{}
	for _, f := range findings {
		rules[f.Rule] = f.State
		assert.NotRegexp(t, foreign, f.Message+f.Remedy)
		if assert.NotEmpty(t, f.Remedy) && (f.Rule == "branch-wiring" || f.Rule == "ground-size") {
			bonding++
			assert.Contains(t, f.Message+f.Remedy, "bonding conductor")
		}
	}
	assert.Equal(t, 2, bonding)
	assert.Equal(t, codes.Broken, rules["plug-fits"], "5-20RA takes no plug of 15 A (Appendix B, Rule 26-700)")
	for _, s := range plan.Circuits[0].Steps {
		assert.NotRegexp(t, foreign, s.Name)
	}
}

// 5-20R is the T-slot and takes plugs of 15 A too (Appendix B, Rule 26-700); it is
// the one that a circuit of 20 A is given.
func TestACircuitOf20AIsGivenTheTSlot(t *testing.T) {
	p := profile(t)
	for volts, want := range map[units.Voltage]string{120: "5-20R", 240: "6-20R"} {
		r, ok := p.ReceptacleFor(20, volts, 1, volts == 120)
		require.True(t, ok)
		assert.Equal(t, want, r.Name)
		assert.False(t, r.OwnPlug)
		only, ok := p.ReceptacleNamed(want + "A")
		require.True(t, ok)
		assert.True(t, only.OwnPlug)
	}
}
