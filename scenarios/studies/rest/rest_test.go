package rest_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion"
	"strandry/diffusion/exact"
	"strandry/diffusion/root"
	"strandry/materials"
	"strandry/materials/humidair"
	"strandry/scenarios/studies/rest"
)

// linear is a dry strand of a material with a straight isotherm and a diffusivity that does
// not depend on the content, in air of 23 °C and the given activity, with a film that
// hinders nothing.
func linear(t testing.TB, activity float64) *rest.State {
	t.Helper()
	p, err := materials.Lookup("pc")
	require.NoError(t, err)
	require.Equal(t, materials.Henry, p.Sorption.Form)
	require.Zero(t, p.Diffusivity.Beta.Value)
	const room = 296.15
	return &rest.State{
		Design: diffusion.Design{Target: diffusion.Target{Limit: p.MouldingLimit.Value, NozzleTemperature: 550}, Model: diffusion.Model{
			Radius: 0.875e-3, Material: p, StartTemperature: room,
			Pressure: humidair.StandardPressure,
		}},
		Air:  diffusion.Air{Temperature: room, VapourPressure: humidair.VapourPressureAt(activity, room)},
		Film: diffusion.Film{Heat: 20, Mass: 100},
	}
}

// isothermal settings leave out the heat of evaporation, of which the exact solutions know nothing.
func isothermal() diffusion.Settings {
	s := diffusion.DefaultSettings()
	s.WithoutEvaporation = true
	return s
}

// The uptake of a cylinder whose surface is held at a value: the short-time series
// (4/√π) √Fo − Fo − Fo^{3/2}/(3√π), Crank, The Mathematics of Diffusion (1975), eq. 5.25
// (number from memory), whose next term, −Fo²/8, is below 1e-4 of the uptake for Fo < 0.03; the march is
// held to its own claim of 0.1 % in content, which is twice that in time.
func TestHoursOfTheShortTimeSeries(t *testing.T) {
	w := diffusion.NewMarch()
	for _, activity := range []float64{0.3, 0.5, 0.9} {
		s := linear(t, activity)
		share := s.Limit / s.Equilibrium()
		series := func(fo float64) (float64, error) {
			return 4*math.Sqrt(fo/math.Pi) - fo - fo*math.Sqrt(fo)/(3*math.SqrtPi) - share, nil
		}
		fo, err := root.Find(series, root.Bracket{A: 0, B: 0.2, AtA: -share, AtB: 1}, root.Tolerance{Width: 1e-9})
		require.NoError(t, err)
		require.Less(t, fo, 0.03)
		want := fo * s.Model.Radius * s.Model.Radius / s.Model.Material.Diffusivity.Dry(296.15)
		for _, factor := range []float64{1, 3, 1.0 / 3} {
			quick := *s
			quick.Model.Material.Diffusivity.ReferenceValue.Value *= factor
			got, err := quick.Wets(w, isothermal())
			require.NoError(t, err)
			require.False(t, got.Never)
			require.InEpsilon(t, want/factor, got.Seconds, 2e-3, "activity %g, factor %g", activity, factor)
			require.Less(t, got.NumericalError, 5e-3*got.Seconds)
		}
		thick := *s
		thick.Model.Radius *= 2
		got, err := thick.Wets(w, isothermal())
		require.NoError(t, err)
		require.InEpsilon(t, 4*want, got.Seconds, 2e-3, "the Fourier number D t/R² alone counts")
	}
}

// The band of a time is that of the content over the slope of the uptake, here that of the short-time series. That of the
// content is five thirds of what refining changes (safety 1.25, order two, spacing halved: Roache 1998) and three hundred-thousandths
// of it for what refining does not show.
func TestBandOfTheTime(t *testing.T) {
	s, n, w := linear(t, 0.5), diffusion.CoarseSettings(), diffusion.NewMarch()
	n.WithoutEvaporation = true
	got, err := s.Wets(w, n)
	require.NoError(t, err)
	var coarse, fine diffusion.Result
	require.NoError(t, s.After(w, got.Seconds, n, &coarse))
	require.NoError(t, s.After(w, got.Seconds, n.Refined(), &fine))
	mean := coarse.Nozzle.Mean
	off := 5./3*math.Abs(mean-fine.Nozzle.Mean) + s.Model.LeastError(n)*mean + math.Abs(mean-s.Limit)
	pace := s.Model.Material.Diffusivity.Dry(296.15) / (s.Model.Radius * s.Model.Radius) // Fourier number for each second
	fo := pace * got.Seconds
	slope := s.Equilibrium() * pace * (2/math.Sqrt(math.Pi*fo) - 1 - math.Sqrt(fo/math.Pi)/2)
	require.InEpsilon(t, off/slope, got.NumericalError, 0.03, "the slope is taken over a twentieth of the time")
}

