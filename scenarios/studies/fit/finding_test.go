package fit_test

import (
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion/samples"
	"strandry/scenarios"
	"strandry/scenarios/studies/fit"
)

// ofKind is the first finding of a kind.
func ofKind(t testing.TB, o *fit.Outcome, kind fit.FindingKind) fit.Finding {
	t.Helper()
	i := slices.IndexFunc(o.Findings, func(f fit.Finding) bool { return f.Kind == kind })
	require.GreaterOrEqual(t, i, 0, "%v in %v", kind, kinds(o))
	return o.Findings[i]
}

// keepsBeta is for what has nothing to do with beta: else it is fitted too, which takes several times as many marches.
const keepsBeta = "[fit]\nbeta = \"fixed\"\n"

// at changes the mass of one weighing of a strand.
func (s strand) at(weighing int, change func(mass float64) float64) strand {
	s.change = func(hour, mass float64) float64 {
		if math.Abs(hour-s.hour(weighing)) < 1e-9 {
			return change(mass)
		}
		return mass
	}
	return s
}

// Sound weighings of a strand that tells all have nothing to be said against them, on a good scale and on one that does nothing but round.
func TestNothingFound(t *testing.T) {
	for _, noise := range []float64{3e-6, 0} {
		s := nylon()
		s.noise, s.step = noise, 1e-5
		o := found(t, s.weighed(t, 31), fit.Options{})
		for _, kind := range kinds(o) {
			require.NotContains(t, []fit.FindingKind{fit.FewSteps, fit.Shape, fit.Outlier, fit.Slip, fit.Reversal, fit.EndsEarly, fit.BeginsLate, fit.AirRules, fit.NoDrive,
				fit.Scatter, fit.Warming, fit.OnlyBound}, kind)
		}
		require.Empty(t, o.Helps)
	}
}

// Something on the scale: the weighing is named with its line and what it is off by, and so is the diffusivity without it.
func TestOutlier(t *testing.T) {
	s := easy()
	s.tables = keepsBeta
	sound := found(t, s.weighed(t, 32), fit.Options{})
	const weighing, off = 8, 1.36e-4
	o := found(t, s.at(weighing, func(mass float64) float64 { return mass + off }).weighed(t, 32), fit.Options{})
	f := ofKind(t, o, fit.Outlier)
	require.Equal(t, 0, f.Run)
	require.Equal(t, weighing+3, f.Line) // behind a remark and the heads
	require.InDelta(t, off, f.Amount, 0.1*off)
	require.Greater(t, f.Amount, 0.0)
	require.False(t, f.Grave())
	require.Greater(t, math.Abs(math.Log(f.Factor)), 0.01)
	require.InEpsilon(t, sound.Diffusivity.Value, o.Diffusivity.Value*f.Factor, 0.02)
	below := ofKind(t, found(t, s.at(weighing, func(mass float64) float64 { return mass - off }).weighed(t, 32), fit.Options{}), fit.Outlier)
	require.Less(t, below.Amount, 0.0)
	require.Less(t, (below.Factor-1)*(f.Factor-1), 0.0)
}

// One digit that is another one, or two that changed places, are told with what was meant.
func TestSlip(t *testing.T) {
	s := easy()
	s.tables = keepsBeta
	w := s.weighed(t, 33)
	for _, c := range samples.Each(2, []struct {
		weighing int
		slipped  float64
	}{{5, 0.3e-3}, {9, 1e-3}, {12, -0.2e-3}}) {
		meant := w.Runs[0].Points[c.weighing].Mass
		o := found(t, s.at(c.weighing, func(mass float64) float64 { return mass + c.slipped }).weighed(t, 33), fit.Options{})
		f := ofKind(t, o, fit.Slip)
		require.InDelta(t, meant, f.Amount, 1e-9)
		require.Equal(t, c.weighing+3, f.Line)
		require.True(t, f.Grave())
		require.NotContains(t, kinds(o), fit.Outlier)
	}
	const weighing = 6
	meant := int(math.Round(w.Runs[0].Points[weighing].Mass / 1e-5)) // hundredths of a gram: the two behind the point change places
	swapped := meant - meant%100 + 10*(meant%10) + meant/10%10
	require.Greater(t, math.Abs(float64(swapped-meant)), 9.0)
	f := ofKind(t, found(t, s.at(weighing, func(float64) float64 { return 1e-5 * float64(swapped) }).weighed(t, 33), fit.Options{}), fit.Slip)
	require.InDelta(t, 1e-5*float64(meant), f.Amount, 1e-9)
}

