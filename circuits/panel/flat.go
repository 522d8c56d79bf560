package panel

import "math"

// flat is the sums of the first and, of three, the second leg at each moment:
// two by moment. What the last leg carries follows from the total.
type flat [2 * mostMoments]int32

// mostTotal is the largest current over all legs that a flat can hold.
const mostTotal = math.MaxInt32

func (f *flat) add(leg, n int, load vector) {
	for m, i := range load {
		f[2*m+leg] += int32(int64(n) * i)
	}
}

func (f *flat) plus(g *flat) (sum flat) {
	for i := range f {
		sum[i] = f[i] + g[i]
	}
	return sum
}

// legs returns what the legs carry at a moment: first, second (0 of two) and
// last.
func (f *flat) legs(m int, total int64) (first, second, last int64) {
	first, second = int64(f[2*m]), int64(f[2*m+1])
	return first, second, total - first - second
}
