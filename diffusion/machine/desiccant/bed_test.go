package desiccant_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion/machine/desiccant"
	"strandry/materials/humidair"
)

func gelBed(t *testing.T) desiccant.Bed {
	return desiccant.Bed{Isotherm: of(t, desiccant.SilicaGel), DryMass: 0.25, Temperature: 298.15, StartLoad: 0.01, Share: 1}
}

// dew is the vapour pressure [Pa] of a dew point [°C].
func dew(celsiusPoint float64) float64 { return humidair.SaturationPressure(celsiusPoint + celsius) }

// constant is a rate [kg/s] whatever the bed holds.
func constant(rate float64) desiccant.Rate { return func(float64) float64 { return rate } }

// At a constant rate the life is capacity over rate: 20 g at 0.1074 g/h last 186 h.
func TestLifeAtConstantRate(t *testing.T) {
	for _, k := range desiccant.Kinds() {
		b := gelBed(t)
		b.Isotherm, b.StartLoad, b.Share = of(t, k), 0.005, 0.8
		p := dew(-5)
		w := uptake(t, b.Isotherm, p, b.Temperature)
		rate := 0.10737178e-3 / 3600
		life, err := b.Life(p, constant(rate))
		require.NoError(t, err)
		require.False(t, life.Never)
		near(t, 0.8*0.25*(w-0.005)/rate, life.Seconds, 1e-9*life.Seconds, "%v", k)
		near(t, 0.8*0.25*(w-0.005), life.Taken, 1e-15, "%v", k)
		capacity, err := b.Capacity(p)
		require.NoError(t, err)
		near(t, life.Taken, capacity.Likely, 1e-15)
		near(t, 0.2*(w+b.Isotherm.Uncertainty.At(w)-0.005), capacity.High, 1e-15)
		near(t, 0.2*(w-b.Isotherm.Uncertainty.At(w)-0.005), capacity.Low, 1e-15)
	}
	b := gelBed(t)
	p := dew(-20)
	capacity, err := b.Capacity(p)
	require.NoError(t, err)
	b.DryMass *= 0.020 / capacity.Likely
	life, err := b.Life(p, constant(0.10737178e-3/3600))
	require.NoError(t, err)
	near(t, 186.27, life.Seconds/3600, 0.01)
}

// leak is a box that breathes with a room: so many kg/s for each Pa that it lies below it, and the water of the strand.
func leak(perPascal, room, strand float64) desiccant.Rate {
	return func(p float64) float64 { return strand + perPascal*(room-p) }
}

// marched is the time that a march with classical Runge-Kutta steps of dw/dt = rate/m takes: code that shares nothing with the quadrature.
func marched(t *testing.T, b desiccant.Bed, to float64, rate desiccant.Rate, steps int) float64 {
	slope := func(w float64) float64 {
		return rate(pressure(t, b.Isotherm, w, b.Temperature)) / (b.DryMass * b.Share)
	}
	w, time := b.StartLoad, 0.0
	h := (to - w) / slope(w) / float64(steps)
	for {
		k1 := slope(w)
		k2 := slope(w + h/2*k1)
		k3 := slope(w + h/2*k2)
		k4 := slope(w + h*k3)
		by := h * (k1 + 2*k2 + 2*k3 + k4) / 6
		if w+by >= to {
			return time + (to-w)/((k1+slope(to))/2)
		}
		w, time = w+by, time+h
	}
}

func TestLifeWithALeak(t *testing.T) {
	for _, k := range porous() {
		b := gelBed(t)
		b.Isotherm, b.StartLoad = of(t, k), 0.02
		rate := leak(2e-11, roomVapour, 5e-9)
		p := dew(0)
		life, err := b.Life(p, rate)
		require.NoError(t, err)
		w := uptake(t, b.Isotherm, p, b.Temperature)
		coarse, fine := marched(t, b, w, rate, 1000), marched(t, b, w, rate, 4000)
		near(t, fine, life.Seconds, 1e-6*fine, "%v", k)
		require.Less(t, math.Abs(fine-life.Seconds), 1e-6*fine+math.Abs(coarse-life.Seconds), "%v", k)
		steady, err := b.Life(p, constant(rate(0)))
		require.NoError(t, err)
		require.Greater(t, life.Seconds, steady.Seconds, "a leak slows down as the air inside gets wetter")
	}
}

