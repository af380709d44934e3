package optimum

import (
	"cmp"
	"slices"
)

// Fall is that the cheapest place so far was found.
type Fall struct {
	Looked int // places looked at by then, that one included
	Cost   float64
}

// Bound is where a variable of the best place stands at an end of its scale.
type Bound struct {
	Variable int
	Upper    bool // the last value of the list
}

// Found is what a search has found.
type Found struct {
	Points []*Point // in the order in which they were looked at
	Best   *Point   // the cheapest at which all constraints hold; where there is none, that which lacks least
	Holds  bool     // all constraints hold at Best

	Binding  []int   // constraints but for which a place beside Best, or else the next cheaper one, would be the best; where not all hold, those that do not
	AtBounds []Bound // of Best
	Met      []int   // for each constraint, at how many of the points it holds
	Failed   int     // points without an answer
	Falls    []Fall  // how the least cost fell over the search

	Starts   int  // starts that were made
	Ended    int  // of them, those that went on until they gained nothing more
	Agreeing int  // of those, that came to the cost of the best within [Settings.Agree]
	All      bool // every place there is was looked at
	Settled  bool // at least eight starts have ended, three of which agree, or all places were looked at
	Stopped  bool // it is not, for the budget was spent
}

func (m *memory) found(starts []*start, all bool, s Settings) *Found {
	f := &Found{Points: m.points, Best: m.best, Holds: m.best.Holds(), Failed: m.failed, Falls: m.falls, Starts: len(starts), Ended: ended(starts), All: all}
	f.Met = make([]int, m.problem.Constraints)
	for _, p := range m.points {
		for j, v := range p.Violations {
			if v <= 0 {
				f.Met[j]++
			}
		}
	}
	f.Agreeing = agreeing(starts, m.best, s.Agree)
	f.Settled = all || settled(starts, m.best, s.Agree)
	f.Stopped = !f.Settled && m.spent
	f.Binding = m.binding()
	for i, v := range m.problem.Variables {
		switch u := m.best.unit[i]; {
		case len(v.Values) == 1:
		case u <= s.Finest:
			f.AtBounds = append(f.AtBounds, Bound{Variable: i})
		case u >= 1-s.Finest:
			f.AtBounds = append(f.AtBounds, Bound{Variable: i, Upper: true})
		}
	}
	return f
}

// binding are the constraints that do not hold at the best point, or where all do, that keep a cheaper place near it from being the best; where no place near it is cheaper, as where the cost goes by
// steps, those but for which the dearest of the cheaper places anywhere would be.
func (m *memory) binding() []int {
	out := m.bindingBeside()
	if len(out) > 0 || !m.best.Holds() || !m.level() {
		return out
	}
	var last *Point
	for _, p := range m.points {
		if p.Err == nil && p.Cost < m.best.Cost && (last == nil || p.Cost > last.Cost) {
			last = p
		}
	}
	for j := range m.problem.Constraints {
		if last != nil && last.Violations[j] > 0 {
			out = append(out, j)
		}
	}
	return out
}

// level tells whether places next to the best one cost the same, as where the cost goes by steps.
func (m *memory) level() bool {
	for _, p := range m.points {
		if p != m.best && p.Err == nil && p.Cost == m.best.Cost && m.nextToBest(p) {
			return true
		}
	}
	return false
}

// bindingBeside are those by the places next to the best one.
func (m *memory) bindingBeside() []int {
	var out []int
	for j := range m.problem.Constraints {
		binds := m.best.Violations[j] > 0
		for _, p := range m.points {
			binds = binds || m.best.Holds() && p.Err == nil && p.Cost < m.best.Cost && p.Violations[j] > 0 && m.nextToBest(p)
		}
		if binds {
			out = append(out, j)
		}
	}
	return out
}

// nextToBest tells whether a point lies next to the best one.
func (m *memory) nextToBest(p *Point) bool {
	const near, rounding = 0.0101, 1.001
	for i, v := range m.problem.Variables {
		most := near
		if v.Values != nil {
			most = v.step() * rounding
		}
		if d := p.unit[i] - m.best.unit[i]; d > most || d < -most {
			return false
		}
	}
	return true
}

// Front are the points at which all constraints hold, but for some that do not count, of which none other is both cheaper and lower in the second measure: the cheapest first.
// ignored are indices of constraints.
func (f *Found) Front(ignored ...int) []*Point {
	var all, front []*Point
	for _, p := range f.Points {
		if p.Err == nil && p.holdsBut(ignored) {
			all = append(all, p)
		}
	}
	slices.SortStableFunc(all, func(a, b *Point) int {
		return cmp.Or(cmp.Compare(a.Cost, b.Cost), cmp.Compare(a.Second, b.Second))
	})
	for _, p := range all {
		if len(front) == 0 || p.Second < front[len(front)-1].Second {
			front = append(front, p)
		}
	}
	return front
}

func (p *Point) holdsBut(ignored []int) bool {
	for j, v := range p.Violations {
		if v > 0 && !slices.Contains(ignored, j) {
			return false
		}
	}
	return true
}
