package canvas

import (
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/plots/palette"
)

func TestSpread(t *testing.T) {
	at := func(y ...Length) []Label {
		var out []Label
		for _, v := range y {
			out = append(out, Label{At: Point{Y: v}})
		}
		return out
	}
	labels := at(50, 50, 52, 90, 3)
	spread(labels, 15, 0, 100)
	for i := 1; i < len(labels); i++ {
		require.GreaterOrEqual(t, float64(labels[i].y-labels[i-1].y), 15-1e-9)
	}
	require.GreaterOrEqual(t, float64(labels[0].y), 0.0)
	require.LessOrEqual(t, float64(labels[4].y), 100.0)
	far := at(10, 60)
	spread(far, 15, 0, 100)
	require.InDelta(t, 10, float64(far[0].y), 1e-12)
	require.InDelta(t, 60, float64(far[1].y), 1e-12)
	crowded := at(50, 50, 50, 50, 50, 50)
	spread(crowded, 30, 0, 100)
	require.InDelta(t, 0, float64(crowded[0].y), 1e-9)
	require.InDelta(t, 100, float64(crowded[5].y), 1e-9)
}

// A text goes to the first place that is on the panel, free and clear of lines; with none, to the first, unless it is only offered.
func TestTextFindsAPlace(t *testing.T) {
	onSheet(t, func(s *Sheet, room Rectangle) {
		p := s.Panel(room, Axes{X: Scale{Max: 1}, Y: Scale{Max: 1}})
		style := p.Style(TickSize, palette.Ink, false)
		at := func(x, y float64) Spot { return Spot{At: p.At(x, y), Side: Centred} }
		taken := func(spot Spot) bool { return !p.Free(TextBox(style, spot.At, spot.Side, "here")) }
		beyond, first, crossed, last := at(1, 0.5), at(0.2, 0.2), at(0.5, 0.5), at(0.8, 0.8)
		passing := Along(p.At(0.4, 0.5), p.At(0.6, 0.5))
		require.True(t, p.Offer(style, "here", []Spot{beyond, crossed, first, last}, passing))
		require.True(t, taken(first))
		require.False(t, taken(crossed) || taken(last))
		require.True(t, p.Offer(style, "here", []Spot{first, last}, passing))
		require.True(t, taken(last))
		require.False(t, p.Offer(style, "here", []Spot{crossed, first}, passing))
		require.False(t, taken(crossed))
		p.Place(style, "here", []Spot{crossed, first}, passing)
		require.True(t, taken(crossed))
	})
}
