package diffusion

import (
	"context"
	"fmt"
	"sync"
)

// Batch is many models to be marched at once.
type Batch struct {
	Count    int
	Settings Settings
	Workers  int // goroutines; as many as there are cores is a good choice

	// Make changes the model to number i. It starts from the model that the
	// worker made last, or from a zero one, and so must set all that varies.
	// Called by several goroutines at once.
	Make func(i int, m *Model) error
	// Use takes the result of model i, in rising order of i, on the caller's
	// goroutine. The result is overwritten after it returns.
	Use func(i int, r *Result) error
}

// A block of models is the unit of work; so many blocks for each worker are under
// way at once, which bounds the memory.
const (
	blockSize       = 32
	blocksPerWorker = 4
)

type block struct {
	first, count int
	results      [blockSize]Result
	done         chan error
}

// Run marches the models. The results are the same to the bit for any number of
// workers. It stops at the first error, in the order of the models, or when the
// context ends.
func (batch *Batch) Run(ctx context.Context) error {
	workers := max(1, batch.Workers)
	under := workers * blocksPerWorker
	free, jobs, order := make(chan *block, under), make(chan *block, under), make(chan *block, under)
	for range under {
		free <- &block{done: make(chan error, 1)}
	}
	ctx, cancel := context.WithCancel(ctx)
	var all sync.WaitGroup
	defer all.Wait()
	defer cancel()
	for range workers {
		all.Go(func() {
			w, m := NewMarch(), &Model{}
			for b := range jobs {
				b.done <- batch.march(ctx, w, m, b)
			}
		})
	}
	all.Go(func() {
		defer close(jobs)
		defer close(order)
		for first := 0; first < batch.Count; first += blockSize {
			select {
			case b := <-free:
				b.first, b.count = first, min(blockSize, batch.Count-first)
				order <- b
				jobs <- b
			case <-ctx.Done():
				return
			}
		}
	})
	for b := range order {
		if err := <-b.done; err != nil {
			return err
		}
		for k := range b.count {
			if err := batch.Use(b.first+k, &b.results[k]); err != nil {
				return err
			}
		}
		free <- b
	}
	return ctx.Err()
}

func (batch *Batch) march(ctx context.Context, w *March, m *Model, b *block) error {
	for k := range b.count {
		if err := ctx.Err(); err != nil {
			return err
		}
		i := b.first + k
		if err := batch.Make(i, m); err != nil {
			return fmt.Errorf("model %d: %w", i, err)
		}
		if err := w.Run(m, batch.Settings, &b.results[k]); err != nil {
			return fmt.Errorf("model %d: %w", i, err)
		}
	}
	return nil
}