// Drying to a hundredth: the whole series, Crank, eq. 5.23 (number from memory).
func TestDryingTime(t *testing.T) {
	s := linear(t, 0)
	s.Model.Start = 100 * s.Limit
	got, err := s.Dries(diffusion.NewMarch(), isothermal())
	require.NoError(t, err)
	fo := got.Seconds * s.Model.Material.Diffusivity.Dry(296.15) / (s.Model.Radius * s.Model.Radius)
	require.InDelta(t, 0.99, exact.ConstantUptake(fo), 2e-5)
	var r diffusion.Result
	require.NoError(t, s.After(diffusion.NewMarch(), got.Seconds, isothermal(), &r))
	require.InEpsilon(t, s.Limit, r.Nozzle.Mean, 1e-4)
}

// A cold strand in hot air comes to what the air's temperature makes of its vapour: 260 Pa at 110 °C are 260/143376
// (steam tables), and polycarbonate holds 0.30 % exp(5000/R (1/296.15 - 1/383.15)) of that, by hand 8.6270e-6.
func TestEquilibriumIsThatOfTheAir(t *testing.T) {
	s := linear(t, 0.5)
	s.Air = diffusion.Air{Temperature: 383.15, VapourPressure: 260}
	require.InEpsilon(t, 8.6270e-6, s.Equilibrium(), 1e-3)
}

// The limit is never passed where the equilibrium lies on its own side of it, which is the
// isotherm's own limit of humidity.
func TestNever(t *testing.T) {
	s := linear(t, 0.5)
	edge := s.Model.Material.Sorption.Activity(s.Limit, 296.15)
	for share, never := range map[float64]bool{0.99: true, 1.02: false} {
		s.Air.VapourPressure = humidair.VapourPressureAt(share*edge, 296.15)
		got, err := s.Wets(diffusion.NewMarch(), diffusion.DefaultSettings())
		require.NoError(t, err)
		require.Equal(t, never, got.Never, "%g", share)
	}
	s.Model.Start = 2 * s.Limit // wet, in air that leaves it wet
	s.Air.VapourPressure = 2000
	got, err := s.Dries(diffusion.NewMarch(), isothermal())
	require.NoError(t, err)
	require.Equal(t, rest.Time{Never: true}, got)
	got, err = s.Wets(diffusion.NewMarch(), diffusion.DefaultSettings())
	require.NoError(t, err)
	require.Equal(t, rest.Time{Already: true}, got)
}

// A strand with a wet skin dries until its water has reached the core, and then takes up water: a limit a little above
// the least is met for a short while, one below it never, and one above the start as the rest begins.
func TestWetSkinDips(t *testing.T) {
	p, err := materials.Lookup("pla")
	require.NoError(t, err)
	const room = 296.15
	still := diffusion.Film{Heat: 10, Mass: 0.008}
	s := rest.State{
		Design: diffusion.Design{Target: diffusion.Target{Limit: 1e-3, NozzleTemperature: 483}, Model: diffusion.Model{
			Radius: 0.875e-3, Material: p, StartTemperature: room,
			Pressure: humidair.StandardPressure,
			Storage: []diffusion.Zone{{
				Name: "room", Duration: 600, Film: still,
				Air: diffusion.Air{Temperature: room, VapourPressure: humidair.VapourPressureAt(0.8, room)},
			}},
		}},
		Air:  diffusion.Air{Temperature: room, VapourPressure: humidair.VapourPressureAt(0.3, room)},
		Film: still,
	}
	w := diffusion.NewMarch()
	mean := func(seconds float64) float64 {
		var r diffusion.Result
		require.NoError(t, s.After(w, seconds, diffusion.DefaultSettings(), &r))
		return r.Nozzle.Mean
	}
	least, at := math.Inf(1), 0.0
	for seconds := 100.0; seconds < 3000; seconds *= 1.01 {
		if m := mean(seconds); m < least {
			least, at = m, seconds
		}
	}
	require.Less(t, least, s.Equilibrium())
	dries := func(limit float64) rest.Time {
		s.Limit = limit
		got, err := s.Dries(w, diffusion.DefaultSettings())
		require.NoError(t, err)
		return got
	}
	got := dries(1.0002 * least)
	require.InEpsilon(t, at, got.Seconds, 0.15)
	require.Less(t, got.Seconds, at)
	require.InEpsilon(t, s.Limit, mean(got.Seconds), 1e-5)
	require.True(t, dries(0.999*least).Never)
	require.True(t, dries(1.001*mean(1e-6)).Already)
	got, err = s.Wets(w, diffusion.DefaultSettings())
	require.NoError(t, err)
	require.Greater(t, got.Seconds, at, "from the core on")
}

