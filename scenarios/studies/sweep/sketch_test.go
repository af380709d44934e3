package sweep

import (
	"context"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion"
	"strandry/diffusion/samples"
	"strandry/scenarios"
)

// sketches are grids of the demonstrations that a chart goes over.
func sketches() map[string][]string {
	return map[string][]string{
		"winch-drum":       {"zone.drum.length=1 m..200 m:60:log", "feed.speed=0.5 mm/s..8 mm/s:60:log"},
		"clear-cover":      {"zone.oven.temperature=80 °C..120 °C:60", "zone.oven.length=0.5 m..50 m:60:log"},
		"lamp-shade":       {"zone.warm box.length=0.3 m..300 m:60:log", "room.humidity=20 %..70 %:60"},
		"opened-yesterday": {"zone.warm tube.length=0.5 m..20 m:20:log", "feed.flow=1 mm3/s..8 mm3/s:20:log", "strand.storage.1.duration=1 h..50 h:9:log"},
	}
}

// Rows of a sketch against full odds, at places of their own: the root mean square of what the contents are off is about what is told, and probabilities and ends are near.
func TestSketchAgainstOdds(t *testing.T) {
	count := samples.Of(6, 30, 200)
	for _, name := range samples.Each(2, scenarios.Demos()) {
		s := demo(t, name, sketches()[name]...)
		g := grid(t, Sweep{Scenario: s, Sketch: true})
		require.Equal(t, len(g.Rows), g.Answered())
		r, w := rand.New(rand.NewPCG(3, 4)), diffusion.NewMarch()
		var content, low, high, probability, worst float64
		for range count {
			row := r.IntN(len(g.Rows))
			own := &g.Rows[row]
			alone, err := s.With(g.settings(row)...)
			require.NoError(t, err)
			a, err := w.Assess(&alone.Design, diffusion.CoarseSettings())
			require.NoError(t, err)
			square := func(sketched, marched float64) float64 {
				d := math.Log(sketched / marched)
				return d * d / float64(count)
			}
			content += square(own.Mean, a.Nozzle.Mean)
			low += square(own.Low, a.Low)
			high += square(own.High, a.High)
			worst = math.Max(worst, math.Abs(math.Log(own.Mean/a.Nozzle.Mean)))
			probability = math.Max(probability, math.Abs(own.Probability-a.Probability))
		}
		k := g.Sketched
		t.Logf("%s: %d marches, told %.3f, checked %.3f (worst %.3f); off: content %.3f (worst %.3f), 10 %% point %.3f, 90 %% point %.3f, probability %.3f", name, k.Marches, k.Error, k.Off, k.Worst,
			math.Sqrt(content), worst, math.Sqrt(low), math.Sqrt(high), probability)
		require.Less(t, math.Sqrt(content), 2*k.Slack())
		require.Less(t, probability, 0.06)
	}
}

var _ = context.Background
