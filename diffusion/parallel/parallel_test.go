package parallel_test

import (
	"context"
	"errors"
	"fmt"
	"sync/atomic"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion"
	"strandry/diffusion/parallel"
)

func TestOrderErrorsAndContext(t *testing.T) {
	squares, err := parallel.Of(context.Background(), 100, func(w *diffusion.March, i int) (int, error) {
		require.NotNil(t, w)
		return i * i, nil
	})
	require.NoError(t, err)
	for i, x := range squares {
		require.Equal(t, i*i, x)
	}
	none, err := parallel.Of(context.Background(), 0, func(*diffusion.March, int) (int, error) { return 1, nil })
	require.NoError(t, err)
	require.Empty(t, none)

	_, err = parallel.Of(context.Background(), 10, func(_ *diffusion.March, i int) (int, error) {
		if i > 3 {
			return 0, fmt.Errorf("thing %d", i)
		}
		return i, nil
	})
	require.EqualError(t, err, "thing 4")

	ctx, cancel := context.WithCancel(context.Background())
	var calls atomic.Int64
	_, err = parallel.Of(ctx, 1000, func(*diffusion.March, int) (int, error) {
		calls.Add(1)
		cancel()
		return 0, errors.New("not told")
	})
	require.ErrorIs(t, err, context.Canceled)
	require.Less(t, calls.Load(), int64(100))
}
