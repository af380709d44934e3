package keeps

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion"
	"strandry/materials"
	"strandry/materials/humidair"
)

const hour = 3600

// With a straight isotherm and no β the inside is the mean of the air:
// C_sat [a_store + (a_room - a_store)(d + τ (1 - exp(-(P-d)/τ)))/P], an integral by hand.
func TestStraightIsothermTakesTheMeanOfTheAir(t *testing.T) {
	p, err := materials.Lookup("pc")
	require.NoError(t, err)
	i := p.Sorption.At(296.15)
	for _, beta := range []float64{0, 1e-9} {
		for _, tau := range []float64{1, 600, 1e5} {
			for _, interval := range []float64{100, hour, 30 * day} {
				c := cycle{isotherm: i, beta: beta, room: 0.6, store: 0.05, open: 30}
				share := (30 + tau*(1-math.Exp(-(interval-30)/tau))) / interval
				require.InEpsilon(t, i.Content(0.05+0.55*share), c.inside(interval, tau), 1e-8, "%g s, %g s", tau, interval)
			}
		}
	}
}

// The march through a long row of openings comes to the content that the averages promise. The
// strand is made to settle within a day by a diffusivity some hundred times that of the
// material; its surface follows the air by a large film coefficient.
func TestManyOpenings(t *testing.T) {
	const interval, tau, open, cycles = hour, 900.0, 300.0, 24
	const temperature, pressure = 296.15, 101325.0
	isothermal := diffusion.DefaultSettings()
	isothermal.WithoutEvaporation = true                // the averages know nothing of it
	for _, name := range []string{"pc", "abs", "pa6"} { // straight; curved; curved with β
		p, err := materials.Lookup(name)
		require.NoError(t, err)
		saturated := humidair.SaturationPressure(temperature)
		c := cycle{isotherm: p.Sorption.At(temperature), beta: p.Diffusivity.Beta.Value, room: 0.7, store: 0.05, open: open}
		zone := func(name string, seconds, vapour, from float64) diffusion.Zone {
			z := diffusion.Zone{Name: name, Duration: seconds, Film: diffusion.Film{Heat: 20, Mass: 100}}
			z.Air = diffusion.Air{Temperature: temperature, VapourPressure: vapour * saturated}
			if from > 0 {
				z.Air.Relax = diffusion.Relax{From: from * saturated, TimeConstant: tau}
			}
			return z
		}
		m := diffusion.Model{
			Radius: 0.875e-3, Material: p, StartTemperature: temperature,
			Pressure: pressure, Start: c.inside(interval, tau),
		}
		const settling = 20 * hour // R²/D
		m.Material.Diffusivity.ReferenceValue.Value *= m.Radius * m.Radius / settling / p.Diffusivity.Dry(temperature)
		for range cycles {
			m.Path = append(m.Path, zone("open", open, c.room, 0), zone("closed", interval-open, c.store, c.room))
		}
		require.NoError(t, m.Check())
		var r diffusion.Result
		require.NoError(t, diffusion.NewMarch().Run(&m, isothermal, &r))
		require.InEpsilon(t, c.inside(interval, tau), r.Nozzle.Centre, 0.01, name)
		if name != "pa6" {
			continue
		}
		// It is a balance, not the start that held: from another start it moves there.
		m.Start *= 1.3
		var other diffusion.Result
		require.NoError(t, diffusion.NewMarch().Run(&m, isothermal, &other))
		require.Less(t, math.Abs(other.Nozzle.Centre/r.Nozzle.Centre-1), 0.05, name)
	}
}

// What is found is fed back: that many openings, or that time constant, just meet the limit.
func TestBearableOpenings(t *testing.T) {
	p, err := materials.Lookup("pa6")
	require.NoError(t, err)
	c := cycle{isotherm: p.Sorption.At(296.15), beta: p.Diffusivity.Beta.Value, room: 0.5, store: 0.02, open: 30}
	limit := p.PrintingLimit.Value
	n := c.bearable(600, limit)
	require.Greater(t, n, 1.0)
	require.InEpsilon(t, limit, c.inside(day/n, 600), 1e-6)
	tau := c.slowestReturn(4, limit)
	require.Greater(t, tau, 600.0)
	require.InEpsilon(t, limit, c.inside(day/4, tau), 1e-6)
	require.Greater(t, c.bearable(300, limit), n)
	require.Less(t, c.slowestReturn(8, limit), tau)

	require.True(t, math.IsInf(c.bearable(600, 0.5), 1), "nothing in this room makes it so wet")
	c.store = 0.1
	require.Zero(t, c.bearable(600, limit), "the closed store is too moist")
	require.Zero(t, c.slowestReturn(4, limit))
}

// The top of a parabola, 5 - (t - 1.3)², between uneven points on it; at an end, and where a zone ends, the greatest point.
func TestPeak(t *testing.T) {
	points := func(times ...float64) (all []diffusion.Point) {
		for _, at := range times {
			all = append(all, diffusion.Point{Time: at, State: diffusion.State{Mean: 5 - (at-1.3)*(at-1.3)}})
		}
		return all
	}
	require.InDelta(t, 5, peak(points(0, 1, 3)), 1e-12)
	require.InDelta(t, 5, peak(points(-4, 0.2, 1.7, 1.9)), 1e-12)
	require.InDelta(t, 5-1.3*1.3, peak(points(-1, -0.5, 0)), 1e-12)
	require.InDelta(t, 5-0.3*0.3, peak(points(0, 1, 1)), 1e-12)
}

// Even water: the outer tenth of the radius holds 1 - 0.9² of it. C = r: 1 - 0.9³.
func TestOuterShare(t *testing.T) {
	var radius, even, slope []float64
	for i := 1; i <= 400; i++ {
		r := float64(i) / 400 * 0.875e-3
		radius, even, slope = append(radius, r), append(even, 0.01), append(slope, r)
	}
	require.InDelta(t, 0.19, outerShare(radius, even), 1e-9)
	require.InDelta(t, 0.271, outerShare(radius, slope), 1e-4)
	require.Zero(t, outerShare(radius, make([]float64, 400)))
}
