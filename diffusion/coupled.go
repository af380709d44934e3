package diffusion

import (
	"math"

	"strandry/diffusion/radial"
	"strandry/materials/humidair"
)

// coupled are surroundings whose companion is alive.
type coupled surroundings

// Conductance gives D_dry/R² of each gap [1/s].
func (s *coupled) Conductance(t, x float64, k []float64) (alike bool) {
	return (*surroundings)(s).fill(t, x, k)
}

// Exchange is the flux density of content over R [1/s], and what its heat does to the strand [K/s]: water that leaves
// takes its heat of vaporisation less the enthalpy of mixing. Where the section is resolved, the surface runs ahead of the
// companion by the net flux of heat, found by one step of Newton's.
func (s *coupled) Exchange(t, c, q, x float64) radial.Response {
	a := (*surroundings)(s)
	a.refresh(t, x)
	r, activity := a.response(&a.warmed, c, q)
	return a.heated(&a.warmed, r, activity, x)
}

// response is what leaves by the laws at a temperature of the surface, but for what its heat does, and the activity of the water there.
func (s *surroundings) response(w *warmed, c, q float64) (r radial.Response, activity float64) {
	r.Flux, r.FluxC, r.FluxQ, activity = s.leaving(w, c, q)
	return r, activity
}

// heated adds to what leaves, at an activity of the water at the surface, what its heat does, by the laws at the temperature of the surface.
func (s *surroundings) heated(w *warmed, r radial.Response, activity, x float64) radial.Response {
	h, push := &s.thermal, s.thermal.answer.push
	perKilogram := 0.0
	if s.leaves != 0 || h.answer.ahead != 0 {
		perKilogram = s.perKilogram(w, activity)
	}
	ahead, latent := h.answer.ahead, s.leaves*perKilogram
	if ahead == 0 {
		r.Load, r.LoadC, r.LoadQ = -push*latent*r.Flux, -push*latent*r.FluxC, -push*latent*r.FluxQ
		return r
	}
	net := s.warms(w, x) - latent*r.Flux
	// By Clausius and Clapeyron the pressure over the strand rises with its heat of evaporation, and with it what the strand gives; what it
	// takes from the air does not.
	gives := w.each * max(0, activity) * w.saturation
	per := perKilogram / (humidair.VapourConstant * w.temperature * w.temperature)
	steep := 1 / (1 + ahead*(w.heat+latent*gives*per))
	warmer := ahead * net * steep
	y := per * warmer
	more := y * (1 + y*(1.0/2+y*(1.0/6+y/24))) // exp(y) - 1 for the few kelvins that it can be
	r.Flux += gives * more
	r.Load = -push * (w.heat*warmer + latent*r.Flux)
	r.LoadC, r.LoadQ = -push*latent*r.FluxC*steep, -push*latent*r.FluxQ*steep
	carried := 1 - ahead*latent*gives*per*steep
	r.FluxC, r.FluxQ = r.FluxC*carried, r.FluxQ*carried
	return r
}

// Drift is what the air does to the companion [K/s]: h (T_air - T) less what the thermal model counts already.
func (s *coupled) Drift(t, x float64) float64 {
	a := (*surroundings)(s)
	a.refresh(t, x)
	return a.thermal.answer.push * a.warms(&a.warmed, x)
}

// warms is the heat flux from the air by the laws at a temperature of the surface, less what the thermal model counts already [W/m²].
func (s *surroundings) warms(w *warmed, x float64) float64 {
	h := &s.thermal
	return w.heat*(h.air-w.temperature) - h.film*(h.air-(w.temperature-x))
}

// perKilogram is the heat that water takes along as it leaves [J/kg].
func (s *surroundings) perKilogram(w *warmed, activity float64) float64 {
	mixing := s.sorption.MixingEnthalpy.Value * w.isotherm.MixingShare(activity) / humidair.MolarMass
	return s.latent.at(w.temperature) - mixing
}

