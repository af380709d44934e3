package diffusion

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion/exact"
	"strandry/materials"
)

// within fails on NaN too.
func within(t *testing.T, want, got, tolerance float64, about ...any) {
	t.Helper()
	require.False(t, math.IsNaN(got) || math.IsNaN(want), about...)
	require.InDelta(t, want, got, tolerance, about...)
}

// heating is a strand of 1.75 mm, k 0.20 W/(m K), ρc 1200·1700 J/(m³ K), from 23 °C into
// 70 °C air with h = 40 W/(m² K).
func heating(t *testing.T, model Heat) *thermal {
	h := &NewMarch().main.around.thermal
	h.rest(296.15)
	require.NoError(t, h.enter(343.15, 40, 0.875e-3, 0.20, 1200*1700, Settings{Resolution: 5, Tolerance: 1e-3, Heat: model}, []float64{0.1, 0.5, 0.99}))
	return h
}

// Centre, surface and mean of the heated cylinder were evaluated from the series of
// Carslaw & Jaeger with 40 digits and confirmed by inversion of the Laplace
// transform; the lumped column is the exponential.
func TestStrandHeatsAsTheSeriesSays(t *testing.T) {
	rows := []struct{ time, surface, mean, lumped float64 }{
		{5, 33.709593, 32.099316, 32.435556},
		{10, 40.717705, 39.418333, 39.976863},
		{20, 50.935150, 50.089167, 50.821515},
		{60, 66.574322, 66.422311, 66.806645},
	}
	resolved, lumped := heating(t, ByBiot), heating(t, Lumped)
	require.True(t, resolved.resolved, "Biot number 0.175")
	within(t, 0.175, resolved.biot, 1e-12)
	for _, row := range rows {
		within(t, row.surface, resolved.surface(row.time, 0)-273.15, 1e-5)
		within(t, row.lumped, lumped.surface(row.time, 0)-273.15, 1e-5)
		h := heating(t, Resolved)
		h.leave(row.time, 0)
		within(t, row.mean, h.mean()-273.15, 1e-4)
	}
}

// A profile handed from one zone to the next is the one that the staged
// eigenfunctions of package exact carry.
func TestTemperatureProfileIsHandedOn(t *testing.T) {
	h := heating(t, Resolved)
	h.leave(4, 0)
	require.NoError(t, h.enter(300, 80, 0.875e-3, 0.20, 1200*1700, Settings{Resolution: 5, Tolerance: 1e-3, Heat: Resolved}, []float64{0.3}))
	p, err := exact.Uniform(296.15, 60)
	require.NoError(t, err)
	pace := 0.20 / (1200 * 1700 * 0.875e-3 * 0.875e-3)
	p, err = p.After(exact.Stage{Biot: 0.175, Fourier: 4 * pace, Surroundings: 343.15})
	require.NoError(t, err)
	p, err = p.After(exact.Stage{Biot: 0.35, Fourier: 2 * pace, Surroundings: 300})
	require.NoError(t, err)
	within(t, p.At(1), h.surface(2, 0), 1e-5)
	inside := make([]float64, 1)
	h.aboveSurface(2, inside)
	within(t, p.At(0.3), h.surface(2, 0)+inside[0], 1e-5)
}

// A second zone with the film and the air of the first is the first going on: the row of ten seconds of the series
// above, in two stages. Its eigenfunctions are those of the zone before, and each overlaps itself alone.
func TestZonesOfOneFilmAreOne(t *testing.T) {
	h := heating(t, Resolved)
	h.leave(4, 0)
	require.NoError(t, h.enter(343.15, 40, 0.875e-3, 0.20, 1200*1700, Settings{Resolution: 5, Tolerance: 1e-3, Heat: Resolved}, nil))
	within(t, 40.717705, h.surface(6, 0)-273.15, 1e-5)
	within(t, 39.418333, h.meanAt(6, 0)-273.15, 1e-4)
}

func TestLumpingFollowsTheBiotNumber(t *testing.T) {
	h := &NewMarch().main.around.thermal
	h.rest(300)
	for film, resolved := range map[float64]bool{20: false, 28.5: false, 28.6: true, 60: true} {
		require.NoError(t, h.enter(350, film, 0.875e-3, 0.25, 2e6, Settings{Resolution: 5, Tolerance: 1e-3}, nil))
		require.Equal(t, resolved, h.resolved, "h = %g", film)
	}
}

// The conductance at a gap is that of the law, on both sides of a break of its activation energy.
func TestConductanceIsTheLaw(t *testing.T) {
	d := materials.Diffusivity{
		Reference: 298.15, ReferenceValue: materials.Value{Value: 2e-12},
		Pieces: []materials.Arrhenius{{Activation: materials.Value{Value: 90e3}}, {From: 330, Activation: materials.Value{Value: 20e3}}},
	}
	s := surroundings{radius: 1e-3, diffusivity: &d}
	for _, surface := range []float64{260, 329.9, 330, 330.1, 400} {
		s.temperature, s.conductance = surface, s.dry(surface)
		for _, off := range []float64{0, 1e-7, -1e-3, 0.05, -0.2, 0.2, 1, -1, 3, -3, 9, -9, 80, -80} {
			s.excess = []float64{off, 0, off / 2, off / 3, -off}
			k := make([]float64, len(s.excess))
			s.conduct(k)
			for i, excess := range s.excess {
				within(t, 1, k[i]/s.dry(surface+excess), 1e-11, "%g K and %g", surface, excess)
			}
		}
	}
}
