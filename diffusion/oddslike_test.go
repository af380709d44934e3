package diffusion_test

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion"
	"strandry/materials"
)

// doubtful is the standard transit with two metres of drum and without its last zone, with all that is not known of PA6.
func doubtful(t *testing.T) *diffusion.Design {
	t.Helper()
	m := transit(t, 0)
	p, err := materials.Lookup("pa6")
	require.NoError(t, err)
	m.Material, m.Path = p, m.Path[:2]
	m.Path[1].Length = 2
	return m
}

// Odds by the shape of another design's are those that its own seventy marches give, as near as [diffusion.March.OddsLike] says.
func TestOddsLikeAnother(t *testing.T) {
	w, m := diffusion.NewMarch(), doubtful(t)
	o := odds(t, m)
	require.Greater(t, len(o.Unknowns), 4)
	for _, c := range [][2]float64{{4, 1}, {1, 4}, {0.25, 0.25}} { // of the drum's length, and of the feed
		varied := *m
		varied.Path = slices.Clone(m.Path)
		varied.Path[1].Length *= c[0]
		varied.Speed *= c[1]
		own := odds(t, &varied)
		like, err := w.OddsLike(&o, &varied, diffusion.DefaultSettings())
		require.NoError(t, err)
		require.InDelta(t, own.Probability, like.Probability, 0.01, "%v", c)
		for _, pair := range [][2]float64{{own.Low, like.Low}, {own.High, like.High}, {own.Ratio.Low, like.Ratio.Low}, {own.Ratio.High, like.Ratio.High}} {
			require.InEpsilon(t, pair[0], pair[1], 0.1, "%v", c)
		}
	}
	// Of other unknowns it is the odds themselves.
	other := certain(transit(t, 0))
	like, err := w.OddsLike(&o, other, diffusion.DefaultSettings())
	require.NoError(t, err)
	require.Equal(t, odds(t, other).Numbers(), like.Numbers())
}

// The band along the path begins where the strand does and ends at the odds' own points; between its ends lies the strand itself.
func TestSpanAlongThePath(t *testing.T) {
	w, m, n := diffusion.NewMarch(), doubtful(t), diffusion.DefaultSettings()
	o := odds(t, m)
	trace, err := w.Trace(&m.Model, n)
	require.NoError(t, err)
	var places []float64
	for _, p := range trace.Points {
		places = append(places, p.Position)
	}
	span, err := w.Span(m, &o, n, places)
	require.NoError(t, err)
	require.Len(t, span, len(places))
	last := len(span) - 1
	require.InDelta(t, o.Low, span[last].Low, 0.02*o.High)
	require.InEpsilon(t, o.High, span[last].High, 0.02)
	require.InEpsilon(t, m.Start, span[0].Low, 1e-6)
	for i, p := range trace.Points {
		require.LessOrEqual(t, span[i].Low, p.Mean*1.001)
		require.GreaterOrEqual(t, span[i].High, p.Mean*0.999)
	}
	sure := certain(transit(t, 0))
	none := odds(t, sure)
	span, err = w.Span(sure, &none, n, places)
	require.NoError(t, err)
	require.Nil(t, span)
}
