package packing

import "fmt"

func dbg(s *solver, w string) {
	fmt.Println("   ", w, "nodes", s.nodes, "entries", s.m.entries, "pivots", s.m.pivots, "pool", len(s.pool))
}
