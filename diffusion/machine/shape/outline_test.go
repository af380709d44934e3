package shape_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion/machine/shape"
)

func outline(t *testing.T, w shape.Way, against bool) shape.Outline {
	t.Helper()
	o, err := w.Outline(d, against)
	require.NoError(t, err)
	require.Equal(t, d, o.Strand)
	require.Len(t, o.Views, 2)
	require.Len(t, o.Views, 2)
	return o
}

// Every view is as large as the housing and all lies within it.
func TestDrawnWithinTheHousing(t *testing.T) {
	for _, w := range []shape.Way{tube, passes, wide, winding} {
		h := lead(t, w).Housing
		o := outline(t, w, false)
		near(t, h.Length, o.Views[0].Width, 1e-12)
		if h.Diameter > 0 {
			near(t, h.Diameter, o.Views[0].Height, 1e-12)
			near(t, h.Diameter, o.Views[1].Width, 1e-12)
			near(t, h.Diameter, o.Views[1].Height, 1e-12)
		} else {
			near(t, h.Width, o.Views[0].Height, 1e-12)
			near(t, h.Height, o.Views[1].Width, 1e-12)
			near(t, h.Width, o.Views[1].Height, 1e-12)
		}
		for _, v := range o.Views {
			inside := func(p shape.Point) {
				require.True(t, p.X >= -1e-12 && p.X <= v.Width+1e-12 && p.Y >= -1e-12 && p.Y <= v.Height+1e-12, "%T %v", w, p)
			}
			for _, s := range v.Strokes {
				for _, p := range s.Points {
					inside(p)
				}
			}
			for _, a := range v.Arcs {
				require.Greater(t, a.To, a.From)
				for _, f := range []float64{0, 0.25, 0.5, 0.75, 1} {
					inside(on(a, a.From+f*(a.To-a.From)))
				}
			}
			for _, p := range v.Ports {
				inside(p.At)
				near(t, 1, math.Hypot(p.Toward.X, p.Toward.Y), 1e-12)
			}
		}
	}
}

func on(a shape.Arc, angle float64) shape.Point {
	return shape.Point{X: a.Centre.X + a.Radius*math.Cos(angle), Y: a.Centre.Y + a.Radius*math.Sin(angle)}
}

// The strand of the passes is one line without a gap from port to port, and as long as is said, with the two ends in the housing.
func TestPassesAreOneLine(t *testing.T) {
	odd, even := passes, passes
	even.Count = 4
	for _, p := range []shape.Passes{odd, even, wide} {
		v := outline(t, p, false).Views[0]
		drawn := 0.0
		ends := map[[2]int64]int{} // places in tenths of a micrometre, and how many pieces end there
		end := func(q shape.Point) { ends[[2]int64{int64(math.Round(q.X * 1e7)), int64(math.Round(q.Y * 1e7))}]++ }
		for _, s := range v.Strokes {
			if s.Of != shape.StrandLine {
				continue
			}
			require.Len(t, s.Points, 2)
			drawn += math.Hypot(s.Points[1].X-s.Points[0].X, s.Points[1].Y-s.Points[0].Y)
			end(s.Points[0])
			end(s.Points[1])
		}
		for _, a := range v.Arcs {
			if a.Of == shape.StrandLine {
				drawn += a.Radius * (a.To - a.From)
				end(on(a, a.From))
				end(on(a, a.To))
			}
		}
		lone := 0
		for _, n := range ends {
			require.LessOrEqual(t, n, 2)
			lone += 2 - n
		}
		require.Equal(t, 2, lone, "two ends")
		short := 2 * (p.Wall + p.Gap + d + p.Roller/2)
		near(t, lead(t, p).Length+short, drawn, 1e-9)
		require.Equal(t, shape.StrandIn, v.Ports[0].Of)
		require.Equal(t, 1, ends[[2]int64{0, int64(math.Round(v.Ports[0].At.Y * 1e7))}])
		out := v.Ports[1]
		require.Equal(t, shape.StrandOut, out.Of)
		require.Equal(t, 1, ends[[2]int64{int64(math.Round(out.At.X * 1e7)), int64(math.Round(out.At.Y * 1e7))}])
		if p.Count%2 == 1 {
			near(t, v.Width, out.At.X, 0)
			near(t, 1, out.Toward.X, 0)
		} else {
			near(t, 0, out.At.X, 0)
			near(t, -1, out.Toward.X, 0)
		}
	}
}