// The door was open: the strand takes up water again for a while. In a run that wets the other way round.
func TestReversal(t *testing.T) {
	s := easy()
	s.tables = keepsBeta
	opened := func(sign float64) func(hour, mass float64) float64 {
		return func(hour, mass float64) float64 {
			if hour > 10 && hour < 14 {
				return mass + sign*1.1e-4*math.Exp(10-hour)*math.E
			}
			return mass
		}
	}
	s.change = opened(1)
	o := found(t, s.weighed(t, 34), fit.Options{})
	f := ofKind(t, o, fit.Reversal)
	first := slices.IndexFunc(o.Weighings.Runs[0].Points, func(p scenarios.Weighing) bool { return p.Time > 36000 })
	require.Equal(t, o.Weighings.Runs[0].Points[first].Line, f.Line)
	require.Greater(t, f.Amount, 1e-5)
	s.change = opened(-1)
	require.NotContains(t, kinds(found(t, s.weighed(t, 34), fit.Options{})), fit.EndsEarly)

	s.change, s.start, s.lines = nil, 0.001, strings.Replace(s.lines, "3 %", "0.1 %", 1)
	w := s.weighed(t, 34)
	w.Runs[0].Zone.Air.VapourPressure = 25e3
	s.change = opened(-1)
	wetted := found(t, reweighed(t, s, w), fit.Options{})
	require.Equal(t, f.Line, ofKind(t, wetted, fit.Reversal).Line)
}

// A run that stops long before the end, and one whose first weighing comes late: both say how much was missed.
func TestEndsEarlyBeginsLate(t *testing.T) {
	s := nylon()
	s.hours, s.tables = 2.5, keepsBeta
	o := found(t, s.weighed(t, 35), fit.Options{})
	f := ofKind(t, o, fit.EndsEarly)
	r := &o.Runs[0]
	require.InDelta(t, (r.End-r.Equilibrium)/(r.Start.Value-r.Equilibrium), f.Amount, 0.1) // least squares beside medians
	require.Greater(t, f.Amount, 0.3)

	s = nylon()
	s.hours, s.tables = 60, keepsBeta
	w := s.weighed(t, 35)
	points := w.Runs[0].Points
	i := slices.IndexFunc(points, func(p scenarios.Weighing) bool { return p.Time > 2*3600 })
	w.Runs[0].Points = points[i:]
	o = found(t, w, fit.Options{})
	f = ofKind(t, o, fit.BeginsLate)
	require.Greater(t, f.Amount, 0.25)
	require.Less(t, f.Amount, 0.9)
	w.Runs[0].Start, w.Runs[0].StartKnown = s.start, true
	require.NotContains(t, kinds(found(t, w, fit.Options{})), fit.BeginsLate)
}

// Where diffusion is so fast that the still air sets the pace, the weighings say so; and half of the water is gone while a coil warms.
func TestAirRules(t *testing.T) {
	s := nylon()
	s.faster, s.hours = 3000, 2
	w := s.weighed(t, 36)
	w.Runs[0].Zone.Film.Heat, w.Runs[0].Zone.Film.Mass = 10, 2e-4
	o := found(t, reweighed(t, s, w), fit.Options{})
	f := ofKind(t, o, fit.AirRules)
	require.Less(t, f.Amount, 0.03)
	require.True(t, f.Grave())
}

// Half of the water gone within minutes is as fast as a coil warms.
func TestWarming(t *testing.T) {
	s := nylon()
	s.faster, s.hours = 30, 3
	o := found(t, s.weighed(t, 37), fit.Options{})
	f := ofKind(t, o, fit.Warming)
	require.Less(t, f.Amount, 3600.0)
	require.Greater(t, f.Amount, 60.0)
	require.NotContains(t, kinds(o), fit.AirRules)
}

// A strand that is in equilibrium with the air from the beginning tells nothing, and its answer is none.
func TestNoDrive(t *testing.T) {
	s := nylon()
	s.step, s.noise = 1e-6, 3e-7
	w := s.weighed(t, 38)
	air := w.Runs[0].Zone.Air
	s.start = w.Model.Material.Sorption.Content(air.VapourPressure/47.4e3, air.Temperature) // 80 °C
	w.Runs[0].Start, w.Runs[0].StartKnown = s.start, true
	o := found(t, reweighed(t, s, w), fit.Options{})
	require.True(t, ofKind(t, o, fit.NoDrive).Grave())
	require.False(t, o.Told)
}

