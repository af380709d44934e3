package moisture

import (
	"image/color"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion"
	"strandry/plots/canvas"
	"strandry/plots/palette"
)

func onSheet(t *testing.T, draw func(s *canvas.Sheet, room canvas.Rectangle)) string {
	t.Helper()
	out, err := new(canvas.Press).Encode(canvas.Page{Height: 500, Draw: draw}, canvas.SVG)
	require.NoError(t, err)
	return string(out[0])
}

func spaced(from, to float64, n int) []float64 {
	var out []float64
	for k := range n {
		out = append(out, from*math.Pow(to/from, float64(k)/float64(n-1)))
	}
	return out
}

// decaying is what is left of 2.5 % after a length [m] at a speed [mm/s], exp(-t/5000 s), with a doubt of a factor of four either way.
func decaying() Grid {
	g := Grid{X: spaced(1, 100, 25), Y: spaced(0.5, 8, 17), Limit: 0.002, Start: 0.025}
	for _, v := range g.Y {
		var row []float64
		var ratio []diffusion.Between
		for _, l := range g.X {
			c := 0.025*math.Exp(-l/(v/1000)/5000) + 1e-5
			row, ratio = append(row, c), append(ratio, diffusion.Between{Low: c / g.Limit / 4, High: 4 * c / g.Limit})
		}
		g.Content, g.Ratio = append(g.Content, row), append(g.Ratio, ratio)
	}
	return g
}

// heated has the strand hold up to the first quarter of the second axis, and all but surely soften above its half.
func heated() Grid {
	g := decaying()
	for j := range g.Y {
		var row []diffusion.Excess
		for range g.X {
			share := float64(j) / float64(len(g.Y)-1)
			row = append(row, diffusion.Excess{Yield: share - 0.5, Bear: share - 0.25})
		}
		g.Excess = append(g.Excess, row)
	}
	return g
}

func laid(s *canvas.Sheet, room canvas.Rectangle, g Grid) *Map {
	last := func(x []float64) float64 { return x[len(x)-1] }
	return NewMap(s.Panel(room, canvas.Axes{
		X: canvas.Scale{Min: g.X[0], Max: last(g.X), Log: true}, Y: canvas.Scale{Min: g.Y[0], Max: last(g.Y), Log: true}, Right: KeyRoom,
	}), g)
}

// The limit's contour lies where content = limit: for 2.5 % exp(-t/5000 s) + 0.001 % that is at
// t = 5000 s ln(2.5/0.199), whatever the speed; the borders of what is unsure where a quarter and four times as much is.
func TestLimitContourLiesWhereItShould(t *testing.T) {
	onSheet(t, func(s *canvas.Sheet, room canvas.Rectangle) {
		m := laid(s, room, decaying())
		require.GreaterOrEqual(t, m.bands.limit, 0)
		for want, lines := range map[float64][][]canvas.Point{0.002: m.lines[m.bands.limit], 0.0005: m.unsure.borders[0], 0.008: m.unsure.borders[1]} {
			require.Len(t, lines, 1)
			require.Greater(t, len(lines[0]), 50)
			for _, q := range lines[0] {
				x := m.p.X.Value(float64((q.X - m.p.Box.Min.X) / m.p.Box.Size().X))
				y := m.p.Y.Value(float64((q.Y - m.p.Box.Min.Y) / m.p.Box.Size().Y))
				// Bilinear in the logarithms over cells of a factor 1.2: the content's logarithm curves by
				// (ln 1.2)² t/(8·5000 s), 1 % of t.
				require.InEpsilon(t, 5000*math.Log(0.025/(want-1e-5)), x/(y/1000), 0.02)
			}
		}
		require.Greater(t, len(m.Passing()), 2*50)
	})
}

