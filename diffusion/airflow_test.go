package diffusion_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion"
	"strandry/diffusion/film"
	"strandry/materials/humidair"
)

// tube is the standard transit with its last guide in a bore [m], the air dragged along.
func tube(t testing.TB, bore float64) *diffusion.Design {
	m := transit(t, 20)
	guide := &m.Path[2]
	guide.Film = diffusion.Film{Flow: film.Annulus, Bore: bore, Emissivity: 0.9}
	guide.Air.Dragged, guide.Air.Direction = true, diffusion.With
	return m
}

// A strand takes up no more than the air brings that it drags along, by hand from the
// integral of the Couette profile (Bird, Stewart & Lightfoot, Transport Phenomena) and
// the ideal gas; through a narrow bore that is next to nothing, while air without limit wets it.
func TestDraggedAirBringsLittle(t *testing.T) {
	m := tube(t, 3e-3)
	guide := &m.Path[2]
	free := *m
	free.Path = append([]diffusion.Zone(nil), m.Path...)
	free.Path[2].Air = guide.Air.WithoutLimit()
	unlimited := run(t, &free)
	previous := math.Inf(1)
	last := 0.0
	for _, bore := range []float64{20e-3, 3e-3, 1.8e-3, 1.751e-3} {
		guide.Film.Bore = bore
		r := run(t, m)
		R1, R2 := m.Radius, bore/2
		Q := math.Pi * m.Speed * ((R2*R2-R1*R1)/(2*math.Log(R2/R1)) - R1*R1)
		require.InEpsilon(t, Q*(m.Pressure-1400)/(287.05*298.15), m.DryFlow(guide), 1e-4)
		vapour := Q * 1400 / (461.5 * 298.15)                                   // [kg/s]
		strand := math.Pi * R1 * R1 * m.Material.Density.Value * m.Speed        // [kg/s] dry
		gained := (r.Nozzle.Mean - r.Zones[1].Exit.Mean) * strand               // [kg/s]
		taken := m.DryFlow(guide) * (humidair.HumidityRatio(1400, m.Pressure) - // [kg/s]
			humidair.HumidityRatio(r.Zones[2].VapourPressure, m.Pressure))
		require.Greater(t, gained, 0.0)
		// Below a ten-thousandth of the limit the error of a step is not relative any more.
		below := 1e-4 * m.Limit * strand
		require.Less(t, gained, vapour*1.0001+below, "bore %g", bore)
		within(t, taken, gained, 1e-6*vapour+below, "bore %g", bore)
		if bore > 1.79e-3 {
			require.Less(t, gained, vapour, "bore %g", bore)
		}
		require.Less(t, r.Nozzle.Mean, previous)
		require.Less(t, gained/strand, (unlimited.Nozzle.Mean-unlimited.Zones[1].Exit.Mean)/3, "bore %g", bore)
		previous, last = r.Nozzle.Mean, gained/strand
		within(t, 0, r.Balance, 1e-11)
		require.Equal(t, "dragged annulus", r.Zones[2].Film.Correlation)
	}
	require.Less(t, last, 2e-8, "at last: nothing") // air without limit: more than 1e-3
	require.Greater(t, unlimited.Nozzle.Mean-unlimited.Zones[1].Exit.Mean, 1e-3)
}

// The flow is that of the model's own speed, radius and bore, whatever changes them.
func TestDraggedAirFollowsTheStrand(t *testing.T) {
	m := tube(t, 3e-3)
	guide := &m.Path[2]
	before := m.DryFlow(guide)
	m.Speed *= 3
	require.InEpsilon(t, 3*before, m.DryFlow(guide), 1e-12)
	m.Radius *= 2
	guide.Film.Bore *= 2
	require.InEpsilon(t, 12*before, m.DryFlow(guide), 1e-12)
	guide.Air = guide.Air.WithoutLimit()
	require.Zero(t, m.DryFlow(guide))
	require.False(t, guide.Air.Limited())
	guide.Air.DryFlow = 2e-5
	require.InDelta(t, 2e-5, m.DryFlow(guide), 0)
}

// One march for several lengths is the same as many, to the bit.
func TestLengthsInDraggedAir(t *testing.T) {
	m := tube(t, 3e-3)
	lengths := []float64{0.05, 0.3, 1, 4}
	w := diffusion.NewMarch()
	require.NoError(t, w.RunLengths(&m.Model, 2, lengths, diffusion.DefaultSettings(), func(i int, r *diffusion.Result) error {
		alone := tube(t, 3e-3)
		alone.Path[2].Length = lengths[i]
		require.Equal(t, run(t, alone).Nozzle, r.Nozzle, "%g m", lengths[i])
		return nil
	}))
}

