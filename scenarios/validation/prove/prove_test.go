package prove

import (
	"context"
	"errors"
	"math"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

func all(t *testing.T, workers int) []Result {
	t.Helper()
	out, err := Run(context.Background(), workers)
	require.NoError(t, err)
	return out
}

// once is the table carried out, for the tests that only look at it.
var once = sync.OnceValue(func() []Result {
	out, err := Run(context.Background(), 2)
	if err != nil {
		return nil
	}
	return out
})

// The table itself: what "strandry prove" runs on a user's machine.
func TestEveryCheckPasses(t *testing.T) {
	results := once()
	require.GreaterOrEqual(t, len(results), 100)
	for _, r := range results {
		require.NoError(t, r.Err, "%s, %s, %s", r.Family, r.Name, r.Quantity)
		require.True(t, r.Passed(), "%s, %s, %s: %.12g, expected %.12g within %.2g (%s; %s)",
			r.Family, r.Name, r.Quantity, r.Got, r.Expected, r.Within, r.Source, r.Tolerance.Reason)
	}
}

// A check that says nothing of its source, that would take anything, or that cannot be told from
// another is none.
func TestEveryCheckIsStated(t *testing.T) {
	seen := map[[4]string]bool{}
	family, done := "", map[string]bool{}
	for _, c := range Checks() {
		for _, text := range []string{c.Family, c.Name, c.Quantity, c.Unit, c.Source, c.Tolerance.Reason} {
			require.NotEmpty(t, text, "%+v", c)
		}
		require.NotEqual(t, "unknown", c.Kind.String())
		require.True(t, (c.Tolerance.Absolute > 0) != (c.Tolerance.Relative > 0), "%s, %s: one tolerance", c.Name, c.Quantity)
		within := c.Tolerance.Within(c.Expected)
		require.True(t, within > 0 && !math.IsInf(within, 0), "%s, %s", c.Name, c.Quantity)
		id := [4]string{c.Family, c.Source, c.Name, c.Quantity}
		require.False(t, seen[id], "%v stands twice", id)
		seen[id] = true
		if c.Family != family {
			require.False(t, done[c.Family], "%s stands in two places", c.Family)
			family, done[c.Family] = c.Family, true
		}
	}
	require.Greater(t, len(done), 12)
}

// A wrong expected value fails, in every check and on both sides: moved by two tolerances and
// what the answer is off, it lies outside.
func TestWrongValueFails(t *testing.T) {
	require.NotEmpty(t, once())
	for _, r := range once() {
		for _, side := range []float64{-1, 1} {
			wrong := r.Check
			wrong.Expected += side * 2.1 * (r.Within + math.Abs(r.Difference))
			wrong.Tolerance = Tolerance{Absolute: r.Within}
			wrong.compute = func() (float64, error) { return r.Got, nil }
			w := wrong.carriedOut()
			require.False(t, w.Passed(), "%s, %s, %s", r.Family, r.Name, r.Quantity)
		}
	}
}

func TestNoNumberFails(t *testing.T) {
	o := origin{"family", "source", Computed, absolute(1, "reason")}
	nan := math.NaN()
	for name, c := range map[string]Check{
		"NaN computed":       o.plain("name", "quantity", "-", 1, func() float64 { return nan }),
		"NaN expected":       o.plain("name", "quantity", "-", nan, func() float64 { return 1 }),
		"NaN on both sides":  o.plain("name", "quantity", "-", nan, func() float64 { return nan }),
		"NaN tolerance":      origin{tolerance: absolute(nan, "")}.plain("", "", "", 1, func() float64 { return 1 }),
		"infinite":           o.plain("name", "quantity", "-", 1, func() float64 { return math.Inf(1) }),
		"infinite, as meant": o.plain("name", "quantity", "-", math.Inf(1), func() float64 { return math.Inf(1) }),
		"an error":           o.check("name", "quantity", "-", 0, func() (float64, error) { return 0, errors.New("no") }),
	} {
		r := c.carriedOut()
		require.False(t, r.Passed(), name)
		require.True(t, math.IsInf(r.Share(), 1), name)
	}
	edge := o.plain("name", "quantity", "-", 1, func() float64 { return 2 }).carriedOut()
	require.True(t, edge.Passed())
}

func TestSameBitsOnAnyNumberOfWorkers(t *testing.T) {
	one, many := once(), all(t, 7)
	require.Len(t, many, len(one))
	for i := range one {
		require.Equal(t, one[i].Name, many[i].Name)
		require.Equal(t, math.Float64bits(one[i].Got), math.Float64bits(many[i].Got), one[i].Name)
	}
}

func TestRunEndsWithItsContext(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	time.AfterFunc(5*time.Millisecond, cancel)
	began := time.Now()
	results, err := Run(ctx, 2)
	require.ErrorIs(t, err, context.Canceled)
	require.Empty(t, results)
	require.Less(t, time.Since(began), 10*time.Second)
}

// The order of the errors is a check of the table; here, that each refinement counts.
func TestConvergenceFallsAllTheWay(t *testing.T) {
	orders, err := Convergence()
	require.NoError(t, err)
	require.Len(t, orders, 4)
	for _, o := range orders {
		require.Len(t, o.Error, len(o.Size))
		for i := 1; i < len(o.Size); i++ {
			require.Less(t, o.Size[i], o.Size[i-1], o.Name)
			require.Less(t, o.Error[i], o.Error[i-1], o.Name)
		}
		require.Greater(t, o.Measured, o.Stated-0.3, o.Name)
	}
}