// ConductanceGrades fills byTime and byX with the derivatives of the logarithm of each conductance, E/(R T²) times those of the temperature
// [1/s, 1/K].
func (s *coupled) ConductanceGrades(t, x float64, byTime, byX []float64) (alike bool) {
	a := (*surroundings)(s)
	a.grade(t, x)
	if a.thermal.uniform(t) {
		byX[0] = a.perKelvin(a.temperature)
		byTime[0] = byX[0] * a.warming
		return true
	}
	a.thermal.warmingAbove(t, byTime)
	a.thermal.aboveSurface(t, byX)
	for i, excess := range byX {
		byX[i] = a.perKelvin(a.temperature + excess)
		byTime[i] = byX[i] * (a.warming + byTime[i])
	}
	return false
}

// perKelvin is the derivative of the logarithm of the diffusivity on the temperature [1/K].
func (s *surroundings) perKelvin(temperature float64) float64 {
	return s.diffusivity.Piece(temperature).Steepness / (temperature * temperature)
}

// aLittle is the difference of temperature over which the laws are differentiated [K]: they bend by some 5 % a kelvin, so that the derivative is off by a
// few millionths of itself.
const aLittle = 1e-4

// grade readies the laws a little warmer, and how fast the surface warms.
func (s *surroundings) grade(t, x float64) {
	s.refresh(t, x)
	if t == s.gradeAt && x == s.gradeBeside {
		return
	}
	s.gradeAt, s.gradeBeside = t, x
	s.warm(&s.warmer, s.temperature+aLittle)
	s.warming = s.thermal.surfaceWarming(t, s.temperature-x)
}

// ExchangeGrades gives the derivatives of Exchange on time and on the companion.
func (s *coupled) ExchangeGrades(t, c, q, x float64, now radial.Response) (byTime, byX radial.Response) {
	a := (*surroundings)(s)
	a.grade(t, x)
	r, activity := a.response(&a.warmer, c, q)
	later := a.heated(&a.warmer, r, activity, x+aLittle)
	byX.Flux, byX.Load = (later.Flux-now.Flux)/aLittle, (later.Load-now.Load)/aLittle
	if a.warming != 0 { // the same, but that what the thermal model counts goes along
		later = a.heated(&a.warmer, r, activity, x)
		byTime.Flux, byTime.Load = (later.Flux-now.Flux)*(a.warming/aLittle), (later.Load-now.Load)*(a.warming/aLittle)
	}
	if a.supply.rate > 0 {
		dp := 1e-6 * (math.Abs(a.supply.excess) + a.supply.pressure)
		kept := a.supply.pressure
		a.supply.pressure += dp
		r, activity = a.response(&a.warmed, c, q)
		later = a.heated(&a.warmed, r, activity, x)
		a.supply.pressure = kept
		change := -a.supply.rate * (kept - a.supply.last) / dp
		byTime.Flux += (later.Flux - now.Flux) * change
		byTime.Load += (later.Load - now.Load) * change
	}
	return byTime, byX
}

// DriftGrades gives the derivatives of Drift on time and on the companion.
func (s *coupled) DriftGrades(t, x float64) (byTime, byX float64) {
	a := (*surroundings)(s)
	a.grade(t, x)
	each := a.thermal.answer.push / aLittle
	now := a.warms(&a.warmed, x)
	byX = each * (a.warms(&a.warmer, x+aLittle) - now)
	byTime = each * (a.warms(&a.warmer, x) - now) * a.warming
	return byTime, byX
}

// Steady tells that the air has come to rest, and the strand but for its companion.
func (s *coupled) Steady(t float64) bool {
	a := (*surroundings)(s)
	return a.supply.rate == 0 && a.thermal.even(t)
}

// Scale is the difference of temperature that weighs as much as the whole content [K]: it moves a diffusivity by half.
func (s *coupled) Scale() float64 { return 10 }

var _ radial.Graded = (*coupled)(nil)
