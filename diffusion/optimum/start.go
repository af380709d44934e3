package optimum

import (
	"math"
	"math/rand/v2"
	"slices"
)

// start is one way through the box from one of the first places.
type start struct {
	rng        *rand.Rand
	discrete   bool // some variables are
	from, best *Point
	radius     float64   // of the region in which the models are believed, on the scales
	off        []float64 // how far the models of the violations were off lately
	idle       int       // rounds in which next to nothing was gained
	leaps      int       // rounds of leaps since the region became too small to matter; zero before that
	ended      bool

	models *model // of the last round; nil for none
}

// Radii on the scales.
const firstRadius, widest = 0.2, 0.5

func newStart(from *Point, seed, number uint64, p *Problem) *start {
	discrete := slices.ContainsFunc(p.Variables, func(v Variable) bool { return v.Values != nil })
	return &start{rng: rand.New(rand.NewPCG(seed, number)), discrete: discrete, from: from, best: from,
		radius: firstRadius / narrower(int(number)), off: make([]float64, p.Constraints)}
}

// fit makes models of the places known within a reach of the best, each so far apart from others; false where they tell too little.
func (s *start) fit(m *memory, reach, apart, scale float64) (ok bool) {
	n := len(s.best.unit)
	s.models, ok = modelOf(m.nearest(s.best.unit, reach, apart, 2*(n+1), mostFitted(n)), s.best.unit, scale)
	return ok
}

// mostFitted is to how many places models of so many variables are fitted at most.
func mostFitted(n int) int { return 30 + 8*n }

// propose gives the places at which to look next: the best by the models, the best that stays clear of the constraints.
func (s *start) propose(m *memory) [][]float64 {
	if s.leaps > 0 {
		return s.leap(m)
	}
	const reach, apart = 5, 0.01 // radii
	region := regionAbout(m.problem.Variables, s.best.unit, s.radius)
	if !s.fit(m, reach*s.radius, apart*s.radius, s.radius) {
		return [][]float64{region.random(s.rng), region.random(s.rng)}
	}
	var out [][]float64
	for _, clear := range [...]float64{0, 1} {
		out = append(out, region.evolve(s.rng, s.best.unit, func(unit []float64) guess { return s.judge(m, unit, clear) }).unit)
	}
	return out
}

// leap gives the places with another value of a discrete variable, and others of the continuous ones far about, that the models find better than the best.
func (s *start) leap(m *memory) [][]float64 {
	const wide, slack = 0.35, 0.05
	if !s.fit(m, 2*wide, wide/20, wide) {
		return nil
	}
	var out [][]float64
	for i, v := range m.problem.Variables {
		if v.Values == nil {
			continue
		}
		for _, by := range [...]float64{-v.step(), v.step()} {
			region := regionAbout(m.problem.Variables, s.best.unit, wide)
			u := v.near(s.best.unit[i] + by)
			if u == s.best.unit[i] {
				continue
			}
			region.low[i], region.high[i] = u, u
			from := slices.Clone(s.best.unit)
			from[i] = u
			g := region.evolve(s.rng, from, func(unit []float64) guess { return s.judge(m, unit, 0) })
			if g.lacks < s.best.Lacks+slack && g.cost < s.best.Cost || g.lacks < s.best.Lacks {
				out = append(out, g.unit)
			}
		}
	}
	return out
}

// noAnswer is what a place is thought to lack that lies next to one without an answer: more than any other.
const noAnswer = 1e100

// judge is a place by the models, so many times what they were off by lately away from the constraints.
func (s *start) judge(m *memory, unit []float64, clear float64) guess {
	told := s.models.predict(unit)
	g := guess{unit: unit, cost: told[0]}
	if m.failed > 0 && !m.answers(unit) {
		g.lacks = noAnswer
	}
	for j, v := range told[1:] {
		g.lacks += max(v+clear*s.off[j], 0)
	}
	return g
}

// learn takes what was found where the start had proposed to look.
func (s *start) learn(found []*Point, finest float64) {
	s.compare(found)
	before := s.best
	for _, p := range found {
		if p != nil && p.better(s.best) {
			s.best = p
		}
	}
	if s.leaps > 0 {
		s.leapt(before, len(found))
		return
	}
	const edge, little = 0.8, 1e-7
	switch moved := distance(s.best.unit, before.unit); {
	case s.best == before:
		s.radius /= 2
	case moved >= edge*s.radius:
		s.radius = min(2*s.radius, widest)
	case moved < s.radius/8:
		s.radius /= 2
	}
	if s.best.Lacks == before.Lacks && before.Cost-s.best.Cost <= little*math.Abs(s.best.Cost) {
		s.idle++
	} else {
		s.idle = 0
	}
	const patient = 6
	if s.radius < finest || s.idle >= patient {
		s.ended = !s.discrete
		s.leaps = 1
	}
}

// compare sets how far the models of the violations are off, which fades where they were right.
func (s *start) compare(found []*Point) {
	worst, fresh := make([]float64, len(s.off)), false
	for _, p := range found {
		if p == nil || p == s.best || p.Err != nil || s.models == nil {
			continue
		}
		fresh = true
		told := s.models.predict(p.unit)
		for j, v := range p.Violations {
			worst[j] = max(worst[j], v-told[1+j])
		}
	}
	for j, w := range worst {
		const fades = 0.5
		if fresh {
			s.off[j] = max(w, fades*s.off[j])
		}
	}
}

// leapt goes on from where a leap has led, or ends.
func (s *start) leapt(before *Point, tried int) {
	const again, most = firstRadius / 2, 3
	switch {
	case s.best != before:
		s.leaps, s.idle, s.radius = 0, 0, again
	case tried == 0 || s.leaps == most:
		s.ended = true
	default:
		s.leaps++
	}
}
