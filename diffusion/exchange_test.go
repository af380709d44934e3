package diffusion

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/integrate/quad"

	"strandry/diffusion/radial"
	"strandry/materials"
	"strandry/materials/humidair"
)

// drum is a strand of nylon in limited hot air, after it has been there for a while, with what surrounds it.
func drum(t *testing.T, heat Heat, air Air) *coupled {
	p, err := materials.Lookup("pa6")
	require.NoError(t, err)
	m := &Model{
		Radius: 0.875e-3, Material: p, Speed: 2e-3, Start: 0.03, StartTemperature: 296.15,
		Path:     []Zone{{Name: "drum", Length: 0.05, Film: Film{Heat: 60, Mass: 0.05}, Air: air}},
		Pressure: humidair.StandardPressure,
	}
	s := DefaultSettings()
	s.Heat = heat
	w := NewMarch()
	var r Result
	require.NoError(t, w.Run(m, s, &r))
	return (*coupled)(&w.main.around)
}

// The derivatives of the exchange are those that differences show, for a polymer without a heat of mixing, where the strand is neither
// warming nor cooling. (Elsewhere what varies with the pace of the surface is left out, where it runs ahead.)
func TestDerivativesOfTheExchange(t *testing.T) {
	air := Air{Temperature: 383.15, VapourPressure: 1500, DryFlow: 2e-5, Direction: With}
	for _, heat := range []Heat{Lumped, Resolved} {
		s := drum(t, heat, air)
		s.sorption.MixingEnthalpy = materials.Value{}
		for _, c := range []float64{0.005, 0.02} {
			const time, q = 1e4, 1e-3
			low, high := -60.0, 20.0
			for range 60 {
				middle := (low + high) / 2
				if s.Drift(time, middle)+s.Exchange(time, c, q, middle).Load > 0 {
					low = middle
				} else {
					high = middle
				}
			}
			x := low
			require.Less(t, x, -0.05, "evaporation cools it")
			at := s.Exchange(time, c, q, x)
			const dc, dq = 1e-6, 1e-6
			up, down := s.Exchange(time, c+dc, q, x), s.Exchange(time, c-dc, q, x)
			more, less := s.Exchange(time, c, q+dq, x), s.Exchange(time, c, q-dq, x)
			require.NotZero(t, at.FluxQ)
			for name, d := range map[string][2]float64{
				"flux on c": {(up.Flux - down.Flux) / (2 * dc), at.FluxC}, "load on c": {(up.Load - down.Load) / (2 * dc), at.LoadC},
				"flux on q": {(more.Flux - less.Flux) / (2 * dq), at.FluxQ}, "load on q": {(more.Load - less.Load) / (2 * dq), at.LoadQ},
			} {
				t.Logf("%v, c = %g: %s %.6g, by the difference %.6g", heat, c, name, d[1], d[0])
				within(t, 1, d[1]/d[0], 1e-4, "%v, c = %g: %s", heat, c, name)
			}
		}
	}
}

// A content that the numbers bring below zero gives nothing for the surface's heat to raise.
func TestExchangeBelowZero(t *testing.T) {
	s := drum(t, Resolved, Air{Temperature: 383.15, VapourPressure: 1500})
	got := s.Exchange(1, -1e-3, 0, 0)
	plain, _, _, activity := (*surroundings)(s).leaving(&s.warmed, -1e-3, 0)
	require.Less(t, activity, 0.0)
	within(t, 1, got.Flux/plain, 1e-12)
}

// What is told to be steady is: the exchange is the same later.
func TestSteadyIsTold(t *testing.T) {
	air := Air{Temperature: 296.15, VapourPressure: 500}
	for _, from := range []float64{500, 1500} {
		if from != air.VapourPressure {
			air.Relax = Relax{From: from, TimeConstant: 100}
		}
		s := drum(t, Lumped, air)
		now, later := s.Exchange(1, 0.01, 0, 0), s.Exchange(50, 0.01, 0, 0)
		require.Equal(t, from == 500, now == later)
		require.Equal(t, now == later, s.Steady(1))
	}
}

// The parabola of the heat of vaporisation holds as well as it says.
func TestLatentParabola(t *testing.T) {
	for _, centre := range []float64{290, 330, 390, 420} {
		l := latentNear(centre)
		for off := -80.0; off <= 40; off += 5 {
			share := 3e-4
			if off < -40 {
				share = 4e-3
			}
			within(t, 1, l.at(centre+off)/humidair.LatentHeat(centre+off), share, "%g K from %g K", off, centre)
		}
	}
}

// The angles of a section go with the resolution as package section tells: usual, refined, coarse.
func TestAnglesGoWithTheResolution(t *testing.T) {
	require.Equal(t, 6, anglesFor(DefaultSettings().Resolution))
	require.Equal(t, 9, anglesFor(DefaultSettings().Refined().Resolution))
	require.Equal(t, 4, anglesFor(1))
	require.Equal(t, 12, anglesFor(1000))
}

// The Fourier number of one step, in which a content changes that speeds diffusion up, against Gauss's rule on the cubic through both
// ends, at one temperature: a little, and e-fold and more.
func TestFourierOfOneStep(t *testing.T) {
	s := drum(t, Lumped, Air{Temperature: 383.15, VapourPressure: 1500})
	w := NewMarch()
	l := &w.main
	l.around, l.potential = surroundings(*s), 60
	d := l.around.dry(383.15)
	for _, fall := range []float64{1e-4, 1.6e-3, 2e-3, 0.02, 0.05} {
		from := radial.Instant{Time: 1e5, Mean: 0.06, Rate: -2 * fall / 300}
		to := radial.Instant{Time: 1e5 + 300, Mean: 0.06 - fall, Rate: -0.5 * fall / 300}
		want := quad.Fixed(func(u float64) float64 {
			v := 1 - u
			mean := v*v*(1+2*u)*from.Mean + u*u*(1+2*v)*to.Mean + 300*u*v*(v*from.Rate-u*to.Rate)
			return 300 * d * math.Exp(60*mean)
		}, 0, 1, 40, nil, 0)
		got := l.fourier(from, to)
		t.Logf("fall of %g: off %.1e", fall, got/want-1)
		share := 3e-7
		if fall == 1.6e-3 { // as much as one interval is trusted with
			share = 1e-4
		}
		within(t, 1, got/want, share, "fall of %g", fall)
	}
}
