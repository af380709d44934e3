package figure

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion/estimation"
	"strandry/plots/canvas"
	"strandry/scenarios"
	"strandry/scenarios/studies/fit"
)

// aRun is a strand of 20 g dry whose water falls from 3 % towards 0.4 % as exp(-sqrt(t/time)), weighed 16 times on a scale that shows 0.01 g; its masses
// are known to 0.005 g more or less, its dry mass to 0.02 g.
func aRun(name string, celsius, hours, time float64) WeighedRun {
	const dry, start, rest, step = 0.02, 0.03, 0.004, 1e-5
	r := WeighedRun{Name: name, Temperature: 273.15 + celsius, Dry: fit.Between{Value: dry, Low: dry - 2e-5, High: dry + 2e-5}, Equilibrium: rest}
	for k := range 16 {
		t := 3600 * hours * math.Pow(float64(k)/15, 2)
		mass := dry * (1 + rest + (start-rest)*math.Exp(-math.Sqrt(t/3600/time)))
		wobble := 4e-6 * math.Sin(7*float64(k))
		shown := step * math.Round((mass+wobble)/step)
		r.Points = append(r.Points, scenarios.Weighing{Time: t, Mass: shown, Line: k + 2})
		r.Residuals = append(r.Residuals, shown-mass)
		r.Band = append(r.Band, fit.Between{Value: mass, Low: mass - 5e-6, High: mass + 5e-6})
	}
	return r
}

func aWeighed() Weighed {
	return Weighed{Step: 1e-5, Runs: []WeighedRun{aRun("dry-80", 80, 36, 9)}, Told: true, Factor: 1.08, Temperature: 353.15, Lack: estimation.Lack{Share: 0.2, Probability: 0.4}}
}

// off puts a weighing of a run that far off.
func (w *Weighed) off(run, point int, kg float64) {
	w.Runs[run].Points[point].Mass += kg
	w.Runs[run].Residuals[point] += kg
}

// aDoubtedWeighed is three runs of which all that can stand out does.
func aDoubtedWeighed() Weighed {
	w := aWeighed()
	w.Runs = append(w.Runs, aRun("dry-60-second-coil-of-it", 60, 60, 30), aRun("dry-95", 95, 1.5, 0.4))
	for i := range w.Runs[1].Points {
		w.off(1, i, 6e-5*math.Sin(float64(i)/2.5))
	}
	w.off(0, 6, 1e-3)
	w.off(1, 11, 1.1e-4)
	w.off(2, 9, -1.3e-4)
	w.Factor, w.Lack.Probability = 1.4, 0.002
	w.Findings = []fit.Finding{
		{Kind: fit.Reversal, Run: 1, Line: 13, Amount: 9e-5},
		{Kind: fit.Slip, Run: 0, Line: 8, Amount: 0.02027},
		{Kind: fit.Outlier, Run: 2, Line: 11, Amount: -1.3e-4, Factor: 1.07},
		{Kind: fit.Shape, Run: -1, Amount: 0.002},
	}
	return w
}

// anUntold is a coil of 2 g on a scale that shows 0.1 g.
func anUntold() Weighed {
	w := aWeighed()
	w.Told, w.Factor, w.Step = false, 25, 1e-4
	r := &w.Runs[0]
	for i := range r.Points {
		mass := r.Band[i].Value / 10
		shown := 1e-4 * math.Round(mass/1e-4)
		r.Points[i].Mass, r.Residuals[i] = shown, shown-mass
		r.Band[i] = fit.Between{Value: mass, Low: mass - 3e-5, High: mass + 4e-5}
	}
	r.Dry = fit.Between{Value: 2e-3, Low: 1.9e-3, High: 2.05e-3}
	w.Findings = []fit.Finding{{Kind: fit.FewSteps, Run: 0, Amount: 1}}
	return w
}

// weighedFigures are those of the weighings.
func weighedFigures() map[string]Figure {
	f := frame()
	f.Setup = Setup{Strand: "PA6, 1.75\u00a0mm"}
	f.Notes = []string{"My strand, dried", "a scale that shows 0.01\u00a0g"}
	return map[string]Figure{
		"masses": Masses{f, aWeighed()}, "masses-doubted": Masses{f, aDoubtedWeighed()}, "masses-untold": Masses{f, anUntold()},
		"residuals": Residuals{f, aWeighed()}, "residuals-doubted": Residuals{f, aDoubtedWeighed()},
	}
}

