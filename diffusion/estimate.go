package diffusion

import (
	"math"

	"strandry/diffusion/simd"
	"strandry/materials"
	"strandry/materials/exponential"
	"strandry/materials/humidair"
)

// estimator gives the content at the nozzle by closed forms, in a few microseconds instead of a march of some hundreds. It is good to ten or thirty per cent,
// and, what matters, it changes with what is drawn as the content does: a surrogate has to learn only what is left. It takes the strand's
// temperature for that of a lumped strand without evaporation, the diffusivity for that at a content between mean and surface, and the air for
// that which the medians have met.
type estimator struct {
	modes  modes
	stages []stage // of the storage, then of the path
	least  float64 // content that is not told from less [kg/kg dry]
}

// stage is what the march at the medians tells of a zone.
type stage struct {
	heat, mass float64 // film coefficients without the factors on them [W/(m² K)], [m/s]
	rise       float64 // of the vapour pressure above that which is supplied, in the mean [Pa]
}

// Estimate gives the content at the nozzle [kg/kg dry] of models that have the zones of this one, from the result of this one: by closed forms, good to ten or
// thirty per cent, in a few microseconds. The longer or shorter the other's way through air that is limited, the worse.
func (m *Model) Estimate(r *Result) func(other *Model) float64 {
	const least = 1e-12
	if e := m.estimator(r, least); e != nil {
		return e.content
	}
	return func(*Model) float64 { return math.NaN() }
}

// estimator makes one from the result of a model at the medians.
func (m *Model) estimator(r *Result, least float64) *estimator {
	e := &estimator{modes: newModes(), least: least}
	temperature := m.StartTemperature
	for _, z := range m.Storage {
		z.Film.HeatFactor, z.Film.MassFactor = 0, 0
		c, err := filmAt(&z, m, temperature)
		if err != nil {
			return nil
		}
		temperature = z.Air.Temperature
		e.stages = append(e.stages, stage{heat: c.Heat, mass: c.Mass})
	}
	for i := range m.Path {
		z, found := &m.Path[i], &r.Zones[i]
		s := stage{heat: found.Film.Heat / factor(z.Film.HeatFactor), mass: found.Film.Mass / factor(z.Film.MassFactor)}
		_, entering := m.Inflow(z)
		if s.rise = found.VapourPressure - entering; z.Air.Direction != Mixed {
			s.rise /= 2
		}
		e.stages = append(e.stages, s)
	}
	return e
}

// content at the nozzle [kg/kg dry] of a model that has the zones of the one at the medians.
func (e *estimator) content(m *Model) float64 {
	s := e.begins(m)
	stages := e.stages[len(m.Storage):]
	for i := range m.Path {
		s.through(m, &m.Path[i], &stages[i], &e.modes)
	}
	if s.mean > e.least {
		return s.mean
	}
	return e.least // no number too
}

// given is the content that a model gives off in each zone of its path [kg/kg dry].
func (e *estimator) given(m *Model) []float64 {
	given, s := make([]float64, len(m.Path)), e.begins(m)
	stages := e.stages[len(m.Storage):]
	for i := range m.Path {
		before := s.mean
		s.through(m, &m.Path[i], &stages[i], &e.modes)
		given[i] = before - s.mean
	}
	return given
}

// begins is the strand after its storage.
func (e *estimator) begins(m *Model) estimated {
	s := estimated{temperature: m.StartTemperature, surface: m.Start, mean: m.Start}
	for i := range m.Storage {
		s.through(m, &m.Storage[i], &e.stages[i], &e.modes)
	}
	return s
}

// estimated is a strand on its way.
type estimated struct {
	temperature   float64 // [K]
	surface, mean float64 // content [kg/kg dry]
	amounts       [modeCount]float64
}

// A stay in a zone is cut into parts, each of which ends after so many times as long as the one before: it begins with what warms up, and with a steep skin.
const (
	parts     = 5
	lengthens = 3
	shortest  = lengthens * lengthens * lengthens * lengthens // the stay over the first part, of five
)