// Where the water nearly ends time is long, and still the sum of its parts.
func TestTimesAddUp(t *testing.T) {
	b := gelBed(t)
	rate := leak(2e-11, 500, 0)
	whole, err := b.Life(499.99, rate)
	require.NoError(t, err)
	w, sum := uptake(t, b.Isotherm, 499.99, b.Temperature), 0.0
	const parts = 200 // ever smaller to the end
	load := func(n int) float64 {
		if n == parts {
			return w
		}
		return w - (w-0.01)*math.Exp(-float64(n)/10)
	}
	for n := range parts {
		part := b
		part.StartLoad = load(n)
		l, err := part.Life(pressure(t, b.Isotherm, load(n+1), b.Temperature), rate)
		require.NoError(t, err)
		sum += l.Seconds
	}
	near(t, whole.Seconds, sum, 1e-6*sum)
}

// A stair is walked step by step, exactly.
func TestLifeOfHydrates(t *testing.T) {
	b := gelBed(t)
	b.Isotherm, b.StartLoad, b.Temperature = of(t, desiccant.CalciumChloride), 0.1, 293.15
	rate := leak(2e-11, roomVapour, 0)
	first, err := desiccant.AnhydrousMonohydrate.VapourPressure(293.15)
	require.NoError(t, err)
	sat := humidair.SaturationPressure(293.15)
	one, two := 0.018015268/0.110984, 2*0.018015268/0.110984
	want := 0.25 * ((one-0.1)/rate(first) + one/rate(0.06*sat) + two/rate(0.09*sat))
	life, err := b.Life(0.1*sat, rate)
	require.NoError(t, err)
	near(t, want, life.Seconds, 1e-9*want)

	states, err := b.Fill(0.1*sat, rate, 4)
	require.NoError(t, err)
	near(t, 2*two, states[4].Load, 1e-4, "all of it is tetrahydrate")
	near(t, 0.09*sat, states[4].Pressure, 1e-9)
}

// A bed that is in balance with the leak before the wanted dew point is passed holds it for good.
func TestNever(t *testing.T) {
	b := gelBed(t)
	rate := leak(2e-11, 500, 0)
	life, err := b.Life(600, rate)
	require.NoError(t, err)
	require.True(t, life.Never)
	require.Zero(t, life.Seconds)
	life, err = b.Life(499, rate)
	require.NoError(t, err)
	require.False(t, life.Never)
	mass, err := b.MassFor(1e6, 600, rate)
	require.NoError(t, err)
	require.Zero(t, mass)
	states, err := b.Fill(600, rate, 50)
	require.NoError(t, err)
	require.Less(t, len(states), 51)
	require.Less(t, states[len(states)-1].Pressure, 500.0)
	nothing, err := b.Life(100, constant(0))
	require.NoError(t, err)
	require.True(t, nothing.Never)
}

func TestFill(t *testing.T) {
	b := gelBed(t)
	b.Share = 0.6
	rate := leak(2e-11, roomVapour, 3e-9)
	p := dew(-10)
	states, err := b.Fill(p, rate, 20)
	require.NoError(t, err)
	require.Len(t, states, 21)
	life, err := b.Life(p, rate)
	require.NoError(t, err)
	require.Zero(t, states[0].Time)
	last := states[20]
	near(t, life.Seconds, last.Time, 1e-9*life.Seconds)
	near(t, life.Taken, 0.6*0.25*(last.Load-0.01), 1e-12)
	near(t, 263.15, last.DewPoint, 1e-6)
	for n := 1; n < len(states); n++ {
		require.Greater(t, states[n].Time, states[n-1].Time)
		require.Greater(t, states[n].DewPoint, states[n-1].DewPoint)
		part, err := b.Life(states[n].Pressure, rate)
		require.NoError(t, err)
		near(t, states[n].Time, part.Seconds, 1e-6*part.Seconds)
	}
}

