package judge_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"branchwork/circuits"
	"branchwork/circuits/judge"
	"branchwork/codes"
	"branchwork/codes/book"
	"branchwork/loads/steps"
)

const marked = "(from memory)"

func recalled(list []steps.Cite) bool {
	for _, c := range list {
		if c.How == steps.Recalled {
			return true
		}
	}
	return false
}

// A finding of a rule whose clause is held from memory says so, in every edition.
// In 2026 that is most of them.
func TestAFindingOfARuleFromMemorySaysSo(t *testing.T) {
	remembered := map[string]int{}
	for _, p := range book.All() {
		for _, r := range p.Rules {
			cites, in := r.In(p.Edition)
			text, ok := read(t, p, r.ID, "broken.toml")
			if !in || !ok {
				continue
			}
			s := planned(t, "broken.toml", text, p)
			for _, f := range of(r.ID, judge.Plan(s.inv, s.set, p, &s.plan)) {
				if recalled(cites) {
					assert.Contains(t, f.Clause(), marked, "%s %s", p.Name, r.ID)
					remembered[p.Name]++
				}
				assert.Equal(t, recalled(f.Cites), strings.Contains(f.Clause(), marked), "%s %s", p.Name, r.ID)
			}
		}
	}
	assert.Greater(t, remembered["nec-2023"], 3)
	assert.Greater(t, remembered["nec-2026"], 2*remembered["nec-2023"])
}

// Every limit of every circuit of the fixtures carries the clauses it comes from.
func TestEveryLimitSaysWhereItComesFrom(t *testing.T) {
	p := defaultProfile(t)
	n := 0
	for _, r := range p.Rules {
		text, ok := read(t, p, r.ID, "sound.toml")
		if !ok {
			continue
		}
		s := planned(t, "sound.toml", text, p)
		judge.Plan(s.inv, s.set, p, &s.plan)
		for _, c := range s.plan.Circuits {
			for _, l := range c.Limits {
				n++
				assert.NotEmpty(t, l.Cites, l.Rule)
			}
		}
	}
	assert.Greater(t, n, 100)
}

// What rests on one row of a table that is held from memory says so, though its
// rule's clause was seen; the same on a row that was seen does not.
func TestAValueFromMemoryThatDecidesIsMarked(t *testing.T) {
	p := defaultProfile(t)
	find := func(text, rule string) (codes.Finding, circuits.Plan) {
		s := planned(t, "x.toml", text, p)
		found := of(rule, judge.Plan(s.inv, s.set, p, &s.plan))
		require.Len(t, found, 1, rule)
		return found[0], s.plan
	}
	fixture := func(rule, old, new string) string {
		text, ok := read(t, p, rule, "broken.toml")
		require.True(t, ok)
		require.Contains(t, text, old)
		return strings.ReplaceAll(text, old, new)
	}

	emt, _ := find(fixture("raceway-fill", "1/2 EMT", "1/2 EMT"), "raceway-fill")
	assert.Equal(t, "NEC 2023 Chapter 9 Table 1", emt.Clause())
	pvc, _ := find(fixture("raceway-fill", "1/2 EMT", "1/2 PVC"), "raceway-fill")
	assert.Equal(t, "NEC 2023 Chapter 9 Table 1; NEC 2023 Chapter 9 Table 4 (from memory)", pvc.Clause())

	heavy := strings.NewReplacer(`breaker = "60 A"`, `breaker = "700 A"`, "6 AWG copper THHN", "SIZE", `power = "13.5 kW"`, `power = "160 kW"`)
	text := heavy.Replace(fixture("conductor-ampacity", "ground  = \"10 AWG copper\"\n", ""))
	for size, remembered := range map[string]bool{"1500 kcmil copper THHN": true, "1250 kcmil copper THHN": false} {
		f, plan := find(strings.ReplaceAll(text, "SIZE", size), "conductor-ampacity")
		assert.Equal(t, remembered, strings.Contains(f.Clause(), "Table 310.16 (from memory)"), size)
		for _, l := range plan.Circuits[0].Limits {
			if l.Rule == "conductor-ampacity" {
				assert.Equal(t, remembered, recalled(l.Cites), size)
			}
		}
	}

	row := facts{codes.ReceptacleKind: receptacle("L6-30"), codes.Individual: false, codes.Corded: true, codes.BehindBox: false, codes.UnitAmps: 25 * amps}
	for kind, remembered := range map[string]bool{"L6-30": true, "6-20": false} {
		v := verdict(t, p, "receptacle-load", row.with(codes.ReceptacleKind, receptacle(kind)))
		assert.Equal(t, codes.Broken, v.State)
		assert.Equal(t, remembered, recalled(v.Rests), kind)
	}
	for kind, remembered := range map[string]bool{"6-20": true, "6-15": false} { // with a plug of 6-15, which was seen
		v := verdict(t, p, "plug-fits", facts{codes.PlugKind: receptacle("6-15"), codes.ReceptacleKind: receptacle(kind), codes.BehindBox: false})
		assert.Equal(t, remembered, recalled(v.Rests), kind)
	}
}

func verdict(t *testing.T, p *codes.Profile, rule string, known facts) codes.Verdict {
	for _, r := range p.Rules {
		if r.ID == rule {
			f := codes.NewFacts("circuits.x", "circuit x")
			codes.Put(f, codes.Profiled, p)
			for n, v := range known {
				codes.Put[any](f, n, v)
			}
			return r.Judge(f)
		}
	}
	require.Fail(t, "no rule "+rule)
	return codes.Verdict{}
}
