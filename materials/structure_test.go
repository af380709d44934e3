package materials

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// A usual drying temperature at which a strand would stretch or stick would not be usual: practice is the outside
// against which the softening is held. Each gives way below its nozzle; an amorphous one near its glass
// transition, a semicrystalline one above it and not above its melting.
func TestSofteningAgainstPractice(t *testing.T) {
	polymers, err := Library()
	require.NoError(t, err)
	for _, p := range polymers {
		way := p.GivesWay()
		require.Less(t, way.Min, way.Max, p.ID)
		require.GreaterOrEqual(t, way.Min, p.DryingTemperature.Value, p.ID)
		require.InDelta(t, p.DryingTemperature.Value, p.HottestDrying(), 0, p.ID)
		require.Less(t, way.Max, p.NozzleTemperature.Value, p.ID)
		if p.Structure == Amorphous {
			const near = 10 // [K]
			require.InDelta(t, p.GlassTransition.Value, p.Softening.Value, near, p.ID)
			hottest := p.NozzleTemperature.Value
			if p.Melting != nil {
				hottest = min(hottest, p.Melting.Value)
			}
			require.InDelta(t, hottest, p.HottestAir(p.NozzleTemperature.Value), 0, p.ID)
			continue
		}
		require.NotNil(t, p.Melting, p.ID)
		require.Greater(t, p.Softening.Value, p.GlassTransition.High, p.ID)
		require.Less(t, p.Softening.Value, p.Melting.Value, p.ID)
		require.LessOrEqual(t, way.Max, p.Melting.High, p.ID)
		require.InDelta(t, p.Melting.Value, p.HottestAir(p.NozzleTemperature.Value), 0, p.ID)
	}
}

// Sticking temperatures of textile fibre: nylon 6 near 170 °C, nylon 66 near 230 °C, polypropylene 140 to 150 °C
// (handbooks of textile fibres, from memory). Each lies where the strand may give way.
func TestFibresStickInTheRange(t *testing.T) {
	for name, celsius := range map[string]float64{"pa6": 170, "pa66": 230, "pp": 145} {
		p, err := Lookup(name)
		require.NoError(t, err)
		require.True(t, p.GivesWay().Holds(celsius+273.15), name)
	}
}

// What melts gives way, whatever its softening is said to be.
func TestMeltingBoundsSoftening(t *testing.T) {
	p, err := Read("x.toml", []byte("base = \"pcl\"\nsoftening = \"75 °C\"\n"), nil)
	require.NoError(t, err)
	require.Equal(t, Range{Min: p.Melting.Low, Max: p.Melting.High}, p.GivesWay())
	p, err = Read("x.toml", []byte("base = \"pla\"\nstructure = \"semicrystalline\"\nsoftening = \"85 °C\"\n"), nil)
	require.NoError(t, err)
	require.Equal(t, Semicrystalline, p.Structure)
	require.InDelta(t, 358.15, p.GivesWay().Min, 1e-9)
	require.InDelta(t, 433.15, p.HottestAir(483.15), 1e-9)
	require.Equal(t, "unknown", Structure(7).String())
}
