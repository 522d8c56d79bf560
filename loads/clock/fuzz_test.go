package clock

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// FuzzWindows: the arithmetic of windows is that of sets of minutes. Each pair of
// numbers is a window; a set of 1,440 bits is worked beside them.
func FuzzWindows(f *testing.F) {
	for _, s := range [][]byte{{}, {0, 0, 5, 160}, {4, 56, 1, 104}, {0, 0, 0, 0}, {5, 159, 0, 1, 0, 1, 5, 159}, {1, 0, 2, 0, 2, 0, 3, 0, 0, 30, 0, 10}} {
		f.Add(s, uint16(60), uint16(600))
	}
	f.Fuzz(func(t *testing.T, pairs []byte, low, high uint16) {
		w, bits := Never(), [Day]bool{}
		for len(pairs) >= 4 && len(pairs) <= 64 {
			from := Minute(int(pairs[0])<<8|int(pairs[1])) % (Day + 1)
			to := Minute(int(pairs[2])<<8|int(pairs[3])) % (Day + 1)
			pairs = pairs[4:]
			one, err := Between(from, to)
			if err != nil {
				require.ErrorIs(t, err, ErrNoLength)
				continue
			}
			require.Positive(t, one.Length())
			w = w.Union(one)
			for m := from; ; m++ { // at least a minute; a window to its own start is refused
				bits[m%Day] = true
				if (m+1)%Day == to%Day {
					break
				}
			}
		}
		on, run, longest := Minute(0), Minute(0), Minute(0)
		for m := range 2 * Day {
			require.Equal(t, bits[m%Day], w.Contains(m), "%v at %v", w, m%Day)
			require.Equal(t, !bits[m%Day], w.Without().Contains(m))
			if run++; !bits[m%Day] {
				run = 0
			}
			longest = max(longest, min(run, Day))
			if m < Day && bits[m] {
				on++
			}
		}
		require.Equal(t, on, w.Length())
		require.Equal(t, longest, w.LongestRun())
		readBack(t, w)
		a, b := Minute(low)%Day, Minute(high)%(Day+1)
		if a < b {
			inside := 0.0
			for m := a; m < b; m++ {
				if bits[m] {
					inside++
				}
			}
			require.InDelta(t, inside/float64(b-a), w.Share(a, b), 1e-12)
		}
	})
}