// The strand lies on its rollers, and these keep apart.
func TestRollersCarryTheStrand(t *testing.T) {
	for _, p := range []shape.Passes{passes, wide} {
		v := outline(t, p, false).Views[0]
		var rollers []shape.Arc
		for _, a := range v.Arcs {
			if a.Of == shape.RollerLine {
				near(t, p.Roller/2, a.Radius, 0)
				rollers = append(rollers, a)
			}
		}
		count := 0
		for _, w := range lead(t, p).Wraps {
			count += w.Count
		}
		require.Len(t, rollers, count)
		for i, a := range rollers {
			bent := 0
			for _, b := range v.Arcs {
				if b.Of == shape.StrandLine && b.Centre == a.Centre {
					near(t, a.Radius+d/2, b.Radius, 1e-12)
					bent++
				}
			}
			require.Equal(t, 1, bent)
			for _, b := range rollers[:i] {
				require.GreaterOrEqual(t, math.Hypot(a.Centre.X-b.Centre.X, a.Centre.Y-b.Centre.Y), p.Roller)
			}
		}
	}
}

func TestAirGoesWithOrAgainst(t *testing.T) {
	for _, w := range []shape.Way{tube, passes, winding} {
		for _, against := range []bool{false, true} {
			v := outline(t, w, against).Views[0]
			at := map[shape.Passage]shape.Port{}
			for _, p := range v.Ports {
				at[p.Of] = p
			}
			require.Len(t, at, 4)
			in, out := at[shape.AirIn], at[shape.AirOut]
			require.Equal(t, in.Toward, out.Toward)
			require.Equal(t, in.At.Y, out.At.Y)
			if against {
				near(t, v.Width, in.At.X, 0)
				near(t, 0, out.At.X, 0)
				near(t, -1, in.Toward.X, 0)
			} else {
				near(t, 0, in.At.X, 0)
				near(t, v.Width, out.At.X, 0)
				near(t, 1, in.Toward.X, 0)
			}
		}
	}
}

func TestWindingDrawn(t *testing.T) {
	o := outline(t, winding, false)
	l := lead(t, winding)
	side, end := o.Views[0], o.Views[1]
	var strands [][]shape.Point
	for _, s := range side.Strokes {
		if s.Of == shape.StrandLine {
			strands = append(strands, s.Points)
		}
		if s.Of == shape.DrumLine {
			near(t, winding.Drum, s.Points[2].Y-s.Points[0].Y, 1e-12)
			near(t, winding.Turns*winding.Pitch+d, s.Points[2].X-s.Points[0].X, 1e-12)
		}
	}
	require.Len(t, strands, 31, "thirty turns and a quarter")
	axis, outer := side.Height/2, l.Layers[2].Radius
	first := strands[0]
	near(t, winding.Wall+winding.Gap+d/2, first[0].X, 1e-12)
	near(t, axis+outer, first[0].Y, 1e-12)
	near(t, axis-outer, first[len(first)-1].Y, 1e-12)
	near(t, winding.Pitch/2, first[len(first)-1].X-first[0].X, 1e-12)
	near(t, winding.Pitch, strands[1][0].X-first[0].X, 1e-12)
	rest := strands[30]
	near(t, axis, rest[len(rest)-1].Y, 1e-12, "a quarter turn ends on the axis")

	var layers []float64
	for _, a := range end.Arcs {
		if a.Of == shape.StrandLine {
			layers = append(layers, a.Radius)
		}
		near(t, end.Width/2, a.Centre.X, 0)
	}
	require.Equal(t, []float64{l.Layers[0].Radius, l.Layers[1].Radius, l.Layers[2].Radius}, layers)
	for i, s := range []shape.Stroke{end.Strokes[0], end.Strokes[1]} { // tangents, from the housing and to it
		touch, far, r := s.Points[1-i], s.Points[i], l.Layers[2*i].Radius
		near(t, r, math.Hypot(touch.X-end.Width/2, touch.Y-end.Width/2), 1e-12)
		near(t, end.Width/2, math.Hypot(far.X-end.Width/2, far.Y-end.Width/2), 1e-12)
		near(t, 0, (touch.X-end.Width/2)*(far.X-touch.X)+(touch.Y-end.Width/2)*(far.Y-touch.Y), 1e-12)
		require.Equal(t, far, end.Ports[i].At)
		go1, go2 := s.Points[0], s.Points[1]
		long := math.Hypot(go2.X-go1.X, go2.Y-go1.Y)
		near(t, (go2.X-go1.X)/long, end.Ports[i].Toward.X, 1e-9)
		near(t, (go2.Y-go1.Y)/long, end.Ports[i].Toward.Y, 1e-9)
	}
	near(t, end.Width/2-l.Layers[2].Radius, end.Strokes[1].Points[0].X, 1e-9, "90 turns and three quarters: at the left")

	require.Equal(t, shape.StrandOut, side.Ports[1].Of)
	near(t, strands[0][0].X+winding.Turns*winding.Pitch, side.Ports[1].At.X, 1e-12, "three layers end at the far side")
	two := winding
	two.Layers = 2
	near(t, side.Ports[0].At.X, outline(t, two, false).Views[0].Ports[1].At.X, 1e-12, "two where they began")
}

