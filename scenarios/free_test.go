package scenarios

import (
	"testing"

	"github.com/stretchr/testify/require"
)

const withFree = `
[strand]
material = "pa6"
moisture = "2 %"
[feed]
speed = "2 mm/s"
[[zone]]
name = "drum"
length = "12 m"
temperature = "90 °C"
air = { dew_point = "-20 °C", flow = "5 L/min", direction = "against" }
[[free]]
key = "zone.drum.length"
from = "123.45 cm"
to = "20 m"
spacing = "log"
[[free]]
key = "zone.drum.temperature"
from = "95 °C"
to = "60 °C"
[[free]]
key = "zone.drum.air.flow"
values = ["1 L/min", "0.3 m3/h"]
[[free]]
key = "zone.drum.air.direction"
values = ["with", "against"]
[[free]]
key = "numerics.resolution"
from = 3
to = 6
[search]
seed = 7
budget = 50
running = "100 h"
`

func TestFree(t *testing.T) {
	s, err := Read("free.toml", []byte(withFree))
	require.NoError(t, err)
	require.Equal(t, Search{Seed: 7, Budget: 50, Running: 360000}, s.Search)
	require.Len(t, s.Free, 5)
	length, heat, flow, direction, plain := s.Free[0], s.Free[1], s.Free[2], s.Free[3], s.Free[4]
	require.True(t, length.Continuous() && length.Ratio && heat.Continuous() && !heat.Ratio && plain.Continuous())
	require.False(t, flow.Continuous() || direction.Continuous())
	require.Equal(t, [2]float64{1.2345, 20}, [2]float64{length.From, length.To})
	require.Equal(t, Setting{"zone.drum.length", "123.45 cm"}, length.Written(1.2345)) // an end as it stands there
	require.Equal(t, Setting{"zone.drum.length", "988 cm"}, length.Written(9.8765))    // else three digits, in the unit of the first
	require.Equal(t, 9.88, length.Snapped(9.8765))
	require.Equal(t, 20.0, length.Snapped(30))
	require.Equal(t, [2]float64{333.15, 368.15}, [2]float64{heat.From, heat.To})
	require.Equal(t, "60 °C", heat.Written(heat.From).Value)
	require.Equal(t, "73.5 °C", heat.Written(346.6512).Value)
	require.InDelta(t, 346.65, heat.Snapped(346.6512), 1e-9)
	require.Equal(t, "4.57", plain.Written(4.5678).Value)
	require.Equal(t, 2, flow.Len())
	require.Equal(t, "0.3 m3/h", flow.Setting(1).Value)
	require.Equal(t, []string{"with", "against"}, direction.Names)
	for _, x := range []float64{length.From, 2.3456, 11, length.To} {
		set := length.Written(length.Snapped(x))
		with, err := s.With(set, heat.Written(350), flow.Setting(1), direction.Setting(0), plain.Written(5))
		require.NoError(t, err)
		require.Equal(t, length.Snapped(x), with.Model.Path[0].Length)
		require.Len(t, with.Free, 5)
	}
	bare, err := Read("bare.toml", []byte(withFree[:len(withFree)-len("[search]\nseed = 7\nbudget = 50\nrunning = \"100 h\"\n")]))
	require.NoError(t, err)
	require.Equal(t, Search{Seed: 1, Budget: 400}, bare.Search)
}
