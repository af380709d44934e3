package keeps

import (
	"math"

	"gonum.org/v1/gonum/integrate/quad"

	"strandry/diffusion/root"
	"strandry/materials"
)

// cycle is the air of a store whose door is opened at even intervals.
type cycle struct {
	isotherm materials.Isotherm
	beta     float64 // [kg dry/kg]
	room     float64 // water activity with the door open
	store    float64 // and closed for long
	open     float64 // duration of the open door [s]
}

const day = 86400 // [s]

// inside is the content that a strand comes to with openings every interval [s] and the
// time constant [s] [kg/kg dry].
func (c *cycle) inside(interval, constant float64) float64 {
	base := c.isotherm.Content(c.store)
	open := math.Min(c.open, interval)
	closed := interval - open
	swell := func(a float64) float64 { // of exp(β (C - base)) or, without β, of C
		content := c.isotherm.Content(a) - base
		if c.beta == 0 {
			return content
		}
		return math.Expm1(c.beta * content)
	}
	sum := swell(c.room) * open
	if closed > 0 {
		// In the logarithm of the excess, where the air spends the time constant on each unit; in pieces
		// that grow, for the exponential of the content peaks at the beginning.
		const points, faded, first = 20, 40, 0.05
		span := math.Min(closed/constant, faded)
		for from, to := 0.0, first; from < span; from, to = to, 2*to {
			sum += constant * quad.Fixed(func(u float64) float64 {
				return swell(c.store + (c.room-c.store)*math.Exp(-u))
			}, from, math.Min(to, span), points, quad.Legendre{}, 0)
		}
	}
	mean := sum / interval
	if c.beta == 0 {
		return base + mean
	}
	return base + math.Log1p(mean)/c.beta
}

// bound is a number that may be none or unbounded.
type bound func(x float64) float64

// largest finds the largest x between low and high at which f, rising, is not above the limit; 0
// where even low is, and infinity where high is not.
func largest(f bound, limit, low, high float64) float64 {
	a, b := math.Log(low), math.Log(high)
	height := func(u float64) (float64, error) { return f(math.Exp(u)) - limit, nil }
	atA, _ := height(a)
	atB, _ := height(b)
	switch {
	case atA > 0:
		return 0
	case atB <= 0:
		return math.Inf(1)
	}
	u, err := root.Find(height, root.Bracket{A: a, B: b, AtA: atA, AtB: atB}, root.Tolerance{Width: 1e-9})
	if err != nil {
		return 0
	}
	return math.Exp(u)
}

// Between these openings a day, and time constants [s], an answer is sought.
const (
	rarest   = 1e-3
	shortest = 1e-1
	slowest  = 100 * day
)

// bearable is the largest number of openings a day that keeps the strand within the limit.
func (c *cycle) bearable(constant, limit float64) float64 {
	often := day / (c.open * 1.000001)
	return largest(func(n float64) float64 { return c.inside(day/n, constant) }, limit, rarest, often)
}

// slowestReturn is the largest time constant [s] that keeps it within the limit at so many
// openings a day.
func (c *cycle) slowestReturn(perDay, limit float64) float64 {
	return largest(func(tau float64) float64 { return c.inside(day/perDay, tau) }, limit, shortest, slowest)
}
