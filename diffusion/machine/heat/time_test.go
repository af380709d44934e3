package heat_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion/machine/airstream"
	"strandry/diffusion/machine/heat"
)

// lumped has 60 W, 0.9 W/K and 2500 J/K.
func lumped() heat.Lumped {
	return heat.Lumped{Masses: []heat.Mass{{1, 900}, {2, 800}}, Power: 60, UA: 0.9, Room: 296.15}
}

func TestLumpedIsExact(t *testing.T) {
	l := lumped()
	near(t, 2500, l.Capacity(), 1e-15)
	// It obeys the equation from any start: central differences.
	for _, start := range []float64{280, 310} {
		const h = 0.05 // [K]
		before, errA := l.WarmUp(start, 330-h, 0)
		after, errB := l.WarmUp(start, 330+h, 0)
		require.NoError(t, errA)
		require.NoError(t, errB)
		near(t, 60-0.9*(330-296.15), 2500*2*h/(after.Seconds-before.Seconds), 1e-5)
	}
}

func first(t *testing.T) func(float64, error) float64 {
	return func(x float64, err error) float64 {
		t.Helper()
		require.NoError(t, err)
		return x
	}
}

func TestWarmUp(t *testing.T) {
	l := lumped()
	set := 296.15 + 31.79393913 + heat.Settled
	got, err := l.WarmUp(296.15, set, heat.Settled)
	require.NoError(t, err)
	require.True(t, got.Reached)
	near(t, 1800, got.Seconds, 1e-8)
	near(t, 296.15+60/0.9, got.Final, 1e-14)
	// Too weak: never. And just strong enough: late.
	for set, reached := range map[float64]bool{296.15 + 66.6 + 2: true, 296.15 + 66.7 + 2: false} {
		got, err = l.WarmUp(296.15, set, 2)
		require.NoError(t, err)
		require.Equal(t, reached, got.Reached)
	}
	at, err := l.WarmUp(345, 346, 2)
	require.NoError(t, err)
	require.True(t, at.Reached)
	require.Zero(t, at.Seconds)
	// Off: never; without loss: a line.
	off := l
	off.Power = 0
	got, err = off.WarmUp(296.15, 343.15, 2)
	require.NoError(t, err)
	require.False(t, got.Reached)
	line := l
	line.UA = 0
	got, err = line.WarmUp(296.15, 343.15, 2)
	require.NoError(t, err)
	near(t, 2500*45/60.0, got.Seconds, 1e-13)
	require.True(t, math.IsInf(got.Final, 1))
}

func TestLumpedRefused(t *testing.T) {
	nan := math.NaN()
	for words, change := range map[string]func(*heat.Lumped){
		"without masses": func(l *heat.Lumped) { l.Masses = nil }, "mass 2": func(l *heat.Lumped) { l.Masses[1].Mass = 0 },
		"heat capacity of mass 1": func(l *heat.Lumped) { l.Masses[0].Capacity = nan }, "power": func(l *heat.Lumped) { l.Power = -1 },
		"UA": func(l *heat.Lumped) { l.UA = nan }, "room temperature": func(l *heat.Lumped) { l.Room = 0 },
	} {
		l := lumped()
		change(&l)
		require.ErrorContains(t, second(l.WarmUp(300, 340, 2)), words)
	}
	l := lumped()
	require.ErrorContains(t, second(l.WarmUp(nan, 300, 1)), "start")
	require.ErrorContains(t, second(l.WarmUp(300, nan, 1)), "set temperature")
	require.ErrorContains(t, second(l.WarmUp(300, 300, nan)), "nearness")
}

func path() heat.Path {
	return heat.Path{Inlet: airstream.Stream{Dry: 2e-4, Ratio: 0.008, Temperature: 353.15}, UA: 0.15, Room: 296.15}
}

func TestPath(t *testing.T) {
	p := path()
	e, err := p.Evenness()
	require.NoError(t, err)
	ntu := 0.15 / (2e-4 * (1006 + 1860*0.008))
	near(t, 296.15+57*math.Exp(-ntu), e.Outlet, 1e-13)
	near(t, 353.15-e.Outlet, e.Range, 1e-12)

	inlet, err := p.InletFor(343.15)
	require.NoError(t, err)
	p.Inlet.Temperature = inlet
	again, err := p.Evenness()
	require.NoError(t, err)
	// What the air loses is what the wall loses at the mean temperature.
	near(t, 0.15*(343.15-296.15), 2e-4*(1006+1860*0.008)*again.Range, 1e-12)

	p.UA = 0
	e, err = p.Evenness()
	require.NoError(t, err)
	require.Zero(t, e.Range)
	even, err := p.InletFor(340)
	require.NoError(t, err)
	require.Equal(t, 340.0, even)
	cold := path()
	cold.Inlet.Temperature = 280
	e, err = cold.Evenness()
	require.NoError(t, err)
	near(t, e.Outlet-280, e.Range, 1e-12)
}

