package verify

import (
	"math/bits"

	"branchwork/circuits"
)

// proofs checks by hand what the plan claims that no plan can do without: for
// each part it packs the weights into one circuit of each kind, the heaviest way
// there is, and compares with Z.
func (v *verifier) proofs() {
	for _, p := range v.plan.Proofs {
		for _, c := range p.Choices {
			var sum int64
			for _, part := range c.Parts {
				v.part(p, part)
				sum += part.Bound
			}
			if sum != c.Bound {
				v.complain("proof for %s %s: parts add up to %d, not %d", p.Panel, p.Room, sum, c.Bound)
			}
		}
		if p.Bound > p.Used {
			v.complain("proof for %s %s: bound %d above the %d used", p.Panel, p.Room, p.Bound, p.Used)
		}
	}
}

func (v *verifier) part(p circuits.Proof, part circuits.ProofPart) {
	limited := false
	for _, b := range part.Bins {
		for _, m := range b.Most {
			limited = limited || m > 0
		}
	}
	// Where makers' limits are shared by several items, counting them one by one
	// would allow a circuit more than the plan does; that packing is checked where
	// it was made.
	if limited && len(part.Items) > 1 {
		return
	}
	var total int64
	for _, i := range part.Items {
		total += int64(i.Count) * i.Weight
	}
	if part.Z <= 0 || part.Bound > 0 && (total-part.Spared+part.Z-1)/part.Z < part.Bound {
		v.complain("proof for %s %s: weights of %d over %d do not give %d", p.Panel, p.Room, total-part.Spared, part.Z, part.Bound)
	}
	for _, b := range part.Bins {
		if thin(part.Items, b, part.Z*int64(b.Spaces)) {
			continue
		}
		if w := heaviest(part.Items, b); w > part.Z*int64(b.Spaces) {
			v.complain("proof for %s %s: a circuit of %s at %s holds a weight of %d, more than %d", p.Panel, p.Room, b.Rating, b.Volts, w, part.Z*int64(b.Spaces))
		}
	}
}

// thin reports whether no item weighs so much for its size that a circuit full of
// it, parts of units counted, would hold more than z; then no mixture does either.
func thin(items []circuits.ProofItem, b circuits.ProofBin, z int64) bool {
	for i, x := range items {
		// weight × room > z × size, in 128 bits
		ah, al := bits.Mul64(uint64(x.Weight), uint64(b.Room))
		ch, cl := bits.Mul64(uint64(z), uint64(x.Size))
		if b.Most[i] != 0 && (ah > ch || ah == ch && al > cl) {
			return false
		}
	}
	return true
}

// mostRoom bounds the table that heaviest fills, after common factors are taken
// out; a larger one is left to the check where the packing was made.
const mostRoom = 4_000_000

// heaviest returns the most weight that one circuit can hold.
func heaviest(items []circuits.ProofItem, b circuits.ProofBin) int64 {
	if len(items) == 1 {
		n := int64(items[0].Count)
		if items[0].Size > 0 {
			n = min(n, b.Room/items[0].Size)
		}
		if b.Most[0] >= 0 {
			n = min(n, int64(b.Most[0]))
		}
		return n * items[0].Weight
	}
	unit := b.Room
	for i, x := range items {
		if b.Most[i] != 0 {
			unit = gcd(unit, x.Size)
		}
	}
	if unit == 0 || b.Room/unit > mostRoom {
		return 0
	}
	best := make([]int64, b.Room/unit+1)
	for i, x := range items {
		n := x.Count
		if b.Most[i] >= 0 {
			n = min(n, b.Most[i])
		}
		for k := 1; n > 0; k *= 2 { // counts in powers of two
			take := min(k, n)
			n -= take
			size, weight := int64(take)*x.Size/unit, int64(take)*x.Weight
			for room := int64(len(best)) - 1; room >= size; room-- {
				best[room] = max(best[room], best[room-size]+weight)
			}
		}
	}
	return best[len(best)-1]
}

func gcd(a, b int64) int64 {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}
