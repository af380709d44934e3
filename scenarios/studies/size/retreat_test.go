package size

import (
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion"
	"strandry/scenarios"
)

// inMoistAir is the question for the flow of a little damp air, with one more line for the strand.
func inMoistAir(t *testing.T, line string) *task {
	s, err := scenarios.Read("moist.toml", []byte(`title = "moist air"
[strand]
material = "pva"
moisture = "2 %"
`+line+`
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
	return found
}

// An end of the range that can be marched but not assessed, which is a march refined as well, is left for one that can be; one that can
// stays, and what is no end is none of its business. So little air as this has an answer by chance.
func TestRetreat(t *testing.T) {
	found := inMoistAir(t, "")
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

// A search whose answer is such an end ends at one that can be assessed.
func TestFindRetreats(t *testing.T) {
	found := inMoistAir(t, `limit = "30 %"`)
	const little = 1e-9 // [m³/s]
	least := found.answer.From
	found.answer.From = little
	require.NoError(t, found.find())
	require.Equal(t, Everywhere, found.answer.Outcome)
	require.InEpsilon(t, least, found.answer.From, 0.01)
	require.InEpsilon(t, found.answer.From, found.answer.Value, 1e-6)
	require.NotNil(t, found.answer.Check)
}
