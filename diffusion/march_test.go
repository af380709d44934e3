package diffusion_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion"
	"strandry/materials"
	"strandry/materials/humidair"
)

// within fails on NaN too.
func within(t testing.TB, want, got, tolerance float64, about ...any) {
	t.Helper()
	require.False(t, math.IsNaN(got) || math.IsNaN(want), about...)
	require.InDelta(t, want, got, tolerance, about...)
}

func run(t testing.TB, m *diffusion.Design) diffusion.Result {
	t.Helper()
	var r diffusion.Result
	require.NoError(t, diffusion.NewMarch().Run(&m.Model, diffusion.DefaultSettings(), &r))
	return r
}

// Limited air takes up what the strand gives, and a flow without end is air without
// limit.
func TestLimitedAirBalances(t *testing.T) {
	const flow = 4e-5 // kg/s of dry air, about 2 L/min
	for _, direction := range []diffusion.Direction{diffusion.With, diffusion.Against, diffusion.Mixed} {
		m := transit(t, 20)
		drum := &m.Path[1]
		free := run(t, m)
		drum.Air.Direction = direction
		drum.Air.DryFlow = flow
		r := run(t, m)
		strand := math.Pi * m.Radius * m.Radius * m.Material.Density.Value * m.Speed // kg/s dry
		given := strand * (r.Zones[0].Exit.Mean - r.Zones[1].Exit.Mean)
		in := humidair.HumidityRatio(drum.Air.VapourPressure, m.Pressure)
		out := humidair.HumidityRatio(r.Zones[1].VapourPressure, m.Pressure)
		within(t, given, flow*(out-in), 2e-4*given, "%v: water into the air", direction)
		require.Greater(t, r.Zones[1].Exit.Mean, free.Zones[1].Exit.Mean, "%v", direction)
		within(t, 0, r.Balance, 1e-11)

		drum.Air.DryFlow = 1e6
		endless := run(t, m)
		within(t, free.Nozzle.Mean, endless.Nozzle.Mean, 1e-6*free.Nozzle.Mean)
	}
}

// At the same flow, air against the strand leaves it driest, and mixed air wettest.
func TestCounterflowDriesBest(t *testing.T) {
	left := map[diffusion.Direction]float64{}
	for _, direction := range []diffusion.Direction{diffusion.With, diffusion.Against, diffusion.Mixed} {
		m := transit(t, 20)
		m.Path[1].Air.Direction, m.Path[1].Air.DryFlow = direction, 2e-5
		r := run(t, m)
		left[direction] = r.Zones[1].Exit.Mean
	}
	require.Less(t, left[diffusion.Against], left[diffusion.With])
	require.LessOrEqual(t, left[diffusion.With], left[diffusion.Mixed]*1.0001)
}

// A strand dry at the start that lies in a room is wet at its skin only; the same
// time is later needed to dry it as a fraction of what a soaked one needs.
func TestStorageWetsTheSkin(t *testing.T) {
	m := transit(t, 0)
	m.Start = 0
	m.Storage = []diffusion.Zone{{
		Name: "shelf", Duration: 6 * 3600, Film: diffusion.Film{Heat: 10, Mass: 0.01},
		Air: diffusion.Air{Temperature: 296.15, VapourPressure: humidair.VapourPressureAt(0.5, 296.15)},
	}}
	r := run(t, m)
	equilibrium := m.Material.Sorption.Content(0.5, 296.15)
	within(t, equilibrium, r.Start.Skin, 0.01*equilibrium)
	require.Less(t, r.Start.Centre, 1e-6)
	// Short times: uptake 4/√π √Fo - Fo (Crank, The Mathematics of Diffusion, eq. 5.25,
	// number from memory) less what the film holds back.
	fo := 4e-13 * 6 * 3600 / (m.Radius * m.Radius)
	within(t, equilibrium*(4/math.SqrtPi*math.Sqrt(fo)-fo), r.Start.Mean, 0.02*equilibrium)
}

// What leaves depends on D t/R² at equal Biot numbers: twice the radius and four
// times the time change nothing when the film is scaled along.
func TestScaling(t *testing.T) {
	m := transit(t, 20)
	small := run(t, m)
	for i := range m.Path {
		m.Path[i].Length *= 4
		m.Path[i].Film.Heat /= 2
		m.Path[i].Film.Mass /= 2
	}
	m.Radius *= 2
	// The lumped heating slows by four too: ρ c R/(2h).
	large := run(t, m)
	within(t, small.Nozzle.Mean, large.Nozzle.Mean, 1e-9)
}

