package diffusion_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion"
	"strandry/materials/humidair"
)

// leaky is the standard transit with a zone of limited air, the longest, into which the room leaks.
func leaky(t *testing.T, direction diffusion.Direction) *diffusion.Design {
	t.Helper()
	m := transit(t, 20)
	air := &m.Path[1].Air
	*air = diffusion.Air{
		Temperature: air.Temperature, VapourPressure: 20, VolumeFlow: 2 / 6e4, MeteredAt: 293.15, Direction: direction,
		Leak: 0.5 / 6e4, LeakOf: 1400,
	}
	return m
}

// What leaks in and what is supplied keep their water and their dry air: by hand.
func TestInflowMixesByDryFlows(t *testing.T) {
	m := leaky(t, diffusion.With)
	dry, vapour := m.Inflow(&m.Path[1])
	p := m.AirPressure()
	supplied := (p - 20) / (287.042 * 293.15) * 2 / 6e4
	leak := (p - 1400) / (287.042 * 293.15) * 0.5 / 6e4
	require.InEpsilon(t, supplied+leak, dry, 1e-5)
	water := supplied*0.621945*20/(p-20) + leak*0.621945*1400/(p-1400)
	require.InEpsilon(t, water, dry*humidair.HumidityRatio(vapour, p), 1e-5)
}

// A strand in air that leaks is one in the mixture, and wetter than without the leak.
func TestLeakIsAsAMixture(t *testing.T) {
	for _, direction := range []diffusion.Direction{diffusion.Mixed, diffusion.With, diffusion.Against} {
		m := leaky(t, direction)
		mixed := *m
		mixed.Path = append([]diffusion.Zone(nil), m.Path...)
		a := &mixed.Path[1].Air
		a.DryFlow, a.VapourPressure = m.Inflow(&m.Path[1])
		a.VolumeFlow, a.Leak, a.LeakOf = 0, 0, 0
		tight := leaky(t, direction)
		tight.Path[1].Air.Leak = 0
		r, same, dry := run(t, m), run(t, &mixed), run(t, tight)
		require.InEpsilon(t, same.Nozzle.Mean, r.Nozzle.Mean, 1e-4, direction)
		require.Greater(t, r.Nozzle.Mean, dry.Nozzle.Mean, direction)
		// The water of the whole zone: what comes in and what the strand gives leaves with the air.
		in, vapour := m.Inflow(&m.Path[1])
		p := m.AirPressure()
		given := (r.Zones[0].Exit.Mean - r.Zones[1].Exit.Mean) * math.Pi * m.Radius * m.Radius * m.Material.Density.Value * m.Speed
		gone := in * (humidair.HumidityRatio(r.Zones[1].VapourPressure, p) - humidair.HumidityRatio(vapour, p))
		require.InEpsilon(t, given, gone, 1e-9, direction)
	}
}

// Three strands in three times the air are each as one in its own.
func TestStrandsShareTheAir(t *testing.T) {
	for _, direction := range []diffusion.Direction{diffusion.Mixed, diffusion.With, diffusion.Against} {
		one := leaky(t, direction)
		three := leaky(t, direction)
		a := &three.Path[1].Air
		a.Strands, a.VolumeFlow, a.Leak = 3, 3*a.VolumeFlow, 3*a.Leak
		three.Path[1].Film.AirSpeed = one.Path[1].Film.AirSpeed
		require.InEpsilon(t, run(t, one).Nozzle.Mean, run(t, three).Nozzle.Mean, 1e-6, direction)
		a.VolumeFlow, a.Leak = a.VolumeFlow/3, a.Leak/3
		require.Greater(t, run(t, three).Nozzle.Mean, run(t, one).Nozzle.Mean, direction)
	}
}

// The speed past the strand follows the flow where the section that it passes is known.
func TestSpeedFollowsFlowThroughSection(t *testing.T) {
	m := leaky(t, diffusion.With)
	z := &m.Path[1]
	z.Film.AirSpeed, z.Film.Section = 0, 1e-3
	z.Air.MeteredAt = z.Air.Temperature
	require.InEpsilon(t, 2.0/6e4/1e-3, m.AirSpeed(z), 1e-12)
	z.Air.VolumeFlow *= 2
	require.InEpsilon(t, 4.0/6e4/1e-3, m.AirSpeed(z), 1e-12)
}

// However little air there is, down to the least that a scenario takes: either it takes up what the strand gives, to the last, or there is no answer. No strand is wetter than it was in
// air that was supplied drier than any that would wet it.
func TestHardlyAnyAirKeepsItsWater(t *testing.T) {
	answers := 0
	for _, direction := range []diffusion.Direction{diffusion.Mixed, diffusion.With, diffusion.Against} {
		for flow := 1e-9; flow < 1e-5; flow *= math.Sqrt2 {
			m := path(t, "pa6", 0.5, 90, dry)
			if answers%2 == 0 {
				m = path(t, "petg", 10, 65, dry)
			}
			m.Path[0].Air.Direction, m.Path[0].Air.DryFlow = direction, flow
			var r diffusion.Result
			if err := diffusion.NewMarch().Run(&m.Model, diffusion.DefaultSettings(), &r); err != nil {
				require.ErrorIs(t, err, diffusion.ErrTooLittleAir)
				continue
			}
			answers++
			p := m.AirPressure()
			given := (r.Start.Mean - r.Zones[0].Exit.Mean) * math.Pi * m.Radius * m.Radius * m.Material.Density.Value * m.Speed
			gone := flow * (humidair.HumidityRatio(r.Zones[0].VapourPressure, p) - humidair.HumidityRatio(m.Path[0].Air.VapourPressure, p))
			require.GreaterOrEqual(t, given, 0.0, "%s %g kg/s", direction, flow)
			require.InDelta(t, given, gone, 1e-9*m.Start*given/(r.Start.Mean-r.Zones[0].Exit.Mean), "%s %g kg/s", direction, flow)
		}
	}
	require.Greater(t, answers, 20)
	m := path(t, "pva", 0.002, 90, dry) // which the first guess soaks, and a later one does not
	m.Path[0].Air.Direction, m.Path[0].Air.DryFlow = diffusion.Against, 1e-8
	require.Less(t, run(t, m).Nozzle.Mean, m.Start)
}
