package packing

import (
	"math/big"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// TestWideAgreesWithBig adds products and rounds up as whole numbers without
// limit do.
func TestWideAgreesWithBig(t *testing.T) {
	rounds(t, 10, func(t *rapid.T) {
		var w wide
		want := new(big.Int)
		for range rapid.IntRange(1, 6).Draw(t, "terms") {
			a, b := rapid.Int64().Draw(t, "a"), rapid.Int64().Draw(t, "b")
			w.add(a>>1, b>>1)
			want.Add(want, new(big.Int).Mul(big.NewInt(a>>1), big.NewInt(b>>1)))
		}
		clamp := func(v *big.Int) int64 {
			switch {
			case v.IsInt64():
				return v.Int64()
			case v.Sign() < 0:
				return -1 << 62
			}
			return 1 << 62
		}
		s := rapid.UintRange(0, 40).Draw(t, "shift")
		up := new(big.Int).Sub(new(big.Int).Lsh(big.NewInt(1), s), big.NewInt(1))
		require.Equal(t, clamp(new(big.Int).Rsh(up.Add(up, want), s)), w.ceil(s))

		d := rapid.Int64Range(1, 1<<40).Draw(t, "divisor")
		q := new(big.Int)
		if want.Sign() >= 0 {
			q.Add(want, big.NewInt(d-1))
			q.Div(q, big.NewInt(d))
			if q.BitLen() > 62 {
				q.Lsh(big.NewInt(1), 62)
			}
		}
		require.Equal(t, q.Int64(), w.ceilDiv(d))
	})
}
