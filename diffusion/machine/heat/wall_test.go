package heat_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion/machine/heat"
)

// warm is a chamber of 70 °C in a room of 23 °C.
func warm() heat.Climate { return heat.Climate{Inside: 343.15, Room: 296.15, Pressure: 101325} }

// tube is a plastic tube in foam, between two other zones.
func tube() heat.Wall {
	return heat.Wall{
		Housing: heat.Housing{Shape: heat.LevelCylinder, Length: 0.5, Diameter: 0.06, OpenEnds: true},
		Shell:   heat.Layer{Thickness: 0.002, Conductivity: 0.2}, Insulation: []heat.Layer{{Thickness: 0.02, Conductivity: 0.04}}, Emissivity: 0.9,
	}
}

func drum(s heat.Shape) heat.Wall {
	return heat.Wall{
		Housing: heat.Housing{Shape: s, Length: 0.4, Diameter: 0.2}, Shell: heat.Layer{Thickness: 0.001, Conductivity: 50},
		Insulation: []heat.Layer{{Thickness: 0.03, Conductivity: 0.035}}, Emissivity: 0.9,
	}
}

func box() heat.Wall {
	return heat.Wall{
		Housing: heat.Housing{Shape: heat.Box, Length: 0.6, Width: 0.3, Height: 0.2}, Shell: heat.Layer{Thickness: 0.003, Conductivity: 0.2},
		Insulation: []heat.Layer{{Thickness: 0.025, Conductivity: 0.04}}, Emissivity: 0.9,
	}
}

func lost(t *testing.T, w heat.Wall, c heat.Climate) heat.Loss {
	t.Helper()
	l, err := w.Loss(c)
	require.NoError(t, err)
	return l
}

// Computed by independent code, nested bisections on the same published formulas.
func TestWallsAgainstIndependentCode(t *testing.T) {
	bare := tube()
	bare.Shell, bare.Insulation, bare.Emissivity = heat.Layer{}, nil, 0.3
	given := tube()
	given.InnerFilm = 20
	for name, r := range map[string]struct {
		wall                  heat.Wall
		power, surface, share float64
	}{
		"tube in foam":  {tube(), 6.315037130, 300.888948075, 0.6401555577},
		"bare tube":     {bare, 13.064471289, 316.308405399, 0.2844713180},
		"film given":    {given, 8.592705591, 302.392758931, 0.6244872056},
		"standing drum": {drum(heat.StandingCylinder), 13.490370237, 299.655935471, 0.6715178305},
		"level drum":    {drum(heat.LevelCylinder), 13.377690581, 299.681678530, 0.6836641633},
		"box":           {box(), 34.207872488, 300.689269484, 0.6632220851},
	} {
		got := lost(t, r.wall, warm())
		near(t, r.power, got.Power, 1e-7, name)
		near(t, r.surface, got.Surface, 1e-9, name)
		near(t, r.share, radiated(got), 1e-6, name)
		near(t, got.Power/47, got.UA, 1e-12, name)
	}
}

func TestLowAndHigh(t *testing.T) {
	got := lost(t, tube(), warm())
	near(t, 5.716056798, got.PowerLow, 1e-7)
	near(t, 6.766275839, got.PowerHigh, 1e-7)
	near(t, 301.554008, got.SurfaceHigh, 1e-8)
}

// radiated is the share of a loss that goes by radiation.
func radiated(l heat.Loss) float64 {
	sum := 0.0
	for _, f := range l.Faces {
		sum += f.Radiation * f.Area * (f.Surface - 296.15)
	}
	return sum / l.Power
}

// Each face is in balance, film by film, and the faces make up the sum.
func TestFacesAreInBalance(t *testing.T) {
	for _, w := range []heat.Wall{tube(), drum(heat.LevelCylinder), drum(heat.StandingCylinder), box()} {
		got := lost(t, w, warm())
		sum, area, hottest := 0.0, 0.0, 0.0
		for _, f := range got.Faces {
			sum += f.Power
			area += f.Area
			hottest = max(hottest, f.Surface)
			near(t, (f.Convection+f.Radiation)*f.Area*(f.Surface-296.15), f.Power, 1e-12)
			require.Greater(t, f.InnerFilm, 0.0)
		}
		near(t, sum, got.Power, 1e-13)
		near(t, area, got.Area, 1e-13)
		near(t, hottest, got.Surface, 1e-15)
	}
	got := lost(t, box(), warm())
	near(t, 2*(0.65*0.35+0.65*0.25+0.35*0.25), got.Area, 1e-12)
	require.Len(t, got.Faces, 6)
	names := map[string]int{}
	for _, f := range got.Faces {
		names[f.Name]++
	}
	require.Equal(t, map[string]int{"top": 1, "bottom": 1, "side": 2, "end": 2}, names)
}

