package fit_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion/estimation"
	"strandry/diffusion/samples"
	"strandry/scenarios"
	"strandry/scenarios/studies/fit"
)

// plan is that of a material in air of a temperature, with some scale; lines are further keys of its [plan].
func plan(t testing.TB, material, celsius, scale, lines string) *scenarios.Weighings {
	t.Helper()
	text := fmt.Sprintf("[strand]\nmaterial = %q\n[scale]\nresolution = %q\n[[run]]\nfile = \"a.csv\"\ntemperature = %q\nair = { dew_point = \"-10 °C\" }\n[plan]\n%s", material, scale, celsius, lines)
	w, err := scenarios.ReadPlan("plan.toml", []byte(text), nil)
	require.NoError(t, err)
	return w
}

// easyPlan is one whose start is known by default, so that the fits of what it makes up take a quarter of the marches.
func easyPlan(t testing.TB, material, celsius, scale, lines string) *scenarios.Weighings {
	w := plan(t, material, celsius, scale, lines)
	w.Runs[0].StartKnown = samples.Of(1, 0, 0) == 1
	return w
}

func planned(t testing.TB, w *scenarios.Weighings, design *scenarios.Scenario) *fit.Plan {
	t.Helper()
	p, err := fit.MakePlan(w, design)
	require.NoError(t, err)
	return p
}

// What a plan expects is what fits of such weighings find: if anything too much by a fifth of the logarithm, at the middle of what the library says.
func TestPlanExpects(t *testing.T) {
	for _, c := range samples.Each(3, []struct{ material, celsius, scale, strand string }{
		{"pa6", "80 °C", "0.01 g", "20 g"}, {"pa6", "80 °C", "0.1 g", "100 g"}, {"petg", "65 °C", "0.001 g", "20 g"},
	}) {
		p := planned(t, plan(t, c.material, c.celsius, c.scale, fmt.Sprintf("strand = %q\n", c.strand)), nil)
		require.Len(t, p.Strands, 1)
		times := p.Runs[0].Times
		s := nylon()
		s.material, s.faster, s.dry, s.step = c.material, 1, p.Strands[0], p.Chosen.Scale
		s.noise, s.count = 0.3*s.step, len(times)
		s.start = p.Weighings.Runs[0].Start
		var celsius float64
		_, err := fmt.Sscanf(c.celsius, "%f", &celsius)
		require.NoError(t, err)
		s.celsius, s.hours = []float64{celsius}, times[len(times)-1]/3600
		mean, sets := 0.0, samples.Of(3, 8, 30)
		for i := range sets {
			o, err := fit.Fit(s.weighed(t, uint64(80+i)), fit.Options{Effort: estimation.Effort{Seed: 1, Effective: 300, Most: 40_000}})
			require.NoError(t, err)
			require.True(t, o.Told)
			mean += math.Log(o.Diffusivity.Factor()) / float64(sets)
		}
		expected := math.Log(p.Chosen.Factor)
		t.Logf("%s %s %s: expected %.4f, found %.4f", c.material, c.scale, c.strand, expected, mean)
		require.Greater(t, mean, 0.65*expected)
		require.Less(t, mean, 1.1*expected)
	}
}

// A finer scale never tells less, nor does more strand; one that is stated stands among the others in its place.
func TestPlanGrid(t *testing.T) {
	for _, c := range samples.Each(5, []struct {
		scale  string
		scales []float64
	}{
		{"5 g", []float64{5e-3, 1e-3, 1e-4, 1e-5, 1e-6}}, {"1 g", []float64{1e-3, 1e-4, 1e-5, 1e-6}}, {"0.1 g", []float64{1e-3, 1e-4, 1e-5, 1e-6}},
		{"0.02 g", []float64{1e-3, 1e-4, 2e-5, 1e-5, 1e-6}}, {"0.01 g", []float64{1e-3, 1e-4, 1e-5, 1e-6}}, {"1 mg", []float64{1e-3, 1e-4, 1e-5, 1e-6}},
		{"0.1 mg", []float64{1e-3, 1e-4, 1e-5, 1e-6, 1e-7}},
	}) {
		scale, scales := c.scale, c.scales
		p := planned(t, easyPlan(t, "pa6", "80 °C", scale, ""), nil)
		require.Equal(t, len(scales), len(p.Scales))
		for i, want := range scales {
			require.InEpsilon(t, want, p.Scales[i], 1e-9, scale)
		}
		for i, row := range p.Factors {
			require.Len(t, row, len(p.Strands))
			for k, factor := range row {
				require.Greater(t, factor, 1.0)
				require.False(t, k > 0 && factor > row[k-1], "%v", p.Factors)
				require.False(t, i > 0 && factor > p.Factors[i-1][k], "%v", p.Factors)
			}
		}
		require.InEpsilon(t, p.Weighings.Scale.Resolution, p.Chosen.Scale, 1e-9)
		if p.Enough {
			require.LessOrEqual(t, p.Chosen.Factor, 1.3)
			require.Len(t, p.Chosen.Tried, 5)
			require.Zero(t, p.Scale)
		} else {
			require.Less(t, p.Scale.Scale, p.Chosen.Scale)
			require.LessOrEqual(t, p.Scale.Factor, 1.3)
		}
		require.Equal(t, scale != "1 g" && scale != "5 g", p.Enough, scale)
	}
}

