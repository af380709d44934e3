package section

import (
	"errors"
	"fmt"

	"strandry/diffusion/radial"
	"strandry/diffusion/rosenbrock"
)

// March is a section on its way: the field on a grid, the time and the amount that has left. It owns its
// working memory and allocates nothing while it advances. Not for use by two goroutines at once; the
// zero value must be given a grid by Start.
type March struct {
	Grid  *Grid
	C     []float64 // field at the nodes, [i*Angles+a]
	Time  float64   // [s]
	Lost  float64   // amount that has left through the surface since Start, per radian in the mean and unit length [m² times unit of c]
	Stats rosenbrock.Stats

	// Beside is the companion of the field, see radial.Companion; at zero after Start.
	Beside float64

	// Along gives the integral over one step of a quantity that depends on the states at its
	// ends, and Gathered sums it; nil for none.
	Along    func(from, to radial.Instant) float64
	Gathered float64

	Observe func(t float64, c []float64) // called after each accepted step; nil for none

	stepper
}

// Start sets the field to c0 at every node, the time and the loss to zero. It allocates only when the grid is
// larger than any before.
func (m *March) Start(g *Grid, c0 float64) {
	m.resize(g)
	m.Grid, m.C = g, m.y
	for i := range m.C {
		m.C[i] = c0
	}
	m.Time, m.Lost, m.Beside, m.Gathered, m.Stats = 0, 0, 0, 0, rosenbrock.Stats{}
}

// Spread sets the field to a profile along the radius, the same at all angles: the way in from a march of package
// radial on the same radial grid.
func (m *March) Spread(profile []float64) error {
	if m.Grid == nil || len(profile) != m.Grid.radial.Len() {
		return fmt.Errorf("section: a profile of %d nodes does not fit the grid", len(profile))
	}
	for i, c := range profile {
		for a := range m.Grid.Angles() {
			m.C[i*m.Grid.Angles()+a] = c
		}
	}
	return nil
}

// Profile sets profile to the mean over the angle at each radius, which holds the same content: the way back.
func (m *March) Profile(profile []float64) error {
	if m.Grid == nil || len(profile) != m.Grid.radial.Len() {
		return fmt.Errorf("section: a profile of %d nodes does not fit the grid", len(profile))
	}
	for i := range profile {
		profile[i] = m.Grid.Round(m.C, i)
	}
	return nil
}

// Advance marches for the given time [s] under one problem of package radial whose exchange takes place, node by node, on the
// exposed arcs. What it adds to a companion is averaged over the whole perimeter. A prescribed surface and
// a source are refused.
//
// The error of a step is measured as the root mean square over the section, so that the steps serve the content.
func (m *March) Advance(p radial.Problem, duration float64, s rosenbrock.Settings) error {
	if err := m.check(p, duration, s); err != nil || duration == 0 {
		return err
	}
	m.bind(p, s)
	if s.Steps > 0 {
		return rosenbrock.Even(body{m}, m.Time, duration, s.Steps)
	}
	return m.pace(duration, s).Pursue(body{m}, duration, s, nil)
}

// AdvanceThrough marches for the last of the rising durations [s] and hands over, on the way, the state that each
// of the earlier ones would have ended with: to the bit what Advance gives for that duration alone, under control. at is
// called with the index of the duration and the march that holds its state, which it may read, and must not keep.
func (m *March) AdvanceThrough(p radial.Problem, durations []float64, s rosenbrock.Settings, branch *March, at func(i int, b *March) error) error {
	if len(durations) == 0 {
		return nil
	}
	s.Steps = 0
	longest := durations[len(durations)-1]
	if err := m.check(p, longest, s); err != nil {
		return err
	}
	if err := s.CheckRising(durations); err != nil {
		return fmt.Errorf("section: %w", err)
	}
	m.bind(p, s)
	aside := func(i int, now rosenbrock.Pace) error {
		branch.follow(m)
		if err := now.Pursue(body{branch}, durations[i], s, nil); err != nil {
			return err
		}
		return at(i, branch)
	}
	if err := m.pace(longest, s).Through(body{m}, durations, s, aside); err != nil {
		return err
	}
	return at(len(durations)-1, m)
}

// follow takes over the state and the problem of another march.
func (m *March) follow(o *March) {
	m.resize(o.Grid)
	m.Grid, m.C = o.Grid, m.y
	m.Time, m.Lost, m.Stats = o.Time, o.Lost, o.Stats
	m.Along, m.Gathered, m.from, m.Beside = o.Along, o.Gathered, o.from, o.Beside
	copy(m.y, o.y)
	m.problem, m.exchange = o.problem, o.exchange
	m.beside.companion, m.beside.graded = o.beside.companion, o.beside.graded
	m.u.Bordered, m.u.Beside.Next = o.u.Bordered, o.Beside
	m.floor, m.ready, m.scale = o.floor, false, o.scale
}

// pace is that of a march which begins.
func (m *March) pace(duration float64, s rosenbrock.Settings) rosenbrock.Pace {
	return rosenbrock.Pace{Start: m.Time, Step: m.beginning().Step(s, duration)}
}

func (m *March) check(p radial.Problem, duration float64, s rosenbrock.Settings) error {
	if m.Grid == nil {
		return errors.New("section: no grid: the march has not been started")
	}
	if _, prescribed := p.Surface.(radial.Prescribed); prescribed || p.Source != nil {
		return errors.New("section: a prescribed surface or a source: allowed is an exchange, or a companion with one")
	}
	if err := s.Check(duration); err != nil {
		return fmt.Errorf("section: %w", err)
	}
	return nil
}

// body is the march as package rosenbrock steps it.
type body struct{ *March }

func (b body) Try(h float64) float64 { return b.try(h) }

func (b body) Accept(h, now float64) { b.accept(h, now) }

func (b body) Reject() { b.Stats.Rejected++ }

var _ rosenbrock.Body = body{}
