package section_test

import (
	"encoding/csv"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion/radial"
	"strandry/diffusion/rosenbrock"
	"strandry/diffusion/section"
)

// usual are settings as a design study takes them, tight ones leave the error to the grid.
var (
	usual = rosenbrock.Settings{Tolerance: 1e-3}
	tight = rosenbrock.Settings{Tolerance: 1e-7}
)

// along makes a radial grid of radius one.
func along(t testing.TB, nodes int, stretch float64) *radial.Grid {
	t.Helper()
	r, err := radial.NewGrid(1, nodes, stretch)
	require.NoError(t, err)
	return r
}

// newGrid makes a grid on the usual fifteen radii.
func newGrid(t testing.TB, exposed float64, arcs, angles int) *section.Grid {
	t.Helper()
	return crossed(t, along(t, 15, 3), exposed, arcs, angles)
}

// crossed makes a grid on a radial one.
func crossed(t testing.TB, r *radial.Grid, exposed float64, arcs, angles int) *section.Grid {
	t.Helper()
	g, err := section.NewGrid(r, section.Shape{Exposed: exposed, Arcs: arcs}, angles)
	require.NoError(t, err)
	return g
}

// started is a march at c0 everywhere.
func started(g *section.Grid, c0 float64) *section.March {
	m := &section.March{}
	m.Start(g, c0)
	return m
}

// through marches and must succeed.
func through(t testing.TB, m *section.March, p radial.Problem, duration float64, s rosenbrock.Settings) {
	t.Helper()
	require.NoError(t, m.Advance(p, duration, s))
}

// film is an exchange in proportion to the difference from the surroundings.
func film(biot, around float64) radial.Exchange {
	return func(_, c, _ float64) (j, dc, dq float64) { return biot * (c - around), biot, 0 }
}

// endless is a film that holds the surface itself.
const endless = 1e8

// drying is dc/dt = div(scale exp(b c) grad c) with a film towards nothing.
func drying(biot, b, scale float64) radial.Problem {
	return radial.Problem{Conductance: radial.Uniform(scale), Potential: radial.Exponential(b), Surface: film(biot, 0)}
}

// inTime is a conductance that depends on time alone.
type inTime func(t float64) float64

func (f inTime) Conductance(t float64, k []float64) bool {
	k[0] = f(t)
	return true
}

// layers is a conductance that varies along the radius and in time.
type layers struct{}

func (layers) Conductance(t float64, k []float64) bool {
	for i := range k {
		k[i] = 0.2 + float64(i%3)*(1+t)
	}
	return false
}

// problems are of every kind: films, diffusivities that vary, surroundings that answer or change abruptly.
func problems() map[string]radial.Problem {
	rising := inTime(func(t float64) float64 { return 0.05 * (1 + 30*t*t/(1+t*t)) })
	varied := radial.Exchange(func(t, c, _ float64) (j, dc, dq float64) {
		return 3 * (c*c - 0.5 - 0.3*math.Sin(9*t)), 6 * c, 0
	})
	answering := radial.Exchange(func(_, c, q float64) (j, dc, dq float64) {
		return 4 * (c*c - 0.1 - 2*q), 8 * c, -8
	})
	sudden := radial.Exchange(func(t, c, _ float64) (j, dc, dq float64) {
		if t < 0.3 {
			return 0.2 * (c - 0.1), 0.2, 0
		}
		return 500 * (c - 0.8), 500, 0
	})
	return map[string]radial.Problem{
		"film":                  {Conductance: radial.Uniform(1), Potential: radial.Linear{}, Surface: film(10, 0.1)},
		"huge film":             {Conductance: radial.Uniform(1), Potential: radial.Linear{}, Surface: film(endless, 0)},
		"exponential, film":     {Conductance: rising, Potential: radial.Exponential(3), Surface: varied},
		"falling with c":        {Conductance: rising, Potential: radial.Exponential(-2), Surface: film(2, 0)},
		"answering":             {Conductance: rising, Potential: radial.Exponential(2), Surface: answering},
		"sudden":                {Conductance: rising, Potential: radial.Exponential(2), Surface: sudden},
		"conductance in layers": {Conductance: layers{}, Potential: radial.Exponential(1), Surface: film(1, 0)},
		"companion":             {Potential: radial.Exponential(1), Companion: airs{}},
		"steady companion":      {Potential: radial.Exponential(2), Companion: still{}},
		"exacting companion":    {Potential: radial.Exponential(2), Companion: exacting{}},
	}
}

// airs is a companion that loads and is loaded, tied to what has left.
type airs struct{}

func (airs) Conductance(t, x float64, k []float64) bool {
	for i := range k {
		k[i] = 0.3 * (1 + x*x + t)
	}
	return false
}

func (airs) Exchange(_, c, q, x float64) radial.Response {
	j := c - 0.3*x - 0.5*q
	return radial.Response{Flux: j, FluxC: 1, FluxQ: -0.5, Load: -3 * j, LoadC: -3, LoadQ: 1.5}
}

func (airs) Drift(_, x float64) float64 { return 2 * (1 - x) }

func (airs) Steady(float64) bool { return false }

func (airs) Scale() float64 { return 1 }

// still is one whose conductance does not change in time.
type still struct{ airs }

func (still) Conductance(_, x float64, k []float64) bool {
	for i := range k {
		k[i] = 0.3 * (1 + x*x)
	}
	return false
}

func (still) Steady(float64) bool { return true }

// exacting is one whose own error sets the step.
type exacting struct{ airs }

func (exacting) Scale() float64 { return 1e-4 }

// numbers reads a reference table under testdata/section; lines that start with # tell its origin.
func numbers(t testing.TB, name string) []map[string]float64 {
	t.Helper()
	file, err := os.Open(filepath.Join("..", "..", "testdata", "section", name))
	require.NoError(t, err)
	defer file.Close()
	reader := csv.NewReader(file)
	reader.Comment = '#'
	lines, err := reader.ReadAll()
	require.NoError(t, err)
	require.Greater(t, len(lines), 1, "%s holds no rows", name)
	var rows []map[string]float64
	for _, line := range lines[1:] {
		row := map[string]float64{}
		for i, text := range line {
			v, err := strconv.ParseFloat(text, 64)
			if err != nil { // the kind of a case
				row[text] = 1
				continue
			}
			row[lines[0][i]] = v
		}
		rows = append(rows, row)
	}
	return rows
}

// requireDelta is require.InDelta, which takes two NaN for equal, without that.
func requireDelta(t testing.TB, want, got, delta float64, message ...any) {
	t.Helper()
	require.False(t, math.IsNaN(want) || math.IsNaN(delta), message...)
	require.InDelta(t, want, got, delta, message...)
}