func TestWeighedHeadlines(t *testing.T) {
	for name, want := range map[string]string{
		"masses":            "How fast water moves in this strand is known within 8 % either way at 80 °C, nine times in ten",
		"masses-doubted":    "Doubtful: a weighing in run dry-80 looks like a slip of one digit; else how fast water moves is known within a factor of 1.4 either way",
		"masses-untold":     "These weighings cannot tell how fast water moves: the mass changes by 1 step of the scale",
		"residuals":         "The fit leaves no shape that chance would not: the weighings scatter about it by 0.3 steps of the scale",
		"residuals-doubted": "The weighings leave a shape that no diffusivity gives: chance makes one like it about once in 500 times",
	} {
		require.Equal(t, want, plain(weighedFigures()[name].Headline()), name)
	}
}

// What makes an answer doubtful is said in words, the gravest first.
func TestWeighedReasons(t *testing.T) {
	grave := func(told bool, runs int, found ...fit.Finding) string {
		w := aWeighed()
		for len(w.Runs) < runs {
			w.Runs = append(w.Runs, aRun("other", 60, 10, 3))
		}
		w.Told, w.Findings = told, found
		return plain(Masses{Weighed: w}.Headline())
	}
	const cannot = "These weighings cannot tell how fast water moves: "
	require.Equal(t, cannot+"the mass in run other changes by 3 steps of the scale", grave(false, 2, fit.Finding{Kind: fit.FewSteps, Run: 1, Amount: 2.9}))
	require.Equal(t, cannot+"the strand began in equilibrium with the air", grave(false, 1, fit.Finding{Kind: fit.NoDrive}))
	require.Equal(t, cannot+"the air, not the strand, sets the pace", grave(false, 1, fit.Finding{Kind: fit.Scatter, Run: -1}, fit.Finding{Kind: fit.AirRules}))
	require.Equal(t, "Doubtful: the weighings leave a shape that no diffusivity gives; else how fast water moves is known within 8 % either way",
		grave(true, 2, fit.Finding{Kind: fit.Shape, Run: -1}))
	require.Equal(t, "These weighings do not tell how fast water moves: no better than within 8 % either way", grave(false, 1))
	for kind := fit.FewSteps; kind <= fit.OnlyBound; kind++ {
		f := fit.Finding{Kind: kind}
		require.Equal(t, f.Grave(), (&Weighed{Runs: aWeighed().Runs, Findings: []fit.Finding{f}}).grave() != "", kind)
	}

	left := Residuals{Weighed: anUntold()}
	require.Equal(t, "The fit leaves no shape, but these weighings do not tell how fast water moves", left.Headline())
	left.Lack = estimation.Lack{Probability: 1}
	require.Regexp(t, "^Too few weighings to see a shape in what the fit leaves: they scatter about it by 0.3[0-9]? steps of the scale$", plain(left.Headline()))
	left.Findings = []fit.Finding{{Kind: fit.Slip, Run: 0, Line: 4}}
	require.Equal(t, "One weighing is far off and hides whether the fit leaves a shape: see to it first", left.Headline())
	left.Findings = append(left.Findings, fit.Finding{Kind: fit.Outlier, Run: 0, Line: 9}, fit.Finding{Kind: fit.Reversal, Run: 0, Line: 5})
	require.Equal(t, "2 weighings are far off and hide whether the fit leaves a shape: see to them first", left.Headline())
	left.Findings, left.Lack.Probability = []fit.Finding{{Kind: fit.Shape, Run: -1}}, 0
	require.Contains(t, plain(left.Headline()), "makes one like it less than once in 1000 times")
	left.Lack.Probability = 0.0033
	require.Contains(t, plain(left.Headline()), "about once in 300 times")
}

