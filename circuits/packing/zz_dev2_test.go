package packing

import (
	"fmt"
	"os"
	"testing"
	"time"

	"pgregory.net/rapid"
)

func TestSlow(t *testing.T) {
	if os.Getenv("SLOW") == "" {
		t.Skip()
	}
	rapid.Check(t, func(t *rapid.T) {
		p := drawProblem(t)
		done := make(chan bool)
		go func() {
			select {
			case <-done:
			case <-time.After(3 * time.Second):
				fmt.Printf("SLOW %#v\n", p)
				os.Exit(1)
			}
		}()
		_, err := Solve(p)
		if err != nil {
			t.Fatal(err)
		}
		close(done)
	})
}
