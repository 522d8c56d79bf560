package packing

import (
	"fmt"
	"os"
	"strings"
	"syscall"
	"testing"
	"time"
)

func TestDev(t *testing.T) {
	pat := os.Getenv("DEV")
	if pat == "" {
		t.Skip()
	}
	var total time.Duration
	bad := 0
	for _, in := range readRooms(t) {
		if !strings.Contains(in.Name, pat) {
			continue
		}
		p := in.problem()
		t0 := cpu()
		r, err := Solve(p)
		d := cpu() - t0
		total += d
		if err != nil {
			t.Fatal(err)
		}
		if err := Check(p, r); err != nil {
			t.Fatal(err)
		}
		flag := ""
		if !r.Cost.Proved || !r.Opened.Proved || !r.Width.Proved || r.Cost.Used != in.Reference.Cost {
			flag = " <<<<"
			bad++
		}
		fmt.Printf("%-10s %8.1fms opened %d/%d cost %d/%d ref %d %d  | %s | %s | cert %d/%d %s\n", in.Name, float64(d.Microseconds())/1000, r.Opened.Used, r.Opened.Bound, r.Cost.Used, r.Cost.Bound, in.Reference.Circuits, in.Reference.Cost, r.Width.Why, r.Cost.Why, r.Certificate.Bound, r.Width.Bound, flag)
	}
	fmt.Println(total, "open", bad)
}

func cpu() time.Duration {
	var u syscall.Rusage
	syscall.Getrusage(syscall.RUSAGE_SELF, &u)
	return time.Duration(u.Utime.Nano() + u.Stime.Nano())
}
