package radial

import (
	"errors"
	"fmt"

	"strandry/diffusion/rosenbrock"
)

// March is a cylinder on its way: the field on a grid, the time and the amount
// that has left. It owns its working memory and allocates nothing while it
// advances. Not for use by two goroutines at once; the zero value must be
// given a grid by Start.
type March struct {
	Grid  *Grid
	C     []float64 // field at the nodes
	Time  float64   // [s]
	Lost  float64   // amount that has left through the surface since Start, per radian and length [m² times unit of c]
	Stats rosenbrock.Stats

	// Beside is the companion of the field, see [Companion]; at zero after Start.
	Beside float64

	// Along gives the integral over one step of a quantity that depends on the states at its
	// ends, and Gathered sums it; nil for none.
	Along    func(from, to Instant) float64
	Gathered float64

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
	m.Time, m.Lost, m.Beside, m.Gathered, m.Stats = 0, 0, 0, 0, rosenbrock.Stats{}
}

// Instant is a state of the march in a few numbers.
type Instant struct {
	Time       float64 // [s]
	Mean       float64 // area mean of c
	Rate       float64 // its change through the surface [1/s]
	Beside     float64 // the companion
	BesideRate float64 // its change [1/s]
}

// Advance marches for the given time [s] under one problem.
//
// The error of a step is measured as the root mean square over the section,
// so that the steps serve the content.
func (m *March) Advance(p Problem, duration float64, s rosenbrock.Settings) error {
	if err := m.check(duration, s); err != nil || duration == 0 {
		return err
	}
	m.bind(p, s)
	if s.Steps > 0 {
		return rosenbrock.Even(body{m}, m.Time, duration, s.Steps)
	}
	return m.pace(duration, s).Pursue(body{m}, duration, s, nil)
}

// pace is that of a march which begins.
func (m *March) pace(duration float64, s rosenbrock.Settings) rosenbrock.Pace {
	return rosenbrock.Pace{Start: m.Time, Step: m.beginning().Step(s, duration)}
}

func (m *March) check(duration float64, s rosenbrock.Settings) error {
	if m.Grid == nil {
		return errors.New("radial: no grid: the march has not been started")
	}
	if err := s.Check(duration); err != nil {
		return fmt.Errorf("radial: %w", err)
	}
	return nil
}

// body is the march as package rosenbrock steps it.
type body struct{ *March }

func (b body) Try(h float64) float64 { return b.try(h) }

func (b body) Accept(h, now float64) { b.accept(h, now) }

func (b body) Reject() { b.Stats.Rejected++ }

var _ rosenbrock.Body = body{}
