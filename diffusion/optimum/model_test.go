package optimum

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
)

func sampled(n, count int, f func(u []float64) []float64) []*Point {
	rng := rand.New(rand.NewPCG(1, 2))
	var points []*Point
	for range count {
		u := make([]float64, n)
		for i := range u {
			u[i] = rng.Float64()
		}
		told := f(u)
		points = append(points, &Point{unit: u, Answer: Answer{Cost: told[0], Violations: told[1:]}})
	}
	return points
}

// A plane is met everywhere; another function at the places that are known, and between them the nearer the more are known.
func TestModel(t *testing.T) {
	flat := func(u []float64) []float64 { return []float64{3 + u[0] - 2*u[1], 5 * u[0], -1} }
	m, ok := modelOf(sampled(2, 9, flat), []float64{0.4, 0.6}, 0.3)
	require.True(t, ok)
	for _, u := range [][]float64{{0.1, 0.2}, {2, -1}, {0.4, 0.6}} {
		for i, want := range flat(u) {
			require.True(t, math.Abs(m.predict(u)[i]-want) < 1e-6)
		}
	}
	bent := func(u []float64) []float64 { return []float64{math.Sin(3*u[0]) * math.Exp(u[1]), u[0] * u[1]} }
	before := math.Inf(1)
	for _, count := range []int{10, 40, 160} {
		points := sampled(2, count, bent)
		m, ok := modelOf(points, []float64{0.5, 0.5}, 0.5)
		require.True(t, ok)
		for _, p := range points {
			require.True(t, math.Abs(m.predict(p.unit)[0]-p.Cost) < 1e-5)
			require.True(t, math.Abs(m.predict(p.unit)[1]-p.Violations[0]) < 1e-5)
		}
		worst := 0.0
		for i := range 81 {
			u := []float64{0.1 + 0.1*float64(i%9), 0.1 + 0.1*float64(i/9)}
			worst = max(worst, math.Abs(m.predict(u)[0]-bent(u)[0]))
		}
		require.Less(t, worst, before/2)
		before = worst
	}
	require.Less(t, before, 0.02)
	_, ok = modelOf(sampled(2, 2, flat), []float64{0, 0}, 1)
	require.False(t, ok)
}

// The inner search goes along a narrow way between two constraints to its cheapest end.
func TestEvolve(t *testing.T) {
	region := regionAbout([]Variable{{From: 0, To: 1}, {From: 0, To: 1}, {Values: []float64{1, 2, 3}}}, []float64{0.3, 0.3, 0.5}, 0.3)
	judge := func(u []float64) guess {
		return guess{unit: u, cost: -u[0] - u[2], lacks: max(math.Abs(u[1]-u[0]*u[0])-1e-3, 0) + max(u[0]-0.55, 0)}
	}
	g := region.evolve(rand.New(rand.NewPCG(1, 1)), []float64{0.3, 0.3, 0.5}, judge)
	require.Zero(t, g.lacks)
	require.True(t, math.Abs(g.cost+1.55) < 1e-3)
	require.True(t, math.Abs(g.unit[1]-0.3025) < 3e-3)
}