func TestPathRefused(t *testing.T) {
	nan := math.NaN()
	for words, change := range map[string]func(*heat.Path){
		"dry flow": func(p *heat.Path) { p.Inlet.Dry = 0 }, "humidity ratio": func(p *heat.Path) { p.Inlet.Ratio = nan },
		"at the inlet": func(p *heat.Path) { p.Inlet.Temperature = nan }, "UA": func(p *heat.Path) { p.UA = -1 }, "room": func(p *heat.Path) { p.Room = nan },
	} {
		p := path()
		change(&p)
		require.ErrorContains(t, second(p.Evenness()), words)
		require.ErrorContains(t, second(p.InletFor(340)), words)
	}
	require.ErrorContains(t, second(path().InletFor(nan)), "mean temperature")
	require.ErrorContains(t, second(path().InletFor(600)), "at the inlet")
}

func TestTouch(t *testing.T) {
	// From memory, EN 563 and ISO 13732-1; between the thresholds linear in the logarithm of time.
	for _, r := range []struct {
		m       heat.Material
		seconds float64
		celsius float64
	}{
		{heat.BareMetal, 0, 65}, {heat.BareMetal, 0.5, 65}, {heat.BareMetal, 1, 65}, {heat.BareMetal, 10, 55}, {heat.BareMetal, math.Sqrt(10), 60}, {heat.BareMetal, 60, 51},
		{heat.BareMetal, 600, 48}, {heat.BareMetal, 28800, 43}, {heat.BareMetal, 1e6, 43}, {heat.Glass, 1, 78}, {heat.Glass, 10, 66}, {heat.Glass, 60, 56},
		{heat.Plastic, 1, 85}, {heat.Plastic, 10, 71}, {heat.Plastic, 60, 60}, {heat.Plastic, 600, 48},
	} {
		near(t, r.celsius+273.15, first(t)(heat.TouchLimit(r.m, r.seconds)), 1e-13, "%v, %g s", r.m, r.seconds)
	}
	// Never above the times to serious burn that a public list passes on (bare metal, glass, plastic).
	for _, r := range []struct{ seconds, celsius float64 }{{1, 68}, {1.5, 66}, {3, 63}, {5, 60}, {10, 57}, {30, 55}, {90, 52}, {300, 49}} {
		for i, more := range []float64{0, 10, 25} {
			require.LessOrEqual(t, first(t)(heat.TouchLimit(heat.Material(i), r.seconds)), r.celsius+more+273.15+0.5, "%v, %g s", heat.Material(i), r.seconds)
		}
	}
	// Longer is never hotter; metal burns first.
	for s := 0.5; s < 1e5; s *= 1.1 {
		for m := heat.BareMetal; m <= heat.Plastic; m++ {
			require.GreaterOrEqual(t, first(t)(heat.TouchLimit(m, s)), first(t)(heat.TouchLimit(m, s*1.1)))
			if m > heat.BareMetal {
				require.GreaterOrEqual(t, first(t)(heat.TouchLimit(m, s)), first(t)(heat.TouchLimit(m-1, s)))
			}
		}
	}
	got, err := heat.Touch(heat.BareMetal, 273.15+55)
	require.NoError(t, err)
	passed := []bool{}
	for _, c := range got {
		passed = append(passed, c.Passed)
	}
	require.Equal(t, []bool{false, true, true, true, true}, passed)
	near(t, 600, got[3].Seconds, 1e-15)
	near(t, 321.15, got[3].Limit, 1e-15)
	require.ErrorContains(t, second(heat.Touch(heat.BareMetal, math.NaN())), "surface temperature")
	require.ErrorContains(t, second(heat.Touch(9, 300)), "unknown material")
	require.ErrorContains(t, second(heat.TouchLimit(-1, 1)), "unknown material")
	require.ErrorContains(t, second(heat.TouchLimit(heat.Glass, math.NaN())), "time of contact")
	require.Equal(t, "bare metal glass plastic Material(5)", heat.BareMetal.String()+" "+heat.Glass.String()+" "+heat.Plastic.String()+" "+heat.Material(5).String())
	require.Contains(t, heat.Caution, "measure")
	require.Contains(t, heat.Caution, "local codes")
}
