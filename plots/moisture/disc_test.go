package moisture

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion"
	"strandry/plots/canvas"
	"strandry/plots/palette"
)

// harmonic is a + b (r/R)ⁿ cos nθ, a steady field on a disc, at nodes like those of the solver.
func harmonic(arcs int, content func(r, angle float64) float64) *diffusion.Section {
	s := &diffusion.Section{Arcs: arcs, Exposed: 0.6}
	for i := range 20 {
		s.Radius = append(s.Radius, math.Sinh(0.15*float64(i+1)-3)+math.Sinh(3))
	}
	s.Radius = s.Radius[:20]
	last := s.Radius[19]
	for i := range s.Radius {
		s.Radius[i] *= 1e-3 / last
	}
	for _, share := range []float64{0.12, 0.37, 0.55, 0.6, 0.75, 0.92} {
		s.Angle = append(s.Angle, share*math.Pi/float64(arcs))
	}
	for _, r := range s.Radius {
		var row []float64
		for _, a := range s.Angle {
			row = append(row, content(r/1e-3, a))
		}
		s.Content = append(s.Content, row)
	}
	return s
}

// The disc shows the field between its nodes, in its sector and round by symmetry; the middle of the first cover is at the bottom.
func TestDiscShowsTheField(t *testing.T) {
	for _, arcs := range []int{1, 2, 4} {
		n := float64(arcs)
		field := func(r, angle float64) float64 { return 0.01 - 0.006*math.Pow(r, n)*math.Cos(n*angle) }
		d := NewDisc(harmonic(arcs, field))
		for k := range 120 {
			direction := 2 * math.Pi * float64(k) / 120
			for _, r := range []float64{0, 0.01, 0.3, 0.72, 0.99, 1} {
				sin, cos := math.Sincos(direction)
				fromCover := direction - downwards // the field is even about each cover and each exposed middle
				want := field(r, fromCover+math.Pi/n)
				require.InDelta(t, want, math.Exp(d.at(r*cos*(1-1e-12), r*sin*(1-1e-12))), 4e-4, "%d arcs, r %g, direction %g", arcs, r, direction)
			}
		}
	}
}

// The scale has the limit on it wherever the contents lie, turns from sand to blue there, and its lightness falls to each side.
func TestTintTurnsAtTheLimit(t *testing.T) {
	for _, c := range [][2]float64{{1e-5, 0.03}, {0.01, 0.03}, {1e-4, 1e-3}, {1e-12, 1e-12}, {0.003, 0.003}} {
		s := TintOf(c[0], c[1], 0.002)
		require.True(t, s.scale.Holds(0.002))
		require.True(t, s.scale.Holds(c[1]) || c[1] < s.scale.Min)
		of := func(content float64) palette.Colour { return s.of(math.Log(content)) }
		below, above := of(0.002*0.999), of(0.002)
		require.True(t, sand(below), "dry is sand")
		require.False(t, sand(above), "wet is blue")
		for ratio := 1.1; ratio < 100; ratio *= 1.1 {
			require.GreaterOrEqual(t, palette.Luminance(of(0.00199/ratio)), palette.Luminance(of(0.00199/ratio/1.1)))
			require.GreaterOrEqual(t, palette.Luminance(of(0.002*ratio)), palette.Luminance(of(0.002*ratio*1.1)))
		}
		for _, level := range s.levels {
			require.True(t, s.scale.Holds(level))
		}
	}
}

// A disc has its field as a picture, the limit as a line of its own and a bar below each covered arc.
func TestDiscIsDrawn(t *testing.T) {
	d := NewDisc(harmonic(2, func(r, angle float64) float64 { return 0.01 - 0.006*r*r*math.Cos(2*angle) }))
	low, high := d.Bounds()
	require.InDelta(t, 0.004, low, 4e-4)
	require.InDelta(t, 0.016, high, 4e-4)
	drawn := onSheet(t, func(s *canvas.Sheet, room canvas.Rectangle) {
		tint := TintOf(low, high, 0.008)
		tint.Bar(s, room)
		room.Min.Y += BarRoom
		d.Draw(s, room, tint)
	})
	for _, part := range []string{">covered<", ">limit 0.8\u00a0%<", ">Moisture, % of dry weight<"} {
		require.Equal(t, 1, strings.Count(drawn, part), part)
	}
	require.Equal(t, 2, strings.Count(drawn, "<image"))
	require.Equal(t, 4, strings.Count(drawn, "stroke:#1A1A1A;stroke-width:1.6"), "the limit crosses each half of each sector once")
}
