package radial

import (
	"fmt"

	"strandry/diffusion/rosenbrock"
)

// AdvanceThrough marches for the last of the rising durations [s] and hands over, on
// the way, the state that each of the earlier ones would have ended with: to the
// bit what Advance gives for that duration alone. The last steps to them are
// taken on a branch, so that the march itself is not disturbed. The steps are
// under control: Settings.Steps does not count.
//
// at is called with the index of the duration and the march that holds its state,
// which it may read, and must not keep.
func (m *March) AdvanceThrough(p Problem, durations []float64, s rosenbrock.Settings, branch *March, at func(i int, b *March) error) error {
	if len(durations) == 0 {
		return nil
	}
	s.Steps = 0
	longest := durations[len(durations)-1]
	if err := m.check(longest, s); err != nil {
		return err
	}
	if err := s.CheckRising(durations); err != nil {
		return fmt.Errorf("radial: %w", err)
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
	m.resize(o.Grid.Len())
	m.Grid, m.C = o.Grid, m.y
	m.Time, m.Lost, m.Stats = o.Time, o.Lost, o.Stats
	m.Along, m.Gathered, m.from, m.Beside = o.Along, o.Gathered, o.from, o.Beside
	copy(m.y, o.y)
	m.problem, m.exchange, m.given, m.foretold = o.problem, o.exchange, o.given, o.foretold
	m.beside.companion, m.beside.graded = o.beside.companion, o.beside.graded
	m.u.Bordered, m.u.Beside.Next = o.u.Bordered, o.Beside
	m.floor, m.ready, m.scale = o.floor, false, o.scale
	copy(m.source, o.source)
	copy(m.sourceDot, o.sourceDot)
	copy(m.sourceNow, o.sourceNow)
}
