package diffusion

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion/exact"
	"strandry/materials"
	"strandry/materials/humidair"
)

// plainStrand has a constant diffusivity of 1e-12 m²/s and a linear isotherm, and runs through one zone as warm as itself.
func plainStrand(t *testing.T, mass, fourier float64) *Design {
	t.Helper()
	p, err := materials.Lookup("pc")
	require.NoError(t, err)
	given := func(v float64) materials.Value { return materials.Value{Value: v, Low: v, High: v} }
	p.Diffusivity = materials.Diffusivity{
		Reference: 350, ReferenceValue: given(1e-12), Pieces: []materials.Arrhenius{{Activation: given(40e3)}}, Beta: given(0),
		Scatter: given(1), Temperature: materials.Range{Min: 290, Max: 400},
	}
	p.Sorption = materials.Sorption{
		Form: materials.Henry, Saturation: given(0.01), MixingEnthalpy: given(0), Reference: 350,
		ActivityRange: materials.Range{Max: 1}, Temperature: materials.Range{Min: 290, Max: 400},
	}
	const radius, speed = 1e-3, 1e-3
	return &Design{
		Model: Model{
			Radius: radius, Material: p, Speed: speed, Start: 0.004, StartTemperature: 350,
			Path: []Zone{{
				Name: "oven", Length: fourier * radius * radius / 1e-12 * speed, Film: Film{Heat: 30, Mass: mass},
				Air: Air{Temperature: 350, VapourPressure: 0.1 * humidair.SaturationPressure(350)},
			}},
		},
		Target: Target{Limit: 0.001, NozzleTemperature: 520},
	}
}

func estimate(t *testing.T, d *Design) float64 {
	t.Helper()
	var r Result
	require.NoError(t, NewMarch().Run(&d.Model, DefaultSettings(), &r))
	e := d.estimator(&r, 1e-12)
	require.NotNil(t, e)
	return e.content(&d.Model)
}

// Where the film hinders nothing and nothing warms up the estimate is Crank's series (The Mathematics of Diffusion (1975), equation 5.23).
func TestEstimateOfAnOpenSurface(t *testing.T) {
	for _, fourier := range []float64{0.005, 0.02, 0.1, 0.3, 1} {
		got := estimate(t, plainStrand(t, 10, fourier))
		require.InEpsilon(t, exact.ConstantUptake(fourier), (0.004-got)/0.003, 0.02, "%g", fourier)
	}
	for fourier := 1e-6; fourier < 3; fourier *= 1.2 {
		g, per := decayed(fourier)
		g /= per
		require.InEpsilon(t, -math.Log1p(-exact.ConstantUptake(fourier)), g, 0.005, "%g", fourier)
		require.InEpsilon(t, fourier, fourierOf(-3*math.Log1p(-exact.ConstantUptake(fourier)), 3), 0.002, "%g", fourier)
	}
	// The modes alone, in one step.
	modes, sum := newModes(), 0.0
	for _, w := range modes.weight {
		sum += w
	}
	require.InDelta(t, 1, sum, 1e-9)
	for fourier := 5e-7; fourier < 2; fourier *= 1.1 {
		s := estimated{surface: 1, mean: 1}
		s.meet(0, &modes)
		s.diffuse(fourier, &modes)
		require.InEpsilon(t, exact.ConstantUptake(fourier), 1-s.mean, 0.008, "%g", fourier)
	}
}

// Behind a film it is within a few per cent of what is lost by equation 5.49, from a Biot number at which the film alone decides to one at which it hardly matters.
func TestEstimateBehindAFilm(t *testing.T) {
	for _, biot := range []float64{0.1, 1, 10, 100} {
		for _, fourier := range []float64{0.01, 0.1, 0.4} {
			got := estimate(t, plainStrand(t, massOf(t, biot), fourier))
			lost := 1 - exact.RobinMean(biot, fourier)
			require.InEpsilon(t, lost, (0.004-got)/0.003, 0.06, "Bi %g, Fo %g", biot, fourier)
		}
	}
}

// massOf is the film coefficient of mass of the plain strand at a Biot number, k_m R (psat/(R_v T)) (da/dC)/(ρ D) [m/s].
func massOf(t *testing.T, biot float64) float64 {
	d := plainStrand(t, 1, 1)
	return biot * (0.01 * d.Material.Density.Value * 1e-12) * (humidair.VapourConstant * 350) / (d.Radius * humidair.SaturationPressure(350))
}