// An insulated steam pipe of a textbook (Çengel, Heat Transfer, Example 3-8, number from memory): 320 °C, films 60 and 18, glass wool 3 cm: resistances
// 0.106, 0.0002, 2.35 and 0.154 K/W, 121 W/m.
func TestInsulatedPipeOfTextbook(t *testing.T) {
	w := heat.Wall{
		Housing: heat.Housing{Length: 1, Diameter: 0.055, OpenEnds: true}, Shell: heat.Layer{Thickness: 0.0025, Conductivity: 80},
		Insulation: []heat.Layer{{Thickness: 0.03, Conductivity: 0.05}}, InnerFilm: 60, OuterFilm: 18,
	}
	got := lost(t, w, heat.Climate{Inside: 593.15, Room: 278.15, Pressure: 101325})
	near(t, 0.106+0.0002+2.35, (593.15-got.Surface)/got.Power, 2e-3)
	near(t, 121, got.Power, 3e-3)
	near(t, 0.154, (got.Surface-278.15)/got.Power, 3e-3)
	require.Zero(t, radiated(got))
	near(t, 60, got.Faces[0].InnerFilm, 1e-12)
}

func TestOpenEndsOfBox(t *testing.T) {
	w := box()
	w.OpenEnds = true
	got := lost(t, w, warm())
	require.Len(t, got.Faces, 4)
	near(t, 2*0.6*(0.35+0.25), got.Area, 1e-12)
	longer := w
	longer.Length = 60 // so long that level faces count as wide ones; sides are alike
	far := lost(t, longer, warm())
	near(t, 100, far.Faces[2].Power/got.Faces[2].Power, 1e-9)
}

func TestWallTrends(t *testing.T) {
	base := lost(t, box(), warm())
	thick := box()
	thick.Insulation = append(thick.Insulation, heat.Layer{Thickness: 0.02, Conductivity: 0.04})
	better := lost(t, thick, warm())
	require.Less(t, better.Power, base.Power)
	require.Less(t, better.Surface, base.Surface)
	bright := box()
	bright.Emissivity = 0.05
	shiny := lost(t, bright, warm())
	require.Less(t, shiny.Power, base.Power)
	require.Greater(t, shiny.Surface, base.Surface) // bright metal stays hotter
	windy := box()
	windy.AirSpeed = 2
	blown := lost(t, windy, warm())
	require.Greater(t, blown.Power, base.Power)
	require.Greater(t, blown.Faces[0].InnerFilm, base.Faces[0].InnerFilm)
	none := warm()
	none.Inside = none.Room
	nothing := lost(t, box(), none)
	require.Zero(t, nothing.Power)
	require.Zero(t, nothing.UA)
	require.Equal(t, none.Room, nothing.Surface)
}

// Air blown so fast that its film is the duct's alone, by hand: on the bore of a tube, and on four sections over perimeter of a box.
func TestBlownWall(t *testing.T) {
	square := box()
	square.OpenEnds = true
	for name, r := range map[string]struct {
		wall             heat.Wall
		bore, long, area float64 // of the last face
	}{
		"tube": {tube(), 0.056, 0.5, math.Pi * 0.056 * 0.5},
		"box":  {square, 4 * 0.294 * 0.194 / (2 * (0.294 + 0.194)), 0.6, 0.6 * 0.194},
	} {
		r.wall.AirSpeed = 20
		got := lost(t, r.wall, warm())
		f := got.Faces[len(got.Faces)-1]
		mean := 343.15 - f.Power/(f.InnerFilm*r.area)/2
		density := 101325 / (287.042 * mean)
		nu := 1.458e-6 * math.Pow(mean, 1.5) / (mean + 110.4) / density
		k := 2.64638e-3 * math.Pow(mean, 1.5) / (mean + 245.4*math.Pow(10, -12/mean))
		near(t, heat.DuctFlow(20*r.bore/nu, 1006*nu*density/k, r.bore/r.long)*k/r.bore, f.InnerFilm, 1e-4, name)
	}
	// Slowly blown, still air counts too, in fourth powers.
	w := tube()
	w.AirSpeed = 0.3
	slow, still := lost(t, w, warm()), lost(t, tube(), warm())
	require.Greater(t, slow.Faces[0].InnerFilm, still.Faces[0].InnerFilm)
	require.Less(t, slow.Faces[0].InnerFilm, 1.2*still.Faces[0].InnerFilm)
}

