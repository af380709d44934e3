package radial

import (
	"errors"
	"fmt"
	"math"
)

// Settings are the numerical choices of a march.
type Settings struct {
	Scheme    Scheme
	Tolerance float64 // error allowed in a step, relative to the root mean square of c
	Floor     float64 // smallest scale of that error, in the unit of c
	Steps     int     // when positive: that many even steps and no control
	MaxSteps  int     // most steps in one Advance; zero means 100000
	MaxStep   float64 // longest step under control [s]; zero for no bound
}

// Stats counts the work of a march.
type Stats struct {
	Steps    int // accepted
	Rejected int
}

// ErrStalled is returned when the step shrinks to nothing or the number of
// steps runs out.
var ErrStalled = errors.New("radial: the march stalled: no step, however short, is as exact as its tolerance asks")

// March is a cylinder on its way: the field on a grid, the time and the amount
// that has left. It owns its working memory and allocates nothing while it
// advances. Not for use by two goroutines at once; the zero value must be
// given a grid by Start.
type March struct {
	Grid  *Grid
	C     []float64 // field at the nodes
	Time  float64   // [s]
	Lost  float64   // amount that has left through the surface since Start, per radian and length [m² times unit of c]
	Stats Stats

	// Gauge is a quantity whose integral over time Gauged gathers, by trapezia over the
	// steps; nil for none.
	Gauge  func(t float64, c []float64) float64
	Gauged float64
	gauge  float64 // at the present state

	Observe func(t float64, c []float64) // called after each accepted step; nil for none

	stepper
}

// Start sets the field to c0 at every node, the time and the loss to zero. It
// allocates only when the grid is larger than any before.
func (m *March) Start(g *Grid, c0 float64) {
	m.resize(g.Len())
	m.Grid, m.C = g, m.y
	for i := range m.C {
		m.C[i] = c0
	}
	m.Time, m.Lost, m.Gauged, m.Stats = 0, 0, 0, Stats{}
}

// Advance marches for the given time [s] under one problem.
//
// The error of a step is measured as the root mean square over the section,
// so that the steps serve the content; the first step is the time that
// diffusion takes to cross the outermost gap.
func (m *March) Advance(p Problem, duration float64, s Settings) error {
	if err := m.check(duration, s); err != nil || duration == 0 {
		return err
	}
	m.bind(p, s)
	if s.Steps > 0 {
		return m.even(duration, s.Steps)
	}
	return m.adaptive(duration, s)
}

func (m *March) check(duration float64, s Settings) error {
	switch {
	case m.Grid == nil:
		return errors.New("radial: no grid: the march has not been started")
	case !(duration >= 0) || math.IsInf(duration, 0):
		return fmt.Errorf("radial: duration %g s: must be finite and not negative", duration)
	case s.Steps <= 0 && (!(s.Tolerance > 0) || math.IsInf(s.Tolerance, 0)):
		return fmt.Errorf("radial: tolerance %g: must be positive and finite", s.Tolerance)
	case !(s.Floor >= 0) || math.IsInf(s.Floor, 0):
		return fmt.Errorf("radial: floor %g: must be finite and not negative", s.Floor)
	}
	return nil
}

func (m *March) even(duration float64, steps int) error {
	start := m.Time
	for k := range steps {
		m.Time = start + duration*float64(k)/float64(steps)
		if !(m.try(duration/float64(steps)) < math.Inf(1)) {
			return ErrStalled
		}
		m.accept(duration / float64(steps))
	}
	m.Time = start + duration
	return nil
}

func (m *March) adaptive(duration float64, s Settings) error {
	p := pace{start: m.Time, step: min(m.firstStep(), duration)}
	return m.pursue(p, duration, s, nil)
}

// pace is how far a controlled march has come.
type pace struct {
	start float64 // time at its beginning [s]
	done  float64 // time gone since [s]
	step  float64 // next step to try [s]
}

// lasts tells whether the next step reaches the given duration.
func (p *pace) lasts(duration float64) bool {
	return p.step >= (duration-p.done)*(1-1e-12)
}

// pursue marches under step control until duration has gone. Before each try it calls
// aside, if there is one, with the pace.
func (m *March) pursue(p pace, duration float64, s Settings, aside func(pace) error) error {
	limit := s.MaxSteps
	if limit == 0 {
		limit = 100000
	}
	for range limit {
		if aside != nil {
			if err := aside(p); err != nil {
				return err
			}
		}
		if s.MaxStep > 0 {
			p.step = min(p.step, s.MaxStep)
		}
		last := p.lasts(duration)
		if last {
			p.step = duration - p.done
		}
		size := m.try(p.step) / s.Tolerance
		grow := m.method.grow(size)
		if !(size <= 1) {
			m.Stats.Rejected++
			p.step *= min(grow, 0.7)
			if !(p.done+p.step > p.done) {
				return ErrStalled
			}
			continue
		}
		m.accept(p.step)
		if last {
			m.Time = p.start + duration
			return nil
		}
		p.done += p.step
		m.Time = p.start + p.done
		p.step *= grow
	}
	return ErrStalled
}

// grow is the factor from a step whose error is size times what is allowed to the
// next one.
func (t *tableau) grow(size float64) float64 {
	const least, most, safety = 0.2, 6, 0.9
	if !(size < math.Inf(1)) { // true for NaN too
		return least
	}
	return max(least, min(safety*math.Pow(max(size, 1e-4), -t.inverse), most))
}
