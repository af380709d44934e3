package fit_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion"
	"strandry/diffusion/samples"
	"strandry/materials"
	"strandry/scenarios"
)

// strand is a made-up strand whose truth is known, and how it is weighed.
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
	lines      string // further lines of each run
	tables     string // further tables of the file
	// change is done to a mass before it is rounded; nil for nothing.
	change func(hour, mass float64) float64
}

// nylon is one that tells all.
func nylon() strand {
	return strand{material: "pa6", faster: 1.6, start: 0.03, dry: 0.0203, step: 1e-5, noise: 3e-6, celsius: []float64{80}, hours: 36, count: 24}
}

// easy is one whose beta is kept and whose start is stated by default: a fit then takes a quarter of the marches. For what has to do with neither.
func easy() strand {
	s := nylon()
	if samples.Of(1, 2, 2) == 1 {
		s.tables, s.lines = keepsBeta, "moisture = \"3 %\"\n"
	}
	return s
}

// diffusivity of the truth at a temperature [m2/s].
func (s strand) diffusivity(t testing.TB, T float64) float64 {
	p, err := materials.Lookup(s.material)
	require.NoError(t, err)
	s.truth(&p)
	return p.Diffusivity.Dry(T)
}

// truth makes the polymer of the library the true one. An activation energy turns about 70 °C.
func (s strand) truth(p *materials.Polymer) {
	const about = 343.15
	law := &p.Diffusivity
	law.ReferenceValue.Value *= s.faster
	if s.activation > 0 {
		law.ReferenceValue.Value = law.Dry(about)
		law.Reference, law.Pieces = about, []materials.Arrhenius{{Activation: materials.Value{Value: s.activation}}}
	}
}

// masses of a run [kg].
func (s strand) masses(t testing.TB, w *scenarios.Weighings, run int, r *rand.Rand) []float64 {
	m := w.Model
	s.truth(&m.Material)
	m.Path = []diffusion.Zone{w.Runs[run].Zone}
	m.Start, m.StartActivity = s.start, 0
	var times []float64
	for i := range s.count {
		times = append(times, math.Max(1e-2, 3600*s.hour(i)))
	}
	var out []float64
	require.NoError(t, diffusion.NewMarch().RunLengths(&m, 0, times, diffusion.DefaultSettings(), func(i int, res *diffusion.Result) error {
		mass := s.dry*(1+res.Nozzle.Mean) + s.noise*r.NormFloat64()
		if s.change != nil {
			mass = s.change(s.hour(i), mass)
		}
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

func (s strand) text() string {
	var b strings.Builder
	fmt.Fprintf(&b, "[strand]\nmaterial = %q\n[scale]\nresolution = \"%g g\"\n", s.material, 1e3*s.step)
	for i, c := range s.celsius {
		fmt.Fprintf(&b, "[[run]]\nfile = \"%d.csv\"\ntemperature = \"%g °C\"\nair = { dew_point = \"-10 °C\" }\n%s\n", i, c, s.lines)
	}
	return b.String() + s.tables
}

// weighed are the weighings of the strand, read from their texts.
func (s strand) weighed(t testing.TB, seed uint64) *scenarios.Weighings {
	random := rand.New(rand.NewPCG(seed, 2))
	text, tables := s.text(), map[string]string{}
	read := func() *scenarios.Weighings {
		w, err := scenarios.ReadWeighings("strand.toml", []byte(text), func(name string) ([]byte, error) { return []byte(tables[name]), nil })
		require.NoError(t, err)
		return w
	}
	table := func(run int, mass func(i int) float64) {
		var b strings.Builder
		fmt.Fprintf(&b, "# run %d\ntime [h],mass [g]\n", run)
		for i := range s.count {
			fmt.Fprintf(&b, "%.6f,%.6f\n", s.hour(i), 1e3*mass(i))
		}
		tables[fmt.Sprintf("%d.csv", run)] = b.String()
	}
	for i := range s.celsius { // something to read, for the air of the runs
		table(i, func(k int) float64 { return s.dry * (1 + s.start*(1-float64(k)/float64(s.count))) })
	}
	w := read()
	for i := range s.celsius {
		masses := s.masses(t, w, i, random)
		table(i, func(k int) float64 { return masses[k] })
	}
	return read()
}

func random(seed uint64) *rand.Rand { return rand.New(rand.NewPCG(seed, 77)) }
