package diffusion_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion"
	"strandry/diffusion/film"
	"strandry/materials/humidair"
)

// blown is a dry strand at a temperature [K] through dry air [K] across it, for some seconds, to be lumped.
func blown(t testing.TB, entered, air, seconds float64) (*diffusion.Design, diffusion.Settings) {
	m := transit(t, 0)
	m.Start, m.StartTemperature = 0, entered
	m.Path = []diffusion.Zone{{
		Name: "tunnel", Length: seconds * m.Speed, Film: diffusion.Film{Flow: film.Across, AirSpeed: 0.05, Emissivity: 0.9},
		Air: diffusion.Air{Temperature: air},
	}}
	s := diffusion.DefaultSettings()
	s.Heat = diffusion.Lumped
	return m, s
}

// follows is the temperature of a strand after a time, by Runge and Kutta's method in sixty steps on
// dT/dt = 2 h(T) (T_air - T)/(ρ c R), with h from the correlations at each temperature.
func follows(t *testing.T, m *diffusion.Design, z *diffusion.Zone, entered, seconds float64) float64 {
	rate := func(temperature float64) float64 {
		c, err := film.At(film.Conditions{
			Flow: z.Film.Flow, Diameter: 2 * m.Radius, StrandTemperature: temperature, AirTemperature: z.Air.Temperature,
			VapourPressure: z.Air.VapourPressure, Pressure: m.Pressure, AirSpeed: z.Film.AirSpeed, Emissivity: z.Film.Emissivity, HeatedLength: z.Length,
		})
		require.NoError(t, err)
		return 2 * (c.Heat + c.Radiation) * (z.Air.Temperature - temperature) / (1130 * 1700 * m.Radius)
	}
	const steps = 60
	h, x := seconds/steps, entered
	for range steps {
		a := rate(x)
		b := rate(x + h/2*a)
		c := rate(x + h/2*b)
		x += h / 6 * (a + 2*b + 2*c + rate(x+h*c))
	}
	return x
}

// The film follows the strand as it warms and cools, in one zone, in pieces, and from one air to another; one march after another, since a
// march remembers the laws of the films it has met.
func TestFilmFollowsTheStrand(t *testing.T) {
	w := diffusion.NewMarch()
	for _, c := range []struct{ entered, air float64 }{{296.15, 296.15}, {225, 296.15}, {383.15, 296.15}, {296.15, 423.15}, {340, 423.15}} {
		m, s := blown(t, c.entered, c.air, 30)
		want := follows(t, m, &m.Path[0], c.entered, 30)
		var r diffusion.Result
		require.NoError(t, w.Run(&m.Model, s, &r))
		within(t, want, r.Nozzle.Temperature, 0.01, "from %g into %g K", c.entered, c.air)

		piece := m.Path[0]
		piece.Length /= 5
		m.Path = nil
		for i := range 5 {
			piece.Name = fmt.Sprint(i)
			m.Path = append(m.Path, piece)
		}
		require.NoError(t, w.Run(&m.Model, s, &r))
		within(t, want, r.Nozzle.Temperature, 0.01, "from %g into %g K in pieces", c.entered, c.air)

		for i := range m.Path { // so much air that it does not matter, but has to be sought
			m.Path[i].Air.DryFlow, m.Path[i].Air.Direction = 10, diffusion.Against
		}
		require.NoError(t, w.Run(&m.Model, s, &r))
		within(t, want, r.Nozzle.Temperature, 0.01, "from %g into %g K in pieces, against the air", c.entered, c.air)

		m.Path = m.Path[:2]
		m.Path[1].Air.Temperature = 350
		want = follows(t, m, &m.Path[1], follows(t, m, &m.Path[0], c.entered, 6), 6)
		require.NoError(t, w.Run(&m.Model, s, &r))
		within(t, want, r.Nozzle.Temperature, 0.01, "from %g into %g K and on", c.entered, c.air)
	}
}

