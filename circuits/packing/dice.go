package packing

// dice is a small generator of numbers that look random (xorshift). It starts
// from a fixed state, so that equal problems get equal plans.
type dice struct{ state uint64 }

func newDice() *dice { return &dice{0x9e3779b97f4a7c15} }

func (d *dice) next() uint64 {
	d.state ^= d.state << 13
	d.state ^= d.state >> 7
	d.state ^= d.state << 17
	return d.state
}

// below returns a number from 0 to n-1.
func (d *dice) below(n int) int { return int(d.next()>>11) % n }

// unit returns a number from 0 to less than 1.
func (d *dice) unit() float64 { return float64(d.next()>>11) / (1 << 53) }