// A map is drawn with its limit, its regions and its key; what is unknown is not named.
func TestMapIsDrawn(t *testing.T) {
	draw := func(g Grid, dashes string) string {
		return onSheet(t, func(s *canvas.Sheet, room canvas.Rectangle) {
			m := laid(s, room, g)
			require.Equal(t, dashes, m.Dashes())
			m.Paint()
			m.Contours()
			m.Regions()
			m.Key()
		})
	}
	count := func(drawn string, words map[string]int) {
		for word, want := range words {
			require.Equal(t, want, strings.Count(drawn, ">"+word+"<"), word)
		}
	}
	g := decaying()
	count(draw(g, "Dashes: 9 in 10 dry, 9 in 10 wet"), map[string]int{"limit 0.2\u00a0%": 1, "dry": 1, "unsure": 1, "wet": 1, "softens": 0, "within the limit": 0, "0.2": 1})
	g.Ratio = nil
	count(draw(g, ""), map[string]int{"limit 0.2\u00a0%": 1, "within the limit": 1, "above the limit": 1, "unsure": 0, "dry": 0})
	count(draw(heated(), "Dashes: 9 in 10 dry, 9 in 10 wet"), map[string]int{"softens": 1, "dry": 1, "wet": 1})
	g.Limit = 0.05
	count(draw(g, ""), map[string]int{"within the limit": 1, "above the limit": 0, "limit": 1, "5": 1})
	g.Limit = 1e-6
	count(draw(g, ""), map[string]int{"within the limit": 0, "above the limit": 1, "limit": 1, "0.0001": 1})
	g.Content[3][4] = 0 // no logarithm
	count(draw(g, ""), map[string]int{"above the limit": 1})
}

// Where the strand softens the map is not coloured as dry, and its border is where the strand is as hot as that, to
// a dot of the picture.
func TestSoftRegionsDoNotLookDry(t *testing.T) {
	onSheet(t, func(s *canvas.Sheet, room canvas.Rectangle) {
		m := laid(s, room, heated())
		dots := m.heat.dots(40, 400)
		for row := range 400 {
			v, want := 1-(float64(row)+0.5)/400, diffusion.Holds
			switch {
			case v > 0.5:
				want = diffusion.Softens
			case v > 0.25:
				want = diffusion.Doubtful
			}
			require.Equal(t, want, m.survival(0.7, v), "%g", v)
			require.Equal(t, want, dots(28, row), "%g", v)
		}
		looks, dry := m.looks(), m.bands.colors[0]
		at := func(unsure bool, s diffusion.Survival, column, row int) color.Color {
			return looks[look(0, unsure, s, column, row)]
		}
		for _, dot := range []int{0, 1, 2, 7, 13} {
			require.Contains(t, []color.Color{palette.Softens.Day().Ground.NRGBA(), palette.Hatch().NRGBA()}, at(false, diffusion.Softens, dot, 0), "neither sand nor blue")
		}
		require.Equal(t, palette.Hatch().NRGBA(), at(false, diffusion.Softens, 14, 0))
		require.Equal(t, dry.NRGBA(), at(false, diffusion.Holds, 0, 0))
		require.Equal(t, dry.NRGBA(), at(false, diffusion.Doubtful, 3, 0))
		require.Equal(t, palette.Mix(dry, 0, 0.35).NRGBA(), at(false, diffusion.Doubtful, 31, 1))
		require.Equal(t, palette.Mix(dry, palette.Doubted, 0.5).NRGBA(), at(true, diffusion.Holds, 5, 5))
		require.NotEqual(t, at(true, diffusion.Holds, 5, 5), at(true, diffusion.Holds, 0, 0), "dotted")
		require.Equal(t, m.bands.colors[3].NRGBA(), looks[look(3, false, diffusion.Holds, 0, 0)])
		require.Less(t, len(looks), 256)
	})
}

// A dot is unsure between the borders alone.
func TestUnsureDots(t *testing.T) {
	onSheet(t, func(s *canvas.Sheet, room canvas.Rectangle) {
		m := laid(s, room, decaying())
		dots, steps := m.unsure.dots(200, 100), 0
		for column := range 200 {
			if column > 0 && dots(column, 99) != dots(column-1, 99) {
				steps++
			}
		}
		require.Equal(t, 2, steps)
		require.False(t, (*unsure)(nil).dots(2, 2)(1, 1))
	})
}
