package desiccant

import (
	"errors"
	"fmt"
	"math"

	"gonum.org/v1/gonum/integrate/quad"

	"strandry/materials/humidair"
)

// Rate is how much water reaches the bed [kg/s] while it holds the vapour pressure p [Pa]: what the drying sets free and what leaks in, which falls as
// the air inside gets wetter. It must always give the same answer, and none that rises with p. Where it is 0 or less the bed fills no further.
type Rate func(p float64) float64

// Life is how long a bed holds a dew point.
type Life struct {
	Seconds float64 // until it holds it no longer [s]; not told where it never comes to that
	Never   bool    // the water that arrives ends before: the bed holds it for good
	Taken   float64 // water taken up by then [kg]
}

var errNever = errors.New("desiccant: the bed never gets there")

// accuracy is the error of a piece of a time, relative to the whole; halvings are the most that are made.
const (
	accuracy = 1e-12
	halvings = 24
)

// Life returns how long the bed holds a vapour pressure of at most p [Pa] (dew point T: [humidair.SaturationPressure] of it), t = ∫ m dw/rate(p(w)). It is 0 for a bed that
// does not from the start.
func (b *Bed) Life(p float64, rate Rate) (Life, error) {
	if err := b.check(); err != nil {
		return Life{}, err
	}
	w, err := b.Isotherm.Uptake(p, b.Temperature)
	if err != nil {
		return Life{}, err
	}
	w = math.Max(w, b.StartLoad)
	t, err := b.until(w, rate)
	if errors.Is(err, errNever) {
		return Life{Never: true}, nil
	}
	return Life{Seconds: t, Taken: b.part() * (w - b.StartLoad)}, err
}

// MassFor returns the dry mass [kg] of a bed like this one, whose own mass does not count, that holds a vapour pressure of at most p [Pa] for so many seconds. A bed that
// holds it for good whatever its mass needs none: 0. It is an error where no mass is enough, because the bed holds more than p from the start.
func (b *Bed) MassFor(seconds, p float64, rate Rate) (float64, error) {
	if !(seconds >= 0) || math.IsInf(seconds, 0) {
		return 0, fmt.Errorf("desiccant: a bed for %g s: the time must be 0 or more", seconds)
	}
	one := *b
	one.DryMass = 1
	life, err := one.Life(p, rate)
	switch {
	case err != nil:
		return 0, err
	case life.Never:
		return 0, nil
	case life.Seconds == 0:
		return 0, fmt.Errorf("desiccant: %s with %.4g kg/kg of water at %g K holds more than %g Pa from the start, whatever its mass", b.Isotherm.Kind, b.StartLoad, b.Temperature, p)
	}
	return seconds / life.Seconds, nil
}

// Fill returns the bed at n+1 loads, evenly apart, from the start until it holds p [Pa]. n must be from 1 to 10,000. It ends at the
// load before the water that arrives ends, if that comes first.
func (b *Bed) Fill(p float64, rate Rate, n int) ([]State, error) {
	if !(n >= 1 && n <= 10000) {
		return nil, fmt.Errorf("desiccant: a filling in %d steps: from 1 to 10000", n)
	}
	if err := b.check(); err != nil {
		return nil, err
	}
	last, err := b.Isotherm.Uptake(p, b.Temperature)
	if err != nil {
		return nil, err
	}
	last = math.Max(last, b.StartLoad)
	var states []State
	for k := range n + 1 {
		w := b.StartLoad + (last-b.StartLoad)*float64(k)/float64(n)
		s, err := b.timed(w, rate)
		if errors.Is(err, errNever) {
			return states, nil
		}
		if err != nil {
			return nil, err
		}
		states = append(states, s)
	}
	return states, nil
}

// timed is the bed at a load, and when it gets there.
func (b *Bed) timed(w float64, rate Rate) (State, error) {
	t, err := b.until(w, rate)
	if err != nil {
		return State{}, err
	}
	p, err := b.Isotherm.VapourPressure(w, b.Temperature)
	return State{Time: t, Load: w, Pressure: p, DewPoint: humidair.DewPoint(p)}, err
}

// until is the time [s] that it takes to fill the bed to a load, piece by piece between the steps of the isotherm.
func (b *Bed) until(w float64, rate Rate) (float64, error) {
	total, from := 0.0, b.StartLoad
	ends := append(b.Isotherm.law.steps(), w)
	for _, end := range ends {
		to := math.Min(end, w)
		if to <= from {
			continue
		}
		t, err := b.piece(from, to, rate)
		if err != nil {
			return 0, err
		}
		total, from = total+t, to
	}
	return total, nil
}

// piece is ∫ m dw/rate(p(w)) where the pressure has no step. It looks first whether the water that arrives ends on the way.
func (b *Bed) piece(from, to float64, rate Rate) (float64, error) {
	law, T := b.Isotherm.law, b.Temperature
	var failed error
	f := func(w float64) float64 {
		r := rate(law.pressure(w, T))
		switch {
		case math.IsNaN(r) || math.IsInf(r, 0):
			failed = fmt.Errorf("desiccant: water reaches the bed at %g kg/s when it holds %g Pa", r, law.pressure(w, T))
		case r <= 0 && failed == nil:
			failed = errNever
		}
		return b.part() / r
	}
	f(to)
	if failed != nil {
		return 0, failed
	}
	whole := quad.Fixed(f, from, to, 10, nil, 0)
	t := halved(f, from, to, whole, accuracy*whole, halvings)
	return t, failed
}

// halved is the integral of f by Gauss and Legendre on halves of halves, until both halves differ from the whole by less than within [f times x]. The ends are never asked for.
func halved(f func(float64) float64, from, to, whole, within float64, deeper int) float64 {
	middle := from + (to-from)/2
	left, right := quad.Fixed(f, from, middle, 10, nil, 0), quad.Fixed(f, middle, to, 10, nil, 0)
	if deeper == 0 || !(math.Abs(left+right-whole) > within) {
		return left + right
	}
	return halved(f, from, middle, left, within, deeper-1) + halved(f, middle, to, right, within, deeper-1)
}