func TestMassFor(t *testing.T) {
	b := gelBed(t)
	rate := leak(2e-11, roomVapour, 3e-9)
	mass, err := b.MassFor(30*86400, dew(-15), rate)
	require.NoError(t, err)
	b.DryMass = mass
	life, err := b.Life(dew(-15), rate)
	require.NoError(t, err)
	near(t, 30*86400, life.Seconds, 1e-6)
	b.StartLoad = 0.2
	_, err = b.MassFor(3600, dew(-15), rate)
	require.ErrorContains(t, err, "from the start")
	life, err = b.Life(dew(-15), rate)
	require.NoError(t, err)
	require.Zero(t, life.Seconds)
	require.Zero(t, life.Taken)
	states, err := b.Fill(dew(-15), rate, 3)
	require.NoError(t, err)
	require.Equal(t, 0.2, states[3].Load, "it cannot begin")
	c, err := b.Capacity(dew(-15))
	require.NoError(t, err)
	require.Equal(t, desiccant.Span{}, c)
}

func TestBedRefusals(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	for name, spoil := range map[string]func(*desiccant.Bed){
		"no mass": func(b *desiccant.Bed) { b.DryMass = 0 }, "endless mass": func(b *desiccant.Bed) { b.DryMass = inf }, "mass": func(b *desiccant.Bed) { b.DryMass = nan },
		"no share": func(b *desiccant.Bed) { b.Share = 0 }, "share": func(b *desiccant.Bed) { b.Share = 1.1 }, "share NaN": func(b *desiccant.Bed) { b.Share = nan },
		"cold": func(b *desiccant.Bed) { b.Temperature = 250 }, "NaN": func(b *desiccant.Bed) { b.Temperature = nan },
		"load": func(b *desiccant.Bed) { b.StartLoad = -0.1 }, "full": func(b *desiccant.Bed) { b.StartLoad = 0.6 }, "load NaN": func(b *desiccant.Bed) { b.StartLoad = nan },
		"no isotherm": func(b *desiccant.Bed) { b.Isotherm = desiccant.Isotherm{} },
	} {
		b := gelBed(t)
		spoil(&b)
		_, err := b.Capacity(100)
		require.Error(t, err, name)
		_, err = b.Life(100, constant(1e-8))
		require.Error(t, err, name)
		_, err = b.Fill(100, constant(1e-8), 3)
		require.Error(t, err, name)
	}
	b := gelBed(t)
	for _, bad := range []float64{nan, inf, -inf} {
		_, err := b.Life(100, constant(bad))
		require.Error(t, err)
		_, err = b.Fill(100, constant(bad), 2)
		require.Error(t, err)
		_, err = b.Life(bad, constant(1e-8))
		require.Error(t, err)
		_, err = b.Fill(bad, constant(1e-8), 2)
		require.Error(t, err)
		_, err = b.Capacity(bad)
		require.Error(t, err)
		_, err = b.MassFor(bad, 100, constant(1e-8))
		require.Error(t, err)
		_, err = b.MassFor(100, bad, constant(1e-8))
		require.Error(t, err)
	}
	for _, n := range []int{0, -1, 100000} {
		_, err := b.Fill(100, constant(1e-8), n)
		require.Error(t, err)
	}
	middle := func(p float64) float64 {
		if p > 50 && p < 90 {
			return nan
		}
		return 1e-8
	}
	_, err := b.Life(100, middle)
	require.Error(t, err, "a rate that is no number on the way")
}
