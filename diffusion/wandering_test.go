package diffusion_test

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion"
	"strandry/diffusion/samples"
	"strandry/materials"
	"strandry/materials/humidair"
)

// The odds of a covered strand, most of which marches along the radius have taught, are those of draws that are all marched in the section: the share of some hundreds
// that are within the limit, and their 10 and 90 % points.
func TestOddsOfACoverAgainstItsDraws(t *testing.T) {
	if testing.Short() {
		t.Skip("no two goroutines meet here")
	}
	w := diffusion.NewMarch()
	count, draws := samples.Of(2, 8, 40), samples.Of(64, 256, 1024)
	for i := range count {
		d := wound(t, rand.New(rand.NewPCG(uint64(i), 5)))
		o, err := w.Odds(d, diffusion.DefaultSettings())
		require.NoError(t, err)
		points, err := w.DrawnContents(d, o, draws)
		require.NoError(t, err)
		worst, within := 0.0, 0
		square := 0.0
		for _, p := range points {
			off := math.Log(p.Told / p.Marched)
			square += off * off
			worst = max(worst, math.Abs(off))
			if (p.Told <= d.Limit) != (p.Marched <= d.Limit) {
				within++
			}
		}
		off := math.Sqrt(square / float64(draws))
		t.Logf("%d %s: off by %.4f of the content, fit tells %.4f, worst %.3f; %d of %d on the other side of the limit", i, d.Material.ID, off, o.Fit, worst, within, draws)
		require.Less(t, off, 0.04)
		require.LessOrEqual(t, within, 1+draws/100)
	}
}

// The strand that odds are learnt from gives at the medians what the section does; at a draw it has a cover that wanders, also where the draw states one that keeps its place.
func TestWanderingAgreesAtTheMedians(t *testing.T) {
	w := diffusion.NewMarch()
	for i := range 6 {
		d := wound(t, rand.New(rand.NewPCG(uint64(i), 5)))
		thin := *d
		thin.Path = slices.Clone(d.Path)
		thin.Path[0].Contact.Moves = true
		place, wanders, drawn, err := w.Wandering(d, make([]float64, len(d.Unknowns())))
		require.NoError(t, err)
		var r diffusion.Result
		require.NoError(t, w.Run(&thin.Model, diffusion.DrawSettings(), &r))
		require.Less(t, math.Abs(wanders-place), max(0.025, math.Abs(math.Log(r.Nozzle.Mean)-place)/2), "%d", i)
		require.InDelta(t, wanders, drawn, 1e-3)

		d.Given = []diffusion.Given{{Name: "cover", Change: func(m *diffusion.Model, _ float64) error {
			m.Path[0].Contact.Moves = false
			return nil
		}}}
		_, wanders, drawn, err = w.Wandering(d, make([]float64, len(d.Unknowns())))
		require.NoError(t, err)
		require.InDelta(t, wanders, drawn, 1e-3)
	}
	open := wound(t, rand.New(rand.NewPCG(1, 5)))
	open.Path[0].Contact = diffusion.Contact{}
	_, _, _, err := w.Wandering(open, nil)
	require.Error(t, err, "nothing covers it")
}

// wound is a strand on a drum that covers a part of it, in air that is without limit or has to agree with it.
func wound(t *testing.T, r *rand.Rand) *diffusion.Design {
	t.Helper()
	log := func(low, high float64) float64 { return low * math.Pow(high/low, r.Float64()) }
	p, err := materials.Lookup([]string{"pa6", "petg", "pc", "pla"}[r.IntN(4)])
	require.NoError(t, err)
	d := &diffusion.Design{Model: diffusion.Model{Radius: 0.875e-3, Speed: log(0.5e-3, 5e-3), StartTemperature: room, StartActivity: 0.5}}
	d.SetMaterial(&p)
	d.Start = p.Sorption.Content(d.StartActivity, room)
	air := diffusion.Air{Temperature: 320 + 30*r.Float64(), VapourPressure: humidair.SaturationPressure(253.15)}
	if r.IntN(2) == 0 {
		air.DryFlow, air.Direction = log(4e-5, 3e-4), []diffusion.Direction{diffusion.Against, diffusion.Mixed}[r.IntN(2)]
	}
	d.Path = []diffusion.Zone{{
		Name: "drum", Length: log(2, 40), Air: air, Film: diffusion.Film{Heat: log(10, 60), Mass: log(0.01, 0.06)},
		Contact: diffusion.Contact{Covered: 0.05 + 0.5*r.Float64(), Arcs: 1},
	}}
	return d
}
