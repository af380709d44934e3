package optimum

import (
	"cmp"
	"context"
	"encoding/binary"
	"errors"
	"math"
	"slices"

	"strandry/diffusion/parallel"
)

// memory holds what was looked at.
type memory struct {
	problem *Problem
	budget  int
	points  []*Point // in the order of looking
	seen    map[string]*Point
	best    *Point
	falls   []Fall
	failed  int  // points without an answer
	spent   bool // the budget ended the starts
}

// errFalse says that an answer is none.
var errFalse = errors.New("the answer is not a finite number, or lacks a constraint")

// left is how many places may still be looked at.
func (m *memory) left() int { return m.budget - len(m.points) }

// values is a place as it can be made.
func (m *memory) values(unit []float64) []float64 {
	x := make([]float64, len(unit))
	for i := range x {
		x[i] = m.problem.Variables[i].value(unit[i])
	}
	return x
}

func keyOf(x []float64) string {
	var out []byte
	for _, v := range x {
		out = binary.LittleEndian.AppendUint64(out, math.Float64bits(v))
	}
	return string(out)
}

// look gives the points at some places, asking for those not known yet as far as the budget goes; nil for the others.
func (m *memory) look(ctx context.Context, units [][]float64) ([]*Point, error) {
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	out := make([]*Point, len(units))
	var fresh []*Point
	for i, unit := range units {
		x := m.values(unit)
		key := keyOf(x)
		p, ok := m.seen[key]
		if !ok {
			if len(fresh) >= m.left() {
				continue
			}
			p = &Point{X: x, unit: m.unit(x)}
			m.seen[key], fresh = p, append(fresh, p)
		}
		out[i] = p
	}
	answers, err := parallel.Each(ctx, len(fresh), func(i int) (answered, error) {
		a, err := m.problem.At(ctx, slices.Clone(fresh[i].X))
		return answered{a, err}, ctx.Err()
	})
	if err != nil {
		return nil, err
	}
	for i, p := range fresh {
		p.take(answers[i], m.problem.Constraints)
		m.keep(p)
	}
	return out, nil
}

type answered struct {
	Answer
	err error
}

func (m *memory) unit(x []float64) []float64 {
	unit := make([]float64, len(x))
	for i := range unit {
		unit[i] = m.problem.Variables[i].unit(x[i])
	}
	return unit
}

// take sets the answer of a point.
func (p *Point) take(a answered, constraints int) {
	if p.Err = a.err; p.Err == nil && !a.sound(constraints) {
		p.Err = errFalse
	}
	if p.Err != nil {
		p.Lacks = math.Inf(1)
		return
	}
	p.Answer = a.Answer
	p.Lacks = lacking(p.Violations)
}

func (a *Answer) sound(constraints int) bool {
	finite := func(x float64) bool { return !math.IsNaN(x) && !math.IsInf(x, 0) }
	return finite(a.Cost) && len(a.Violations) == constraints &&
		!slices.ContainsFunc(a.Violations, func(v float64) bool { return !finite(v) })
}

func (m *memory) keep(p *Point) {
	m.points = append(m.points, p)
	if p.Err != nil {
		m.failed++
	}
	if !p.better(m.best) {
		return
	}
	m.best = p
	if p.Holds() {
		m.falls = append(m.falls, Fall{len(m.points), p.Cost})
	}
}

// nearest are the points with an answer by their distance from a place, each so far apart from those before: those within a reach, at least so few and at most so many.
func (m *memory) nearest(unit []float64, reach, apart float64, least, most int) []*Point {
	type far struct {
		point *Point
		d     float64
	}
	var all []far
	for _, p := range m.points {
		if p.Err == nil {
			all = append(all, far{p, distance(p.unit, unit)})
		}
	}
	slices.SortStableFunc(all, func(a, b far) int { return cmp.Compare(a.d, b.d) })
	var out []*Point
	for _, f := range all {
		if len(out) == most || f.d > reach && len(out) >= least {
			break
		}
		if !slices.ContainsFunc(out, func(p *Point) bool { return distance(p.unit, f.point.unit) < apart }) {
			out = append(out, f.point)
		}
	}
	return out
}

// answers tells whether the point next to a place has an answer.
func (m *memory) answers(unit []float64) bool {
	least, ok := math.Inf(1), true
	for _, p := range m.points {
		if d := distance(p.unit, unit); d < least {
			least, ok = d, p.Err == nil
		}
	}
	return ok
}

// distance is the greatest along any scale.
func distance(a, b []float64) float64 {
	far := 0.0
	for i := range a {
		far = max(far, math.Abs(a[i]-b[i]))
	}
	return far
}
