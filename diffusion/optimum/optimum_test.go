package optimum_test

import (
	"context"
	"errors"
	"math"
	"runtime"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion/optimum"
	"strandry/diffusion/samples"
)

func search(t *testing.T, p *optimum.Problem, s optimum.Settings) *optimum.Found {
	t.Helper()
	f, err := optimum.Search(context.Background(), p, s)
	require.NoError(t, err)
	require.LessOrEqual(t, len(f.Points), max(s.Budget, 400))
	return f
}

func near(t *testing.T, want, got, within float64) {
	t.Helper()
	require.True(t, math.Abs(got-want) <= within, "%.12g is not %.12g within %.3g", got, want, within)
}

// The published places are where the published costs are: the problems are written down right.
func TestKnownPlaces(t *testing.T) {
	for _, k := range knownProblems() {
		cost, violations := k.at(k.place)
		near(t, k.least, cost, 1e-6*math.Abs(k.least))
		for _, v := range violations {
			require.LessOrEqual(t, v, 1e-6, k.name)
		}
	}
}

// The published optima are found, never undercut, and no two thousand places at random come as near.
func TestKnownOptima(t *testing.T) {
	for _, k := range samples.Each(4, knownProblems()) {
		t.Run(k.name, func(t *testing.T) {
			exact, seeds := 0, samples.Of(1, 4, 24)
			for seed := range uint64(seeds) {
				f := search(t, k.problem(), optimum.Settings{Seed: seed + 1, Budget: k.budget})
				require.True(t, f.Holds)
				require.GreaterOrEqual(t, f.Best.Cost, k.least-1e-7*math.Abs(k.least))
				near(t, k.least, f.Best.Cost, k.within*math.Abs(k.least))
				if f.Best.Cost <= k.least+1e-6*math.Abs(k.least) {
					exact++
				}
				random, err := optimum.Scatter(context.Background(), k.problem(), seed+1, 2000)
				require.NoError(t, err)
				require.True(t, !random.Holds || random.Best.Cost >= f.Best.Cost)
				checkReport(t, f)
			}
			require.GreaterOrEqual(t, 4*exact, 3*seeds) // the others end at a place that is nearly as good
		})
	}
}

// checkReport compares what is told of a search with its points.
func checkReport(t *testing.T, f *optimum.Found) {
	t.Helper()
	best, falls, met := math.Inf(1), []optimum.Fall(nil), make([]int, len(f.Met))
	for i, p := range f.Points {
		for j, v := range p.Violations {
			if v <= 0 {
				met[j]++
			}
		}
		if p.Holds() && p.Cost < best {
			best = p.Cost
			falls = append(falls, optimum.Fall{Looked: i + 1, Cost: best})
		}
	}
	require.Equal(t, best, f.Best.Cost)
	require.Equal(t, falls, f.Falls)
	require.Equal(t, met, f.Met)
	require.False(t, f.Settled && f.Stopped)
	require.True(t, !f.Settled || f.All || f.Agreeing >= 3 && f.Ended >= 8)
	require.LessOrEqual(t, f.Agreeing, f.Ended)
	require.LessOrEqual(t, f.Ended, f.Starts)
}

// The same to the bit, whatever the number of cores; another seed goes another way.
func TestSameOnAllCores(t *testing.T) {
	before := runtime.GOMAXPROCS(0)
	defer runtime.GOMAXPROCS(before)
	for _, k := range knownProblems() {
		if k.name != "g24" && k.name != "vessel" {
			continue
		}
		var first *optimum.Found
		for _, cores := range []int{1, 2, 7} {
			runtime.GOMAXPROCS(cores)
			f := search(t, k.problem(), optimum.Settings{Seed: 5, Budget: 200})
			if first == nil {
				first = f
			}
			require.Equal(t, first, f)
		}
		other := search(t, k.problem(), optimum.Settings{Seed: 6, Budget: 200})
		require.NotEqual(t, first.Points[0].X, other.Points[0].X)
	}
}

// plane is a problem in the unit square: the cheaper, the lower both variables.
func plane(constraints int, at func(x []float64) ([]float64, error)) *optimum.Problem {
	return &optimum.Problem{Variables: []optimum.Variable{{From: 0, To: 1}, {From: 0, To: 1}}, Constraints: constraints,
		At: func(_ context.Context, x []float64) (optimum.Answer, error) {
			v, err := at(x)
			return optimum.Answer{Cost: x[0] + 2*x[1], Violations: v}, err
		}}
}

