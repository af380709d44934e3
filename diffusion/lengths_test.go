package diffusion_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion"
	"strandry/diffusion/film"
	"strandry/diffusion/samples"
)

// What the length of a zone changes in its film counts: along a flow and on a strand that hangs, for lengths
// that share a grid.
func TestLengthsHaveTheirOwnFilm(t *testing.T) {
	for _, f := range []diffusion.Film{{Flow: film.Along, AirSpeed: 0.5, Emissivity: 0.9}, {Vertical: true, Emissivity: 0.9}} {
		m := transit(t, 0)
		m.Path = m.Path[1:2]
		m.Path[0].Film = f
		s := diffusion.CoarseSettings()
		heats := map[float64]bool{}
		require.NoError(t, diffusion.NewMarch().RunLengths(&m.Model, 0, []float64{0.1, 0.11, 0.3, 1}, s, func(i int, r *diffusion.Result) error {
			alone := *m
			alone.Path = append([]diffusion.Zone(nil), m.Path...)
			alone.Path[0].Length = r.Zones[0].Length
			var want diffusion.Result
			require.NoError(t, diffusion.NewMarch().Run(&alone.Model, s, &want))
			require.Equal(t, want.Zones, r.Zones)
			require.Equal(t, want.Profile, r.Profile)
			heats[r.Zones[0].Film.Heat] = true
			return nil
		}))
		require.Len(t, heats, 4)
	}
}

// One march that serves every length of a zone gives what separate runs give, to the
// bit: state, zones and steps.
func TestLengthsAreThoseOfSeparateRuns(t *testing.T) {
	if testing.Short() {
		t.Skip("no two goroutines meet here")
	}
	var lengths []float64
	count := samples.Of(5, 40, 400)
	for i := range count {
		lengths = append(lengths, 0.001*math.Pow(1e5, float64(i)/float64(count-1)))
	}
	for zone := range 3 {
		for _, heat := range []diffusion.Heat{diffusion.Lumped, diffusion.Resolved} {
			for k, direction := range []diffusion.Direction{diffusion.With, diffusion.Against, diffusion.With, diffusion.With} {
				m := transit(t, 20)
				m.Path[1].Air.DryFlow, m.Path[1].Air.Direction = 3e-5, direction
				if k >= 2 { // covered in one zone, or in two of which the second goes on from the first
					m.Path[1].Contact = diffusion.Contact{Covered: 0.3, Arcs: 2}
				}
				if k == 3 {
					m.Path[2].Contact = m.Path[1].Contact
				}
				s := diffusion.CoarseSettings()
				s.Heat = heat
				w, count := diffusion.NewMarch(), 0
				require.NoError(t, w.RunLengths(&m.Model, zone, lengths, s, func(i int, r *diffusion.Result) error {
					require.Equal(t, count, i)
					count++
					alone := *m
					alone.Path = append([]diffusion.Zone(nil), m.Path...)
					alone.Path[zone].Length = lengths[i]
					var want diffusion.Result
					require.NoError(t, diffusion.NewMarch().Run(&alone.Model, s, &want))
					require.Equal(t, want.Nozzle, r.Nozzle, "zone %d, %g m", zone, lengths[i])
					require.Equal(t, want.Zones, r.Zones)
					require.Equal(t, want.Steps, r.Steps)
					require.Equal(t, want.Profile, r.Profile)
					require.Equal(t, want.Balance, r.Balance)
					return nil
				}))
				require.Equal(t, len(lengths), count)
			}
		}
	}
}

// A march that has served the lengths of covered zones serves those of open ones, and covered ones again, as a new one does.
func TestLengthsAfterACover(t *testing.T) {
	used := diffusion.NewMarch()
	for _, covered := range []float64{0.3, 0, 0.3} {
		m := transit(t, 20)
		for i := range m.Path {
			m.Path[i].Contact = diffusion.Contact{Covered: covered, Arcs: 2}
		}
		serve := func(w *diffusion.March) (all []diffusion.ZoneResult) {
			require.NoError(t, w.RunLengths(&m.Model, 1, []float64{0.9, 1, 1.1}, diffusion.CoarseSettings(), func(_ int, r *diffusion.Result) error {
				all = append(all, r.Zones...)
				return nil
			}))
			return all
		}
		require.Equal(t, serve(diffusion.NewMarch()), serve(used), "%g covered", covered)
	}
}
