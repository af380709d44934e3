package doubt

import (
	"context"
	"encoding/csv"
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"runtime"
	"strconv"
	"sync"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion"
	"strandry/diffusion/samples"
	"strandry/materials"
	"strandry/scenarios"
)

func closeTo(t *testing.T, want, got, within float64, what string) {
	t.Helper()
	require.False(t, math.IsNaN(got), what)
	require.InDelta(t, want, got, within, what)
}

func find(t *testing.T, s *scenarios.Scenario) *Answer {
	t.Helper()
	answer, err := Find(context.Background(), s)
	require.NoError(t, err)
	return answer
}

func demo(t *testing.T, name string) *scenarios.Scenario {
	t.Helper()
	s, err := scenarios.Demo(name)
	require.NoError(t, err)
	return s
}

func (t *Answer) row(name string) *Row {
	for i := range t.Rows {
		if t.Rows[i].Unknown == name {
			return &t.Rows[i]
		}
	}
	return nil
}

// drum is the answer about the nylon on its drum, made once.
func drum(t *testing.T) *Answer {
	t.Helper()
	answer, err := theDrum()
	require.NoError(t, err)
	return answer
}

var theDrum = sync.OnceValues(func() (*Answer, error) {
	s, err := scenarios.Load(filepath.Join("..", "..", "..", "testdata", "sensitivity", "winch-drum.toml"))
	if err != nil {
		return nil, err
	}
	return Find(context.Background(), s)
})

// The indices are those of OpenTURNS on 4,096 marches: testdata/sensitivity/indices.csv tells how they were made. Those lie in the intervals, but for their
// own error of half a hundredth.
func TestAgainstOpenTURNS(t *testing.T) {
	folder := filepath.Join("..", "..", "..", "testdata", "sensitivity")
	file, err := os.Open(filepath.Join(folder, "indices.csv"))
	require.NoError(t, err)
	defer file.Close()
	in := csv.NewReader(file)
	in.Comment = '#'
	records, err := in.ReadAll()
	require.NoError(t, err)
	require.Len(t, records, 14)
	studies, together := map[string]*Answer{}, map[string]float64{}
	for _, r := range records {
		if r[0] != "winch-drum" && samples.Of(1, 2, 2) == 1 {
			continue // the other of the two designs
		}
		if studies[r[0]] == nil {
			if studies[r[0]] = drum(t); r[0] != "winch-drum" {
				s, err := scenarios.Load(filepath.Join(folder, r[0]+".toml"))
				require.NoError(t, err)
				studies[r[0]] = find(t, s)
			}
			require.Len(t, studies[r[0]].Rows, 7)
			together[r[0]] = 1
		}
		row := studies[r[0]].row(r[1])
		require.NotNil(t, row, r[1])
		const off, own = 0.025, 0.005
		for i, x := range [...]struct{ Value, Low, High float64 }{
			{row.First.Value, row.First.Low, row.First.High}, {row.Total.Value, row.Total.Low, row.Total.High},
		} {
			want, err := strconv.ParseFloat(r[2+i], 64)
			require.NoError(t, err)
			t.Logf("%s, %s: %.4f (%.4f to %.4f); OpenTURNS %.4f", r[0], r[1], x.Value, x.Low, x.High, want)
			closeTo(t, want, x.Value, off, r[1])
			if i == 0 {
				together[r[0]] -= want
			}
			require.True(t, x.Low-own <= want && want <= x.High+own, "%s: %g from %g to %g", r[1], want, x.Low, x.High)
		}
	}
	for name, want := range together {
		closeTo(t, want, studies[name].Together, 0.02, name)
	}
	require.Greater(t, studies["winch-drum"].Together, 0.03)
}

