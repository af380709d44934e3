package diffusion

import (
	"math"

	"strandry/diffusion/exact"
	"strandry/diffusion/film"
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

// evenWithin is the difference of temperature that counts as none [K]: it moves a
// diffusivity by less than a part in ten million.
const evenWithin = 1e-6

// longSince is the number of time constants after which a lumped strand is as warm as
// its air: of a hundred kelvins two millionths of one are left.
const longSince = 18

// thermal is the temperature of the strand in one zone and what it hands on. Radii are
// relative, times count from the entry into the zone.
type thermal struct {
	handed handed // from zone to zone

	air      float64 // [K]
	film     float64 // coefficient [W/(m² K)]
	biot     float64
	resolved bool

	rate  float64 // lumped: 1/time constant [1/s]
	start float64 // lumped: temperature at entry [K]

	modes  int
	root   [mostModes]float64
	decay  [mostModes]float64 // [1/s]
	amount [mostModes]float64 // at entry [K]
	rim    [mostModes]float64 // eigenfunction at the surface
	atGap  [mostModes][]float64

	answer answer

	now     float64 // time at which present holds
	present [mostModes]float64
	alive   int  // modes that are not over at that time; slower ones come first
	settled bool // the section has one temperature
}

// answer is how the section answers to a change of the heat flux at its surface: its mean temperature, which is the
// companion x of the field, changes by the flux, and the surface runs ahead of the mean as in a parabola over the
// radius. The parabola stands within some (R²/15) ρ c/k, less than a second for a usual strand.
type answer struct {
	push  float64 // of the mean, by a heat flux into the surface, 2/(ρ c R) [K m²/J]
	ahead float64 // of the surface over the mean, R/(4k) [K m²/W]; zero where the section is lumped
}

// handed is a profile of temperature: even is that of the whole section [K], or the air's, to which the
// eigenfunctions of its zone are added.
type handed struct {
	even   float64
	beside float64 // the companion [K]
	zone   surface // that the strand comes from
	film   float64 // the coefficient that it counted with [W/(m² K)]
	biot   float64
	modes  int
	root   [mostModes]float64
	rim    [mostModes]float64
	amount [mostModes]float64 // [K]
}

// rest sets the whole section to one temperature.
func (h *thermal) rest(temperature float64) {
	p := &h.handed
	p.even, p.modes, p.beside, p.zone = temperature, 0, 0, surface{}
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
	p := &h.handed
	if p.zone == zone {
		return p.film, true
	}
	p.zone = zone
	p.even, p.beside = p.even+p.beside, 0
	return 0, false
}

// mean is the area mean of the profile last handed on [K].
func (h *thermal) mean() float64 {
	p := &h.handed
	return sectionMean(p.even, p.biot, p.root[:p.modes], p.rim[:], p.amount[:]) + p.beside
}

// sectionMean is the area mean of a profile [K]: an eigenfunction J0(ζ x) has the mean 2 J1(ζ)/ζ,
// which is 2 Bi J0(ζ)/ζ².
func sectionMean(even, biot float64, root, rim, amount []float64) float64 {
	sum := even
	for n, z := range root {
		sum += amount[n] * 2 * biot * rim[n] / (z * z)
	}
	return sum
}

// overlap is ∫ x J0(a x) J0(b x) dx from 0 to 1, a being mode n of the profile and b a root of
// another Biot number with its eigenfunction at the surface: Lommel's integral
// (Abramowitz & Stegun, 11.3.29, number from memory) with ζ J1(ζ) = Bi J0(ζ).
func (p *handed) overlap(n int, b, rim, biot float64) float64 {
	a := p.root[n]
	const same = 1e-9
	if math.Abs(a-b) <= same*b {
		return 0.5 * p.rim[n] * p.rim[n] * (1 + p.biot*p.biot/(a*a))
	}
	return (p.biot - biot) * p.rim[n] * rim / ((a - b) * (a + b))
}

// enter begins a zone with air of the given temperature: film
// coefficient [W/(m² K)], conductivity [W/(m K)] and heat capacity by volume
// [J/(m³ K)] set the Biot number and the pace.
func (h *thermal) enter(air, film, radius, conductivity, capacity float64, s Settings, gaps []float64) error {
	start := h.mean() - h.handed.beside
	h.air, h.film, h.now = air, film, math.NaN()
	h.biot, h.answer = film*radius/conductivity, answer{push: 2 / (capacity * radius)}
	h.resolved = s.Heat == Resolved || s.Heat == ByBiot && h.biot > lumpBelow
	if !h.resolved {
		h.start, h.rate = start, 2*film/(capacity*radius)
		return nil
	}
	h.modes = modesFor(h.biot, s.Resolution)
	roots, err := exact.RobinRoots(h.biot, h.modes)
	if err != nil {
		return err
	}
	pace := conductivity / (capacity * radius * radius)
	for n, z := range roots {
		rim := math.J0(z)
		h.root[n], h.decay[n], h.rim[n] = z, pace*z*z, rim
		sum := (h.handed.even - air) * h.biot * rim / (z * z)
		for k := range h.handed.modes {
			sum += h.handed.amount[k] * h.handed.overlap(k, z, rim, h.biot)
		}
		h.amount[n] = sum / (0.5 * rim * rim * (1 + h.biot*h.biot/(z*z)))
		h.atGap[n] = h.atGap[n][:0]
		for _, x := range gaps {
			h.atGap[n] = append(h.atGap[n], math.J0(z*x))
		}
	}
	h.answer.ahead = radius / (4 * conductivity)
	return nil
}

// leave hands the profile at time t, with the companion x [K], to the next zone.
func (h *thermal) leave(t, x float64) {
	p := &h.handed
	p.beside, p.film = x, h.film
	if !h.resolved {
		p.even, p.modes = h.lumped(t), 0
		return
	}
	h.at(t)
	p.even, p.biot, p.modes = h.air, h.biot, h.alive
	copy(p.root[:h.alive], h.root[:])
	copy(p.rim[:h.alive], h.rim[:])
	copy(p.amount[:h.alive], h.present[:])
}

func (h *thermal) lumped(t float64) float64 {
	if passed := h.rate * t; passed < longSince {
		return h.air + (h.start-h.air)*math.Exp(-passed)
	}
	return h.air
}

// at sets the amounts of the eigenfunctions at time t.
func (h *thermal) at(t float64) {
	if t == h.now {
		return
	}
	h.now = t
	spread := 0.0
	h.alive = h.modes
	for n := range h.modes {
		const over = 40 // e⁻⁴⁰ of any amount is nothing
		passed := h.decay[n] * t
		if passed > over {
			h.alive = n
			break
		}
		h.present[n] = h.amount[n] * math.Exp(-passed)
		spread += math.Abs(h.present[n])
	}
	h.settled = spread < evenWithin
}

// meanAt is the area mean at time t and companion x [K].
func (h *thermal) meanAt(t, x float64) float64 {
	if !h.resolved {
		return h.lumped(t) + x
	}
	h.at(t)
	return sectionMean(h.air, h.biot, h.root[:h.alive], h.rim[:], h.present[:]) + x
}

// uniform tells whether the section has one temperature at time t.
func (h *thermal) uniform(t float64) bool {
	if !h.resolved {
		return true
	}
	h.at(t)
	return h.settled
}

// surface is the temperature of the surface at time t and companion x [K].
func (h *thermal) surface(t, x float64) float64 {
	if !h.resolved {
		return h.lumped(t) + x
	}
	h.at(t)
	sum := h.air + x
	for n := range h.alive {
		sum += h.present[n] * h.rim[n]
	}
	return sum
}

// gap is the temperature in gap i of the moisture grid at time t and companion x [K].
func (h *thermal) gap(t, x float64, i int) float64 {
	h.at(t)
	sum := h.air + x
	for n := range h.alive {
		sum += h.present[n] * h.atGap[n][i]
	}
	return sum
}

// even tells whether the temperature does not change any more after time t.
func (h *thermal) even(t float64) bool {
	if !h.resolved {
		return h.rate*t >= longSince || math.Abs(h.start-h.air) < evenWithin
	}
	h.at(t)
	return h.settled
}