// through takes the strand through a zone.
func (s *estimated) through(m *Model, z *Zone, told *stage, modes *modes) {
	p, air, residence := &m.Material, z.Air.Temperature, z.Residence(m.Speed)
	warms := 2 * told.heat * factor(z.Film.HeatFactor) / (p.Density.Value * p.HeatCapacity.Value * m.Radius)
	film := told.mass * factor(z.Film.MassFactor) * z.Contact.film() / (humidair.VapourConstant * p.Density.Value)
	_, vapour := m.Inflow(z)
	vapour += told.rise
	colder := s.temperature - air
	const even = 0.5                                    // [K]
	changes, at := math.Abs(colder) > even, math.Inf(1) // how far from that of the air the temperature is that now is of
	var now sorbing
	if !changes {
		now.warm(p, air)
	}
	steep := 0.0                      // of the isotherm, between surface and mean
	from, gone, left := 0.0, 0.0, 1.0 // time, Fourier number without a film, share of the difference of temperature
	to := residence / shortest
	for k := range parts {
		if k == parts-1 {
			to = residence
		}
		if changes {
			const same = 0.05 // [K]
			later := exponential.Of(-warms * to)
			if off := colder * (left + later) / 2; math.Abs(off-at) > same {
				now.warm(p, air+off)
				at = off
			}
			left = later
		}
		activity := min(vapour/now.saturation, 1)
		s.meet(now.isotherm.Content(activity), modes)
		if k == 0 && s.mean != s.surface {
			above, _ := now.isotherm.Activity(max(0, s.mean))
			steep = (above - activity) / (s.mean - s.surface)
		}
		diffusivity := now.dry * s.grown(p)
		before := gone
		gone += diffusivity * (to - from) / (m.Radius * m.Radius)
		fourier := gone - before
		if s.mean != s.surface {
			biot := film * now.saturation / now.temperature * steep * m.Radius / diffusivity
			fourier = hindered(gone, biot) - hindered(before, biot)
		}
		s.diffuse(fourier, modes)
		from, to = to, to*lengthens
	}
	s.temperature = air + colder*left
	if !changes {
		s.temperature = air
	}
}

// grown is how much larger the diffusivity is at the content that decides than in the dry polymer.
func (s *estimated) grown(p *materials.Polymer) float64 {
	const inwards = 0.6 // from surface to mean
	return exponential.Of(p.Diffusivity.Beta.Value * max(0, s.surface+inwards*(s.mean-s.surface)))
}

// sorbing is the strand's material at a temperature.
type sorbing struct {
	temperature float64 // [K]
	saturation  float64 // of vapour [Pa]
	dry         float64 // diffusivity [m²/s]
	isotherm    materials.Isotherm
}

func (n *sorbing) warm(p *materials.Polymer, temperature float64) {
	n.temperature, n.saturation = temperature, humidair.SaturationPressure(temperature)
	n.dry, n.isotherm = p.Diffusivity.Dry(temperature), p.Sorption.At(temperature)
}

// hindered is the Fourier number at which a strand whose surface is at equilibrium has lost as much as one behind a film has at a given one, by
// the Biot number of mass. The logarithms of what is left with either resistance alone, g and 2 Bi Fo, are added as resistances in a row are:
// true of a thin skin, of a strand without a gradient, and of the slowest mode.
func hindered(fourier, biot float64) float64 {
	if !(biot > 0) || fourier == 0 {
		return fourier
	}
	open, per := decayed(fourier)
	film := 2 * biot * fourier
	return fourierOf(open*film, open+per*film)
}

// decayed is the logarithm g of one over what is left, as a mean, of the step at the surface of a cylinder at a Fourier number, as a fraction: within 0.5 % of Crank's
// equation 5.23 from 1e-6 on.
func decayed(fourier float64) (g, per float64) {
	s := math.Sqrt(fourier)
	return skin * s * (1 + s*(1.852082+s*(3.332190+s*3.344920*slowest/skin))), 1 + s*(1.081414+s*3.344920)
}

// fourierOf is the other way round, from the fraction g/per, within 0.2 %.
func fourierOf(g, per float64) float64 {
	square, both, whole := g*g, g*per, per*per
	return square * (whole + 0.662456*both + 0.598265*square) /
		(per * (skin*skin*whole*per + g*(6.553805*whole+5.241419*both+slowest*0.598265*square)))
}

// skin is 4/√π, of the root law of a thin skin; slowest the square of the first zero of J0.
const skin, slowest = 2.2567583, 5.7831860

// modeCount is the number of modes of an estimate.
const modeCount = 8

// modes of a cylinder whose surface is at equilibrium: after a step of one at the surface the mean is off by
// Σ 4/j² exp(-j² Fo), over the zeros j of J0 (Crank, The Mathematics of Diffusion (1975), equation 5.23). Two of them are as they are, and six were fitted to stand
// for all the others: what is taken up is within 0.8 % of the series from a Fourier number of 5e-7 on.
type modes struct {
	weight, rate [modeCount]float64
}

func newModes() modes {
	return modes{
		weight: [...]float64{0.691660, 0.131271, 0.099385, 0.050021, 0.017958, 0.006306, 0.002218, 0.001181},
		rate:   [...]float64{5.783186, 30.47126, 102.8364, 686.2625, 5512.389, 44868.40, 366940.6, 3707424},
	}
}

// meet brings the surface to another content.
func (s *estimated) meet(surface float64, m *modes) {
	step := s.surface - surface
	for n, w := range m.weight {
		s.amounts[n] += step * w
	}
	s.surface = surface
}

// diffuse lets a Fourier number pass.
func (s *estimated) diffuse(fourier float64, m *modes) {
	s.mean = s.surface + simd.Decay(&s.amounts, &m.rate, fourier)
}
