package size

import (
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion"
	"strandry/scenarios"
)

// An end of the range that can be marched but not assessed, which is a march refined as well, is left for one that can be; one that can
// stays, and what is no end is none of its business. So little air as this has an answer by chance.
func TestRetreat(t *testing.T) {
	s, err := scenarios.Read("moist.toml", []byte(`title = "moist air"
[strand]
material = "pva"
moisture = "2 %"
[feed]
speed = "2 mm/s"
[[zone]]
name = "dryer"
length = "2 m"
temperature = "40 °C"
air = { humidity = "40 %", flow = "5 L/min", direction = "against" }
[numerics]
resolution = 3
tolerance = 0.01
`))
	require.NoError(t, err)
	found, err := newTask(diffusion.NewMarch(), s, Request{Key: "zone.dryer.air.flow"})
	require.NoError(t, err)
	narrowed := *found.answer
	require.True(t, narrowed.Narrowed)
	require.False(t, found.retreat(narrowed.From), "it can be assessed")

	const little = 1e-9 // [m³/s]
	require.NoError(t, found.marched(little))
	require.Error(t, found.assessed(little))
	found.answer.From, found.answer.Narrowed = little, false
	require.False(t, found.retreat(5e-9), "no end")
	require.True(t, found.retreat(little))
	require.NoError(t, found.assessed(found.answer.From))
	require.InEpsilon(t, narrowed.From, found.answer.From, 0.01)
	require.Greater(t, found.answer.To, found.answer.From)
	require.True(t, found.answer.Narrowed)
}