// The two faces of the housing are drawn as closed figures, the wall apart, and one drum.
func TestHousingIsDrawn(t *testing.T) {
	for _, c := range []struct {
		way  shape.Way
		wall float64
		ends float64 // how far the inner face keeps from the outer at the ends of the side view
	}{{tube, tube.Wall, 0}, {passes, passes.Wall, passes.Wall}, {wide, wide.Wall, wide.Wall}, {winding, winding.Wall, winding.Wall}} {
		o := outline(t, c.way, false)
		for i, v := range o.Views {
			var faces []shape.Stroke
			drums := 0
			for _, s := range v.Strokes {
				switch s.Of {
				case shape.HousingLine:
					faces = append(faces, s)
				case shape.DrumLine:
					drums++
				default:
					require.Equal(t, shape.StrandLine, s.Of)
				}
			}
			var rings []float64
			for _, a := range v.Arcs {
				if a.Of == shape.StrandLine && i == 0 {
					continue
				}
				near(t, 0, a.From, 0)
				near(t, 2*math.Pi, a.To, 0)
				if a.Of == shape.HousingLine {
					require.Equal(t, shape.Point{X: v.Width / 2, Y: v.Height / 2}, a.Centre)
					rings = append(rings, a.Radius)
				}
			}
			_, round := c.way.(shape.Winding)
			require.Equal(t, round && i == 0, drums == 1, "%T", c.way)
			if len(rings) > 0 {
				require.Empty(t, faces)
				require.Len(t, rings, 2)
				near(t, v.Width/2, rings[0], 1e-12)
				near(t, v.Width/2-c.wall, rings[1], 1e-12)
				continue
			}
			ends := c.ends
			if i == 1 {
				ends = c.wall
			}
			require.Len(t, faces, 2)
			corners(t, faces[0], 0, 0, v.Width, v.Height)
			corners(t, faces[1], ends, c.wall, v.Width-ends, v.Height-c.wall)
		}
	}
}

func corners(t *testing.T, s shape.Stroke, left, low, right, high float64) {
	t.Helper()
	require.Len(t, s.Points, 4)
	for i, want := range []shape.Point{{X: left, Y: low}, {X: right, Y: low}, {X: right, Y: high}, {X: left, Y: high}} {
		near(t, want.X, s.Points[i].X, 1e-12)
		near(t, want.Y, s.Points[i].Y, 1e-12)
	}
}

