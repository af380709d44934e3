package diffusion

import (
	"math"
	"slices"

	"strandry/diffusion/radial"
	"strandry/diffusion/simd"
	"strandry/materials"
	"strandry/materials/exponential"
	"strandry/materials/humidair"
)

// surroundings turn the state of one zone into what package radial asks for, on
// a cylinder of radius one: the conductance D_dry/R² and the flux density at the
// surface over R. The companion x of the field is the difference of the strand's temperature from
// that which the air alone would give it at the film coefficient of [thermal] [K], see [answer]: evaporation brings it about, and
// a coefficient that follows the strand.
type surroundings struct {
	thermal thermal
	film    exchange

	radius      float64
	diffusivity *materials.Diffusivity
	sorption    *materials.Sorption
	athermal    bool // the isotherm is the same at all temperatures, and is there already

	perDensity float64 // φ/(ρ R) [m²/kg]
	leaves     float64 // ρ R [kg/m²]: the mass that leaves with a flux of content over R; zero to leave its heat out
	latent     latent
	supply     airSupply

	now, beside float64 // time and companion at which the values below hold
	warmed
	conductance float64   // at the temperature of the surface [1/s]
	excess      []float64 // of the temperature of each gap over that of the surface [K]

	warmer  warmed  // the laws a little warmer, for their derivatives
	warming float64 // how fast the surface warms, but for the companion [K/s]

	gradeAt, gradeBeside float64 // time and companion at which those two hold
}

// warmed are the laws at one temperature of the surface.
type warmed struct {
	temperature float64 // [K]
	isotherm    materials.Isotherm
	saturation  float64 // saturation pressure [Pa]
	heat        float64 // h [W/(m² K)]
	transfer    float64 // φ k_m / (ρ R) [1/s times m³/kg]
	each        float64 // the same for a vapour pressure [1/(s Pa)]
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
	rate   float64 // 1/time constant [1/s]; zero for none
	last   float64 // pressure after a long time [Pa]
	excess float64 // over it at the entry [Pa]
}

