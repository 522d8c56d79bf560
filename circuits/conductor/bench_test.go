package conductor_test

import (
	"testing"

	"branchwork/circuits/conductor"
	"branchwork/codes/book"
	"branchwork/loads/units"
)

func BenchmarkSelect(b *testing.B) {
	p, _ := book.Profile("")
	run := conductor.Run{ToFirst: units.Is(units.Length(120)), Spacing: units.Is(units.Length(8))}
	for range 5 {
		run.Loads = append(run.Loads, conductor.Tap{VA: 640 / 0.98, PF: 0.98, ConstantPower: true})
	}
	r := conductor.Request{Continuous: 15.7, Device: 20, SmallLimits: true, Carrying: 4, Ambient: 35, Volts: 208, Run: run, DropLimit: 0.03}
	for b.Loop() {
		c, err := conductor.Select(r, p, nil)
		if err != nil || c.Size != "10 AWG" {
			b.Fatal(c.Size, err)
		}
	}
}