func TestDraggedAirThatCannotBe(t *testing.T) {
	require.NoError(t, tube(t, 3e-3).Check())
	for name, spoil := range map[string]func(z *diffusion.Zone){
		"bore wider than the strand": func(z *diffusion.Zone) { z.Film.Bore = 1.75e-3 },
		"through a bore":             func(z *diffusion.Zone) { z.Film.Flow = film.Natural },
		"with the strand":            func(z *diffusion.Zone) { z.Air.Direction = diffusion.Mixed },
		"no flow given":              func(z *diffusion.Zone) { z.Air.DryFlow = 1e-5 },
		"changes in time":            func(z *diffusion.Zone) { z.Air.Relax = diffusion.Relax{From: 100, TimeConstant: 10} },
	} {
		m := tube(t, 3e-3)
		spoil(&m.Path[2])
		require.ErrorContains(t, m.Check(), name)
	}
}

// Air that the strand drags along is between none and enough: the odds draw how much of what could come in through the mouths does, evenly,
// so that the limit on the way from the one content to the other, by ratios, is met as often as that share; wetted or dried.
func TestMouthsOfABore(t *testing.T) {
	sure := func(m *diffusion.Design) *diffusion.Design {
		m.Material.Diffusivity.Scatter.Value = 1
		m.LimitStated = true
		for i := range m.Path {
			m.Path[i].Film.Heat, m.Path[i].Film.Mass = 20, 0.02
		}
		return m
	}
	mouths := func(m *diffusion.Design) *diffusion.Assessment {
		free := *m
		free.Path = append([]diffusion.Zone(nil), m.Path...)
		for i := range free.Path {
			free.Path[i].Air = free.Path[i].Air.WithoutLimit()
		}
		a := assess(t, m)
		require.Equal(t, []string{diffusion.UnknownMouths}, a.Unknowns)
		require.Equal(t, run(t, &free).Nozzle.Mean, a.Mouths)
		return a
	}
	wetted := sure(tube(t, 3e-3))
	dried := sure(tube(t, 3e-3)) // the air in its bore is soon as damp as the strand
	dried.Path = dried.Path[2:]
	dried.Path[0].Length, dried.Path[0].Air.Temperature, dried.Path[0].Air.VapourPressure = 20, 383.15, 100
	a, b := mouths(wetted), mouths(dried)
	require.Greater(t, a.Mouths, 1.5*a.Nozzle.Mean)
	require.Less(t, b.Mouths, 0.7*b.Nozzle.Mean)
	between := func(a *diffusion.Assessment, share float64) float64 {
		return a.Nozzle.Mean * math.Pow(a.Mouths/a.Nozzle.Mean, share)
	}
	for share, verdict := range map[float64]diffusion.Verdict{0.05: diffusion.Wet, 0.3: diffusion.Unsure, 0.7: diffusion.Unsure, 0.95: diffusion.Dry} {
		wetted.Limit, dried.Limit = between(a, share), between(b, 1-share)
		for name, m := range map[string]*diffusion.Design{"wetted": wetted, "dried": dried} {
			got := assess(t, m)
			require.InDelta(t, share, got.Probability, 0.02, name)
			require.Equal(t, verdict.String(), got.Verdict.String(), name)
		}
	}
	within(t, between(a, 0.1), a.Low, 0.01)
	within(t, between(a, 0.9), a.High, 0.01)
	dried.Limit = between(b, 0.5)
	dried.Material.Softening.Low, dried.Material.Softening.Value, dried.Material.Softening.High = 330, 340, 350
	require.Equal(t, diffusion.TooHot.String(), assess(t, dried).Verdict.String())
	require.Zero(t, assess(t, transit(t, 0)).Mouths)
}

// The Reynolds number in the bore is that of the mean speed, the flow over the ring, and the gap's hydraulic diameter.
func TestSpeedOfDraggedAir(t *testing.T) {
	m := tube(t, 3e-3)
	z := run(t, m).Zones
	const R1, R2 = 0.875e-3, 1.5e-3
	flow := math.Pi * m.Speed * ((R2*R2-R1*R1)/(2*math.Log(R2/R1)) - R1*R1)
	half := (z[1].Exit.Temperature + 298.15) / 2 // the strand half-way, and its film half-way from there
	nu := humidair.KinematicViscosity((half+298.15)/2, 1400, m.Pressure)
	require.InEpsilon(t, flow/(math.Pi*(R2*R2-R1*R1))*2*(R2-R1)/nu, z[2].Film.Reynolds, 1e-9)
}

// At rest no strand passes through the air, and what a flow would take up is not known: it is refused, in storage and on the path.
func TestFlowAtRest(t *testing.T) {
	m := transit(t, 20)
	shelf := m.Path[2]
	shelf.Length, shelf.Duration = 0, 3600
	m.Storage = []diffusion.Zone{shelf}
	require.NoError(t, m.Check())
	m.Storage[0].Air.DryFlow = 1e-7
	require.ErrorContains(t, m.Check(), `zone "guide": a limited flow of air meets a strand that runs`)
	m.Path, m.Storage = append(m.Path, m.Storage[0]), nil
	require.ErrorContains(t, m.Check(), `zone "guide": a limited flow of air meets a strand that runs`)
}
