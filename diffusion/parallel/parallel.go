package parallel

import (
	"context"
	"runtime"
	"sync"

	"strandry/diffusion"
)

// Of calls work once for each index below n, with a march that no other call uses meanwhile.
// It returns the first error in the order of the indices, or that of the context, which
// ends the work between two things.
func Of[T any](ctx context.Context, n int, work func(w *diffusion.March, i int) (T, error)) ([]T, error) {
	out, failed := make([]T, n), make([]error, n)
	jobs := make(chan int)
	var workers sync.WaitGroup
	for range min(runtime.GOMAXPROCS(0), n) {
		workers.Go(func() {
			w := diffusion.NewMarch()
			for i := range jobs {
				out[i], failed[i] = work(w, i)
			}
		})
	}
	for i := 0; i < n && ctx.Err() == nil; i++ {
		jobs <- i
	}
	close(jobs)
	workers.Wait()
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	for _, err := range failed {
		if err != nil {
			return nil, err
		}
	}
	return out, nil
}