// At the medians the function is the content of a run over the limit; the limit at its 95 % point takes off what that is above its median.
func TestFunction(t *testing.T) {
	s := demo(t, "winch-drum")
	d, err := diffusion.NewMarch().Doubt(&s.Design, s.Settings)
	require.NoError(t, err)
	z := make([]float64, len(d.Unknowns))
	var result diffusion.Result
	require.NoError(t, diffusion.NewMarch().Run(&s.Model, s.Settings, &result))
	middle := d.At(z)
	closeTo(t, math.Log(result.Nozzle.Mean/s.Limit), middle, 0.01, "medians")
	require.Equal(t, diffusion.UnknownLimit, d.Unknowns[len(z)-1])
	z[len(z)-1] = materials.EndDeviate
	closeTo(t, -math.Log(d.Limit.High/d.Limit.Value), d.At(z)-middle, 1e-9, "limit")
	z[len(z)-1] = 0
	z[0] = 1
	require.Less(t, d.At(z), middle, "a greater diffusivity dries")
}

// What is left when the limit is known is the width of the content alone, as the odds tell it from other draws.
func TestLimitKnown(t *testing.T) {
	answer := drum(t)
	a := answer.Assessment
	closeTo(t, math.Log(a.High/a.Low)/answer.Spread.Width(), answer.row("limit").Left, 0.03, "left")
}

// The surrogate of this design was off by 0.068 over the 4,096 marches of testdata/sensitivity/indices.csv, where leaving out its own values said 0.025.
func TestFit(t *testing.T) {
	s, err := scenarios.Load(filepath.Join("..", "..", "..", "testdata", "sensitivity", "winch-drum.toml"))
	require.NoError(t, err)
	d, err := diffusion.NewMarch().Doubt(&s.Design, s.Settings)
	require.NoError(t, err)
	t.Log(d.Fit)
	require.Greater(t, d.Fit, 0.034)
	require.Less(t, d.Fit, 0.136)
}

// The same answer on any number of cores.
func TestCores(t *testing.T) {
	s := demo(t, "clear-cover")
	scatter := s.Model.Material.Diffusivity.Scatter.Value
	certain(s) // but for two
	s.Model.Material.Diffusivity.Scatter.Value, s.LimitRange = scatter, materials.Range{Min: s.Limit / 2, Max: s.Limit * 2}
	want := find(t, s)
	require.Len(t, want.Rows, 2)
	defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(1))
	require.Equal(t, numbers(t, want), numbers(t, find(t, s)))
}

// numbers are all that an answer tells, to the bit.
func numbers(t *testing.T, answer any) string {
	t.Helper()
	text, err := json.Marshal(answer)
	require.NoError(t, err)
	return string(text)
}

func TestOrder(t *testing.T) {
	answer := drum(t)
	require.NotEmpty(t, answer.Order)
	require.Equal(t, answer.Narrows().Unknown, answer.Order[0].Unknown)
	closeTo(t, answer.Narrows().Left, answer.Order[0].Left, 1e-12, "the first step")
	seen := map[string]bool{}
	for i, step := range answer.Order {
		require.False(t, seen[step.Unknown])
		seen[step.Unknown] = true
		if i > 0 {
			require.Less(t, step.Left, answer.Order[i-1].Left)
			require.Greater(t, answer.Order[i-1].Left, Enough)
		}
	}
	require.LessOrEqual(t, answer.Order[len(answer.Order)-1].Left, Enough)
	for i := 1; i < len(answer.Rows); i++ {
		require.LessOrEqual(t, answer.Rows[i].Total.Value, answer.Rows[i-1].Total.Value)
	}
}

// certain takes all doubt from a scenario.
func certain(s *scenarios.Scenario) {
	m := &s.Design
	sure := func(v *materials.Value) { v.Low, v.High = v.Value, v.Value }
	m.Material.Diffusivity.Scatter.Value = 1
	for i := range m.Material.Diffusivity.Pieces {
		sure(&m.Material.Diffusivity.Pieces[i].Activation)
	}
	o := &m.Material.Sorption
	for _, v := range [...]*materials.Value{&m.Material.Diffusivity.Beta, &o.Saturation, &o.Monolayer, &o.Linear, &o.Power, &o.MixingEnthalpy} {
		sure(v)
	}
	for i := range m.Path {
		m.Path[i].Film.Heat, m.Path[i].Film.Mass = 20, 0.02
	}
	m.LimitStated = true
}

