package packing

import "testing"

// BenchmarkRooms solves the sixty instances, one after the other.
func BenchmarkRooms(b *testing.B) {
	rooms := readRooms(b)
	for b.Loop() {
		for _, in := range rooms {
			p := in.problem()
			r, err := Solve(p)
			if err != nil || Check(p, r) != nil || !r.Cost.Proved || (in.Reference.Proved && r.Cost.Used != in.Reference.Cost) {
				b.Fatal(in.Name, err, r.Cost)
			}
		}
	}
}

// BenchmarkHundredThousand places 100,000 items of 30 kinds.
func BenchmarkHundredThousand(b *testing.B) {
	for _, f := range crowds() {
		p := f.draw(nil)
		b.Run(f.name, func(b *testing.B) {
			for b.Loop() {
				r, err := Solve(p)
				if err != nil || Check(p, r) != nil || !r.Cost.Proved {
					b.Fatal(err, r.Cost)
				}
			}
		})
	}
}
