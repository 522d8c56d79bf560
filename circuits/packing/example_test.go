package packing_test

import (
	"fmt"

	"branchwork/circuits/packing"
)

// Three items of 6 and four of 3 in bins of 10: two sixes never share a bin,
// and the bin of a six takes one three at most, so three bins hold at most
// three threes and a fourth is needed.
func ExampleSolve() {
	p := packing.Problem{
		Resources: 1,
		Kinds: []packing.Kind{
			{Count: 3, Forms: []packing.Form{{Uses: []int64{6}}}},
			{Count: 4, Forms: []packing.Form{{Uses: []int64{3}}}},
		},
		Bins: []packing.BinKind{{Limits: []int64{10}, Width: 1, Cost: 5}},
	}
	r, err := packing.Solve(p)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println("width", r.Width.Used, "at least", r.Width.Bound, "proved", r.Width.Proved)
	part := r.Certificate.Parts[0]
	fmt.Println("weights", part.Weights, "of kinds", part.Kinds, "and no bin holds more than", part.Z)
	// Output:
	// width 4 at least 4 proved true
	// weights [2 1] of kinds [0 1] and no bin holds more than 3
}
