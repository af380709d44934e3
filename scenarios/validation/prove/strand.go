package prove

import (
	"math"

	"strandry/diffusion"
	"strandry/materials"
	"strandry/materials/humidair"
)

// The strand of the checks.
const (
	radius    = 0.875e-3 // [m]
	density   = 1150.0   // [kg/m³]
	isotherm  = 0.1      // content at activity one [kg/kg]
	vapourGas = 461.524  // gas constant of water vapour [J/(kg K)], ASHRAE Fundamentals (2017), ch. 1
)

// promise is the tolerance of checks on a whole run: what the default settings
// promise. The references are better than that.
func promise() Tolerance {
	return relative(1e-3, "the promise of the default settings; the reference is better")
}

func sure(x float64) materials.Value {
	return materials.Value{Value: x, Low: x, High: x, Kind: materials.Given}
}

// polymer has a linear isotherm, D = d0 exp(beta C) at 298.15 K with an activation
// energy, and takes on the temperature of its air nearly at once.
func polymer(d0, activation, beta float64) materials.Polymer {
	whole := materials.Range{Min: 200, Max: 700}
	return materials.Polymer{
		ID: "check", Name: "check", Density: sure(density), HeatCapacity: sure(1000), Conductivity: sure(0.25),
		Diffusivity: materials.Diffusivity{
			Reference: 298.15, ReferenceValue: sure(d0), Pieces: []materials.Arrhenius{{Activation: sure(activation)}},
			Beta: sure(beta), Scatter: sure(1), Temperature: whole,
		},
		Sorption: materials.Sorption{
			Form: materials.Henry, Saturation: sure(isotherm), MixingEnthalpy: sure(0), Reference: 298.15,
			ActivityRange: materials.Range{Max: 1}, Temperature: whole,
		},
	}
}

// atOnce is a coefficient of heat that warms the strand within milliseconds.
const atOnce = 1e6 // [W/(m² K)]

// heldFast is a coefficient of mass that holds the surface at equilibrium: Bi is of the
// order of 1e8.
const heldFast = 1e3 // [m/s]

// zone is a time at a temperature [°C] in air whose equilibrium with the strand is a
// content; film is the coefficient in units of the solid [m/s], +Inf to hold the surface.
func zone(celsius, seconds, content, film float64) diffusion.Zone {
	T := celsius + zeroCelsius
	saturation := humidair.SaturationPressure(T)
	mass := heldFast
	if !math.IsInf(film, 1) {
		mass = film * vapourGas * T * isotherm * density / saturation
	}
	return diffusion.Zone{
		Name: "zone", Length: seconds, Film: diffusion.Film{Heat: atOnce, Mass: mass},
		Air: diffusion.Air{Temperature: T, VapourPressure: content / isotherm * saturation},
	}
}

// model is a strand at one metre per second through zones, beginning at the temperature
// of the first.
func model(p materials.Polymer, start float64, path ...diffusion.Zone) *diffusion.Model {
	return &diffusion.Model{
		Radius: radius, Material: p, Speed: 1, Start: start, StartTemperature: path[0].Air.Temperature, Path: path,
		Pressure: 101325,
	}
}

// ran marches a model at the default settings, its section at one temperature that evaporation does not touch.
func ran(m *diffusion.Model) (diffusion.Result, error) {
	if err := m.Check(); err != nil {
		return diffusion.Result{}, err
	}
	return marched(m, diffusion.Lumped, true)
}

// marched is ran for a section whose temperature is found in a certain way, with or without evaporation.
func marched(m *diffusion.Model, heat diffusion.Heat, withoutEvaporation bool) (r diffusion.Result, err error) {
	s := diffusion.DefaultSettings()
	s.Heat, s.WithoutEvaporation = heat, withoutEvaporation
	err = diffusion.NewMarch().Run(m, s, &r)
	return r, err
}

// ask makes the computation of one number of a run.
func ask(m func() *diffusion.Model, number func(*diffusion.Result) float64) func() (float64, error) {
	return func() (float64, error) {
		r, err := ran(m())
		if err != nil {
			return 0, err
		}
		return number(&r), nil
	}
}

func nozzleMean(r *diffusion.Result) float64   { return r.Nozzle.Mean }
func nozzleCentre(r *diffusion.Result) float64 { return r.Nozzle.Centre }
func nozzleSkin(r *diffusion.Result) float64   { return r.Nozzle.Skin }
