package diffusion_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion"
	"strandry/materials"
)

// A thick cold strand flashes past quick hot air: what it loses hangs on how fast its rim warms. The
// loss was computed by finite differences of heat and moisture together, without eigenfunctions, and by a
// series of 150 of them with another solver (independent code): 7.64e-5 of content, three digits.
func TestQuickHotZone(t *testing.T) {
	p, err := materials.Lookup("pa6")
	require.NoError(t, err)
	sure := func(x float64) materials.Value { return materials.Value{Value: x, Low: x, High: x} }
	p.Diffusivity.Reference, p.Diffusivity.ReferenceValue, p.Diffusivity.Beta = 298.15, sure(1e-10), sure(0)
	p.Diffusivity.Pieces = p.Diffusivity.Pieces[:1]
	p.Diffusivity.Pieces[0].Activation = sure(55e3)
	p.Sorption.Form, p.Sorption.Saturation, p.Sorption.MixingEnthalpy, p.Sorption.Reference = materials.Henry, sure(0.03), sure(-10e3), 296.15
	m := transit(t, 0)
	m.Material, m.Radius, m.Speed, m.Start, m.StartTemperature = p, 5e-3, 50e-3, 0.02, 293.15
	m.Path = []diffusion.Zone{{
		Name: "flash", Length: 5e-3, Film: diffusion.Film{Heat: 1000, Mass: 0.2}, Air: diffusion.Air{Temperature: 423.15, VapourPressure: 100},
	}}
	s := diffusion.DefaultSettings()
	s.WithoutEvaporation = true // as both codes did
	a, err := diffusion.NewMarch().Assess(m, s)
	require.NoError(t, err)
	within(t, 7.64e-5, m.Start-a.Nozzle.Mean, 1e-6)
	require.Less(t, math.Abs(m.Start-7.64e-5-a.Nozzle.Mean), a.NumericalError+5e-8, "the printed error covers the true one")
}
