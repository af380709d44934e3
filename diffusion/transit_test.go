package diffusion_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion"
	"strandry/materials"
	"strandry/materials/humidair"
)

// transit is the standard transit: a strand of 1.75 mm at 2 mm/s through a warm
// guide, twelve metres of hot dry air and a guide in room air.
func transit(t testing.TB, beta float64) *diffusion.Design {
	p, err := materials.Lookup("pa6")
	require.NoError(t, err)
	given := func(v float64) materials.Value {
		return materials.Value{Value: v, Low: v, High: v, Kind: materials.Given}
	}
	p.Density, p.HeatCapacity, p.Conductivity = given(1130), given(1700), given(0.25)
	p.Diffusivity = materials.Diffusivity{
		Reference: 296.15, ReferenceValue: given(4e-13), Pieces: []materials.Arrhenius{{Activation: given(55e3)}},
		Beta: given(beta), Scatter: given(3), Temperature: materials.Range{Min: 290, Max: 400},
	}
	p.Sorption = materials.Sorption{
		Form: materials.Henry, Saturation: given(0.095), MixingEnthalpy: given(0), Reference: 296.15,
		ActivityRange: materials.Range{Min: 0, Max: 1}, Temperature: materials.Range{Min: 290, Max: 400},
	}
	zone := func(name string, length, celsius, vapour float64) diffusion.Zone {
		return diffusion.Zone{
			Name: name, Length: length, Film: diffusion.Film{Heat: 25, Mass: 0.02},
			Air: diffusion.Air{Temperature: celsius + 273.15, VapourPressure: vapour},
		}
	}
	return &diffusion.Design{Target: diffusion.Target{Limit: 0.002, NozzleTemperature: 533.15}, Model: diffusion.Model{
		Radius: 0.875e-3, Material: p, Speed: 2e-3, Start: 0.025, StartTemperature: 296.15,
		Path: []diffusion.Zone{
			zone("warm guide", 0.5, 60, 400), zone("drum", 12, 110, 120), zone("guide", 0.6, 25, 1400),
		},
		Pressure: humidair.StandardPressure,
	}}
}

// The answers were computed by CVODE (BDF, banded) on 320 and 640 cells and
// extrapolated; scipy's BDF agrees to 3e-8 at equal grid. Each to 2e-8.
func transitAnswer(beta float64) float64 {
	if beta == 0 {
		return 2.345023e-3
	}
	return 2.444867e-3
}

func TestStandardTransit(t *testing.T) {
	for _, beta := range []float64{0, 20} {
		s := diffusion.DefaultSettings()
		s.WithoutEvaporation = true // the standard transit leaves it out
		a, err := diffusion.NewMarch().Assess(transit(t, beta), s)
		require.NoError(t, err)
		want := transitAnswer(beta)
		require.InEpsilon(t, want, a.Nozzle.Mean, 1e-3)
		require.InDelta(t, want, a.Nozzle.Mean, a.NumericalError, "the printed error covers the true one")
		require.Less(t, a.NumericalError, 1e-3*want)
		require.InDelta(t, 0, a.Balance, 1e-12)
		require.InDelta(t, 1-want/0.025, a.Removed, 1e-3)
		t.Logf("beta %g: %.6e, error %.1e, claimed %.1e, %d nodes, %d steps, low %.3g high %.3g", beta, a.Nozzle.Mean, a.Nozzle.Mean/want-1, a.NumericalError/want, a.Nodes, a.Steps, a.Low, a.High)
		for _, z := range a.Zones {
			t.Logf("%+v", z)
		}
	}
}
