package diffusion_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion"
	"strandry/diffusion/samples"
	"strandry/materials/humidair"
)

func TestTraceFollowsTheStrand(t *testing.T) {
	for _, direction := range []diffusion.Direction{diffusion.With, diffusion.Against, diffusion.Mixed} {
		m := transit(t, 20)
		m.Path[1].Air.DryFlow, m.Path[1].Air.Direction = 3e-5, direction
		r := run(t, m)
		trace, err := diffusion.NewMarch().Trace(&m.Model, diffusion.DefaultSettings())
		require.NoError(t, err)
		within(t, r.Nozzle.Mean, trace.Result.Nozzle.Mean, 3e-4*r.Nozzle.Mean)
		last := trace.Points[len(trace.Points)-1]
		within(t, 13.1, last.Position, 1e-9)
		within(t, 6550, last.Time, 1e-9)
		require.Equal(t, trace.Result.Nozzle.Mean, last.Mean)
		within(t, trace.Result.Nozzle.Temperature, last.Temperature, 1e-9)
		for i, p := range trace.Points[1:] {
			before := trace.Points[i]
			require.GreaterOrEqual(t, p.Position, before.Position)
			require.LessOrEqual(t, p.Position-before.Position, 12.0/79)
			require.Len(t, p.Profile, len(trace.Radius))
		}
	}
}

// Against the strand the air is driest where the strand leaves, and as supplied there.
func TestTraceShowsTheAir(t *testing.T) {
	m := transit(t, 20)
	m.Path[1].Air.DryFlow, m.Path[1].Air.Direction = 3e-5, diffusion.Against
	trace, err := diffusion.NewMarch().Trace(&m.Model, diffusion.DefaultSettings())
	require.NoError(t, err)
	var drum []diffusion.Point
	for _, p := range trace.Points {
		if p.Zone == 1 {
			drum = append(drum, p)
		}
	}
	require.Greater(t, drum[1].VapourPressure, 300.0)
	within(t, 120, drum[len(drum)-1].VapourPressure, 0.1)
	within(t, 120/humidair.SaturationPressure(383.15), drum[len(drum)-1].Activity, 1e-5)
}

// Places never go back, though a length over a speed times the speed may be a bit more than the length.
func TestPlacesOfATraceRise(t *testing.T) {
	for _, speed := range []float64{2e-3, 2.5e-3} {
		for i := 1; i < 100; i += samples.Of(7, 1, 1) {
			m := transit(t, 0)
			m.Path[0].Length, m.Speed = float64(i)/10, speed
			trace, err := diffusion.NewMarch().Trace(&m.Model, diffusion.CoarseSettings())
			require.NoError(t, err)
			for k := 1; k < len(trace.Points); k++ {
				require.GreaterOrEqual(t, trace.Points[k].Position, trace.Points[k-1].Position, "%g m at %g m/s", m.Path[0].Length, speed)
			}
		}
	}
}

// A trace is that of its model alone, to the bit, whatever was marched with the same memory before: odds leave the balance of air and strand of one
// of their draws.
func TestTraceForgetsWhatWasMarched(t *testing.T) {
	d := transit(t, 0)
	d.Path[1].Air.DryFlow, d.Path[1].Air.Direction = 1e-6, diffusion.Against
	fresh, err := diffusion.NewMarch().Trace(&d.Model, diffusion.Settings{})
	require.NoError(t, err)
	w := diffusion.NewMarch()
	_, err = w.Odds(d, diffusion.Settings{})
	require.NoError(t, err)
	used, err := w.Trace(&d.Model, diffusion.Settings{})
	require.NoError(t, err)
	require.Equal(t, fresh.Result.Nozzle, used.Result.Nozzle)
	require.Equal(t, fresh.Points, used.Points)
}
