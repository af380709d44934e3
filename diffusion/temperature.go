package diffusion

import (
	"math"

	"strandry/diffusion/exact"
	"strandry/diffusion/film"
	"strandry/materials/exponential"
)

// mostModes bounds the eigenfunctions of a resolved temperature.
const mostModes = 128

// modesFor is the number of eigenfunctions for a Biot number. What n of them leave out of the
// temperature of the surface just after the entry is about 2 Bi/(π² n), and is over by a Fourier
// number of 1/(π n)²: its effect falls with n³/Bi. It grows with the resolution, so that a
// refined run tells how much is left out.
func modesFor(biot, resolution float64) int {
	const each, fewest = 4, 8
	return int(max(fewest, min(math.Ceil(each*resolution*math.Cbrt(biot)), mostModes)))
}

// lumpBelow is the Biot number up to which one temperature stands for the
// section: Incropera & DeWitt, Fundamentals of Heat and Mass Transfer, section
// 5.2 (number from memory).
const lumpBelow = 0.1

// evenWithin is the difference of temperature that counts as none [K], for each unit of the tolerance of a step: at a usual
// tolerance it moves a diffusivity by less than a part in ten million.
const evenWithin = 1e-3

// longSince is the number of time constants after which a lumped strand is as warm as
// its air: of a hundred kelvins two millionths of one are left.
const longSince = 18

// thermal is the temperature of the strand in one zone and what it hands on. Radii are
// relative, times count from the entry into the zone.
type thermal struct {
	entry temperatures // as the last zone has left it, or storage

	air      float64 // [K]
	film     float64 // coefficient [W/(m² K)]
	biot     float64
	resolved bool
	within   float64 // a difference of temperature that counts as none [K]

	rate  float64 // lumped: 1/time constant [1/s]
	start float64 // lumped: temperature at entry [K]

	modes  exact.Modes
	decay  []float64   // [1/s]
	amount []float64   // at entry [K]
	over   []float64   // time after which no more of a mode is left, nor of a faster one [s]
	inside [][]float64 // of each mode, in the gaps of the moisture grid over that at the surface

	answer answer

	now     float64   // time at which present holds
	present []float64 // amounts of the modes that are left then [K]; slower ones come first
	rising  []float64 // their change [K/s]
}

// answer is how the section answers to a change of the heat flux at its surface: its mean temperature, which is the
// companion x of the field, changes by the flux, and the surface runs ahead of the mean as in a parabola over the
// radius. The parabola stands within some (R²/15) ρ c/k, less than a second for a usual strand.
type answer struct {
	push  float64 // of the mean, by a heat flux into the surface, 2/(ρ c R) [K m²/J]
	ahead float64 // of the surface over the mean, R/(4k) [K m²/W]; zero where the section is lumped
}

// temperatures are a profile along the radius: even is that of the whole section [K], or the air's, to which the
// eigenfunctions of its zone are added.
type temperatures struct {
	even   float64
	beside float64 // the companion [K]
	zone   surface // that the strand comes from
	film   float64 // the coefficient that it counted with [W/(m² K)]
	modes  exact.Modes
	amount []float64 // of each mode [K]
}

// take makes p the same as another.
func (p *temperatures) take(o *temperatures) {
	p.even, p.beside, p.zone, p.film = o.even, o.beside, o.zone, o.film
	p.modes.Take(&o.modes, len(o.amount))
	p.amount = append(p.amount[:0], o.amount...)
}

// rest sets the whole section to one temperature.
func (h *thermal) rest(temperature float64) {
	p := &h.entry
	p.even, p.amount, p.beside, p.zone = temperature, p.amount[:0], 0, surface{}
}

// surface is what the film of a zone depends on, but for the strand.
type surface struct {
	conditions     film.Conditions
	heat, mass     float64 // given [W/(m² K)], [m/s]
	heatBy, massBy float64 // factors on what is not
}

// goesOn tells whether a zone goes on from the one before, as a part of a zone that was cut does, and with which film
// coefficient [W/(m² K)]. The companion then goes on too; into another zone it goes as a part of the profile.
func (h *thermal) goesOn(zone surface) (film float64, ok bool) {
	p := &h.entry
	if p.zone == zone {
		return p.film, true
	}
	p.zone = zone
	p.even, p.beside = p.even+p.beside, 0
	return 0, false
}

// mean is the area mean of the profile last handed on [K].
func (h *thermal) mean() float64 {
	p := &h.entry
	return sectionMean(p.even, &p.modes, p.amount) + p.beside
}

// sectionMean is the area mean of a profile [K].
func sectionMean(even float64, modes *exact.Modes, amount []float64) float64 {
	for n, a := range amount {
		even += a * modes.Mean(n)
	}
	return even
}

// enter begins a zone with air of the given temperature: film
// coefficient [W/(m² K)], conductivity [W/(m K)] and heat capacity by volume
// [J/(m³ K)] set the Biot number and how fast the strand heats.
func (h *thermal) enter(air, film, radius, conductivity, capacity float64, s Settings, gaps []float64) error {
	start := h.mean() - h.entry.beside
	h.air, h.film, h.now, h.within = air, film, math.NaN(), evenWithin*s.Tolerance
	h.biot, h.answer = film*radius/conductivity, answer{push: 2 / (capacity * radius)}
	h.resolved = s.Heat == Resolved || s.Heat == ByBiot && h.biot > lumpBelow
	h.over, h.present = h.over[:0], h.present[:0]
	if !h.resolved {
		h.start, h.rate = start, 2*film/(capacity*radius)
		return nil
	}
	if err := h.modes.Find(h.biot, modesFor(h.biot, s.Resolution)); err != nil {
		return err
	}
	h.expand(conductivity/(capacity*radius*radius), gaps)
	h.answer.ahead = radius / (4 * conductivity)
	return nil
}

