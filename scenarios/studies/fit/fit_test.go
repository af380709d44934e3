package fit_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"strandry/diffusion"
	"strandry/materials"
	"strandry/scenarios"
	"strandry/scenarios/studies/fit"
)

// strand is a strand whose truth is known, and how it is weighed.
type strand struct {
	material   string
	faster     float64 // than the library says
	activation float64 // [J/mol]; zero for the library's
	start      float64 // [kg/kg dry]
	dry        float64 // [kg]
	step       float64 // of the scale [kg]
	noise      float64 // [kg]
	celsius    []float64
	hours      float64
	count      int
	known      string // further lines of each run
}

// masses of a run [kg].
func (s strand) masses(t testing.TB, w *scenarios.Weighings, run int, r *rand.Rand) []float64 {
	m := w.Model
	law := &m.Material.Diffusivity
	m.Path = []diffusion.Zone{w.Runs[run].Zone}
	T := m.Path[0].Air.Temperature
	if s.activation > 0 {
		law.Pieces = []materials.Arrhenius{{Activation: materials.Value{Value: s.activation}}}
	}
	law.ReferenceValue.Value *= s.faster
	m.Start, m.StartActivity = s.start, 0
	var times []float64
	for i := range s.count {
		times = append(times, math.Max(1e-2, 3600*s.hour(i)))
	}
	_ = T
	var out []float64
	require.NoError(t, diffusion.NewMarch().RunLengths(&m, 0, times, diffusion.DefaultSettings(), func(i int, res *diffusion.Result) error {
		mass := s.dry*(1+res.Nozzle.Mean) + s.noise*r.NormFloat64()
		out = append(out, s.step*math.Round(mass/s.step))
		return nil
	}))
	return out
}

// hour of a weighing: evenly in the root of time.
func (s strand) hour(i int) float64 {
	x := float64(i) / float64(s.count-1)
	return s.hours * x * x
}

// weighed is a file of weighings of the strand.
func (s strand) weighed(t testing.TB, r *rand.Rand) *scenarios.Weighings {
	var text strings.Builder
	fmt.Fprintf(&text, "[strand]\nmaterial = %q\n[scale]\nresolution = \"%g g\"\n", s.material, 1e3*s.step)
	for i, c := range s.celsius {
		fmt.Fprintf(&text, "[[run]]\nfile = \"%d.csv\"\ntemperature = \"%g °C\"\nair = { dew_point = \"-10 °C\" }\n%s\n", i, c, s.known)
	}
	tables := map[string]string{}
	read := func() *scenarios.Weighings {
		w, err := scenarios.ReadWeighings("strand.toml", []byte(text.String()), func(name string) ([]byte, error) { return []byte(tables[name]), nil })
		require.NoError(t, err)
		return w
	}
	table := func(masses []float64, run int) {
		var b strings.Builder
		fmt.Fprintf(&b, "time [h],mass [g] # %d\n", run)
		b.Reset()
		fmt.Fprintf(&b, "# %d\ntime [h],mass [g]\n", run)
		for i, m := range masses {
			fmt.Fprintf(&b, "%.6f,%.6f\n", s.hour(i), 1e3*m)
		}
		tables[fmt.Sprintf("%d.csv", run)] = b.String()
	}
	for i := range s.celsius {
		var some []float64
		for k := range s.count {
			some = append(some, s.dry*(1+s.start)-1e-3*float64(k)*s.start)
		}
		table(some, i)
	}
	w := read()
	for i := range s.celsius {
		table(s.masses(t, w, i, r), i)
	}
	return read()
}

func TestShow(t *testing.T) {
	for _, s := range []strand{
		{material: "pa6", faster: 1.7, start: 0.03, dry: 0.02, step: 1e-5, celsius: []float64{80}, hours: 48, count: 24},
		{material: "pa6", faster: 1.7, start: 0.03, dry: 0.02, step: 1e-5, noise: 5e-6, celsius: []float64{60, 80}, hours: 48, count: 24},
		{material: "pa6", faster: 1.7, start: 0.03, dry: 0.1, step: 1e-4, celsius: []float64{80}, hours: 48, count: 24},
		{material: "petg", faster: 0.7, start: 0.003, dry: 0.05, step: 1e-5, celsius: []float64{60}, hours: 8, count: 100},
		{material: "pla", faster: 0.7, start: 0.004, dry: 0.02, step: 1e-4, celsius: []float64{50}, hours: 12, count: 20},
	} {
		w := s.weighed(t, rand.New(rand.NewPCG(1, 2)))
		begin := time.Now()
		o, err := fit.Fit(w, fit.Options{})
		require.NoError(t, err)
		t.Logf("%s in %v, %d marches", s.material, time.Since(begin), o.Marches)
		law := w.Model.Material.Diffusivity
		t.Logf("D at %.1f: %.3g (%.3g to %.3g), truth %.3g, library %.3g; E %.3g (%.3g to %.3g); beta %v", o.Temperature-273.15, o.Diffusivity.Value, o.Diffusivity.Low, o.Diffusivity.High,
			s.faster*law.Dry(o.Temperature), o.Library, o.Activation.Value, o.Activation.Low, o.Activation.High, o.Beta)
		t.Logf("noise %.2g (%.2g to %.2g), lack %+v corr %v", o.Noise.Value, o.Noise.Low, o.Noise.High, o.Lack, o.Correlation)
		for _, r := range o.Runs {
			t.Logf("start %v dry %v end %.4g eq %.4g", r.Start, r.Dry, r.End, r.Equilibrium)
		}
	}
}
