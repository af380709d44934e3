package fit_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion/estimation"
	"strandry/diffusion/samples"
	"strandry/materials"
	"strandry/scenarios"
	"strandry/scenarios/studies/fit"
)

func holds(t testing.TB, b fit.Between, truth float64) {
	t.Helper()
	require.False(t, math.IsNaN(b.Value+b.Low+b.High))
	wide := math.Pow(b.Factor(), 2)
	require.LessOrEqual(t, b.Low, truth*wide)
	require.GreaterOrEqual(t, b.High, truth/wide)
}

// found is a fit with fewer draws than usual, unless it says how many: the least that there are by default.
func found(t testing.TB, w *scenarios.Weighings, o fit.Options) *fit.Outcome {
	t.Helper()
	if o.Effort == (estimation.Effort{}) && samples.Of(0, 0, 1) == 0 {
		o.Effort = estimation.Effort{Seed: 1, Effective: 300, Most: samples.Of(4_000, 10_000, 40_000)}
	}
	out, err := fit.Fit(w, o)
	require.NoError(t, err)
	return out
}

func kinds(o *fit.Outcome) (all []fit.FindingKind) {
	for _, f := range o.Findings {
		all = append(all, f.Kind)
	}
	return all
}

// One run tells the diffusivity at its temperature, the start and the dry mass, to a few per cent.
func TestOneRun(t *testing.T) {
	s := nylon()
	o := found(t, s.weighed(t, 1), fit.Options{})
	require.True(t, o.Told)
	require.Less(t, o.Diffusivity.Factor(), 1.06)
	holds(t, o.Diffusivity, s.diffusivity(t, 353.15))
	holds(t, o.Runs[0].Start, s.start)
	holds(t, o.Runs[0].Dry, s.dry)
	require.Equal(t, 353.15, o.Temperature)
	require.Zero(t, o.Activation)
	require.InEpsilon(t, s.diffusivity(t, 353.15)/s.faster, o.Library.Value, 1e-9)
	require.InEpsilon(t, o.Library.Value/o.Library.Low, o.Library.High/o.Library.Value, 1e-9)
	require.Less(t, o.Library.Low, o.Library.High)
	require.Greater(t, o.Lack.Probability, 0.01)
	require.InDelta(t, 0.3*s.step, o.Noise.Value, 0.25*s.step)
}

// Two runs tell the activation energy too; where the two are least correlated they are not.
func TestTwoRuns(t *testing.T) {
	s := nylon()
	s.celsius, s.activation, s.hours = []float64{60, 80}, 52e3, 72
	o := found(t, s.weighed(t, 2), fit.Options{})
	require.True(t, o.Known.Activation)
	holds(t, o.Activation, s.activation)
	holds(t, o.Diffusivity, s.diffusivity(t, o.Temperature))
	require.Less(t, math.Abs(o.Correlation[0]), 0.1)
	for i, c := range s.celsius {
		holds(t, o.Runs[i].Diffusivity, s.diffusivity(t, c+273.15))
	}
	s.celsius = []float64{78, 80} // too near to each other
	require.False(t, found(t, s.weighed(t, 2), fit.Options{}).Known.Activation)
}

// Water that is taken up tells as much as water that leaves.
func TestUptake(t *testing.T) {
	s := nylon()
	s.start, s.celsius = 0.001, []float64{60}
	w := s.weighed(t, 3)
	w.Runs[0].Zone.Air.VapourPressure = 12e3 // 60 %
	w = reweighed(t, s, w)
	o := found(t, w, fit.Options{Effort: estimation.Effort{Seed: 1, Effective: 300, Most: samples.Of(10_000, 10_000, 40_000)}})
	require.Greater(t, o.Runs[0].End, o.Runs[0].Start.Value)
	require.Less(t, o.Diffusivity.Factor(), 1.1)
	require.NotContains(t, kinds(o), fit.Gains)
	holds(t, o.Diffusivity, s.diffusivity(t, 333.15))
}

// reweighed are weighings in air that was changed.
func reweighed(t testing.TB, s strand, w *scenarios.Weighings) *scenarios.Weighings {
	masses := s.masses(t, w, 0, random(9))
	for k := range w.Runs[0].Points {
		w.Runs[0].Points[k].Mass = masses[k]
	}
	return w
}

// Nine times in ten the intervals hold the truth, over strands with truths of their own.
func TestCalibrated(t *testing.T) {
	sets := samples.Of(3, 12, 200)
	var diffusivity, start, activation, falsely int
	for i := range sets {
		r := random(uint64(i))
		s := nylon()
		s.faster, s.start, s.dry = math.Exp(0.5*r.NormFloat64()), 0.02+0.02*r.Float64(), 0.02*(1+0.1*r.Float64())
		s.celsius, s.activation, s.hours, s.count = []float64{60, 80}, 60e3*math.Exp(0.1*r.NormFloat64()), 72, 20
		if i%2 == 1 {
			s.step, s.noise, s.dry = 1e-4, 5e-5, 4*s.dry
		}
		o := found(t, s.weighed(t, uint64(i)), fit.Options{})
		at := s.diffusivity(t, o.Temperature)
		in := func(b fit.Between, truth float64) int {
			if b.Low <= truth && truth <= b.High {
				return 1
			}
			return 0
		}
		diffusivity += in(o.Diffusivity, at)
		activation += in(o.Activation, s.activation)
		start += in(o.Runs[0].Start, s.start)
		if o.Lack.Probability < 0.01 {
			falsely++
		}
	}
	t.Logf("of %d: diffusivity %d, activation %d, start %d, called unfit %d", sets, diffusivity, activation, start, falsely)
	least := int(math.Floor(0.9*float64(sets) - 3*math.Sqrt(0.09*float64(sets))))
	for _, n := range []int{diffusivity, start, activation} {
		require.GreaterOrEqual(t, n, least)
	}
	require.LessOrEqual(t, falsely, 1+sets/20)
}

