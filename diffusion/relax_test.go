package diffusion_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion"
	"strandry/diffusion/exact"
	"strandry/materials/humidair"
)

// relaxing is a dry strand at rest beside air whose vapour pressure rises from zero to
// 1000 Pa with the given time constant [s]: one temperature, an isotherm that is a straight
// line, a diffusivity that does not depend on the content, and so large a film coefficient
// that the surface follows the air.
func relaxing(t *testing.T, duration, constant float64) *diffusion.Design {
	m := transit(t, 0)
	m.Start, m.StartTemperature = 0, 298.15
	m.Material.Sorption.Reference = 298.15
	z := &m.Path[0]
	z.Length, z.Film.Mass = duration*m.Speed, 900
	z.Air = diffusion.Air{
		Temperature: 298.15, VapourPressure: 1000, Relax: diffusion.Relax{From: 0, TimeConstant: constant},
	}
	m.Path = m.Path[:1]
	return m
}

// A surface that nears its last value exponentially: the closed form of package exact,
// after Crank, ch. 5 (chapter from memory), which is good to 1e-9; the march is held to
// its own claim of 0.1 %.
func TestAirThatRelaxes(t *testing.T) {
	const hour = 3600
	for _, constant := range []float64{hour, 20 * hour, 100 * hour} {
		for _, duration := range []float64{5 * hour, 50 * hour, 400 * hour} {
			m := relaxing(t, duration, constant)
			r := run(t, m)
			pace := m.Material.Diffusivity.Dry(298.15) / (m.Radius * m.Radius)
			last := m.Material.Sorption.Content(1000/saturated(m), 298.15)
			want := last * exact.ApproachMean(1/(constant*pace), duration*pace)
			require.InEpsilon(t, want, r.Nozzle.Mean, 1e-3, "time constant %g s, %g s", constant, duration)
			within(t, 0, r.Balance, 1e-11)
		}
	}
}

// What is reported of the air is its state at the exit; relaxed for long it is the air supplied.
func TestRelaxedAirIsTheAirSupplied(t *testing.T) {
	m := relaxing(t, 1e5, 10)
	still := *m
	still.Path = append([]diffusion.Zone(nil), m.Path...)
	still.Path[0].Air.Relax = diffusion.Relax{}
	r, want := run(t, m), run(t, &still)
	within(t, 1000, r.Zones[0].VapourPressure, 1e-9)
	require.Less(t, r.Nozzle.Mean, want.Nozzle.Mean)
	require.InEpsilon(t, want.Nozzle.Mean, r.Nozzle.Mean, 1e-3)

	m = relaxing(t, 1000, 1000)
	within(t, 1000*(1-1/2.718281828459045), run(t, m).Zones[0].VapourPressure, 1e-6)
}

func TestRelaxIsChecked(t *testing.T) {
	m := relaxing(t, 1000, 1000)
	require.NoError(t, m.Check())
	m.Path[0].Air.DryFlow = 1e-5
	require.ErrorContains(t, m.Check(), "cannot be a limited flow")
	m = relaxing(t, 1000, -1)
	require.ErrorContains(t, m.Check(), "time constant of the air")
	m = relaxing(t, 1000, 1)
	m.Path[0].Air.Relax.From = 2e5
	require.ErrorContains(t, m.Check(), "vapour pressure at the entry")
}

// saturated is the saturation pressure at the temperature of the relaxing air [Pa].
func saturated(m *diffusion.Design) float64 {
	return humidair.SaturationPressure(m.Path[0].Air.Temperature)
}