func TestWallRefused(t *testing.T) {
	nan := math.NaN()
	for words, change := range map[string]func(*heat.Wall, *heat.Climate){
		"unknown shape":               func(w *heat.Wall, _ *heat.Climate) { w.Shape = 7 },
		"length of the housing":       func(w *heat.Wall, _ *heat.Climate) { w.Length = nan },
		"width of the housing":        func(w *heat.Wall, _ *heat.Climate) { w.Width = 0 },
		"height of the housing":       func(w *heat.Wall, _ *heat.Climate) { w.Height = -1 },
		"emissivity":                  func(w *heat.Wall, _ *heat.Climate) { w.Emissivity = 1.2 },
		"film coefficient inside":     func(w *heat.Wall, _ *heat.Climate) { w.InnerFilm = -3 },
		"film coefficient outside":    func(w *heat.Wall, _ *heat.Climate) { w.OuterFilm = nan },
		"air speed inside":            func(w *heat.Wall, _ *heat.Climate) { w.AirSpeed = math.Inf(1) },
		"thickness of the shell":      func(w *heat.Wall, _ *heat.Climate) { w.Shell.Thickness = 0.1 },
		"thickness of layer 2":        func(w *heat.Wall, _ *heat.Climate) { w.Insulation[0].Thickness = 0 },
		"conductivity of layer 1":     func(w *heat.Wall, _ *heat.Climate) { w.Shell.Conductivity = 0 },
		"room temperature":            func(_ *heat.Wall, c *heat.Climate) { c.Room = nan },
		"chamber temperature = 900":   func(_ *heat.Wall, c *heat.Climate) { c.Inside = 900 + 273.15 },
		"must lie from 23 to 350 °C":  func(_ *heat.Wall, c *heat.Climate) { c.Inside = 280 },
		"pressure":                    func(_ *heat.Wall, c *heat.Climate) { c.Pressure = 0 },
		"conductivity of layer 2 of ": func(w *heat.Wall, _ *heat.Climate) { w.Insulation[0].Conductivity = nan },
	} {
		w, c := box(), warm()
		change(&w, &c)
		_, err := w.Loss(c)
		require.ErrorContains(t, err, words)
	}
	w := tube()
	w.Diameter = 0
	_, err := w.Loss(warm())
	require.ErrorContains(t, err, "diameter of the housing")
	w = drum(heat.LevelCylinder)
	w.Length, w.Shell.Thickness = 0.01, 0.006
	_, err = w.Loss(warm())
	require.ErrorContains(t, err, "thickness of the shell")
	require.Equal(t, "box", heat.Box.String())
	require.Equal(t, "level cylinder", heat.LevelCylinder.String())
	require.Equal(t, "standing cylinder", heat.StandingCylinder.String())
	require.Equal(t, "Shape(9)", heat.Shape(9).String())
}

// Whatever is allowed has an answer: finite, between its low and high, and between room and chamber.
func TestWallExtremes(t *testing.T) {
	for _, shape := range []heat.Shape{heat.LevelCylinder, heat.StandingCylinder, heat.Box} {
		for _, size := range []float64{1e-3, 0.1, 100} {
			for _, inside := range []float64{213.15, 296.15001, 400, 623.15} {
				for _, k := range []float64{1e-3, 1e3} {
					for _, film := range []float64{0, 1e5} {
						w := heat.Wall{
							Housing: heat.Housing{Shape: shape, Length: size, Diameter: size, Width: size, Height: size}, Emissivity: 0.9,
							Shell: heat.Layer{Thickness: size / 10, Conductivity: k}, InnerFilm: film, AirSpeed: 1,
						}
						c := heat.Climate{Inside: inside, Room: min(inside, 296.15), Pressure: 101325}
						l := lost(t, w, c)
						require.False(t, math.IsNaN(l.Power+l.UA+l.Surface))
						require.LessOrEqual(t, l.PowerLow, l.Power*(1+1e-6))
						require.LessOrEqual(t, l.Power, l.PowerHigh*(1+1e-6))
						require.GreaterOrEqual(t, l.Surface, c.Room)
						require.LessOrEqual(t, l.Surface, c.Inside)
					}
				}
			}
		}
	}
}
