package prove

import (
	"context"
	"sync"
)

// Checks returns the table, family by family.
func Checks() []Check {
	var all []Check
	for _, family := range []func() []Check{
		roots, series, driven, stepOutside, varying, exponential, solver, orders, transit,
		covered, humidAir, transport, salts, films, heating, evaporation, sorption, diffusivities, flows, invariants,
	} {
		all = append(all, family()...)
	}
	return all
}

// Run carries out the table on so many goroutines (at least one) and reports each
// result in the order of the table, on the caller's goroutine. The results are the
// same to the bit for any number of workers. It returns the error of the context if
// that ends first.
func Run(ctx context.Context, workers int, report func(Result)) error {
	return run(ctx, Checks(), workers, report)
}

func run(ctx context.Context, checks []Check, workers int, report func(Result)) error {
	done := make([]chan Result, len(checks))
	for i := range done {
		done[i] = make(chan Result, 1)
	}
	ctx, cancel := context.WithCancel(ctx)
	var all sync.WaitGroup
	defer all.Wait()
	defer cancel()
	next := make(chan int)
	for range max(1, workers) {
		all.Go(func() {
			for i := range next {
				done[i] <- checks[i].carriedOut()
			}
		})
	}
	all.Go(func() {
		defer close(next)
		for i := range checks {
			select {
			case next <- i:
			case <-ctx.Done():
				return
			}
		}
	})
	for i := range checks {
		select {
		case r := <-done[i]:
			report(r)
		case <-ctx.Done():
			return ctx.Err()
		}
	}
	return nil
}