// Air goes in and out in the middle of the room beside the strand, or of the box; the strand where it lies.
func TestPortsAreWhereThereIsRoom(t *testing.T) {
	v := outline(t, tube, false).Views
	near(t, tube.Wall+d/2, v[0].Ports[0].At.Y, 1e-12)
	near(t, 0, v[0].Ports[0].At.X, 0)
	near(t, tube.Wall+d/2, v[0].Ports[1].At.Y, 1e-12)
	near(t, 2, v[0].Ports[1].At.X, 0)
	near(t, tube.Wall+(d+tube.Bore)/2, v[0].Ports[2].At.Y, 1e-12)
	cut := v[1].Arcs[2]
	near(t, d/2, cut.Radius, 0)
	require.Equal(t, shape.Point{X: v[1].Width / 2, Y: tube.Wall + d/2}, cut.Centre)
	line := v[0].Strokes[2]
	require.Equal(t, []shape.Point{{X: 0, Y: tube.Wall + d/2}, {X: 2, Y: tube.Wall + d/2}}, line.Points)

	v = outline(t, winding, false).Views
	near(t, v[0].Height-winding.Wall-winding.Gap/2, v[0].Ports[2].At.Y, 1e-12)
	near(t, v[0].Height, v[0].Ports[0].At.Y, 0)
	near(t, 0, v[0].Ports[1].At.Y, 0)
	for _, p := range v[0].Ports[:2] {
		require.Equal(t, shape.Point{X: 0, Y: -1}, p.Toward)
	}

	v = outline(t, passes, false).Views
	near(t, v[0].Height/2, v[0].Ports[2].At.Y, 1e-12)
	require.Len(t, v[1].Arcs, passes.Count)
	for i, cut := range v[1].Arcs {
		near(t, d/2, cut.Radius, 0)
		near(t, v[1].Width/2, cut.Centre.X, 1e-12)
		near(t, passes.Wall+passes.Gap+d/2+float64(i)*(passes.Roller+d), cut.Centre.Y, 1e-12)
	}
	near(t, passes.Wall+passes.Gap+d/2, v[0].Ports[0].At.Y, 1e-12)
}

// The strand on its rollers keeps the gap from the housing at both ends.
func TestGapsAreKept(t *testing.T) {
	for _, p := range []shape.Passes{passes, wide} {
		v := outline(t, p, false).Views[0]
		left, right := math.Inf(1), 0.0
		for _, a := range v.Arcs {
			if a.Of == shape.StrandLine {
				for _, f := range []float64{0, 0.5, 1} {
					x := on(a, a.From+f*(a.To-a.From)).X
					left, right = min(left, x-d/2), max(right, x+d/2)
				}
			}
		}
		near(t, p.Wall+p.Gap, left, 1e-12)
		near(t, v.Width-p.Wall-p.Gap, right, 1e-12)
	}
}

// Seen from the end, the strand leaves where its turns end, along the circle and clockwise, and as far as the housing.
func TestStrandLeavesWhereItsTurnsEnd(t *testing.T) {
	for _, turns := range []float64{0.4, 3.1, 7.65, 12.9} {
		w := winding
		w.Turns, w.Layers = turns, 2
		l := lead(t, w)
		v := outline(t, w, false).Views[1]
		c := v.Width / 2
		require.Equal(t, shape.StrandIn, v.Ports[0].Of)
		require.Equal(t, shape.StrandOut, v.Ports[1].Of)
		require.Len(t, v.Ports, 2)
		require.Len(t, v.Strokes, 2)
		require.Equal(t, shape.Point{X: c, Y: c + l.Layers[0].Radius}, v.Strokes[0].Points[1], "in at the top")
		require.Less(t, v.Strokes[0].Points[0].X, c, "from the left")
		near(t, c+l.Layers[0].Radius, v.Strokes[0].Points[0].Y, 1e-12)
		sin, cos := math.Sincos(2 * math.Pi * turns * 2)
		from, to := v.Strokes[1].Points[0], v.Strokes[1].Points[1]
		near(t, c+l.Layers[1].Radius*sin, from.X, 1e-9)
		near(t, c+l.Layers[1].Radius*cos, from.Y, 1e-9)
		require.Greater(t, (to.X-from.X)*cos-(to.Y-from.Y)*sin, 0.0, "onwards")
		near(t, c, math.Hypot(to.X-c, to.Y-c), 1e-9)
		near(t, 0, (from.X-c)*(to.X-from.X)+(from.Y-c)*(to.Y-from.Y), 1e-9)
		require.Equal(t, to, v.Ports[1].At)
		near(t, cos, v.Ports[1].Toward.X, 1e-9)
		near(t, -sin, v.Ports[1].Toward.Y, 1e-9)
	}
}