// settle brings air without limit to time t.
func (a *airSupply) settle(t float64) {
	if a.rate > 0 {
		a.pressure = a.last + a.excess*exponential.Of(-a.rate*t)
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

// refresh brings the air and the values that depend on the temperature to time t and companion x.
func (s *surroundings) refresh(t, x float64) {
	if t == s.now && x == s.beside {
		return
	}
	s.now, s.beside = t, x
	s.supply.settle(t)
	temperature := s.thermal.surface(t, x)
	if temperature == s.temperature {
		return
	}
	s.warm(&s.warmed, temperature)
	s.conductance = s.dry(temperature)
}

// dissolve takes up the laws of a material.
func (s *surroundings) dissolve(m *materials.Polymer) {
	s.diffusivity, s.sorption = &m.Diffusivity, &m.Sorption
	if s.athermal = m.Sorption.MixingEnthalpy.Value == 0; s.athermal {
		s.warmed.isotherm = m.Sorption.At(m.Sorption.Reference)
		s.warmer.isotherm = s.warmed.isotherm
	}
}

// warm sets what depends on the temperature of the surface [K], but for the conductance.
func (s *surroundings) warm(w *warmed, temperature float64) {
	w.temperature = temperature
	if !s.athermal {
		w.isotherm = s.sorption.At(temperature)
	}
	w.saturation = humidair.SaturationPressure(temperature)
	var mass float64
	w.heat, mass = s.film.at(temperature)
	w.transfer = s.perDensity * mass
	w.each = w.transfer / (humidair.VapourConstant * temperature)
}

// forget makes the next refresh a whole one.
func (s *surroundings) forget() {
	s.now, s.temperature, s.gradeAt = math.NaN(), math.NaN(), math.NaN()
}

// alone tells whether the companion stays at zero: nothing brings it about.
func (s *surroundings) alone() bool { return s.leaves == 0 && s.film.law == nil }

func (s *surroundings) dry(temperature float64) float64 {
	return s.diffusivity.Dry(temperature) / (s.radius * s.radius)
}

// Conductance gives D_dry/R² of each gap [1/s], where the companion stays at zero.
func (s *surroundings) Conductance(t float64, k []float64) (alike bool) { return s.fill(t, 0, k) }

func (s *surroundings) fill(t, x float64, k []float64) (alike bool) {
	s.refresh(t, x)
	if s.thermal.uniform(t) {
		k[0] = s.conductance
		return true
	}
	s.excess = slices.Grow(s.excess[:0], len(k))[:len(k)]
	s.thermal.aboveSurface(t, s.excess)
	s.conduct(k)
	return false
}

// conduct fills k with the conductance [1/s] of each gap by the excess of its temperature over that of the surface: exp(y) times that at the surface with
// y = E/(R T) × excess/(T + excess).
func (s *surroundings) conduct(k []float64) {
	piece := s.diffusivity.Piece(s.temperature)
	law := simd.Law{At: s.temperature, From: piece.From, To: piece.To, Steepness: piece.Steepness / s.temperature, Factor: s.conductance}
	if law.Activated(k, s.excess) {
		return
	}
	for i, excess := range s.excess {
		k[i] = s.dry(s.temperature + excess)
	}
}

// flux is the flux density of content at the surface over R [1/s], with its derivatives, where the companion stays at
// zero.
func (s *surroundings) flux(t, c, q float64) (j, dc, dq float64) {
	s.refresh(t, 0)
	j, dc, dq, _ = s.leaving(&s.warmed, c, q)
	return j, dc, dq
}

// leaving is what leaves the surface by the laws at its temperature, and the activity of the water there. Air whose
// dew point is above the strand's temperature leaves dew on it: what dissolves is then that of air
// saturated at the surface.
func (s *surroundings) leaving(w *warmed, c, q float64) (flux, fluxC, fluxQ, activity float64) {
	activity, slope := w.isotherm.Activity(c)
	vapour, rise := s.supply.vapour(q)
	if vapour > w.saturation {
		vapour, rise = w.saturation, 0
	}
	each := w.each
	return each * (activity*w.saturation - vapour), each * slope * w.saturation, -each * rise, activity
}

// latent is the heat of vaporisation near the temperatures of a zone: a parabola, within 3e-4 of [humidair.LatentHeat]
// up to 40 K from its centre, and 4e-3 at 80 K below it.
type latent struct{ centre, value, slope, bend float64 }

// latentNear makes the parabola from three temperatures about one [K].
func latentNear(centre float64) latent {
	const apart = 40 // [K]
	low, middle, high := humidair.LatentHeat(centre-apart), humidair.LatentHeat(centre), humidair.LatentHeat(centre+apart)
	return latent{centre, middle, (high - low) / (2 * apart), (high - 2*middle + low) / (2 * apart * apart)}
}

// at gives the heat [J/kg] at a temperature [K].
func (l *latent) at(temperature float64) float64 {
	x := temperature - l.centre
	return l.value + x*(l.slope+x*l.bend)
}

// Grades gives the derivatives on time of the logarithm of the conductance and of what leaves, where the companion stays at zero and the section
// has one temperature.
func (s *surroundings) Grades(t, c, q, now float64) (conductance, flux float64, known bool) {
	if !s.thermal.uniform(t) {
		return 0, 0, false
	}
	s.grade(t, 0)
	if s.warming != 0 {
		conductance = s.perKelvin(s.temperature) * s.warming
		later, _, _, _ := s.leaving(&s.warmer, c, q)
		flux = (later - now) * (s.warming / aLittle)
	}
	if a := &s.supply; a.rate > 0 && a.pressure <= s.saturation {
		flux += s.each * a.rate * (a.pressure - a.last)
	}
	return conductance, flux, true
}

var _ radial.Foretold = (*surroundings)(nil)
