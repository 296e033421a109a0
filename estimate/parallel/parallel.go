// Package parallel does independent pieces of work side by side. Every piece
// keeps its place, so the number of processors changes no result.
package parallel

import (
	"context"
	"runtime"
	"sync"
)

// Each calls do(i) for every i from 0 to n-1 on as many goroutines as there are
// processors, and done, one call at a time, with the number finished. It stops
// handing out work when the context ends and returns the context's error. A
// panic in a piece of work ends the others too and is raised again here, where
// the caller can meet it.
func Each(ctx context.Context, n int, do func(i int), done func(finished int)) error {
	next := make(chan int)
	var (
		group    sync.WaitGroup
		lock     sync.Mutex
		finished int
		fault    any
	)
	ctx, stop := context.WithCancel(ctx)
	defer stop()
	piece := func(i int) {
		defer func() {
			if p := recover(); p != nil {
				lock.Lock()
				fault = p
				lock.Unlock()
				stop()
			}
		}()
		do(i)
	}
	for range min(runtime.GOMAXPROCS(0), n) {
		group.Go(func() {
			for i := range next {
				piece(i)
				lock.Lock()
				finished++
				done(finished)
				lock.Unlock()
			}
		})
	}
	for i := 0; i < n && ctx.Err() == nil; i++ {
		next <- i
	}
	close(next)
	group.Wait()
	if fault != nil {
		panic(fault)
	}
	return ctx.Err()
}
