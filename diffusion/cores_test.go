package diffusion_test

import (
	"context"
	"fmt"
	"math"
	"runtime"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion"
	"strandry/diffusion/parallel"
)

// transits are models that differ in length, temperature and feed.
func transits(t testing.TB) func(i int) diffusion.Model {
	base := transit(t, 20)
	return func(i int) diffusion.Model {
		m := base.Model
		m.Path = slices.Clone(m.Path)
		m.Path[1].Length = 0.5 * math.Pow(80, float64(i%22)/21)
		m.Path[1].Air.Temperature = 333.15 + float64(i/22%22)*3
		m.Speed = 0.5e-3 * math.Pow(20, float64(i/484%22)/21)
		return m
	}
}

// means are the contents at the nozzle of so many of them, bit by bit.
func means(t testing.TB, count, workers int) []uint64 {
	marches := make([]*diffusion.March, workers)
	for i := range marches {
		marches[i] = diffusion.NewMarch()
	}
	model := transits(t)
	bits, err := parallel.Map(context.Background(), marches, count, func(w *diffusion.March, i int) (uint64, error) {
		m := model(i)
		var r diffusion.Result
		err := w.Run(&m, perMille(), &r)
		return math.Float64bits(r.Nozzle.Mean), err
	})
	require.NoError(t, err)
	return bits
}

func TestMarchesAreTheSameOnAnyNumberOfCores(t *testing.T) {
	one := means(t, 500, 1)
	require.Equal(t, one, means(t, 500, 2))
	require.Equal(t, one, means(t, 500, 7))
	require.Len(t, diffusion.Marches(1), 1)
	require.Len(t, diffusion.Marches(1000), runtime.GOMAXPROCS(0))
	// And the same as by themselves.
	for _, i := range []int{0, 33, 499} {
		m := transits(t)(i)
		var r diffusion.Result
		require.NoError(t, diffusion.NewMarch().Run(&m, perMille(), &r))
		require.Equal(t, one[i], math.Float64bits(r.Nozzle.Mean))
	}
}

// BenchmarkCores marches 10,000 transits that differ in length, temperature and
// feed.
func BenchmarkCores(b *testing.B) {
	for _, workers := range []int{1, runtime.NumCPU()} {
		b.Run(fmt.Sprintf("workers=%d", workers), func(b *testing.B) {
			const count = 10000
			b.ReportAllocs()
			for range b.N {
				means(b, count, workers)
			}
			b.ReportMetric(count*float64(b.N)/b.Elapsed().Seconds(), "marches/s")
		})
	}
}