// The Fourier number is the integral of D/R² over the temperatures that Runge and Kutta's method gives, by Simpson's rule.
func TestFourierOfAStrandThatItsFilmFollows(t *testing.T) {
	for _, entered := range []float64{296.15, 423.15} {
		m, s := blown(t, entered, 370, 30)
		trace, err := diffusion.NewMarch().Trace(&m.Model, s)
		require.NoError(t, err)
		whole, err := diffusion.NewMarch().Assess(m, s)
		require.NoError(t, err)
		const pieces = 60
		sum, x := 0.0, entered
		pace := func(temperature float64) float64 {
			return 4e-13 * math.Exp(-55e3/8.314462618*(1/temperature-1/296.15)) / (m.Radius * m.Radius)
		}
		for range pieces {
			middle := follows(t, m, &m.Path[0], x, 15.0/pieces)
			end := follows(t, m, &m.Path[0], middle, 15.0/pieces)
			sum += 30.0 / pieces / 6 * (pace(x) + 4*pace(middle) + pace(end))
			x = end
		}
		within(t, 1, trace.Result.Zones[0].Fourier/sum, 1e-4)
		within(t, 1, whole.Zones[0].Fourier/sum, 1e-4)
	}
}

// A coefficient that is given stands in for that of the correlation: the strand warms by the exponential of h, and, where
// the film alone holds the water back, loses by that of k_m, see TestCoverAtTheFilm. What is told of the film
// is its state with the strand half-way to the air.
func TestOneCoefficientGiven(t *testing.T) {
	m, s := blown(t, 296.15, 383.15, 20)
	middle := follows(t, m, &m.Path[0], 296.15, 20)
	m.Path[0].Film.Heat = 60
	r := diffusion.Result{}
	w := diffusion.NewMarch()
	require.NoError(t, w.Run(&m.Model, s, &r))
	want := 383.15 - 87*math.Exp(-20*2*60/(1130*1700*m.Radius))
	within(t, want, r.Nozzle.Temperature, 1e-3)
	require.Greater(t, want, middle+5)

	pieces, still := *m, s
	pieces.Path = []diffusion.Zone{m.Path[0], m.Path[0], m.Path[0]}
	for i := range pieces.Path {
		pieces.Path[i].Length /= 3
		pieces.Path[i].Film.Mass = 0.05
	}
	still.WithoutEvaporation = true
	require.NoError(t, w.Run(&pieces.Model, still, &r))
	within(t, want, r.Nozzle.Temperature, 1e-3)
	require.NoError(t, w.Run(&m.Model, s, &r))

	conditions := film.Conditions{
		Flow: film.Across, Diameter: 2 * m.Radius, StrandTemperature: (296.15 + 383.15) / 2, AirTemperature: 383.15, Pressure: m.Pressure,
		AirSpeed: 0.05, Emissivity: 0.9,
	}
	told, err := film.At(conditions)
	require.NoError(t, err)
	within(t, told.Mass, r.Zones[0].Film.Mass, 1e-9)
	m.Path[0].Film.Heat = 0
	require.NoError(t, w.Run(&m.Model, s, &r))
	within(t, told.Heat+told.Radiation, r.Zones[0].Film.Heat, 1e-9)

	m = covered(t, diffusion.Contact{}, 0, 1)
	m.Material.Diffusivity.ReferenceValue.Value = 1e-7
	const mass, seconds = 1e-4, 20000.0
	m.Path[0].Film, m.Path[0].Length = diffusion.Film{Mass: mass, Flow: film.Across, AirSpeed: 0.5}, seconds*m.Speed
	s.WithoutEvaporation = true
	require.NoError(t, w.Run(&m.Model, s, &r))
	decay := 2 * mass * seconds * 2810.4 / (1130 * 0.875e-3 * 0.095 * 461.5 * 296.15)
	within(t, decay, math.Log(m.Start/r.Nozzle.Mean), 1.5e-3*decay)
}

// A wet strand that stands at its wet bulb is cooler than its air by what is told as its cooling, but for the heat of
// vaporisation, which is told for the air: some 2 % less at 50 °C than at the strand.
func TestCoolingOfAWetStrand(t *testing.T) {
	m := sponge(t)
	m.Path = []diffusion.Zone{{
		Name: "tunnel", Length: 0.2, Film: diffusion.Film{Heat: 40, Mass: 0.04}, Air: diffusion.Air{Temperature: 323.15, VapourPressure: 1000},
	}}
	m.StartTemperature = run(t, m).Nozzle.Temperature
	r := run(t, m)
	require.Greater(t, r.Nozzle.Mean, 0.85*m.Start, "the strand stays wet")
	below := 323.15 - r.Nozzle.Temperature
	require.Greater(t, below, 15.0)
	within(t, humidair.LatentHeat(323.15)/humidair.LatentHeat(r.Nozzle.Temperature), r.Zones[0].Cooling/below, 0.01)
}
