package checked

import (
	"math"

	"strandry/diffusion"
	"strandry/materials/humidair"
	"strandry/scenarios"
)

// pair are two masses of one piece of strand, each rounded to the step of a scale [kg].
type pair struct {
	wetter, drier, step float64
	display             display
}

// display is which displays a probability counts.
type display int

const (
	// shown is this one: both masses are even within their step.
	shown display = iota
	// orMore is this one and those with a greater difference, orLess with a less one. Where a mass lies within its step is chance: a true difference of 3.3 steps shows as
	// 3 seven times in ten, else as 4; so it shows as n or less if it is no more than n and a share, even between 0 and 1, of a step.
	orMore
	orLess
)

// below is the probability that the true masses have a ratio of up to this: that the wetter less ratio times the drier is no more than nothing,
// which is a sum of two that are even within their steps.
func (p pair) below(ratio float64) float64 {
	if ratio <= 0 {
		return 0
	}
	over := ratio*p.drier - p.wetter
	switch p.display {
	case orMore:
		return evenSum(over+p.step/2, p.step/2, 0)
	case orLess:
		return evenSum(over-p.step/2, p.step/2, 0)
	}
	return evenSum(over, p.step/2, ratio*p.step/2)
}

// evenSum is the probability that the sum of two numbers, each even between plus and minus its half-width, is no more than x; the first half-width is above zero, the
// other may be nothing.
func evenSum(x, one, other float64) float64 {
	both, top := one+other, math.Abs(one-other)
	switch {
	case x <= -both:
		return 0
	case x < -top:
		return (x + both) * (x + both) / (8 * one * other)
	case x <= top:
		return 0.5 + x/(2*max(one, other))
	case x < both:
		return 1 - (both-x)*(both-x)/(8*one*other)
	}
	return 1
}

// ends are the least and the greatest ratio that the true masses can have.
func (p pair) ends() (least, most float64) {
	half := p.step / 2
	return (p.wetter - half) / (p.drier + half), (p.wetter + half) / (p.drier - half)
}

// reading is a quantity as it was weighed.
type reading struct {
	pair
	lost         bool    // as a share of the mass of the wetter; else a content
	least, spare float64 // what drying out left: no less, and how much more it may be [kg/kg dry]
}

// notMore is the probability that the quantity is no more than x.
func (r *reading) notMore(x float64) float64 {
	switch {
	case r.lost && x >= 1:
		return 1
	case r.lost:
		return r.below(1 / (1 - x))
	}
	const places = 32 // of what drying out left
	if r.spare == 0 {
		return r.below((1 + x) / (1 + r.least))
	}
	sum := 0.0
	for i := range places {
		left := r.least + r.spare*(float64(i)+0.5)/places
		sum += r.below((1 + x) / (1 + left))
	}
	return sum / places
}

// of is the quantity that a ratio of masses stands for if drying out left so much.
func (r *reading) of(ratio, left float64) float64 {
	if r.lost {
		return 1 - 1/ratio
	}
	return ratio*(1+left) - 1
}

// at is below what the quantity lies with a probability.
func (r *reading) at(share float64) float64 {
	const halvings = 60
	least, most := r.ends()
	low, high := r.of(least, r.least), r.of(most, r.least+r.spare)
	for range halvings {
		if middle := (low + high) / 2; r.notMore(middle) < share {
			low = middle
		} else {
			high = middle
		}
	}
	return (low + high) / 2
}

// estimate is the middle with the 10 and 90 % points. A content is no less than nothing, whatever the rounding.
func (r *reading) estimate() Estimate {
	const half = 0.5
	e := Estimate{Value: r.at(half), Between: diffusion.Between{Low: r.at(diffusion.OneInTen), High: r.at(diffusion.NineInTen)}}
	if !r.lost {
		e.Value, e.Low, e.High = max(0, e.Value), max(0, e.Low), max(0, e.High)
	}
	return e
}

// oven is what a dried-out strand may hold [kg/kg dry]: in equilibrium with air of the room at its usual highest drying temperature [K].
func oven(s *scenarios.Scenario) (content, temperature float64) {
	p := &s.Design.Material
	temperature = p.HottestDrying()
	activity := min(1, s.Room.VapourPressure/humidair.SaturationPressure(temperature))
	return p.Sorption.Content(activity, temperature), temperature
}
