package abreast

import (
	"sync/atomic"
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestDoDoesEveryPieceOnceAndBeginsThemInOrder(t *testing.T) {
	for _, n := range []int{0, 1, 2, 100} {
		times := make([]atomic.Int32, n)
		var begun []int
		Do(n, func(i int) { times[i].Add(1) }, func(i int) { begun = append(begun, i) })
		for i := range times {
			assert.EqualValues(t, 1, times[i].Load())
			assert.Equal(t, i, begun[i])
		}
		assert.Len(t, begun, n)
	}
}

// A fault of ours in one piece of work is ours to report, not the end of the process.
func TestAPanicAbreastIsRaisedInTheCaller(t *testing.T) {
	var done atomic.Int32
	func() {
		defer func() { assert.ErrorContains(t, recover().(error), "third piece\n") }()
		Do(9, func(i int) {
			done.Add(1)
			if i == 2 {
				panic("third piece")
			}
		}, func(int) {})
		assert.Fail(t, "nothing was raised")
	}()
	assert.EqualValues(t, 9, done.Load())
}