// A kitchen scale cannot tell the little water in polylactide.
func TestKitchenScale(t *testing.T) {
	s := strand{material: "pla", faster: 1, start: 0.004, dry: 0.02, step: 1e-4, celsius: []float64{50}, hours: 12, count: 16}
	o := found(t, s.weighed(t, 4), fit.Options{})
	require.False(t, o.Told)
	require.Contains(t, kinds(o), fit.FewSteps)
	require.Greater(t, o.Diffusivity.Factor(), 3.0)
	require.Equal(t, fit.FinerScale, o.Helps[0].Kind)
	s.step = 1e-6
	require.True(t, found(t, s.weighed(t, 4), fit.Options{}).Told)
}

// Beta is fitted where the weighings tell it better than the library, or where it is asked for; else its ends are tried.
func TestBeta(t *testing.T) {
	s := nylon()
	s.start, s.step, s.noise, s.count = 0.08, 1e-6, 3e-7, 40
	o := found(t, s.weighed(t, 5), fit.Options{})
	require.Equal(t, scenarios.Fitted, o.Known.Beta)
	beta := o.Weighings.Model.Material.Diffusivity.Beta.Value
	require.InDelta(t, beta, o.Beta.Value, 2*(o.Beta.High-o.Beta.Low))
	require.Less(t, o.Correlation[1], -0.5, "what moves faster when wet moves slower when dry")
	s.tables = keepsBeta
	fixed := found(t, s.weighed(t, 5), fit.Options{})
	require.Zero(t, fixed.Beta)
	require.Contains(t, kinds(fixed), fit.BetaMatters)
	require.Less(t, fixed.Diffusivity.Factor(), o.Diffusivity.Factor())
}

// What the library knows counts only if it is asked to, and then it is told how much.
func TestPrior(t *testing.T) {
	s := strand{material: "petg", faster: 1, start: 0.003, dry: 0.02, step: 1e-5, celsius: []float64{60}, hours: 6, count: 12, tables: keepsBeta}
	w := s.weighed(t, 6)
	free, with := found(t, w, fit.Options{}), found(t, w, fit.Options{Prior: true})
	require.Less(t, with.Diffusivity.Factor(), free.Diffusivity.Factor())
	require.Greater(t, with.PriorShare, 0.02)
	require.Zero(t, free.PriorShare)
	good := found(t, nylon().weighed(t, 1), fit.Options{Prior: true})
	require.Less(t, good.PriorShare, 0.01)
}

// A dry mass or a start that is stated makes the rest surer; a drift that is fitted makes it less sure.
func TestStated(t *testing.T) {
	s := nylon()
	s.hours, s.tables = 2.5, keepsBeta // long before the end
	free := found(t, s.weighed(t, 7), fit.Options{})
	require.Contains(t, kinds(free), fit.EndsEarly)
	s.lines = "dry_mass = \"20.3 g\"\n"
	dry := found(t, s.weighed(t, 7), fit.Options{})
	require.Less(t, math.Log(dry.Diffusivity.Factor()), 0.7*math.Log(free.Diffusivity.Factor()))
	require.NotContains(t, kinds(dry), fit.EndsEarly)
	holds(t, dry.Diffusivity, s.diffusivity(t, 353.15))
	s = nylon()
	without := found(t, s.weighed(t, 7), fit.Options{})
	s.change = func(hour, mass float64) float64 { return mass + 5e-7*hour } // half a milligram in an hour
	s.lines, s.tables = "", ""
	drifted := s.weighed(t, 7)
	drifted.Scale.Drift = math.Inf(1)
	o := found(t, drifted, fit.Options{})
	require.InDelta(t, 5e-7/3600, o.Drift.Value, o.Drift.High-o.Drift.Low)
	require.Greater(t, o.Drift.Low, 0.0)
	holds(t, o.Diffusivity, s.diffusivity(t, 353.15))
	require.Greater(t, o.Diffusivity.Factor(), without.Diffusivity.Factor())
}

// The same file gives the same bits.
func TestSame(t *testing.T) {
	s := easy()
	s.tables = keepsBeta
	w := s.weighed(t, 8)
	a, b := found(t, w, fit.Options{}), found(t, w, fit.Options{})
	require.Equal(t, a.Diffusivity, b.Diffusivity)
	require.Equal(t, a.Runs, b.Runs)
}

// The material that is written reads back to what was found, and the joint distribution with it.
func TestMaterial(t *testing.T) {
	s := nylon()
	s.celsius, s.hours = []float64{60, 80}, 72
	o := found(t, s.weighed(t, 2), fit.Options{})
	text, err := materials.FittedFile(o.Material("my nylon", "."), o.Base)
	require.NoError(t, err)
	p, err := materials.Read("my.toml", []byte(text), nil)
	require.NoError(t, err)
	const digits = 1e-3 // four of them are written
	require.InEpsilon(t, o.Diffusivity.Value, p.Diffusivity.Dry(o.Temperature), digits)
	require.InEpsilon(t, o.Diffusivity.Factor(), p.Diffusivity.Scatter.Value, digits)
	for i, c := range s.celsius { // by fitted energy and reference
		require.InEpsilon(t, o.Runs[i].Diffusivity.Value, p.Diffusivity.Dry(c+273.15), 0.02)
	}
	require.Equal(t, materials.Fitted, p.Diffusivity.ReferenceValue.Kind)
}
