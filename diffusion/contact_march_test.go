package diffusion_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion"
	"strandry/diffusion/samples"
	"strandry/materials"
)

// covered is a strand of one temperature whose D at the start is that of the dry polymer times exp(b), its surface held dry by a
// large film, for a Fourier number of the dry polymer.
func covered(t testing.TB, contact diffusion.Contact, b, fo float64) *diffusion.Design {
	m := transit(t, b/0.02)
	given := func(v float64) materials.Value {
		return materials.Value{Value: v, Low: v, High: v, Kind: materials.Given}
	}
	m.Material.Diffusivity.ReferenceValue = given(1e-11)
	m.Start, m.Speed = 0.02, 1e-3
	seconds := fo * m.Radius * m.Radius / 1e-11
	m.Path = []diffusion.Zone{{
		Name: "oven", Length: seconds * m.Speed, Contact: contact, Film: diffusion.Film{Heat: 1e5, Mass: 100},
		Air: diffusion.Air{Temperature: m.StartTemperature},
	}}
	return m
}

// A cover that keeps its place closes a part of the surface: what is left of the water, against testdata/section/covered.csv
// (dual series in Laplace space and spectral elements, independent codes). The content is of the start.
func TestCoverThatKeepsItsPlace(t *testing.T) {
	if testing.Short() {
		t.Skip("no two goroutines meet here")
	}
	s := diffusion.DefaultSettings()
	s.WithoutEvaporation = true
	w := diffusion.NewMarch()
	worst := 0.0
	for _, row := range samples.Each(4, table(t, "section", "covered.csv")) {
		contact := diffusion.Contact{Covered: 1 - row["share"], Arcs: int(row["arcs"])}
		m := covered(t, contact, row["b"], row["fo"])
		var r diffusion.Result
		require.NoError(t, w.Run(&m.Model, s, &r))
		off := r.Nozzle.Mean/m.Start - row["mean"]
		worst = max(worst, math.Abs(off))
		within(t, row["mean"], r.Nozzle.Mean/m.Start, 1e-3, "share %g, %g arcs, b %g, Fo %g", row["share"], row["arcs"], row["b"], row["fo"])
		within(t, 0, r.Balance, 1e-12)
		require.Greater(t, r.Zones[0].Behind, r.Nozzle.Skin)
	}
	t.Logf("worst %.1e of the start", worst)

	// A cover that wanders thins the film, which a large film does not feel: the strand dries as an open one.
	m := covered(t, diffusion.Contact{Covered: 0.5, Arcs: 1, Moves: true}, 0, 0.0917)
	within(t, 0.415, run(t, m).Nozzle.Mean/m.Start, 1e-3)
}

// The printed numerical error covers the true one for covered strands too, and the answer is what refining tends to.
func TestErrorOfACoveredStrand(t *testing.T) {
	if testing.Short() {
		t.Skip("no two goroutines meet here")
	}
	count, within := 0, 0
	for _, row := range samples.Each(12, table(t, "section", "covered.csv")) {
		m := covered(t, diffusion.Contact{Covered: 1 - row["share"], Arcs: int(row["arcs"])}, row["b"], row["fo"])
		s := diffusion.DefaultSettings()
		s.WithoutEvaporation = true
		a, err := diffusion.NewMarch().Assess(m, s)
		require.NoError(t, err)
		off := a.Nozzle.Mean/m.Start - row["mean"]
		count++
		if math.Abs(off) <= a.NumericalError/m.Start {
			within++
		} else {
			t.Logf("share %g, %g arcs, b %g, Fo %g off %.1e told %.1e", row["share"], row["arcs"], row["b"], row["fo"], off, a.NumericalError/m.Start)
		}
	}
	t.Logf("%d of %d", within, count)
	require.Equal(t, count, within)
}

// A covered zone in pieces is the zone, since the cover keeps its place; an open one between them lets the strand come out even, and
// one covered otherwise finds the mean round. All keep the balance.
func TestCoverGoesOnFromZoneToZone(t *testing.T) {
	contact := diffusion.Contact{Covered: 0.4, Arcs: 1}
	m := covered(t, contact, 1, 0.3)
	whole := assess(t, m)
	piece := m.Path[0]
	piece.Length /= 5
	m.Path = nil
	for _, name := range []string{"a", "b", "c", "d", "e"} {
		piece.Name = name
		m.Path = append(m.Path, piece)
	}
	cut := assess(t, m)
	within(t, whole.Nozzle.Mean, cut.Nozzle.Mean, whole.NumericalError+cut.NumericalError)
	within(t, whole.Zones[0].Behind, cut.Zones[4].Behind, whole.Errors.Skin+cut.Errors.Skin+1e-5)

	m.Path[2].Contact.Arcs = 2
	turned := run(t, m)
	require.Less(t, turned.Nozzle.Mean, 0.99*cut.Nozzle.Mean, "a strand that is turned over dries better")
	within(t, 0, turned.Balance, 1e-12)
}

