package figure

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion/estimation"
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
		"residuals-doubted": "The weighings leave a shape that no diffusivity gives: chance makes one like it less than once in 500 times",
	} {
		require.Equal(t, want, plain(weighedFigures()[name].Headline()), name)
	}
}
