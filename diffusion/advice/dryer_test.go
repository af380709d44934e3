package advice_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion"
	"strandry/diffusion/advice"
	"strandry/materials/humidair"
)

// The dryer is where the air is dry enough, however long the strand lies in air that is not; where none is,
// the driest; of several, the one in which diffusion comes furthest.
func TestDryer(t *testing.T) {
	m := design(t, "pva", 15, 50, 103, 0.3)
	moist := m.Path[1]
	moist.Length, moist.Air.Temperature, moist.Air.VapourPressure = 300, 303.15, 0.85*humidair.SaturationPressure(303.15)
	short := m.Path[0]
	short.Length = 1
	m.Path = []diffusion.Zone{moist, short, m.Path[0], m.Path[1]}
	dryer := func() int {
		a, err := diffusion.NewMarch().Assess(m, diffusion.DefaultSettings())
		require.NoError(t, err)
		zone, err := advice.DryerOf(diffusion.NewMarch(), m, diffusion.DefaultSettings())
		require.NoError(t, err)
		require.Equal(t, advice.Dryer(m, &a.Result), zone, "by a march of its own")
		return zone
	}
	require.Equal(t, 2, dryer())
	_, d := diagnosed(t, m)
	require.Equal(t, advice.Time, d.Cause)
	for i := 1; i < 3; i++ {
		m.Path[i].Air.VapourPressure = humidair.VapourPressureAt(0.5, room)
	}
	m.Limit = 1e-4 // no air will do
	require.Equal(t, 2, dryer())
}