// Twenty grams of polylactide on a kitchen scale cannot work, whatever is tried.
func TestPlanCannotWork(t *testing.T) {
	p := planned(t, easyPlan(t, "pla", "50 °C", "0.1 g", "strand = \"20 g\"\n"), nil)
	require.False(t, p.Enough)
	require.True(t, math.IsInf(p.Chosen.Factor, 1))
	require.Empty(t, p.Chosen.Tried)
	require.LessOrEqual(t, p.Scale.Scale, 1e-5*(1+1e-9))
	require.Greater(t, p.Scale.Scale, 0.0)
	fine := planned(t, easyPlan(t, "pla", "50 °C", "1 mg", "strand = \"20 g\"\n"), nil)
	require.True(t, fine.Enough)
}

// Weighings are due at round times that rise, the last one when nearly all the water is gone or the time is up.
func TestPlanTimes(t *testing.T) {
	p := planned(t, easyPlan(t, "pa6", "80 °C", "0.01 g", "strand = \"20 g\"\nweighings = 10\n"), nil)
	times := p.Runs[0].Times
	require.Len(t, times, 10)
	require.Zero(t, times[0])
	for i := 1; i < len(times); i++ {
		require.Greater(t, times[i], times[i-1])
		require.Zero(t, math.Mod(times[i], 60))
	}
	require.Less(t, p.Runs[0].Left, 0.06)
	require.Greater(t, p.Runs[0].Left, 0.0)
	start := p.Weighings.Runs[0].Start
	require.Less(t, p.Runs[0].Water, start)
	require.Greater(t, p.Runs[0].Water, 0.8*start)
	short := planned(t, easyPlan(t, "pa6", "80 °C", "0.01 g", "strand = \"20 g\"\nweighings = 8\nlongest = \"4 h\"\n"), nil)
	require.InDelta(t, 14400, short.Runs[0].Times[len(short.Runs[0].Times)-1], 1)
	require.Greater(t, short.Runs[0].Left, 0.3)
	require.Greater(t, short.Chosen.Factor, p.Chosen.Factor)
}

// The verdict that a plan serves: sure for more strands once they are weighed, the slow ones never drier than the fast ones; unchanged by weighings that tell nothing.
func TestPlanServes(t *testing.T) {
	design, err := scenarios.Demo("clear-cover")
	require.NoError(t, err)
	design.Model.Speed *= 6
	material := design.Model.Material.ID
	p := planned(t, easyPlan(t, material, "60 °C", "1 mg", "strand = \"20 g\"\n"), design)
	d := p.Design
	require.Same(t, design, d.Design)
	require.Len(t, d.After, 5)
	sure := 0
	for i, probability := range d.After {
		require.True(t, probability >= 0 && probability <= 1)
		require.False(t, i > 0 && probability < d.After[i-1]-0.02, "%v", d.After)
		if probability >= 0.9 || probability <= 0.1 {
			sure++
		}
	}
	require.Equal(t, sure, d.Sure)
	t.Logf("%.2f, then %.2f", d.Probability, d.After)
	mean := 0.0
	for _, probability := range d.After {
		mean += probability / 5
	}
	require.InDelta(t, d.Probability, mean, 0.03, "what is known beforehand is the mean of what will be known")
	require.Greater(t, d.After[4]-d.After[0], 0.3)
	none := planned(t, easyPlan(t, material, "60 °C", "5 g", "strand = \"1 g\"\n"), design)
	require.Equal(t, []float64{none.Design.Probability}, none.Design.After)
	require.Equal(t, d.Probability, none.Design.Probability)
}