// Where the film alone holds the water back, a half covered strand dries at half the pace of an open one, be its cover in its
// place or not: the content falls with exp(-φ 2 k_m p_sat t/(ρ R C_sat R_v T)). The water over pure water at
// 23 °C has 2810.4 Pa (steam table, from memory); the tolerance is that of its last digits, a thousandth of the pace.
func TestCoverAtTheFilm(t *testing.T) {
	for _, exposed := range []float64{1, 0.5, 0.2} {
		for _, moves := range []bool{false, true} {
			m := covered(t, diffusion.Contact{Covered: 1 - exposed, Arcs: 1, Moves: moves}, 0, 1)
			m.Material.Diffusivity.ReferenceValue.Value = 1e-7
			const film, seconds = 1e-4, 20000.0
			m.Path[0].Film.Mass, m.Path[0].Length = film, seconds*m.Speed
			s := diffusion.DefaultSettings()
			s.WithoutEvaporation = true
			var r diffusion.Result
			require.NoError(t, diffusion.NewMarch().Run(&m.Model, s, &r))
			pace := 2 * film * 2810.4 / (1130 * 0.875e-3 * 0.095 * 461.5 * 296.15)
			within(t, exposed*pace*seconds, math.Log(m.Start/r.Nozzle.Mean), 1.5e-3*pace*seconds, "%g exposed, moves %v", exposed, moves)
		}
	}
}

// A strand of which next to nothing is covered is an open one: the march in r and θ is that along the radius in all that is told of
// it, with the heat of evaporation, in air that answers to the strand from either end, from zone to zone.
func TestHardlyCoveredIsOpen(t *testing.T) {
	for _, heat := range []diffusion.Heat{diffusion.Lumped, diffusion.Resolved} {
		for _, direction := range []diffusion.Direction{diffusion.With, diffusion.Against, diffusion.Mixed} {
			open := transit(t, 20)
			open.Path[0].Length, open.Path[0].Air.Temperature = 0.03, 400 // it leaves in the midst of its heating
			open.Path[1].Air.DryFlow, open.Path[1].Air.Direction = 3e-5, direction
			covered := *open
			covered.Path = append([]diffusion.Zone(nil), open.Path...)
			for i := range covered.Path {
				covered.Path[i].Contact = diffusion.Contact{Covered: 1e-5, Arcs: 1}
			}
			s := diffusion.DefaultSettings()
			s.Heat = heat
			w := diffusion.NewMarch()
			want, err := w.Trace(&open.Model, s)
			require.NoError(t, err)
			got, err := w.Trace(&covered.Model, s)
			require.NoError(t, err)
			for i, z := range want.Result.Zones {
				c := got.Result.Zones[i]
				about := z.Name + ", " + direction.String()
				within(t, 1, c.Exit.Mean/z.Exit.Mean, 1e-5, about)
				within(t, 1, c.Exit.Skin/z.Exit.Skin, 1e-4, about)
				within(t, z.Exit.Temperature, c.Exit.Temperature, 1e-3, about)
				within(t, 1, c.Fourier/z.Fourier, 1e-5, about)
				within(t, 1, c.VapourPressure/z.VapourPressure, 1e-5, about)
				within(t, 1, c.Cooling/z.Cooling, 1e-5, about)
				within(t, 1, c.Behind/z.Exit.Skin, 0.05, about)
			}
			var alone, inside diffusion.Result
			require.NoError(t, w.Run(&open.Model, s, &alone))
			require.NoError(t, w.Run(&covered.Model, s, &inside))
			for i, z := range alone.Zones {
				within(t, z.Exit.Temperature, inside.Zones[i].Exit.Temperature, 1e-3, z.Name)
				within(t, 1, inside.Zones[i].Exit.Mean/z.Exit.Mean, 1e-5, z.Name)
			}
			require.Len(t, got.Points, len(want.Points))
			for i, p := range want.Points {
				within(t, p.Temperature, got.Points[i].Temperature, 1e-3)
				within(t, 1, got.Points[i].VapourPressure/p.VapourPressure, 1e-5)
				within(t, p.Mean, got.Points[i].Mean, 1e-6)
			}
		}
	}
}