// Weighings that scatter more than the scale's step say by how much.
func TestScatter(t *testing.T) {
	s := easy()
	s.tables = keepsBeta
	s.noise = 4e-5
	o := found(t, s.weighed(t, 39), fit.Options{})
	f := ofKind(t, o, fit.Scatter)
	require.InEpsilon(t, s.noise, f.Amount, 0.4)
	holds(t, o.Diffusivity, s.diffusivity(t, 353.15))
}

// Where a drift of one step moves the answer by more than its range, that is said, and by which factor: a scale that does drift so moves it so.
func TestDriftMatters(t *testing.T) {
	s := easy()
	s.tables = keepsBeta
	s.hours, s.count, s.noise = 4, 30, 1e-6
	plain := found(t, s.weighed(t, 40), fit.Options{})
	f := ofKind(t, plain, fit.DriftMatters)
	require.InEpsilon(t, s.step/(3600*s.hours), f.Amount, 1e-3)
	s.change = func(hour, mass float64) float64 { return mass + s.step*hour/s.hours }
	drifted := found(t, s.weighed(t, 40), fit.Options{})
	require.InDelta(t, math.Log(f.Factor), math.Log(drifted.Diffusivity.Value/plain.Diffusivity.Value), 0.5*math.Abs(math.Log(f.Factor)))
	w := s.weighed(t, 40)
	w.Scale.Drift = math.Inf(1)
	require.NotContains(t, kinds(found(t, w, fit.Options{})), fit.DriftMatters)
}

// A strand that hardly loses anything has a diffusivity below a bound, one that has lost all before it is weighed again one above.
func TestOnlyBound(t *testing.T) {
	s := nylon()
	s.hours, s.faster, s.lines = 36, 1e-6, "moisture = \"3 %\"\n"
	o := found(t, s.weighed(t, 41), fit.Options{})
	require.False(t, o.Told)
	f := ofKind(t, o, fit.OnlyBound)
	require.Less(t, f.Factor, 1.0)
	require.Greater(t, f.Amount, s.diffusivity(t, 353.15))
	s.faster, s.lines = 2000, "moisture = \"3 %\"\nh = \"200 W/m2/K\"\nk_m = \"0.5 m/s\"\n"
	o = found(t, s.weighed(t, 41), fit.Options{})
	require.False(t, o.Told)
	f = ofKind(t, o, fit.OnlyBound)
	require.Greater(t, f.Factor, 1.0)
	require.Less(t, f.Amount, s.diffusivity(t, 353.15))
}

// A mass that rises in air from which a dry strand could not take up so much is named, and grave; one that takes up what the air holds is not, see TestUptake.
func TestGains(t *testing.T) {
	s := easy()
	s.tables = keepsBeta
	s.count = 10
	w := s.weighed(t, 43)
	points := w.Runs[0].Points
	for k := range points {
		points[k].Mass = 0.0201 + 4e-4*float64(k)/float64(len(points)-1)
	}
	o := found(t, w, fit.Options{})
	f := ofKind(t, o, fit.Gains)
	require.True(t, f.Grave())
	require.InDelta(t, 4e-4, f.Amount, 1e-9)
	require.Equal(t, "gains", f.Kind.String())
}

// Masses that go to and fro by a step tell nothing, and are answered all the same, of each kind of material.
func TestToAndFro(t *testing.T) {
	for _, material := range samples.Each(3, []string{"pa6", "pla", "petg", "pp", "pc"}) {
		s := nylon()
		s.material, s.tables, s.count = material, keepsBeta, samples.Of(6, 10, 10)
		w := s.weighed(t, 42)
		for k := range w.Runs[0].Points {
			w.Runs[0].Points[k].Mass = 0.02 + s.step*float64(k%2)
		}
		o := found(t, w, fit.Options{})
		require.False(t, o.Told)
		require.Equal(t, 1.0, ofKind(t, o, fit.FewSteps).Amount)
		if material == "pp" { // has so little water that a tenth of a step does not help either
			require.Empty(t, o.Helps)
			continue
		}
		require.Equal(t, fit.FinerScale, o.Helps[0].Kind)
	}
}
