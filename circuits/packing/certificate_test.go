package packing

import (
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// certificateCase has a certificate of two parts by hand: sixes weigh 2 and
// threes 1, and no bin of 10 holds more than 3; family 1 holds one item a bin.
func certificateCase() (Problem, Certificate) {
	p := Problem{
		Resources: 1,
		Kinds: []Kind{
			{3, []Form{{0, []int64{6}}}},
			{4, []Form{{0, []int64{3}}}},
			{5, []Form{{1, []int64{7}}}},
		},
		Bins: []BinKind{
			{Family: 0, Limits: []int64{10}, Width: 1},
			{Family: 1, Limits: []int64{10}, Width: 2},
		},
	}
	return p, Certificate{
		Bound: 4 + 10,
		Parts: []Part{
			{Kinds: []int{0, 1}, Weights: []int64{2, 1}, Z: 3, Bound: 4},
			{Kinds: []int{2}, Weights: []int64{2}, Z: 1, Bound: 10},
		},
	}
}

func TestCertificateByHandVerifies(t *testing.T) {
	p, c := certificateCase()
	require.NoError(t, c.Verify(p))
	require.Equal(t, c.Bound, solved(t, p).Width.Used)
}

func TestWrongCertificatesAreRefused(t *testing.T) {
	for _, x := range []struct {
		why   string
		broke func(p *Problem, c *Certificate)
		want  string
	}{
		{"z too small", func(_ *Problem, c *Certificate) { c.Parts[0].Z = 2 }, "bin kind 0 holds 3, more than 2"},
		{"bound too high", func(_ *Problem, c *Certificate) { c.Parts[0].Bound, c.Bound = 5, 15 }, "bound 5, the weights give 4"},
		{"sum wrong", func(_ *Problem, c *Certificate) { c.Bound = 15 }, "bound 15, the parts add up to 14"},
		{"weight too high", func(_ *Problem, c *Certificate) { c.Parts[0].Weights[1] = 2 }, "holds 6, more than 3"},
		{"negative weight", func(_ *Problem, c *Certificate) { c.Parts[0].Weights[1] = -1 }, "weight -1 of kind 1"},
		{"z of zero", func(_ *Problem, c *Certificate) { c.Parts[1].Z = 0 }, "malformed"},
		{"a weight is missing", func(_ *Problem, c *Certificate) { c.Parts[0].Weights = []int64{2} }, "malformed"},
		{"a kind is in two parts", func(_ *Problem, c *Certificate) { c.Parts[1].Kinds[0] = 1 }, "kind 1 is unknown or named twice"},
		{"parts could meet", func(p *Problem, c *Certificate) {
			p.Kinds[2].Forms[0] = Form{0, []int64{1}}
		}, "of different parts may meet"},
		{"there are fewer items", func(p *Problem, _ *Certificate) { p.Kinds[0].Count = 1 }, "bound 4, the weights give 2"},
		{"bins are larger", func(p *Problem, _ *Certificate) { p.Bins[0].Limits[0] = 12 }, "holds 4, more than 3"},
		{"an existing bin takes some", func(p *Problem, _ *Certificate) {
			p.Existing = []Existing{{Family: 0, Limits: []int64{10}}}
		}, "bound 4, the weights give 3"},
	} {
		t.Run(x.why, func(t *testing.T) {
			p, c := certificateCase()
			x.broke(&p, &c)
			require.ErrorContains(t, c.Verify(p), x.want)
		})
	}
}

// TestVerifierPacksTheHeaviest compares the verifier's knapsack with
// enumeration of the contents.
func TestVerifierPacksTheHeaviest(t *testing.T) {
	for _, unit := range []int64{1, 1_000_003} {
		rapid.Check(t, func(t *rapid.T) {
			p := drawProblem(t, unit)
			var weights []int64
			for range p.Kinds {
				weights = append(weights, rapid.Int64Range(0, 50).Draw(t, "weight"))
			}
			v, e := newVerifier(p), newEnumeration(p)
			var need []int
			for _, k := range p.Kinds {
				need = append(need, k.Count)
			}
			trays := v.trays()
			for i, b := range e.bins() {
				var want int64
				e.contents(b, need, func(rest []int) {
					var sum int64
					for k := range need {
						sum += weights[k] * int64(need[k]-rest[k])
					}
					want = max(want, sum)
				})
				var in []cargo
				for k := range p.Kinds {
					if g, ok := v.admits(&trays[i], k); ok {
						g.weight = weights[k]
						in = append(in, g)
					}
				}
				require.Equal(t, want, v.heaviest(trays[i].limits, in))
			}
		})
	}
}

// TestFullTableAgreesWithTrying packs the same stack both ways.
func TestFullTableAgreesWithTrying(t *testing.T) {
	rounds(t, 2, func(t *rapid.T) {
		limits := rapid.SliceOfN(rapid.Int64Range(5, 40), 3, 3).Draw(t, "limits")
		var in []cargo
		for k := range rapid.IntRange(1, 5).Draw(t, "kinds") {
			in = append(in, cargo{kind: k, weight: rapid.Int64Range(1, 30).Draw(t, "weight"),
				most: rapid.Int64Range(1, 9).Draw(t, "most"),
				uses: rapid.SliceOfN(rapid.Int64Range(0, 9), 3, 3).Draw(t, "uses")})
		}
		s := newStack(limits, in)
		most, ok := s.table()
		require.True(t, ok)
		require.Equal(t, s.heaviest(), most)
	})
}

// Where two sizes of every kind share the bins, the certificate's own check may not
// come to an end; then it proves less, and what is printed still verifies.
func TestWhatTheCheckCannotFollowIsNotClaimed(t *testing.T) {
	p := Problem{Resources: 2, Bins: []BinKind{{Limits: []int64{80_000, 1_000_000}, Width: 2}}}
	for i := range int64(30) {
		p.Kinds = append(p.Kinds, Kind{3, []Form{{0, []int64{8_015 + 10*i, 1_000_000 / (3 + i%7)}}}})
	}
	r := solved(t, p)
	require.NoError(t, Check(p, r))
	require.NoError(t, r.Certificate.Verify(p))
	require.GreaterOrEqual(t, r.Width.Used, r.Certificate.Bound)
}
