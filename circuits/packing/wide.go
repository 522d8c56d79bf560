package packing

import "math/bits"

// wide is a 128-bit whole number in two's complement. Bounds are sums of
// products of 63-bit numbers; a sum in 64 bits would overflow without notice
// and print a wrong bound.
type wide struct {
	hi int64
	lo uint64
}

// add adds the product of a and b.
func (w *wide) add(a, b int64) {
	hi, lo := bits.Mul64(uint64(a), uint64(b))
	h := int64(hi)
	// Mul64 reads a negative a as a + 2^64: take b off the high half again.
	if a < 0 {
		h -= b
	}
	if b < 0 {
		h -= a
	}
	var carry uint64
	w.lo, carry = bits.Add64(w.lo, lo, 0)
	w.hi += h + int64(carry)
}

// ceil returns w / 2^s, rounded up, kept within the range of int64.
func (w wide) ceil(s uint) int64 {
	var carry uint64
	w.lo, carry = bits.Add64(w.lo, 1<<s-1, 0)
	w.hi += int64(carry)
	// What is left after the shift fits when the high half is a sign only.
	high := w.hi >> s
	low := w.lo>>s | uint64(w.hi)<<(64-s)
	switch {
	case high == 0 && int64(low) >= 0, high == -1 && int64(low) < 0:
		return int64(low)
	case w.hi < 0:
		return -1 << 62
	}
	return 1 << 62
}

// ceilDiv returns w / d for positive d, rounded up; 0 for negative w.
func (w wide) ceilDiv(d int64) int64 {
	if w.hi < 0 {
		return 0
	}
	var carry uint64
	w.lo, carry = bits.Add64(w.lo, uint64(d-1), 0)
	w.hi += int64(carry)
	if w.hi >= d {
		return 1 << 62
	}
	q, _ := bits.Div64(uint64(w.hi), w.lo, uint64(d))
	return int64(min(q, 1<<62))
}
