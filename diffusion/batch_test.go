package diffusion_test

import (
	"context"
	"errors"
	"fmt"
	"math"
	"runtime"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion"
)

// transits are a batch of them that differ in length, temperature and feed.
func transits(t testing.TB, count, workers int, use func(i int, r *diffusion.Result) error) *diffusion.Batch {
	base := transit(t, 20)
	return &diffusion.Batch{
		Count: count, Workers: workers, Settings: perMille(), Use: use,
		Make: func(i int, m *diffusion.Model) error {
			path := append(m.Path[:0], base.Path...)
			*m = base.Model
			m.Path = path
			m.Path[1].Length = 0.5 * math.Pow(80, float64(i%22)/21)
			m.Path[1].Air.Temperature = 333.15 + float64(i/22%22)*3
			m.Speed = 0.5e-3 * math.Pow(20, float64(i/484%22)/21)
			return nil
		},
	}
}

func means(t testing.TB, count, workers int) []uint64 {
	var bits []uint64
	d := transits(t, count, workers, func(i int, r *diffusion.Result) error {
		require.Len(t, bits, i, "in order")
		bits = append(bits, math.Float64bits(r.Nozzle.Mean))
		return nil
	})
	require.NoError(t, d.Run(context.Background()))
	require.Len(t, bits, count)
	return bits
}

func TestBatchIsTheSameOnAnyNumberOfCores(t *testing.T) {
	one := means(t, 500, 1)
	require.Equal(t, one, means(t, 500, 2))
	require.Equal(t, one, means(t, 500, 7))
	// And the same as marches by themselves.
	d := transits(t, 1, 1, nil)
	for _, i := range []int{0, 33, 499} {
		var m diffusion.Model
		require.NoError(t, d.Make(i, &m))
		var r diffusion.Result
		require.NoError(t, diffusion.NewMarch().Run(&m, d.Settings, &r))
		require.Equal(t, one[i], math.Float64bits(r.Nozzle.Mean))
	}
}

func TestBatchStops(t *testing.T) {
	stop := errors.New("enough")
	d := transits(t, 100000, 2, func(i int, _ *diffusion.Result) error {
		if i == 40 {
			return stop
		}
		return nil
	})
	require.ErrorIs(t, d.Run(context.Background()), stop)
	ctx, cancel := context.WithCancel(context.Background())
	d.Use = func(i int, _ *diffusion.Result) error {
		if i == 40 {
			cancel()
		}
		return nil
	}
	require.ErrorIs(t, d.Run(ctx), context.Canceled)
	d.Use = func(int, *diffusion.Result) error { return nil }
	working := d.Make
	d.Make = func(i int, m *diffusion.Model) error {
		if i == 70 {
			return stop
		}
		return working(i, m)
	}
	require.ErrorIs(t, d.Run(context.Background()), stop)
	d.Count = 0
	require.NoError(t, d.Run(context.Background()))
}

// BenchmarkBatch marches 10,000 transits that differ in length, temperature and
// feed.
func BenchmarkBatch(b *testing.B) {
	for _, workers := range []int{1, runtime.NumCPU()} {
		b.Run(fmt.Sprintf("workers=%d", workers), func(b *testing.B) {
			const count = 10000
			d := transits(b, count, workers, func(int, *diffusion.Result) error { return nil })
			b.ReportAllocs()
			for range b.N {
				if err := d.Run(context.Background()); err != nil {
					b.Fatal(err)
				}
			}
			b.ReportMetric(count*float64(b.N)/b.Elapsed().Seconds(), "marches/s")
		})
	}
}
