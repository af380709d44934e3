package diffusion_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/integrate/quad"

	"strandry/diffusion"
)

// The Fourier number of each zone is the integral of D/R² over its time, here by Gauss's rule over the temperature of a
// strand that follows the air by an exponential, at the content that a strand keeps which gives off nothing: the
// heating is over within one step of the march or lasts for many, and D grows with the content.
func TestFourierIsTheIntegralOfTheDiffusivity(t *testing.T) {
	for _, beta := range []float64{0, 20, 60} {
		for _, heat := range []float64{3, 25, 400} {
			m := transit(t, beta)
			for i := range m.Path {
				m.Path[i].Film = diffusion.Film{Heat: heat, Mass: 1e-12}
			}
			s := diffusion.DefaultSettings()
			s.Heat, s.WithoutEvaporation = diffusion.Lumped, true
			r, err := diffusion.NewMarch().Assess(m, s)
			require.NoError(t, err)
			entered := m.StartTemperature
			for i, z := range m.Path {
				air, seconds := z.Air.Temperature, z.Length/m.Speed
				rate := 2 * heat / (1130 * 1700 * m.Radius)
				at := func(time float64) float64 { return air + (entered-air)*math.Exp(-rate*time) }
				pace := func(time float64) float64 {
					return 4e-13 * math.Exp(-55e3/8.314462618*(1/at(time)-1/296.15)+beta*m.Start) / (m.Radius * m.Radius)
				}
				want, from := 0.0, 0.0
				for _, to := range []float64{0.1, 0.3, 1, 3, 10, 30, 100} { // time constants
					end := min(to/rate, seconds)
					want += quad.Fixed(pace, from, end, 40, nil, 0)
					from = end
				}
				want += pace(seconds) * (seconds - from)
				require.InEpsilon(t, want, r.Zones[i].Fourier, 1e-4, "beta %g, h %g, %s", beta, heat, z.Name)
				entered = at(seconds)
			}
		}
	}
}

// Where the content changes by a hundredfold on the way, coarse and fine steps give the same.
func TestFourierOfADryingStrand(t *testing.T) {
	m := transit(t, 60)
	m.Start = 0.06
	coarse, err := diffusion.NewMarch().Assess(m, diffusion.DefaultSettings())
	require.NoError(t, err)
	s := diffusion.DefaultSettings().Refined()
	s.Tolerance = 1e-7
	fine, err := diffusion.NewMarch().Assess(m, s)
	require.NoError(t, err)
	for i := range m.Path {
		require.InEpsilon(t, fine.Zones[i].Fourier, coarse.Zones[i].Fourier, 2e-4, m.Path[i].Name)
	}
	require.Greater(t, coarse.Zones[1].Fourier, 0.1)
}

// Where the air is sought, only the march that agrees counts: with air beyond measure the Fourier number is that of air without
// limit.
func TestFourierOfTheSearchIsNotCounted(t *testing.T) {
	m := transit(t, 20)
	want := assess(t, m)
	for _, direction := range []diffusion.Direction{diffusion.Against, diffusion.Mixed} {
		m.Path[1].Air.DryFlow, m.Path[1].Air.Direction = 10, direction
		got := assess(t, m)
		for i := range m.Path {
			require.InEpsilon(t, want.Zones[i].Fourier, got.Zones[i].Fourier, 2e-4, direction.String())
		}
	}
}
