package machine_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion"
	"strandry/diffusion/machine"
	"strandry/diffusion/samples"
	"strandry/materials/humidair"
)

// contentAt is the mean behind the first zone at a flow [m³/s]; ok is false where there is no answer.
func contentAt(t *testing.T, d *diffusion.Design, flow float64, s diffusion.Settings) (r diffusion.Result, ok bool) {
	t.Helper()
	with := *d
	with.Path = append([]diffusion.Zone(nil), d.Path[:1]...)
	with.Path[0].Air.VolumeFlow = flow
	return r, diffusion.NewMarch().Run(&with.Model, s, &r) == nil
}

// With ever more air the content tends to that in air without limit, and the power that the air takes to that of its flow.
func TestEverMoreAirIsFixedAir(t *testing.T) {
	for _, direction := range []diffusion.Direction{diffusion.Mixed, diffusion.With, diffusion.Against} {
		d, m := built(t)
		d.Path[0].Air.Direction = direction
		free := *d
		free.Path = append([]diffusion.Zone(nil), d.Path...)
		free.Path[0].Air = free.Path[0].Air.WithoutLimit()
		fixed := march(t, &free)
		off := math.Inf(1)
		for _, litres := range []float64{0.3, 3, 30, 300} {
			d.Path[0].Air.VolumeFlow = litres * litre
			r := march(t, d)
			a := tell(t, d, m)
			now := math.Abs(r.Zones[0].Exit.Mean/fixed.Zones[0].Exit.Mean - 1)
			require.Less(t, now, max(off, 1e-5), "%s, %g L/min", direction, litres)
			off = now
			h := a.Chambers[0]
			near(t, dryOf(litres*litre, d.Path[0].Air.VapourPressure)*1006*(338.15-room), h.Steady.Air, 0.01)
			if litres == 300 {
				near(t, fixed.Nozzle.Mean, r.Nozzle.Mean, 2e-4, direction)
				near(t, h.Steady.Air, a.Power, 0.05, "all else is small beside it")
			}
		}
	}
}

// With ever less air a strand stays as it is, but for the water that the air takes with it: that in equilibrium with the strand that
// leaves where they go side by side, with the one that enters where they meet. What it gives off falls as the flow.
func TestEverLessAirStopsDrying(t *testing.T) {
	for _, direction := range []diffusion.Direction{diffusion.With, diffusion.Against, diffusion.Mixed} {
		d, _ := built(t)
		d.StartTemperature = 338.15 // else air that meets it would condense on it
		flows := []float64{4e-4, 1e-4, 2.5e-5}
		if direction == diffusion.Against { // of less, or through more, there is no answer
			d.Path[0].Length, flows = 0.5, []float64{1.6e-3, 8e-4, 4e-4}
		}
		d.Path[0].Air.Direction = direction
		last := math.Inf(1)
		for _, litres := range flows {
			d.Path[0].Air.VolumeFlow = litres * litre
			r, ok := contentAt(t, d, litres*litre, diffusion.DefaultSettings())
			require.True(t, ok, "%s, %g L/min", direction, litres)
			given := r.Start.Mean - r.Zones[0].Exit.Mean
			require.Positive(t, given)
			require.Less(t, given, last)
			last = given
		}
		r, _ := contentAt(t, d, flows[2]*litre, diffusion.DefaultSettings())
		meets := r.Zones[0].Exit
		if direction == diffusion.Against {
			meets = r.Start
		}
		low, high := 0.0, 1.0 // activity over the strand that the air leaves beside
		for range 60 {
			if half := (low + high) / 2; d.Material.Sorption.Content(half, meets.Temperature) < meets.Mean {
				low = half
			} else {
				high = half
			}
		}
		vapour := low * humidair.SaturationPressure(meets.Temperature)
		carried := dryOf(flows[2]*litre, d.Path[0].Air.VapourPressure) * (ratioOf(vapour) - ratioOf(d.Path[0].Air.VapourPressure)) // [kg/s]
		near(t, carried/dryStrand(d), last, 0.03, direction)
		require.Less(t, last, 0.06*d.Start)
	}
}

