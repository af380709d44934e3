package diffusion

import (
	"math"

	"strandry/diffusion/exact"
)

// Sizes of the resolved temperature: eigenfunctions kept, and places along the
// radius at which a profile is handed from zone to zone.
const (
	modes  = 8
	places = 24
)

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

// thermal is the temperature of the strand in one zone and the profile that it
// hands on. Radii are relative, times count from the entry into the zone.
type thermal struct {
	air      float64 // [K]
	biot     float64
	resolved bool

	rate  float64 // lumped: 1/time constant [1/s]
	start float64 // lumped: temperature at entry [K]

	root    [modes]float64
	decay   [modes]float64 // [1/s]
	amount  [modes]float64 // at entry [K]
	rim     [modes]float64 // eigenfunction at the surface
	atPlace [modes][places]float64
	atGap   [modes][]float64 // at the gaps of the moisture grid

	now     float64 // time at which present holds
	present [modes]float64
	settled bool // the section has one temperature

	place, share [places]float64 // Gauss points on 0..1 and their weights
	profile      [places]float64 // temperature at the places [K]
}

// rest sets the whole section to one temperature.
func (h *thermal) rest(temperature float64) {
	for i := range h.profile {
		h.profile[i] = temperature
	}
}

// enter begins a zone with air of the given temperature: film
// coefficient [W/(m² K)], conductivity [W/(m K)] and heat capacity by volume
// [J/(m³ K)] set the Biot number and the pace.
func (h *thermal) enter(air, film, radius, conductivity, capacity float64, model Heat, gaps []float64) error {
	start := h.mean()
	h.air, h.now = air, math.NaN()
	h.biot = film * radius / conductivity
	h.resolved = model == Resolved || model == ByBiot && h.biot > lumpBelow
	if !h.resolved {
		h.start, h.rate = start, 2*film/(capacity*radius)
		return nil
	}
	roots, err := exact.RobinRoots(h.biot, modes)
	if err != nil {
		return err
	}
	pace := conductivity / (capacity * radius * radius)
	for n, z := range roots {
		h.root[n], h.decay[n], h.rim[n] = z, pace*z*z, math.J0(z)
		norm := 0.5 * h.rim[n] * h.rim[n] * (1 + h.biot*h.biot/(z*z))
		sum := 0.0
		for i, x := range h.place {
			h.atPlace[n][i] = math.J0(z * x)
			sum += h.share[i] * x * (h.profile[i] - air) * h.atPlace[n][i]
		}
		h.amount[n] = sum / norm
		h.atGap[n] = h.atGap[n][:0]
		for _, x := range gaps {
			h.atGap[n] = append(h.atGap[n], math.J0(z*x))
		}
	}
	return nil
}

// leave hands the profile at time t to the next zone.
func (h *thermal) leave(t float64) {
	if !h.resolved {
		h.rest(h.lumped(t))
		return
	}
	h.at(t)
	for i := range h.profile {
		sum := h.air
		for n := range modes {
			sum += h.present[n] * h.atPlace[n][i]
		}
		h.profile[i] = sum
	}
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
	for n := range modes {
		h.present[n] = h.amount[n] * math.Exp(-h.decay[n]*t)
		spread += math.Abs(h.present[n])
	}
	h.settled = spread < evenWithin
}

// meanAt is the area mean at time t [K]: an eigenfunction J0(ζ x) has the mean
// 2 J1(ζ)/ζ.
func (h *thermal) meanAt(t float64) float64 {
	if !h.resolved {
		return h.lumped(t)
	}
	h.at(t)
	sum := h.air
	for n, z := range h.root {
		sum += h.present[n] * 2 * math.J1(z) / z
	}
	return sum
}

// uniform tells whether the section has one temperature at the time of the last call
// of surface.
func (h *thermal) uniform() bool { return !h.resolved || h.settled }

// surface is the temperature of the surface at time t [K].
func (h *thermal) surface(t float64) float64 {
	if !h.resolved {
		return h.lumped(t)
	}
	h.at(t)
	sum := h.air
	for n := range modes {
		sum += h.present[n] * h.rim[n]
	}
	return sum
}

// gap is the temperature in gap i of the moisture grid at time t [K].
func (h *thermal) gap(t float64, i int) float64 {
	h.at(t)
	sum := h.air
	for n := range modes {
		sum += h.present[n] * h.atGap[n][i]
	}
	return sum
}

// mean is the area mean of the profile last handed on [K].
func (h *thermal) mean() float64 {
	sum := 0.0
	for i, x := range h.place {
		sum += 2 * h.share[i] * x * h.profile[i]
	}
	return sum
}