// expand finds the amounts of the modes at the entry, how long each lasts where the Fourier number rises at a rate [1/s], and what each is in the gaps.
func (h *thermal) expand(rate float64, gaps []float64) {
	count := len(h.modes.Root)
	h.decay, h.amount, h.over = h.decay[:0], h.amount[:0], h.over[:0]
	for len(h.inside) < count {
		h.inside = append(h.inside, nil)
	}
	for n, z := range h.modes.Root {
		amount := h.modes.Amount(n, h.entry.even-h.air, &h.entry.modes, h.entry.amount)
		// A tenth of what counts, as there may be a few of them.
		lasts := math.Log(max(1, math.Abs(amount)*10/h.within)) / (rate * z * z)
		h.decay, h.amount, h.over = append(h.decay, rate*z*z), append(h.amount, amount), append(h.over, lasts)
		h.inside[n] = h.modes.Inside(n, gaps, h.inside[n][:0])
	}
	if cap(h.present) < count {
		h.present = make([]float64, 0, count)
	}
	for n := count - 2; n >= 0; n-- {
		h.over[n] = max(h.over[n], h.over[n+1])
	}
}

// leave hands the profile at time t, with the companion x [K], to the next zone.
func (h *thermal) leave(t, x float64) {
	p := &h.entry
	p.beside, p.film, p.even = x, h.film, h.air
	if !h.resolved {
		p.even, p.amount = h.lumped(t), p.amount[:0]
		return
	}
	h.at(t)
	p.modes.Take(&h.modes, len(h.present))
	p.amount = append(p.amount[:0], h.present...)
}

func (h *thermal) lumped(t float64) float64 {
	if passed := h.rate * t; passed < longSince {
		return h.air + (h.start-h.air)*exponential.Of(-passed)
	}
	return h.air
}

// at sets the amounts of the eigenfunctions at time t.
func (h *thermal) at(t float64) {
	if t == h.now {
		return
	}
	h.now = t
	count := 0
	for count < len(h.over) && t < h.over[count] {
		count++
	}
	h.present = h.present[:count]
	for n, decay := range h.decay[:count] {
		h.present[n] = h.amount[n] * exponential.Of(-decay*t)
	}
}

// meanAt is the area mean at time t and companion x [K].
func (h *thermal) meanAt(t, x float64) float64 {
	if !h.resolved {
		return h.lumped(t) + x
	}
	h.at(t)
	return sectionMean(h.air, &h.modes, h.present) + x
}

// uniform tells whether the section has one temperature at time t.
func (h *thermal) uniform(t float64) bool {
	if !h.resolved {
		return true
	}
	h.at(t)
	return len(h.present) == 0
}

// surface is the temperature of the surface at time t and companion x [K].
func (h *thermal) surface(t, x float64) float64 {
	if !h.resolved {
		return h.lumped(t) + x
	}
	h.at(t)
	sum := h.air + x
	for n, a := range h.present {
		sum += a * h.modes.Surface[n]
	}
	return sum
}

// aboveSurface fills the excess of the temperature in each gap of the moisture grid over that of the surface at time t [K].
func (h *thermal) aboveSurface(t float64, excess []float64) {
	h.at(t)
	h.insideOf(h.present, excess)
}

// insideOf fills, for each gap, what modes of the given amounts are there over what they are at the surface.
func (h *thermal) insideOf(amounts, excess []float64) {
	n := len(amounts) & 1
	if n == 0 {
		clear(excess)
	} else {
		a, one := amounts[0], h.inside[0][:len(excess)]
		for i, v := range one {
			excess[i] = a * v
		}
	}
	for ; n < len(amounts); n += 2 {
		a, b := amounts[n], amounts[n+1]
		one, two := h.inside[n][:len(excess)], h.inside[n+1][:len(excess)]
		for i := range excess {
			excess[i] += a*one[i] + b*two[i]
		}
	}
}

// surfaceWarming is how fast the surface warms at time t, when it would have a temperature [K] but for the companion [K/s].
func (h *thermal) surfaceWarming(t, surface float64) (rise float64) {
	if !h.resolved {
		return h.rate * (h.air - surface)
	}
	h.at(t)
	for n, a := range h.present {
		rise -= h.decay[n] * a * h.modes.Surface[n]
	}
	return rise
}

// warmingAbove fills how much faster than the surface each gap of the moisture grid warms at time t [K/s].
func (h *thermal) warmingAbove(t float64, faster []float64) {
	h.at(t)
	h.rising = h.rising[:0]
	for n, a := range h.present {
		h.rising = append(h.rising, -h.decay[n]*a)
	}
	h.insideOf(h.rising, faster)
}

// even tells whether the temperature does not change any more after time t.
func (h *thermal) even(t float64) bool {
	if !h.resolved {
		return h.rate*t >= longSince || math.Abs(h.start-h.air) < h.within
	}
	return h.uniform(t)
}