func TestLongerHotterDrierIsNeverWetter(t *testing.T) {
	last := math.Inf(1)
	for _, length := range []float64{0.1, 0.5, 2, 6, 12, 20} {
		m := transit(t, 20)
		m.Path[1].Length = length
		now := run(t, m).Zones[1].Exit.Mean
		require.Less(t, now, last)
		last = now
	}
	last = math.Inf(1)
	for celsius := 40.0; celsius <= 120; celsius += 10 {
		m := transit(t, 20)
		m.Path[1].Air.Temperature = celsius + 273.15
		now := run(t, m).Zones[1].Exit.Mean
		require.Less(t, now, last)
		last = now
	}
	last = 0
	for _, vapour := range []float64{0, 50, 500, 1500, 5000} {
		m := transit(t, 20)
		m.Path[1].Air.VapourPressure = vapour
		now := run(t, m).Zones[1].Exit.Mean
		require.Greater(t, now, last)
		last = now
	}
}

// Steam at 250 °C and 0.1 MPa fills 2.406 m3/kg (steam tables, superheated; from memory, and by the second virial coefficient
// of -147 cm3/mol), a third of a per cent less than an ideal gas, by hand 8.314462618·523.15/(18.015268e-3·1e5) = 2.41446.
func TestSteam(t *testing.T) {
	m := transit(t, 0)
	m.Material.Density.Value, m.NozzleTemperature, m.Pressure = 1000, 523.15, 1e5
	m.Path = m.Path[2:]
	each := m.SteamPerVolume(1e-3) // of 1 kg in a cubic metre
	within(t, 2.41446, each, 2e-5)
	within(t, 2.406, each, 0.004*2.406)
	a := assess(t, m)
	within(t, 2414.46*a.Nozzle.Mean, a.Steam, 2e-5*a.Steam)
	m.Pressure = 0 // the standard atmosphere, 101,325 Pa
	within(t, each/1.01325, m.SteamPerVolume(1e-3), 1e-12*each)
}

// A march reuses its memory: the second run of a model allocates nothing and
// gives the same bits.
func TestRunAllocatesNothing(t *testing.T) {
	m, w, s := transit(t, 20), diffusion.NewMarch(), diffusion.DefaultSettings()
	var r diffusion.Result
	require.NoError(t, w.Run(&m.Model, s, &r))
	first := r.Nozzle
	allocations := testing.AllocsPerRun(20, func() {
		if err := w.Run(&m.Model, s, &r); err != nil {
			t.Error(err)
		}
	})
	require.Zero(t, allocations)
	require.Equal(t, first, r.Nozzle)
	fresh := run(t, m)
	require.Equal(t, first, fresh.Nozzle)
}

// Every polymer of the library gives a finite answer between its start and what its
// air allows.
func TestEveryMaterialStaysWithinItsBounds(t *testing.T) {
	library, err := materials.Library()
	require.NoError(t, err)
	for _, p := range library {
		m := transit(t, 0)
		m.Material, m.Limit = p, p.PrintingLimit.Value
		m.Start = p.Sorption.Content(0.5, 296.15)
		m.Path[1].Air.Temperature = p.DryingTemperature.Value
		r := run(t, m)
		low, high := m.Start, m.Start
		for _, z := range r.Zones {
			low, high = math.Min(low, z.Equilibrium), math.Max(high, z.Equilibrium)
		}
		require.GreaterOrEqual(t, r.Nozzle.Mean, low*(1-1e-6), p.ID)
		require.LessOrEqual(t, r.Nozzle.Mean, high*(1+1e-6), p.ID)
		within(t, 0, r.Balance, 1e-11, p.ID)
	}
}

// Air that has to agree with the strand comes to the same wherever the search starts: from nothing, from the answer itself, and from that of a strand
// whose diffusivity is three times as great or as small; more closely than a step is.
func TestRunFrom(t *testing.T) {
	for _, direction := range []diffusion.Direction{diffusion.Against, diffusion.Mixed} {
		for _, flow := range []float64{2e-6, 1e-5, 1e-3} {
			m := transit(t, 20)
			m.Path[1].Air.Direction, m.Path[1].Air.DryFlow = direction, flow
			s := diffusion.DefaultSettings()
			w := diffusion.NewMarch()
			var strict, plain, r diffusion.Result
			finest := s
			finest.Tolerance /= 100
			require.NoError(t, w.Run(&m.Model, s, &plain))
			require.NoError(t, w.Run(&m.Model, finest, &strict))
			steps := math.Abs(plain.Nozzle.Mean - strict.Nozzle.Mean)
			for _, factor := range []float64{1, 3, 1. / 3} {
				other := *m
				other.Material.Diffusivity.ReferenceValue.Value *= factor
				var near diffusion.Result
				require.NoError(t, w.Run(&other.Model, s, &near))
				require.NoError(t, w.RunFrom(&near, &m.Model, s, &r))
				within(t, plain.Nozzle.Mean, r.Nozzle.Mean, 2e-4*plain.Nozzle.Mean+steps, "%v, %g kg/s, from D times %g", direction, flow, factor)
				require.Less(t, math.Abs(r.Balance), 1e-9)
			}
		}
	}
}
