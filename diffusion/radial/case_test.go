package radial_test

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
)

// usual are settings as a design study takes them.
var usual = rosenbrock.Settings{Tolerance: 1e-3}

// tight are settings that leave the error to the grid.
var tight = rosenbrock.Settings{Tolerance: 1e-8}

// nodesPerStretch is the resolution that goes with them: nodes for each unit of
// stretch.
const nodesPerStretch = 5

// newGrid makes a grid of radius one.
func newGrid(t testing.TB, nodes int, stretch float64) *radial.Grid {
	t.Helper()
	g, err := radial.NewGrid(1, nodes, stretch)
	require.NoError(t, err)
	return g
}

// usualGrid is a grid of radius one at the usual resolution.
func usualGrid(t testing.TB, stretch float64) *radial.Grid {
	t.Helper()
	return newGrid(t, int(math.Ceil(nodesPerStretch*stretch)), stretch)
}

// started is a march at c0 everywhere.
func started(g *radial.Grid, c0 float64) *radial.March {
	m := &radial.March{}
	m.Start(g, c0)
	return m
}

// through marches and must succeed.
func through(t testing.TB, m *radial.March, p radial.Problem, duration float64, s rosenbrock.Settings) {
	t.Helper()
	require.NoError(t, m.Advance(p, duration, s))
}

// film is an exchange in proportion to the difference from the surroundings.
func film(biot, around float64) radial.Exchange {
	return func(_, c, _ float64) (j, dc, dq float64) { return biot * (c - around), biot, 0 }
}

// sealed lets nothing through.
func sealed(_, _, _ float64) (j, dc, dq float64) { return 0, 0, 0 }

// held is a surface kept at one value.
func held(c float64) radial.Prescribed { return func(float64) float64 { return c } }

// stepChange is linear diffusion with k = 1 after a step outside to zero; an
// infinite Biot number holds the surface itself.
func stepChange(biot float64) radial.Problem {
	p := radial.Problem{Conductance: radial.Uniform(1), Potential: radial.Linear{}, Surface: held(0)}
	if !math.IsInf(biot, 1) {
		p.Surface = film(biot, 0)
	}
	return p
}

// inTime is a conductance that depends on time alone.
type inTime func(t float64) float64

func (f inTime) Conductance(t float64, k []float64) bool {
	k[0] = f(t)
	return true
}

// surface is the value at the outermost node.
func surface(m *radial.March) float64 { return m.C[len(m.C)-1] }

// numbers reads a reference table under testdata; lines that start with # tell its
// origin. A column that is not a number is left out of the values.
func numbers(t testing.TB, folder, name string) (rows []map[string]float64, first []string) {
	t.Helper()
	file, err := os.Open(filepath.Join("..", "..", "testdata", folder, name))
	require.NoError(t, err)
	defer file.Close()
	reader := csv.NewReader(file)
	reader.Comment = '#'
	lines, err := reader.ReadAll()
	require.NoError(t, err)
	require.Greater(t, len(lines), 1, "%s holds no rows", name)
	for _, line := range lines[1:] {
		row := map[string]float64{}
		for i, text := range line {
			if v, err := strconv.ParseFloat(text, 64); err == nil {
				row[lines[0][i]] = v
			}
		}
		rows, first = append(rows, row), append(first, line[0])
	}
	return rows, first
}

// requireDelta is require.InDelta, which takes two NaN for equal, without that.
func requireDelta(t testing.TB, want, got, delta float64, message ...any) {
	t.Helper()
	require.False(t, math.IsNaN(want) || math.IsNaN(delta), message...)
	require.InDelta(t, want, got, delta, message...)
}

// worst keeps the largest deviation seen.
type worst float64

func (w *worst) add(want, got float64) {
	if d := math.Abs(want - got); !(d <= float64(*w)) { // NaN stays
		*w = worst(d)
	}
}