// Where the constraints contradict each other that is told, with the place that comes nearest and the constraint that holds nowhere.
func TestNothingHolds(t *testing.T) {
	f := search(t, plane(3, func(x []float64) ([]float64, error) { return []float64{0.5 - x[0], x[1] - 0.9, x[0] + 1.25}, nil }), optimum.Settings{})
	require.False(t, f.Holds)
	require.Empty(t, f.Falls)
	require.Equal(t, len(f.Points), f.Met[1]+over(f, 1))
	require.Zero(t, f.Met[2])
	near(t, 1.75, f.Best.Lacks, 1e-9) // each step that the first gains the third loses
	nearest := search(t, plane(1, func(x []float64) ([]float64, error) { return []float64{sq(x[0]-0.3) + sq(x[1]-0.6) + 0.1}, nil }), optimum.Settings{})
	near(t, 0.3, nearest.Best.X[0], 1e-2)
	near(t, 0.6, nearest.Best.X[1], 1e-2)
	require.Equal(t, []int{0}, nearest.Met)
}

func over(f *optimum.Found, j int) int {
	count := 0
	for _, p := range f.Points {
		if p.Violations[j] > 0 {
			count++
		}
	}
	return count
}

// A place may have no answer: the optimum at the edge of those that have one is found, and where none has, that is the error.
func TestNoAnswer(t *testing.T) {
	reason := errors.New("nothing is known here")
	f := search(t, plane(1, func(x []float64) ([]float64, error) {
		if x[0]+x[1] < 0.5 {
			return nil, reason
		}
		return []float64{0.1 - x[1]}, nil
	}), optimum.Settings{})
	near(t, 0.6, f.Best.Cost, 5e-3)
	for _, p := range f.Points {
		require.Equal(t, p.X[0]+p.X[1] < 0.5, errors.Is(p.Err, reason))
		require.Equal(t, p.Err != nil, math.IsInf(p.Lacks, 1))
	}
	_, err := optimum.Search(context.Background(), plane(0, func([]float64) ([]float64, error) { return nil, reason }), optimum.Settings{})
	require.ErrorIs(t, err, optimum.ErrNoAnswer)
	require.ErrorIs(t, err, reason)
	for _, bad := range [][]float64{{math.NaN()}, {math.Inf(1)}, {}, {0, 0}} {
		_, err = optimum.Search(context.Background(), plane(1, func([]float64) ([]float64, error) { return bad, nil }), optimum.Settings{Budget: 20})
		require.ErrorIs(t, err, optimum.ErrNoAnswer)
	}
	_, err = optimum.Scatter(context.Background(), plane(0, func([]float64) ([]float64, error) { return nil, reason }), 1, 5)
	require.ErrorIs(t, err, optimum.ErrNoAnswer)
}

// Few places of discrete variables are all looked at, once each; more than the budget are searched.
func TestDiscrete(t *testing.T) {
	values := func(n int) (v []float64) {
		for i := range n {
			v = append(v, float64(i*i))
		}
		return v
	}
	problem := func(n int) *optimum.Problem {
		return &optimum.Problem{Variables: []optimum.Variable{{Values: values(n)}, {Values: values(n)}, {Values: []float64{7}}}, Constraints: 1,
			At: func(_ context.Context, x []float64) (optimum.Answer, error) {
				return optimum.Answer{Cost: 2*x[0] + 3*x[1], Violations: []float64{(50 - x[0] - x[1]) / 50}}, nil
			}}
	}
	f := search(t, problem(9), optimum.Settings{Budget: 81})
	require.True(t, f.All && f.Settled && f.Holds && !f.Stopped)
	require.Len(t, f.Points, 81)
	require.Equal(t, []float64{49, 1, 7}, f.Best.X)
	f = search(t, problem(50), optimum.Settings{Budget: 200})
	require.False(t, f.All)
	near(t, 101, f.Best.Cost, 1e-9)
	seen := map[[2]float64]bool{}
	for _, p := range f.Points {
		at := [2]float64{p.X[0], p.X[1]}
		require.False(t, seen[at], "looked at twice")
		seen[at] = true
		require.Contains(t, values(50), p.X[0])
	}
}

