package parallel_test

import (
	"context"
	"errors"
	"fmt"
	"runtime"
	"sync/atomic"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"strandry/diffusion/parallel"
)

func TestResultsAreInOrder(t *testing.T) {
	for _, workers := range []int{1, 2, 7, 200} {
		squares, err := parallel.Map(context.Background(), make([]int, workers), 100, func(_, i int) (int, error) { return i * i, nil })
		require.NoError(t, err)
		require.Len(t, squares, 100)
		for i, x := range squares {
			require.Equal(t, i*i, x)
		}
	}
	none, err := parallel.Each(context.Background(), 0, func(int) (int, error) { return 1, nil })
	require.NoError(t, err)
	require.Empty(t, none)
	_, err = parallel.Map(context.Background(), nil, 1, func(_, i int) (int, error) { return i, nil })
	require.ErrorContains(t, err, "nobody")
}

// Each worker serves one call at a time, and all of them serve.
func TestWorkersAreNotShared(t *testing.T) {
	type worker struct{ busy, calls atomic.Int64 }
	workers := []*worker{{}, {}, {}}
	shared, err := parallel.Map(context.Background(), workers, 60, func(w *worker, _ int) (bool, error) {
		w.calls.Add(1)
		alone := w.busy.Add(1) == 1
		time.Sleep(time.Millisecond)
		w.busy.Add(-1)
		return !alone, nil
	})
	require.NoError(t, err)
	require.NotContains(t, shared, true)
	for _, w := range workers {
		require.Positive(t, w.calls.Load())
	}
	require.Equal(t, min(3, runtime.GOMAXPROCS(0)), parallel.Cores(3))
	require.Equal(t, 1, parallel.Cores(0))
}

// The error is that of the lowest index, though one after it fails sooner, and ends the work.
func TestFirstErrorByIndex(t *testing.T) {
	for _, workers := range []int{1, 2, 5} {
		var calls atomic.Int64
		_, err := parallel.Map(context.Background(), make([]struct{}, workers), 1000, func(_ struct{}, i int) (int, error) {
			calls.Add(1)
			switch {
			case i == 3:
				time.Sleep(20 * time.Millisecond)
				return 0, errors.New("thing 3")
			case i > 3:
				return 0, fmt.Errorf("thing %d", i)
			}
			return i, nil
		})
		require.EqualError(t, err, "thing 3", "%d", workers)
		require.Less(t, calls.Load(), int64(20))
	}
}

func TestContextEndsTheWork(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	var calls atomic.Int64
	_, err := parallel.Each(ctx, 1000, func(int) (int, error) {
		calls.Add(1)
		cancel()
		return 0, errors.New("not told")
	})
	require.ErrorIs(t, err, context.Canceled)
	require.Less(t, calls.Load(), int64(100))
}

func TestUnlessDone(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	got, err := parallel.UnlessDone(ctx, func(context.Context) (int, error) { return 7, errors.New("both") })
	require.Equal(t, 7, got)
	require.EqualError(t, err, "both")
	hold := make(chan struct{})
	defer close(hold)
	got, err = parallel.UnlessDone(ctx, func(context.Context) (int, error) {
		cancel()
		<-hold
		return 7, nil
	})
	require.Zero(t, got)
	require.ErrorIs(t, err, context.Canceled)
}