// Numbers go by run and line, one for each weighing, to those that matter most.
func TestWeighedMarks(t *testing.T) {
	w := aDoubtedWeighed()
	all, more := w.marks()
	require.Zero(t, more)
	require.Len(t, all, 3)
	for i, want := range [][3]int{{0, 6, 1}, {1, 11, 2}, {2, 9, 3}} {
		require.Equal(t, want, [3]int{all[i].Run, all[i].point, all[i].number})
	}
	require.Equal(t, map[int]bool{6: true}, w.far(0))
	require.Empty(t, w.far(1), "a reversal is no outlier")
	require.Equal(t, []string{"1  dry-80, line 8: far off, and one digit from 20.27 g, which would fit",
		"2  dry-60-second-coil-of-it, line 13: the wrong way by 0.09 g since the weighing before", "3  dry-95, line 11: -0.13 g off; without it water moves 1.07 times as fast"},
		[]string{plain(w.notes()[0]), plain(w.notes()[1]), plain(w.notes()[2])})
	w.Findings = nil
	for line := 17; line >= 2; line-- {
		w.Findings = append(w.Findings, fit.Finding{Kind: fit.Outlier, Run: 0, Line: line / 2 * 2, Amount: 1e-4, Factor: 1})
	}
	all, more = w.marks()
	require.Equal(t, [3]int{6, 10, 3}, [3]int{len(all), more, all[5].number})
	require.Equal(t, "and 10 more", w.notes()[6])
}

// A weighing that is off sets no scale: the others are seen as before.
func TestWeighedScales(t *testing.T) {
	w := aWeighed()
	masses, residuals := Masses{Weighed: w}.scale(), Residuals{Weighed: w}.scale()
	require.InDelta(t, 3.05, masses.Max, 0.25)
	require.Equal(t, -residuals.Min, residuals.Max)
	w.off(0, 6, 1e-3)
	require.Greater(t, Masses{Weighed: w}.scale().Max, 5.0)
	require.Greater(t, Residuals{Weighed: w}.scale().Max, 100.0)
	w.Findings = []fit.Finding{{Kind: fit.Slip, Run: 0, Line: 8}}
	require.Equal(t, masses, Masses{Weighed: w}.scale())
	require.Equal(t, residuals, Residuals{Weighed: w}.scale())
	require.Less(t, Residuals{Weighed: w}.spread(), 0.5)
}

// Water is the mass over the dry mass, change that over the first mass; the place of rest is as unsure as the dry mass.
func TestWeighedShares(t *testing.T) {
	f := Masses{Weighed: aWeighed()}
	near := func(want, got float64) {
		t.Helper()
		require.False(t, math.IsNaN(got))
		require.InDelta(t, want, got, 1e-9)
	}
	near(5, f.share(0, 0.021))
	low, middle, high := f.rest(0)
	near(0.4, middle)
	near(100*(0.01998*1.004/0.02-1), low)
	near(100*(0.02002*1.004/0.02-1), high)
	f.Told = false
	near(100*(0.021/f.Runs[0].Points[0].Mass-1), f.share(0, 0.021))
	x, y := f.Runs[0].smooth(3600, func(i int) float64 { return math.Sqrt(f.Runs[0].Points[i].Time) })
	near(36, x[len(x)-1])
	for k := range x {
		require.InDelta(t, math.Sqrt(3600*x[k]), y[k], 1e-6, "what goes with the root of time is a straight line of it")
	}
	for hours, want := range map[float64]string{1.5: "min", 2: "h", 99: "h", 101: "days"} {
		r := aRun("", 80, hours, 1)
		_, unit, _ := r.elapsed(false)
		require.Equal(t, want, unit)
	}
}

// Many runs with long names, and more that stands out than has room, break no sheet.
func TestWeighedAtTheWorst(t *testing.T) {
	t.Parallel()
	w := aWeighed()
	w.Runs = nil
	for i := range 7 {
		w.Runs = append(w.Runs, aRun("a-run-that-has-a-name-as-long-as-names-of-files-become", 80, []float64{0.2, 3, 300}[i%3], 1))
		w.Findings = append(w.Findings, fit.Finding{Kind: fit.Outlier, Run: i, Line: 9, Amount: 1e-3, Factor: 1.234}, fit.Finding{Kind: fit.Slip, Run: i, Line: 10, Amount: 1e-3})
		w.off(i, 7, -1e-3)
		w.off(i, 8, 2e-3)
	}
	f := frame()
	f.Notes = []string{"A title of weighings that goes on and on, as titles do", "a scale that shows 0.01 g"}
	for _, told := range []bool{true, false} {
		w.Told = told
		clean(t, "masses", Masses{f, w})
		clean(t, "residuals", Residuals{f, w})
	}
	many := aWeighed()
	for range 300 {
		last := many.Runs[0].Points[len(many.Runs[0].Points)-1]
		last.Time += 60
		many.Runs[0].Points = append(many.Runs[0].Points, last)
		many.Runs[0].Band, many.Runs[0].Residuals = append(many.Runs[0].Band, many.Runs[0].Band[0]), append(many.Runs[0].Residuals, 0)
	}
	clean(t, "masses", Masses{f, many})
}