// At equal flow, air against a strand that dries is never worse than air with it.
func TestAgainstIsNeverWorse(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 5))
	tried, better := 0, 0
	for range samples.Of(60, 200, 2000) {
		d, _ := built(t)
		d.Speed, d.Start = 1e-3*math.Exp(2*r.Float64()), 0.001+0.004*r.Float64()
		d.Path[0].Length, d.Path[0].Air.Temperature = 1+20*r.Float64(), 310+30*r.Float64()
		flow := litre * math.Pow(10, -3+3*r.Float64())
		d.Path[0].Air.Direction = diffusion.With
		with, ok := contentAt(t, d, flow, diffusion.DefaultSettings())
		d.Path[0].Air.Direction = diffusion.Against
		against, both := contentAt(t, d, flow, diffusion.DefaultSettings())
		if !ok || !both || with.Condenses(&d.Model) || against.Condenses(&d.Model) {
			continue
		}
		tried++
		require.LessOrEqual(t, against.Zones[0].Exit.Mean, with.Zones[0].Exit.Mean*(1+1e-4), "%+v at %g L/min", d.Path[0], flow/litre)
		if against.Zones[0].Exit.Mean < 0.99*with.Zones[0].Exit.Mean {
			better++
		}
	}
	require.Greater(t, tried, 30)
	require.Greater(t, better, 3, "a case that tests nothing")
}

// Air that does not matter any more, and air that is the limit, against many flows: within a tenth where all of the strand meets the air.
func TestFlowsAgainstAScan(t *testing.T) {
	for _, c := range samples.Each(2, []struct {
		direction diffusion.Direction
		covered   float64
	}{{diffusion.Mixed, 0}, {diffusion.With, 0}, {diffusion.With, 0.1}, {diffusion.Mixed, 0.1}, {diffusion.Against, 0}, {diffusion.Against, 0.1}}) {
		d, m := built(t)
		d.StartTemperature = 330
		d.Path[0].Air.Direction = c.direction
		within := 0.1
		if c.covered > 0 {
			d.Path[0].Contact = diffusion.Contact{Covered: c.covered, Arcs: 1}
			within = 0.2 // the cover is counted as one that goes round
		}
		w := tell(t, d, m).Chambers[0].Water
		require.True(t, w.Searched)
		free := *d
		free.Path = append([]diffusion.Zone(nil), d.Path...)
		free.Path[0].Air = free.Path[0].Air.WithoutLimit()
		dry := march(t, &free).Zones[0].Exit.Mean
		// The first flow from above at which more than a share is lost, to 2 %, and on from there that of a greater share.
		flow := 1 * litre
		scan := func(share float64) float64 {
			for ; flow > 1e-5*litre; flow /= 1.02 {
				r, ok := contentAt(t, d, flow, diffusion.CoarseSettings())
				if !ok || (r.Zones[0].Exit.Mean-dry)/(d.Start-dry) >= share {
					return flow
				}
			}
			return 0
		}
		near(t, scan(0.05), w.Enough, within, c.direction, c.covered)
		near(t, scan(0.5), w.Least, within, c.direction, c.covered)
		require.Less(t, w.Least, w.Enough)
	}
}

// Whatever flow is stated, those that are found are the same, to the width of the search; a later zone is judged behind the one before it.
func TestFlowsDoNotDependOnTheOneStated(t *testing.T) {
	at := func(litres float64) machine.Water {
		return told(t, func(d *diffusion.Design, _ *machine.Machine) { d.Path[0].Air.VolumeFlow = litres * litre }).Chambers[0].Water
	}
	usual := at(3)
	for _, litres := range []float64{0.003, 0.1, 25} {
		near(t, usual.Enough, at(litres).Enough, 0.04, litres)
		near(t, usual.Least, at(litres).Least, 0.04, litres)
	}
	near(t, usual.Enough, at(usual.Enough/litre).Enough, 0.04)
	twice := told(t, func(d *diffusion.Design, m *machine.Machine) {
		d.Path = append(d.Path[:1:1], d.Path...)
		m.Chambers = append(m.Chambers[:1:1], m.Chambers...)
	})
	first, second := twice.Chambers[0].Water, twice.Chambers[1].Water
	near(t, usual.Enough, first.Enough, 0.04)
	require.True(t, second.Searched)
	require.Less(t, second.Given, first.Given)
	d, _ := built(t)
	d.Path = append(d.Path[:1:1], d.Path[0])
	before := march(t, d).Zones[0].Exit.Mean
	behind := func(air diffusion.Air) float64 {
		d.Path[1].Air = air
		return march(t, d).Zones[1].Exit.Mean
	}
	air := d.Path[1].Air
	dry := behind(air.WithoutLimit())
	for share, flow := range map[float64]float64{0.05: second.Enough, 0.5: second.Least} {
		air.VolumeFlow = flow
		near(t, share, (behind(air)-dry)/(before-dry), 0.1, "of what air without limit would do behind the first")
	}
	wetted := told(t, func(d *diffusion.Design, _ *machine.Machine) { d.Start = 1e-5 })
	require.False(t, wetted.Chambers[0].Water.Searched)
	require.Less(t, wetted.Chambers[0].Water.Given, 0.0)
}