func TestUnsoundStates(t *testing.T) {
	s := linear(t, 0.5)
	s.Model.Radius = 1
	_, err := s.Wets(diffusion.NewMarch(), diffusion.DefaultSettings())
	require.ErrorContains(t, err, "radius")
}

func ExampleState_Wets() {
	p, err := materials.Lookup("pla")
	if err != nil {
		fmt.Println(err)
		return
	}
	const room = 296.15 // [K]
	s := rest.State{
		Design: diffusion.Design{Target: diffusion.Target{Limit: p.MouldingLimit.Value, NozzleTemperature: 483}, Model: diffusion.Model{
			Radius: 0.875e-3, Material: p, StartTemperature: room,
			Pressure: humidair.StandardPressure,
		}},
		Air:  diffusion.Air{Temperature: room, VapourPressure: humidair.VapourPressureAt(0.5, room)},
		Film: diffusion.Film{Heat: 20, Mass: 0.01},
	}
	t, err := s.Wets(diffusion.NewMarch(), diffusion.DefaultSettings())
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("dry PLA in a room at 50 %%: %.0f min\n", t.Seconds/60)
	// Output: dry PLA in a room at 50 %: 3 min
}

// certain takes all doubt from a strand but the scatter of its diffusivity.
func certain(s *rest.State, scatter float64) {
	sure := func(v *materials.Value) { v.Low, v.High = v.Value, v.Value }
	p := &s.Model.Material
	p.Diffusivity.Scatter.Value = scatter
	p.Diffusivity.Pieces = append([]materials.Arrhenius(nil), p.Diffusivity.Pieces...)
	for i := range p.Diffusivity.Pieces {
		sure(&p.Diffusivity.Pieces[i].Activation)
	}
	sure(&p.Diffusivity.Beta)
	sure(&p.Sorption.Saturation)
	sure(&p.Sorption.MixingEnthalpy)
	s.LimitStated = true
}

// Where the diffusivity alone is in doubt, times go with its inverse: nine times in ten a strand is dry after the time at the medians times the
// scatter's factor to the power of 1.281552/1.644854 (Abramowitz & Stegun, table 26.1), and one that wets is within its limit until that time over it.
func TestNineInTenByTheDiffusivity(t *testing.T) {
	w := diffusion.NewMarch()
	factor := math.Pow(2.5, 1.281552/1.644854)
	wetting := linear(t, 0.5)
	certain(wetting, 2.5)
	median, err := wetting.Wets(w, isothermal())
	require.NoError(t, err)
	until, err := wetting.StaysReliably(w, median, isothermal())
	require.NoError(t, err)
	require.False(t, until.Never || until.Already)
	require.InEpsilon(t, median.Seconds/factor, until.Seconds, 0.05)
	require.InDelta(t, 0.9, until.Probability, 0.02)

	drying := linear(t, 0.001)
	certain(drying, 2.5)
	drying.Model.Start = 10 * drying.Limit
	median, err = drying.Dries(w, isothermal())
	require.NoError(t, err)
	from, err := drying.DriesReliably(w, median, nil, isothermal())
	require.NoError(t, err)
	require.InEpsilon(t, median.Seconds*factor, from.Seconds, 0.05)
}

// What is dry for ever at any draw stays so, what the air keeps wet does not get dry.
func TestNineInTenOfWhatDoesNotPass(t *testing.T) {
	w := diffusion.NewMarch()
	safe := linear(t, 0.001)
	certain(safe, 2.5)
	median, err := safe.Wets(w, isothermal())
	require.NoError(t, err)
	require.True(t, median.Never)
	until, err := safe.StaysReliably(w, median, isothermal())
	require.NoError(t, err)
	require.True(t, until.Never)
	damp := linear(t, 0.9)
	certain(damp, 2.5)
	damp.Model.Start = 2 * damp.Limit
	from, err := damp.DriesReliably(w, rest.Time{Never: true}, nil, isothermal())
	require.NoError(t, err)
	require.True(t, from.Never)
}
