// Package abreast does pieces of work side by side.
package abreast

import (
	"fmt"
	"runtime"
	"runtime/debug"
)

// Do does n pieces of work that do not touch one another, as many at a time as
// there are processors, and says of each, in order, that it has begun. What comes out
// must not depend on which ends first. A panic in one is raised here once all have
// ended.
func Do(n int, work, begun func(i int)) {
	next, ended := make(chan int), make(chan error)
	for range min(n, runtime.GOMAXPROCS(0)) {
		go func() {
			for i := range next {
				ended <- attempt(work, i)
			}
		}()
	}
	var broken error
	for handed, done := 0, 0; done < n; {
		var to chan<- int
		if handed < n {
			to = next
		}
		select {
		case to <- handed:
			begun(handed)
			handed++
		case err := <-ended:
			if done++; err != nil {
				broken = err
			}
		}
	}
	close(next)
	if broken != nil {
		panic(broken)
	}
}

func attempt(work func(int), i int) (broken error) {
	defer func() {
		if p := recover(); p != nil {
			broken = fmt.Errorf("%v\n%s", p, debug.Stack())
		}
	}()
	work(i)
	return nil
}