// A strand that enters cold, is wetted again behind the oven and has lain in a store before: against the march, which knows all that the estimate leaves out.
func TestEstimateOfAWay(t *testing.T) {
	d := plainStrand(t, 0.03, 0.15)
	d.StartTemperature = 300
	room := Zone{Name: "guide", Length: 0.2, Film: Film{Heat: 20, Mass: 0.02}, Air: Air{Temperature: 300, VapourPressure: 1500}}
	d.Path = append(d.Path, room)
	room.Name, room.Length, room.Duration = "store", 0, 3600
	d.Storage = []Zone{room}
	var r Result
	require.NoError(t, NewMarch().Run(&d.Model, DefaultSettings(), &r))
	require.InEpsilon(t, r.Nozzle.Mean, estimate(t, d), 0.03)
	// The diffusivity of a cold strand is less, and air that is dry when it is hot is moist for it: without the time that it takes to warm up more would be lost.
	d.Path = d.Path[:1]
	d.Path[0].Length, d.Path[0].Air.VapourPressure = 0.05, 0.02*humidair.SaturationPressure(350)
	require.NoError(t, NewMarch().Run(&d.Model, DefaultSettings(), &r))
	require.InEpsilon(t, 0.004-r.Nozzle.Mean, 0.004-estimate(t, d), 0.1)
}

// Air that grows moist on its way is taken as the medians have met it: to its end where it is mixed, half-way to it where it runs along.
func TestEstimateInLittleAir(t *testing.T) {
	for _, direction := range []Direction{Mixed, With, Against} {
		d := plainStrand(t, 0.03, 0.2)
		d.Path[0].Air.DryFlow, d.Path[0].Air.Direction = 2e-7, direction
		var r Result
		require.NoError(t, NewMarch().Run(&d.Model, DefaultSettings(), &r))
		require.Greater(t, r.Zones[0].VapourPressure, 1.1*d.Path[0].Air.VapourPressure)
		require.InEpsilon(t, 0.004-r.Nozzle.Mean, 0.004-estimate(t, d), 0.25, direction.String())
	}
}

// The share that the cover of a moving strand leaves of the film, and the growth with content, act on the estimate as on the march.
func TestEstimateChangesAsTheMarchDoes(t *testing.T) {
	for name, change := range map[string]func(d *Design){
		"cover":  func(d *Design) { d.Path[0].Contact = Contact{Covered: 0.5, Arcs: 1, Moves: true} },
		"beta":   func(d *Design) { d.Material.Diffusivity.Beta.Value = 300 },
		"film":   func(d *Design) { d.Path[0].Film.Mass *= 0.3 },
		"warmer": func(d *Design) { d.Path[0].Air.Temperature += 20 },
		"faster": func(d *Design) { d.Speed *= 2 },
	} {
		d := plainStrand(t, massOf(t, 3), 0.1)
		var before, after Result
		w := NewMarch()
		require.NoError(t, w.Run(&d.Model, DefaultSettings(), &before))
		e := d.estimator(&before, 1e-12)
		first := e.content(&d.Model)
		d.Path = append([]Zone(nil), d.Path...)
		change(d)
		require.NoError(t, w.Run(&d.Model, DefaultSettings(), &after))
		if name == "film" { // the coefficients are those of the medians, a factor changes them
			d.Path[0].Film = Film{Heat: d.Path[0].Film.Heat, Mass: d.Path[0].Film.Mass / 0.3, MassFactor: 0.3}
		}
		marched, estimated := math.Log(after.Nozzle.Mean/before.Nozzle.Mean), math.Log(e.content(&d.Model)/first)
		require.InDelta(t, marched, estimated, 0.2*math.Abs(marched), name)
	}
}

// The strand leaves a zone as warm as a lumped one does, ρ c R/2 dT/dt = h (T_air - T), by hand.
func TestEstimateOfTheTemperature(t *testing.T) {
	d := plainStrand(t, 0.03, 1)
	d.Path[0].Length, d.Path[0].Film.HeatFactor = 0.02, 0.5
	capacity := d.Material.Density.Value * d.Material.HeatCapacity.Value
	s, modes := estimated{temperature: 300, surface: 0.004, mean: 0.004}, newModes()
	s.through(&d.Model, &d.Path[0], &stage{heat: 30, mass: 0.03}, &modes)
	require.InDelta(t, 350-50*math.Exp(-0.5*30*2*20/(capacity*d.Radius)), s.temperature, 1e-9)
	s.through(&d.Model, &d.Path[0], &stage{heat: 1e6, mass: 0.03}, &modes)
	require.InDelta(t, 350, s.temperature, 1e-9)
}

// The estimate changes evenly with what is drawn, though it takes some temperatures for alike: a second difference is a rounding of the first.
func TestEstimateIsEven(t *testing.T) {
	d := plainStrand(t, 10, 0.02)
	var r Result
	require.NoError(t, NewMarch().Run(&d.Model, DefaultSettings(), &r))
	of, m := d.Estimate(&r), d.Model
	const step = 0.3
	at := func(k int) float64 {
		m.StartTemperature = 300 + step*float64(k)
		return math.Log(of(&m))
	}
	for k := 1; k < 160; k++ {
		require.InDelta(t, 0, at(k-1)-2*at(k)+at(k+1), 1e-5, "%d", k)
	}
}