// Only what can be made is looked at, on either scale, and what is known first.
func TestSnapAndKnown(t *testing.T) {
	snap := func(x float64) float64 {
		rounded, err := strconv.ParseFloat(strconv.FormatFloat(x, 'g', 2, 64), 64)
		require.NoError(t, err)
		return rounded
	}
	p := &optimum.Problem{Variables: []optimum.Variable{{From: 1e-3, To: 10, Log: true, Snap: snap}, {From: 1, To: 100, Snap: snap}}, Constraints: 1,
		Known: [][]float64{{0.5, 50}},
		At: func(_ context.Context, x []float64) (optimum.Answer, error) {
			return optimum.Answer{Cost: x[0]*40 + x[1], Violations: []float64{1 - x[0]*x[1]/3}}, nil
		}}
	f := search(t, p, optimum.Settings{Finest: 1e-3})
	require.Equal(t, []float64{0.5, 50}, f.Points[0].X)
	for _, q := range f.Points {
		require.Equal(t, []float64{snap(q.X[0]), snap(q.X[1])}, q.X)
		require.True(t, q.X[0] >= 1e-3 && q.X[0] <= 10 && q.X[1] >= 1 && q.X[1] <= 100)
	}
	best := math.Inf(1)
	for a := 10; a <= 100; a++ { // by brute force, the optimum being near 0.27 and 11
		for b := 10; b <= 99; b++ {
			if x, y := float64(a)/100, float64(b); x*y >= 3 {
				best = min(best, x*40+y)
			}
		}
	}
	near(t, best, f.Best.Cost, 5e-3*best)
	logarithmic := 0
	for _, q := range f.Points[1:30] {
		if q.X[0] < 0.1 {
			logarithmic++
		}
	}
	require.InDelta(t, 15, logarithmic, 3) // half of the scale
}

func TestCancelled(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	calls := 0
	p := plane(0, func([]float64) ([]float64, error) {
		if calls++; calls == 37 { // races are of no matter on one core
			cancel()
		}
		return nil, nil
	})
	defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(1))
	_, err := optimum.Search(ctx, p, optimum.Settings{})
	require.ErrorIs(t, err, context.Canceled)
	require.Less(t, calls, 50)
}

// Budgets of one place and a few are kept to.
func TestSmallBudgets(t *testing.T) {
	for _, k := range knownProblems() {
		for budget := 1; budget < 30; budget++ {
			f, err := optimum.Search(context.Background(), k.problem(), optimum.Settings{Budget: budget})
			require.NoError(t, err)
			require.LessOrEqual(t, len(f.Points), budget)
			require.False(t, f.Settled)
			require.True(t, f.Stopped)
		}
	}
}

func TestNoProblems(t *testing.T) {
	at := func(context.Context, []float64) (optimum.Answer, error) { return optimum.Answer{}, nil }
	good := optimum.Variable{From: 0, To: 1}
	for name, p := range map[string]optimum.Problem{
		"nothing":        {},
		"nothing to ask": {Variables: []optimum.Variable{good}},
		"empty":          {Variables: []optimum.Variable{{From: 1, To: 1}}, At: at},
		"no number":      {Variables: []optimum.Variable{{From: math.NaN(), To: 1}}, At: at},
		"endless":        {Variables: []optimum.Variable{{From: 0, To: math.Inf(1)}}, At: at},
		"log of zero":    {Variables: []optimum.Variable{{From: 0, To: 1, Log: true}}, At: at},
		"no values":      {Variables: []optimum.Variable{{Values: []float64{}}}, At: at},
		"twice":          {Variables: []optimum.Variable{{Values: []float64{1, 2, 1}}}, At: at},
		"no value":       {Variables: []optimum.Variable{{Values: []float64{1, math.NaN()}}}, At: at},
		"known outside":  {Variables: []optimum.Variable{good}, At: at, Known: [][]float64{{1.5}}},
		"known no value": {Variables: []optimum.Variable{{Values: []float64{1, 2}}}, At: at, Known: [][]float64{{1.5}}},
		"known too long": {Variables: []optimum.Variable{good}, At: at, Known: [][]float64{{0.5, 0.5}}},
		"constraints":    {Variables: []optimum.Variable{good}, At: at, Constraints: -1},
	} {
		_, err := optimum.Search(context.Background(), &p, optimum.Settings{})
		require.Error(t, err, name)
		_, err = optimum.Scatter(context.Background(), &p, 1, 10)
		require.Error(t, err, name)
	}
	p := optimum.Problem{Variables: []optimum.Variable{good}, At: at}
	_, err := optimum.Search(context.Background(), &p, optimum.Settings{Budget: -1})
	require.Error(t, err)
	_, err = optimum.Scatter(context.Background(), &p, 1, 0)
	require.Error(t, err)
}