func TestNothingInDoubt(t *testing.T) {
	s := demo(t, "clear-cover")
	certain(s)
	answer := find(t, s)
	d, err := diffusion.NewMarch().Doubt(&s.Design, s.Settings)
	require.NoError(t, err)
	require.Empty(t, d.Unknowns)
	require.Zero(t, answer.Variance)
	require.Empty(t, answer.Rows)
	require.Empty(t, answer.Order)
	require.Empty(t, answer.Decides())
	closeTo(t, answer.Assessment.Nozzle.Mean/s.Limit, math.Exp(answer.Spread.Low), 0.01, "content over limit")
	require.Equal(t, answer.Spread.Low, answer.Spread.High)
}

// Where the limit alone is in doubt all of the doubt is its own: ten to ninety per cent of a factor of 2 at the 5 and 95 % points are 2 · 1.2816/1.6449 ln 2.
func TestLimitAlone(t *testing.T) {
	s := demo(t, "clear-cover")
	certain(s)
	s.LimitRange = materials.Range{Min: s.Limit / 2, Max: s.Limit * 2}
	answer := find(t, s)
	require.Len(t, answer.Rows, 1)
	closeTo(t, 1, answer.Rows[0].First.Value, 0.01, "first")
	closeTo(t, 1, answer.Rows[0].Total.Value, 0.01, "total")
	require.Equal(t, []Step{{"limit", 0}}, answer.Order)
	closeTo(t, 2*1.2816/1.6449*math.Log(2), answer.Spread.Width(), 0.02, "width")
}

// What the scenario calls uncertain has its share.
func TestUncertain(t *testing.T) {
	text, err := scenarios.DemoText("clear-cover")
	require.NoError(t, err)
	s, err := scenarios.Read("hot.toml", append(text, "\n[[uncertain]]\nkey = \"zone.oven.temperature\"\ndeviation = \"10 °C\"\n"...))
	require.NoError(t, err)
	certain(s)
	s.LimitRange = materials.Range{Min: s.Limit / 2, Max: s.Limit * 2}
	answer := find(t, s)
	require.Len(t, answer.Rows, 2)
	row := answer.row("zone.oven.temperature")
	require.NotNil(t, row)
	require.Greater(t, row.Total.Value, 0.01)
}

// Of unknowns whose intervals overlap it is not told which decides.
func TestDecides(t *testing.T) {
	row := func(low, value, high float64) (r Row) {
		r.Total.Low, r.Total.Value, r.Total.High = low, value, high
		return r
	}
	for _, c := range []struct {
		rows []Row
		want int
	}{
		{[]Row{row(0.5, 0.6, 0.7), row(0.1, 0.2, 0.3)}, 1}, {[]Row{row(0.5, 0.6, 0.7), row(0.4, 0.5, 0.55), row(0, 0.1, 0.2)}, 2}, {nil, 0},
		{[]Row{row(0.2, 0.3, 0.4), row(0.2, 0.3, 0.4), row(0.1, 0.2, 0.3)}, 3},
	} {
		answer := Answer{Rows: c.rows}
		require.Len(t, answer.Decides(), c.want)
	}
}

func TestInterrupted(t *testing.T) {
	ctx, stop := context.WithCancel(context.Background())
	stop()
	_, err := Find(ctx, demo(t, "clear-cover"))
	require.ErrorIs(t, err, context.Canceled)
}

// A scenario that cannot be marched is named.
func TestFaulty(t *testing.T) {
	s := demo(t, "clear-cover")
	s.Model.Radius = math.NaN()
	_, err := Find(context.Background(), s)
	require.ErrorContains(t, err, "clear-cover.toml: ")
}
