package diffusion

import (
	"math"

	"strandry/diffusion/radial"
	"strandry/materials"
	"strandry/materials/humidair"
)

// surroundings turn the state of one zone into what package radial asks for, on
// a cylinder of radius one: the conductance D_dry/R² and the flux density at the
// surface over R.
type surroundings struct {
	thermal thermal

	radius      float64
	factor      float64 // on the diffusivity
	diffusivity *materials.Diffusivity
	sorption    *materials.Sorption

	transfer float64 // φ k_m / (ρ R) [1/s times m³/kg]
	supply   airSupply

	now         float64 // time at which the values below hold
	temperature float64 // of the surface [K]
	isotherm    materials.Isotherm
	saturation  float64 // saturation pressure at the surface [Pa]
	conductance float64 // at the temperature of the surface [1/s]
}

// airSupply is the vapour pressure of the air as a function of what the strand
// has lost in the zone. humidity ratio = base + gain (q - entered).
type airSupply struct {
	pressure float64 // of the air without limit [Pa]
	limited  bool
	base     float64 // [kg/kg dry air]
	gain     float64 // for each unit of q
	entered  float64 // q at the entry
	total    float64 // atmospheric pressure [Pa]

	// Air that changes in time: pressure is that of the last call of settle.
	begun  float64 // time of the entry [s]
	rate   float64 // 1/time constant [1/s]; zero for none
	last   float64 // pressure after a long time [Pa]
	excess float64 // over it at the entry [Pa]
}

// settle brings air without limit to time t.
func (a *airSupply) settle(t float64) {
	if a.rate > 0 {
		a.pressure = a.last + a.excess*math.Exp(-a.rate*(t-a.begun))
	}
}

// vapour gives the vapour pressure [Pa] and its derivative on q.
func (a *airSupply) vapour(q float64) (pressure, slope float64) {
	if !a.limited {
		return a.pressure, 0
	}
	const ratio = humidair.MassRatio
	w := math.Max(0, a.base+a.gain*(q-a.entered))
	return a.total * w / (ratio + w), a.total * ratio / ((ratio + w) * (ratio + w)) * a.gain
}

// refresh brings the air and the values that depend on the temperature to time t.
func (s *surroundings) refresh(t float64) {
	if t == s.now {
		return
	}
	s.now = t
	s.supply.settle(t)
	temperature := s.thermal.surface(t)
	if temperature == s.temperature {
		return
	}
	s.temperature = temperature
	s.isotherm = s.sorption.At(temperature)
	s.saturation = humidair.SaturationPressure(temperature)
	s.conductance = s.dry(temperature)
}

func (s *surroundings) dry(temperature float64) float64 {
	return s.factor * s.diffusivity.Dry(temperature) / (s.radius * s.radius)
}

// Conductance fills k with D_dry/R² of each gap [1/s].
func (s *surroundings) Conductance(t float64, k []float64) {
	s.refresh(t)
	if s.thermal.uniform(t) {
		for i := range k {
			k[i] = s.conductance
		}
		return
	}
	law := s.diffusivity.Piece(s.temperature)
	for i := range k {
		k[i] = s.near(s.thermal.gap(t, i), law)
	}
}

// near is the conductance at a temperature, near that of the surface, where the law is given, by the
// series of the exponential, to 2e-11: it is asked for at each gap and each stage of a step.
func (s *surroundings) near(temperature float64, law materials.Piece) float64 {
	x := law.Steepness * (temperature - s.temperature) / (temperature * s.temperature)
	if !(x > -0.1 && x < 0.1) || temperature < law.From || temperature >= law.To {
		return s.dry(temperature)
	}
	return s.conductance * (1 + x*(1+x*(1.0/2+x*(1.0/6+x*(1.0/24+x*(1.0/120+x/720))))))
}

// flux is the flux density of content at the surface over R [1/s], with its derivatives. Air whose
// dew point is above the strand's temperature leaves dew on it: what dissolves is then that of air
// saturated at the surface.
func (s *surroundings) flux(t, c, q float64) (j, dc, dq float64) {
	s.refresh(t)
	activity, slope := s.isotherm.Activity(c)
	vapour, rise := s.supply.vapour(q)
	if vapour > s.saturation {
		vapour, rise = s.saturation, 0
	}
	each := s.transfer / (humidair.VapourConstant * s.temperature)
	return each * (activity*s.saturation - vapour), each * slope * s.saturation, -each * rise
}

var _ radial.Conductance = (*surroundings)(nil)
