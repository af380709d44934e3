package parallel

import (
	"context"
	"errors"
	"runtime"
	"sync/atomic"

	"golang.org/x/sync/errgroup"
)

// Cores is how many goroutines are worth their while for so many things (at least one): one for each core that Go may use, and no more than there are things.
func Cores(things int) int { return max(1, min(runtime.GOMAXPROCS(0), things)) }

// Each calls work once for each index below n, on all cores, and returns what it returned, in the order of the indices. The error is that of [Map].
func Each[T any](ctx context.Context, n int, work func(i int) (T, error)) ([]T, error) {
	return Map(ctx, make([]struct{}, Cores(n)), n, func(_ struct{}, i int) (T, error) { return work(i) })
}

// Map is [Each] with a goroutine for each worker (at least one), which no other call uses meanwhile: what a worker keeps from one call to the next must not change its results.
// The error is the first in the order of the indices, or that of the context; either ends the work between two things.
func Map[W, T any](ctx context.Context, workers []W, n int, work func(w W, i int) (T, error)) ([]T, error) {
	if len(workers) == 0 {
		return nil, errors.New("parallel: nobody to do the work")
	}
	type failure struct {
		index int
		err   error
	}
	out, failed := make([]T, n), make([]failure, len(workers))
	group, within := errgroup.WithContext(ctx)
	var next atomic.Int64
	for k, w := range workers {
		group.Go(func() (err error) {
			for within.Err() == nil { // asked before a thing is taken: all that come before one that fails are done
				i := int(next.Add(1)) - 1
				if i >= n {
					break
				}
				if out[i], err = work(w, i); err != nil {
					failed[k] = failure{i, err}
					return err
				}
			}
			return nil
		})
	}
	err := group.Wait() // the first in time
	if ctx.Err() != nil {
		return nil, ctx.Err()
	}
	if err == nil {
		return out, nil
	}
	first := failure{index: n}
	for _, f := range failed {
		if f.err != nil && f.index < first.index {
			first = f
		}
	}
	return nil, first.err
}

// UnlessDone returns what work returns, or the error of the context if that ends first: the work is then left to itself, and should end with its context.
func UnlessDone[T any](ctx context.Context, work func(ctx context.Context) (T, error)) (T, error) {
	type outcome struct {
		value T
		err   error
	}
	done := make(chan outcome, 1)
	go func() {
		value, err := work(ctx)
		done <- outcome{value, err}
	}()
	select {
	case o := <-done:
		return o.value, o.err
	case <-ctx.Done():
		var none T
		return none, ctx.Err()
	}
}
