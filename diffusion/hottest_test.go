package diffusion_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion"
	"strandry/diffusion/samples"
	"strandry/materials"
	"strandry/materials/humidair"
)

// A dry strand that takes up water sets its heat free: for a while it is hotter than at both ends of its zone, and hotter than its air, and
// that is what it has to bear. A longer stay is no cooler.
func TestHottestWithinAZone(t *testing.T) {
	p, err := materials.Lookup("pva")
	require.NoError(t, err)
	m := transit(t, 0)
	m.Material, m.Start, m.Speed, m.StartTemperature = p, 0, 1e-3, 321.15
	m.Path = []diffusion.Zone{{Name: "damp", Film: diffusion.Film{Emissivity: 0.9}, Air: diffusion.Air{Temperature: 321.15, VapourPressure: humidair.VapourPressureAt(0.9, 321.15)}}}
	before := 0.0
	for _, length := range samples.Each(2, []float64{0.05, 0.5, 3}) {
		m.Path[0].Length = length
		a := assess(t, m)
		z := a.Zones[0]
		require.Greater(t, z.Hottest, z.AirTemperature+1)
		require.GreaterOrEqual(t, z.Hottest, before-0.2, "%g m", length)
		require.InDelta(t, z.Hottest, a.Endurance.Strand, 0)
		before = z.Hottest
	}
	require.Greater(t, before, assess(t, m).Zones[0].Exit.Temperature+0.5)
}
