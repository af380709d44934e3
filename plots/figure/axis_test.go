package figure

import (
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/scenarios"
)

func TestEvenly(t *testing.T) {
	require.True(t, evenly([]float64{1, 2, 4, 8}))
	require.False(t, evenly([]float64{1, 2, 3, 4}))
	require.False(t, evenly([]float64{-1, 0, 1}))
	require.False(t, evenly([]float64{1, 2}))
}

func TestKeysInWords(t *testing.T) {
	require.Equal(t, "length of drum", keyName(scenarios.Key{Name: "zone.drum.length", Zone: "drum"}))
	require.Equal(t, "dew point of the air in drum", keyName(scenarios.Key{Name: "zone.drum.air.dew_point", Zone: "drum"}))
	require.Equal(t, "length of drum.shape", keyName(scenarios.Key{Name: "zone.drum.shape.length", Zone: "drum.shape"}))
	require.Equal(t, "feed speed", keyName(scenarios.Key{Name: "feed.speed"}))
	require.Equal(t, "beta of properties diffusivity", keyName(scenarios.Key{Name: "strand.properties.diffusivity.beta"}))
}

func TestAxisOf(t *testing.T) {
	s, err := scenarios.Demo("winch-drum")
	require.NoError(t, err)
	a, err := axisOf(s.Vary[0])
	require.NoError(t, err)
	require.Equal(t, "length of drum", a.Name)
	require.Equal(t, "m", a.Unit)
	require.True(t, a.Log)
	require.Equal(t, 0.5, a.Values[0])
	s, err = scenarios.Demo("clear-cover")
	require.NoError(t, err)
	a, err = axisOf(s.Vary[0])
	require.NoError(t, err)
	require.Equal(t, "Temperature of oven, °C", a.label())
	require.False(t, a.Log)
	require.InDelta(t, 80, a.Values[0], 1e-9)
	_, err = axisOf(scenarios.Axis{Names: []string{"pa6", "pc"}})
	require.ErrorContains(t, err, "no numbers")
}
