package section_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion/radial"
	"strandry/diffusion/section"
)

// A front that enters through a part of the perimeter has the first step of one all round: the nodes that it meets answer alike.
func TestFirstStepOfAFront(t *testing.T) {
	for _, start := range []float64{0, 1} {
		p := radial.Problem{Conductance: radial.Uniform(1), Potential: radial.Exponential(2), Surface: film(200, 1-start)}
		step := func(advance func(observe func(float64, []float64)) error) (first float64) {
			require.NoError(t, advance(func(time float64, _ []float64) {
				if first == 0 {
					first = time
				}
			}))
			return first
		}
		g := newGrid(t, 0.3, 1, section.UsualAngles)
		part, whole := started(g, start), radial.March{}
		whole.Start(along(t, 15, 3), start)
		got := step(func(observe func(float64, []float64)) error {
			part.Observe = observe
			return part.Advance(p, 0.1, usual)
		})
		want := step(func(observe func(float64, []float64)) error {
			whole.Observe = observe
			return whole.Advance(p, 0.1, usual)
		})
		require.False(t, math.IsNaN(got))
		require.InEpsilon(t, want, got, 0.01)
		require.LessOrEqual(t, part.Stats.Rejected, 2)
	}
}
