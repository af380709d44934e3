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
	// After 1800 s 31.79393913 K above the room (independent code).
	T, err := l.At(296.15, 1800)
	require.NoError(t, err)
	near(t, 31.79393913, T-296.15, 1e-9)
	T, err = l.At(296.15, 1e9)
	require.NoError(t, err)
	near(t, 66.6666666667, T-296.15, 1e-11)
	// It obeys the equation from any start: central differences.
	for _, start := range []float64{280, 310, 380} {
		const h = 0.5
		a, errA := l.At(start, 700-h)
		b, errB := l.At(start, 700+h)
		m, errM := l.At(start, 700)
		require.NoError(t, errA)
		require.NoError(t, errB)
		require.NoError(t, errM)
		near(t, 60-0.9*(m-296.15), 2500*(b-a)/(2*h), 1e-6)
	}
	// Without loss it rises as a line, and a tiny loss changes that little.
	l.UA = 0
	T, err = l.At(300, 100)
	require.NoError(t, err)
	near(t, 302.4, T, 1e-14)
	l.UA = 1e-12
	near(t, 302.4, first(t)(l.At(300, 100)), 1e-12)
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
	near(t, set-2, first(t)(l.At(296.15, got.Seconds)), 1e-12)
	near(t, 0.9*(31.79393913+2)/60, first(t)(l.Duty(set)), 1e-12)
	require.Zero(t, first(t)(l.Duty(290)))
	// The thermostat holds it.
	near(t, set, first(t)(l.Thermostated(296.15, set, 3000)), 1e-15)
	near(t, set-2, first(t)(l.Thermostated(296.15, set, 1800)), 1e-9)
	require.Greater(t, first(t)(l.Thermostated(set+5, set, 1)), set)
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

func TestCoolDown(t *testing.T) {
	l := lumped()
	// By hand: τ ln(47/20) from 70 to 43 °C in 23 °C.
	got, err := l.CoolDown(343.15, 316.15)
	require.NoError(t, err)
	require.True(t, got.Reached)
	near(t, 2500/0.9*math.Log(47.0/20), got.Seconds, 1e-12)
	near(t, 296.15, got.Final, 1e-15)
	for _, limit := range []float64{296.15, 290} {
		got, err = l.CoolDown(343.15, limit)
		require.NoError(t, err)
		require.False(t, got.Reached)
	}
	got, err = l.CoolDown(300, 316.15)
	require.NoError(t, err)
	require.True(t, got.Reached)
	require.Zero(t, got.Seconds)
	l.UA = 0
	got, err = l.CoolDown(343.15, 316.15)
	require.NoError(t, err)
	require.False(t, got.Reached)
	require.Equal(t, 343.15, got.Final)
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
		require.ErrorContains(t, second(l.At(300, 1)), words)
		require.ErrorContains(t, second(l.WarmUp(300, 340, 2)), words)
		require.ErrorContains(t, second(l.Duty(340)), words)
		if words != "power" {
			require.ErrorContains(t, second(l.CoolDown(340, 300)), words)
		}
	}
	l := lumped()
	require.ErrorContains(t, second(l.At(nan, 1)), "start")
	require.ErrorContains(t, second(l.At(300, -1)), "time")
	require.ErrorContains(t, second(l.WarmUp(nan, 300, 1)), "start")
	require.ErrorContains(t, second(l.WarmUp(300, nan, 1)), "set temperature")
	require.ErrorContains(t, second(l.WarmUp(300, 300, nan)), "nearness")
	require.ErrorContains(t, second(l.CoolDown(nan, 300)), "start")
	require.ErrorContains(t, second(l.CoolDown(300, nan)), "limit")
	require.ErrorContains(t, second(l.Thermostated(300, nan, 1)), "set temperature")
	require.ErrorContains(t, second(l.Thermostated(300, 310, nan)), "time")
	require.ErrorContains(t, second(l.Duty(nan)), "set temperature")
}

func path() heat.Path {
	return heat.Path{Inlet: airstream.Stream{Dry: 2e-4, Ratio: 0.008, Temperature: 353.15}, UA: 0.15, Room: 296.15}
}

func TestPath(t *testing.T) {
	p := path()
	e, err := p.Evenness()
	require.NoError(t, err)
	ntu := 0.15 / (2e-4 * (1006 + 1860*0.008))
	near(t, ntu, e.NTU, 1e-14)
	near(t, 296.15+57*math.Exp(-ntu), e.Outlet, 1e-13)
	near(t, e.Outlet, e.Lowest, 1e-15)
	near(t, 353.15-e.Outlet, e.Range, 1e-12)
	// What the air loses is what the wall loses at the mean temperature.
	near(t, 0.15*(e.Mean-296.15), e.Lost, 1e-12)
	near(t, 2e-4*(1006+1860*0.008)*e.Range, e.Lost, 1e-12)
	// The mean by Simpson's rule over the path.
	sum := 0.0
	const n = 200
	for i := 0; i <= n; i++ {
		weight := []float64{2, 4}[i%2]
		if i == 0 || i == n {
			weight = 1
		}
		sum += weight * first(t)(p.At(float64(i)/n))
	}
	near(t, sum/(3*n), e.Mean, 1e-10)
	near(t, 353.15, first(t)(p.At(0)), 1e-15)
	near(t, e.Outlet, first(t)(p.At(1)), 1e-15)

	inlet, err := p.InletFor(343.15)
	require.NoError(t, err)
	p.Inlet.Temperature = inlet
	again, err := p.Evenness()
	require.NoError(t, err)
	near(t, 343.15, again.Mean, 1e-13)

	flow, err := path().FlowFor(3)
	require.NoError(t, err)
	q := path()
	q.Inlet.Dry = flow
	e, err = q.Evenness()
	require.NoError(t, err)
	near(t, 3, e.Range, 1e-11)
	require.Greater(t, flow, 2e-4)
	any, err := path().FlowFor(57)
	require.NoError(t, err)
	require.Zero(t, any)

	q.UA = 0
	e, err = q.Evenness()
	require.NoError(t, err)
	require.Zero(t, e.Range)
	require.Equal(t, 353.15, e.Mean)
	cold := path()
	cold.Inlet.Temperature = 280
	e, err = cold.Evenness()
	require.NoError(t, err)
	require.Equal(t, 280.0, e.Lowest)
	require.Greater(t, e.Range, 0.0)
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
		require.ErrorContains(t, second(p.At(0.5)), words)
		require.ErrorContains(t, second(p.InletFor(340)), words)
		if words != "dry flow" {
			require.ErrorContains(t, second(p.FlowFor(3)), words)
		}
	}
	require.ErrorContains(t, second(path().At(1.1)), "share of the path")
	require.ErrorContains(t, second(path().InletFor(nan)), "mean temperature")
	require.ErrorContains(t, second(path().InletFor(600)), "at the inlet")
	require.ErrorContains(t, second(path().FlowFor(nan)), "unevenness")
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
	require.Contains(t, heat.TouchSource, "from memory")
	require.Contains(t, heat.Caution, "measure")
	require.Contains(t, heat.Caution, "local codes")
}
