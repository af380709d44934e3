package film_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion/film"
	"strandry/materials/humidair"
)

// anyConditions are random ones of any flow, wider than what a scenario allows.
func anyConditions(r *rand.Rand) film.Conditions {
	log := func(low, high float64) float64 { return low * math.Pow(high/low, r.Float64()) }
	c := film.Conditions{
		Flow: flows()[r.IntN(4)], Diameter: log(2e-4, 1e-2), AirTemperature: 230 + 330*r.Float64(), Pressure: log(5e4, 2e5),
		AirSpeed: log(1e-3, 100), HeatedLength: log(1e-3, 1e3), Vertical: r.IntN(2) == 0, Emissivity: r.Float64(),
	}
	c.Dragged = r.IntN(2) == 0
	c.Bore = c.Diameter * (1 + log(0.01, 100))
	c.VapourPressure = r.Float64() * min(0.5*c.Pressure, humidair.SaturationPressure(min(c.AirTemperature, 370)))
	return c
}

// apart is the largest relative difference between a law and the correlations.
func apart(t *testing.T, l *film.Law, c film.Conditions, T float64) float64 {
	t.Helper()
	c.StrandTemperature = T
	want, err := film.At(c)
	require.NoError(t, err)
	heat, mass := l.At(T)
	off := math.Max(math.Abs(heat/(want.Heat+want.Radiation)-1), math.Abs(mass/want.Mass-1))
	require.False(t, math.IsNaN(off))
	return off
}

func TestLawFollowsTheCorrelations(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	var l film.Law
	worst := 0.0
	for range 1500 {
		c := anyConditions(r)
		span := [...]float64{1, 10, 80, 300}[r.IntN(4)]
		low := c.AirTemperature - span*r.Float64()
		if r.IntN(3) == 0 { // well away from the air
			low = 213.15 + (623.15-213.15-span)*r.Float64()
		}
		low = min(max(low, 213.15), 623.15-span)
		require.NoError(t, l.Fill(c, low, low+span))
		for range 100 {
			worst = max(worst, apart(t, &l, c, low+span*r.Float64()))
		}
		for _, near := range []float64{-3, -1, -0.1, 0, 0.2, 2, 5} {
			worst = max(worst, apart(t, &l, c, min(max(c.AirTemperature+near, low), low+span)))
		}
		worst = max(worst, apart(t, &l, c, low), apart(t, &l, c, low+span))
		require.Less(t, worst, 1e-5, "%+v from %g over %g K", c, low, span)
	}
	t.Logf("largest relative error %.2g", worst)
}

func TestLawOutsideItsSpan(t *testing.T) {
	var l film.Law
	c := warm()
	require.NoError(t, l.Fill(c, 300, 340))
	for outside, end := range map[float64]float64{250: 300, 299.9: 300, 340.1: 340, 1000: 340} {
		heat, mass := l.At(outside)
		atEnd, massAtEnd := l.At(end)
		require.Equal(t, atEnd, heat)
		require.Equal(t, massAtEnd, mass)
	}
	// No span at all.
	require.NoError(t, l.Fill(c, 333.15, 333.15))
	require.Less(t, apart(t, &l, c, 333.15), 1e-9)
}

// The law has no kink: over steps of 0.02 K its slope changes by no more than that of the
// correlations may, n/4 of a unit for each kelvin at equality, n up to 1/4; see
// TestSmoothWhereStrandAndAirAreEquallyWarm.
func TestLawHasNoKink(t *testing.T) {
	const step = 0.02 // [K]
	var l film.Law
	for _, flow := range flows() {
		c := warm()
		c.Flow, c.AirSpeed = flow, 0.1
		require.NoError(t, l.Fill(c, 280, 360))
		var a, b [2]float64
		for i := range 4000 {
			heat, mass := l.At(280 + float64(i)*step)
			next := [2]float64{math.Log(heat), math.Log(mass)}
			for k := range next {
				if i > 1 {
					require.InDelta(t, 0, next[k]-2*b[k]+a[k], 0.07*step*step, "%v at %g K", flow, 280+float64(i)*step)
				}
			}
			a, b = b, next
		}
	}
}

func TestLawRefuses(t *testing.T) {
	var l film.Law
	c := warm()
	require.ErrorContains(t, l.Fill(c, 340, 300), "upside down")
	require.ErrorContains(t, l.Fill(c, math.NaN(), 300), "upside down")
	require.ErrorContains(t, l.Fill(c, 300, 700), "strand temperature")
	c.Diameter = 0
	require.ErrorContains(t, l.Fill(c, 300, 340), "strand diameter")
}

func TestLawKeepsItsMemory(t *testing.T) {
	var l film.Law
	c := warm()
	require.NoError(t, l.Fill(c, 290, 590))
	sum := 0.0
	require.Zero(t, testing.AllocsPerRun(10, func() {
		if err := l.Fill(c, 290, 350); err != nil {
			t.Error(err)
		}
		heat, mass := l.At(310)
		sum += heat + mass
	}))
	require.Positive(t, sum)
}

func BenchmarkLawFill(b *testing.B) {
	for _, flow := range flows() {
		b.Run("flow="+flow.String(), func(b *testing.B) {
			c := warm()
			c.Flow, c.AirSpeed = flow, 0.3
			var l film.Law
			for b.Loop() {
				if err := l.Fill(c, 293.15, 363.15); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

func BenchmarkLawAt(b *testing.B) {
	var l film.Law
	if err := l.Fill(warm(), 293.15, 363.15); err != nil {
		b.Fatal(err)
	}
	T, sum := 293.15, 0.0
	for b.Loop() {
		T += 0.01
		if T > 363 {
			T = 294
		}
		heat, mass := l.At(T)
		sum += heat + mass
	}
}