func TestWeighedRefusals(t *testing.T) {
	t.Parallel()
	for name, change := range map[string]func(w *Weighed){
		"no run":            func(w *Weighed) { w.Runs = nil },
		"no step":           func(w *Weighed) { w.Step = 0 },
		"factor":            func(w *Weighed) { w.Factor = math.Inf(1) },
		"mass not a number": func(w *Weighed) { w.Runs[0].Points[3].Mass = math.NaN() },
		"band not finite":   func(w *Weighed) { w.Runs[0].Band[3].High = math.Inf(1) },
		"short band":        func(w *Weighed) { w.Runs[0].Band = w.Runs[0].Band[1:] },
		"short residuals":   func(w *Weighed) { w.Runs[0].Residuals = w.Runs[0].Residuals[1:] },
		"one weighing": func(w *Weighed) {
			r := &w.Runs[0]
			r.Points, r.Band, r.Residuals = r.Points[:1], r.Band[:1], r.Residuals[:1]
		},
		"no dry mass":      func(w *Weighed) { w.Runs[0].Dry.Value = 0 },
		"times fall":       func(w *Weighed) { w.Runs[0].Points[3].Time = 1e9 },
		"before the start": func(w *Weighed) { w.Runs[0].Points[0].Time = -1 },
		"all at one time": func(w *Weighed) {
			for i := range w.Runs[0].Points {
				w.Runs[0].Points[i].Time = 5
			}
		},
		"finding of no run": func(w *Weighed) { w.Findings = []fit.Finding{{Run: 1}} },
	} {
		w := aWeighed()
		change(&w)
		for _, f := range []Figure{Masses{frame(), w}, Residuals{frame(), w}} {
			_, err := Encode(f, canvas.SVG)
			require.Error(t, err, name)
		}
	}
	w := aWeighed()
	w.Findings = []fit.Finding{{Kind: fit.Outlier, Run: 0, Line: 999}} // a line that is no weighing is left alone
	_, err := Encode(Masses{frame(), w}, canvas.SVG)
	require.NoError(t, err)
}

// The figures show what was fitted, and nothing else.
func TestWeighedOf(t *testing.T) {
	w, err := scenarios.ReadWeighings("my.toml", []byte("title = \"My strand\"\nstrand.material = \"pa6\"\nscale.resolution = \"0.02 g\"\nrun = [{ file = \"dry-80.csv\", temperature = \"80 °C\" }]\n"),
		func(string) ([]byte, error) {
			return []byte("time [h],mass [g]\n0,20.6\n1,20.5\n2,20.4\n3,20.3\n"), nil
		})
	require.NoError(t, err)
	o := &fit.Outcome{
		Weighings: w, Told: true, Temperature: 340, Diffusivity: fit.Between{Value: 2e-12, Low: 1e-12, High: 4e-12}, Library: fit.Between{Value: 1, Low: 1, High: 9},
		Lack: estimation.Lack{Share: 0.1, Probability: 0.2}, Findings: []fit.Finding{{Kind: fit.Scatter, Run: -1}},
		Runs: []fit.RunOutcome{{Dry: fit.Between{Value: 0.02, Low: 0.019, High: 0.021}, Equilibrium: 0.003, End: 0.01, Start: fit.Between{Value: 0.03},
			Residuals: []float64{1e-6, 2e-6, 3e-6, 4e-6}, Band: []fit.Between{{Value: 1}, {Value: 2}, {Value: 3}, {Value: 4}}}},
	}
	got := WeighedOf(o)
	require.Equal(t, Weighed{Step: 2e-5, Told: true, Factor: 2, Temperature: 340, Lack: o.Lack, Findings: o.Findings, Runs: []WeighedRun{{
		Name: "dry-80", Temperature: 353.15, Points: w.Runs[0].Points, Band: o.Runs[0].Band, Residuals: o.Runs[0].Residuals, Dry: o.Runs[0].Dry, Equilibrium: 0.003,
	}}}, got)
	require.Equal(t, "PA6, 1.75 mm · My strand · a scale that shows 0.02 g · strandry 1", plain(FrameOfWeighings(w, "1").foot()))
}
