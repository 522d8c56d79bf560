package packing

import (
	"fmt"
	"os"
	"testing"
)

func TestOne(t *testing.T) {
	if os.Getenv("ONE") == "" {
		t.Skip()
	}
	p := Problem{Kinds: []Kind{{Count: 3, Forms: []Form{{Family: 0, Uses: []int64{9, 3, 0}}}}, {Count: 2, Forms: []Form{{Family: 0, Uses: []int64{9, 4, 3}}}}, {Count: 2, Forms: []Form{{Family: 0, Uses: []int64{2, 10, 4}}}}, {Count: 2, Forms: []Form{{Family: 0, Uses: []int64{7, 8, 11}}}}}, Bins: []BinKind{{Family: 0, Limits: []int64{19, 16, 15}, Width: 3, Cost: 3, Max: 0, Allow: []bool{true, false, false, false}, AtMost: []int(nil)}, {Family: 0, Limits: []int64{9, 25, 26}, Width: 2, Cost: 1, Max: 0}, {Family: 0, Limits: []int64{8, 8, 13}, Width: 0, Cost: 1, Max: 0}}, Existing: []Existing{{Family: 0, Limits: []int64{25, 21, 8}}, {Family: 0, Limits: []int64{11, 10, 11}, Allow: []bool{false, false, false, false}, AtMost: []int(nil), Holds: []int(nil)}}, Resources: 3,
		Limits: Work{Nodes: 100, Pivots: 300000}}
	r, err := Solve(p)
	fmt.Println(r, err)
}
