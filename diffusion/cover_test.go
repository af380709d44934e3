package diffusion_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion"
	"strandry/diffusion/samples"
	"strandry/materials"
	"strandry/materials/humidair"
)

// random makes a physical model: any material, one to four zones hot or cold, dry or
// damp, from a millimetre to a hundred metres, with storage or without. Thick strands in quick
// air are far from even temperature.
func random(r *rand.Rand, library []materials.Polymer) *diffusion.Design {
	log := func(low, high float64) float64 { return low * math.Pow(high/low, r.Float64()) }
	p := library[r.IntN(len(library))]
	m := &diffusion.Design{Model: diffusion.Model{
		Radius: log(0.1e-3, 2.5e-3), Material: p, Speed: log(0.02e-3, 50e-3),
		Start: p.Sorption.Content(r.Float64(), room), StartTemperature: room,
		Pressure: humidair.StandardPressure,
	}}
	m.SetMaterial(&p)
	zone := func(hottest float64) diffusion.Zone {
		t := 253.15 + (hottest-253.15)*r.Float64()
		return diffusion.Zone{
			Contact: diffusion.Contact{Covered: 0.8 * (1 - r.Float64()), Arcs: 1, Moves: true}, Film: diffusion.Film{Heat: log(5, 1000), Mass: log(2e-3, 0.2)},
			Air: diffusion.Air{Temperature: t, VapourPressure: r.Float64() * min(humidair.SaturationPressure(t), 2500)},
		}
	}
	if r.IntN(3) == 0 {
		m.Start = 0
		z := zone(303.15)
		z.Duration = log(600, 1e6)
		m.Storage = append(m.Storage, z)
	}
	for range 1 + r.IntN(4) {
		z := zone(p.DryingTemperature.Value + 30)
		z.Length = log(0.001, 100)
		m.Path = append(m.Path, z)
	}
	return m
}

// The printed numerical error covers the true one, taken against a grid six times as
// fine and steps a hundred thousand times as exact, in the mean, the centre, the skin and the skin after the first zone of every random model. Six
// of them are tried, or up to a thousand.
func TestNumericalErrorCoversTheTrueOne(t *testing.T) {
	if testing.Short() {
		t.Skip("no two goroutines meet here")
	}
	library, err := materials.Library()
	require.NoError(t, err)
	r := rand.New(rand.NewPCG(20, 7))
	count := samples.Of(4, 40, 1000)
	var covered [4]int
	worst := 0.0
	fine := diffusion.DefaultSettings()
	fine.Resolution *= 6
	fine.Tolerance = 1e-8
	w := diffusion.NewMarch()
	for i := range count {
		m := random(r, library)
		a, err := w.Assess(m, diffusion.DefaultSettings())
		require.NoError(t, err)
		var exact diffusion.Result
		require.NoError(t, w.Run(&m.Model, fine, &exact))
		scale := max(m.Start, exact.Nozzle.Mean, a.Start.Mean)
		worst = max(worst, math.Abs(a.Nozzle.Mean-exact.Nozzle.Mean)/scale)
		last := len(a.Zones) - 1
		require.Equal(t, a.Errors.Skin, a.ZoneErrors[last].Skin)
		for k, of := range [...]struct {
			name                string
			coarse, fine, claim float64
		}{
			{"mean", a.Nozzle.Mean, exact.Nozzle.Mean, a.NumericalError},
			{"centre", a.Nozzle.Centre, exact.Nozzle.Centre, a.Errors.Centre},
			{"skin", a.Nozzle.Skin, exact.Nozzle.Skin, a.Errors.Skin},
			{"zone", a.Zones[0].Exit.Skin, exact.Zones[0].Exit.Skin, a.ZoneErrors[0].Skin},
		} {
			if off := math.Abs(of.coarse - of.fine); off <= of.claim {
				covered[k]++
			} else {
				t.Logf("%d: %s, %s off %.2e, claimed %.2e, of %.3g", i, m.Material.ID, of.name, off, of.claim, of.fine)
			}
		}
	}
	t.Logf("covered %d of %d in the mean, the centre, the skin, the skin after the first zone; worst error %.1e of the content", covered, count, worst)
	for _, c := range covered {
		require.Equal(t, count, c)
	}
}

// A front in wetted nylon, whose error of space stands still from resolution 5 to 10: the printed error holds it.
// The model's exact answer is that of a resolution of 60.
func TestErrorThatRefiningDoesNotShow(t *testing.T) {
	p, err := materials.Lookup("pa6")
	require.NoError(t, err)
	m := transit(t, 0)
	m.Material, m.Start, m.StartTemperature, m.Speed = p, 0.000839, 302.75, 2.95e-3
	z := m.Path[2]
	z.Length, z.Film = 60.2, diffusion.Film{Emissivity: 0.9}
	z.Air = diffusion.Air{Temperature: 320.75, VapourPressure: humidair.VapourPressureAt(0.58, 320.75)}
	m.Path = []diffusion.Zone{z}
	a := assess(t, m)
	s := diffusion.DefaultSettings()
	s.Resolution, s.Tolerance = 60, 1e-7
	var fine diffusion.Result
	require.NoError(t, diffusion.NewMarch().Run(&m.Model, s, &fine))
	require.InDelta(t, fine.Nozzle.Mean, a.Nozzle.Mean, a.NumericalError)
	require.Greater(t, math.Abs(fine.Nozzle.Mean-a.Nozzle.Mean), 0.1*a.NumericalError, "a case that tests nothing")
}
