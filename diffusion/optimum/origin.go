package optimum

import (
	"cmp"
	"context"
	"math"
	"math/rand/v2"
	"slices"
)

// setOff is where the next start sets off: the first few and each second one at the best of what is known, the others where nothing is known yet.
func (m *memory) setOff(ctx context.Context, seed uint64, all []*start) (*Point, error) {
	number := len(all)
	var others [][]float64
	for _, one := range all {
		others = append(others, one.from.unit, one.best.unit)
	}
	if number >= together && number%2 == 1 && m.left() > 0 {
		found, err := m.look(ctx, [][]float64{m.emptiest(rand.New(rand.NewPCG(seed, uint64(number)+fresh)))})
		if err != nil || found[0] != nil && found[0].Err == nil && !slices.ContainsFunc(others, func(o []float64) bool { return distance(o, found[0].unit) == 0 }) {
			return found[0], err
		}
	}
	return m.origin(others, firstFar/narrower(number)), nil
}

// narrower is by how much later starts keep to a smaller region.
func narrower(number int) float64 { return 1 + float64(number)/together }

// firstFar is how far from each other starts set off at first, on the scales.
const firstFar = 0.25

// fresh are the streams of places where nothing is known, beside those of the starts.
const fresh = 1 << 34

// emptiest is a place far from all that were looked at, one at which the constraints hold by the models if there is any, in the whole box or about the best.
func (m *memory) emptiest(rng *rand.Rand) []float64 {
	const tried, least, most, apart = 600, 0.03, 0.5, 0.01
	n := len(m.best.unit)
	models, ok := modelOf(m.nearest(m.best.unit, 1, apart, 2*(n+1), mostFitted(n)), m.best.unit, most)
	var best guess
	for i := range tried {
		within := 1.
		if i%2 == 0 {
			within = least * math.Pow(most/least, rng.Float64())
		}
		g := guess{unit: regionAbout(m.problem.Variables, m.best.unit, within).random(rng), cost: -1}
		if ok {
			g.lacks = lacking(models.predict(g.unit)[1:])
		}
		for _, p := range m.points {
			g.cost = max(g.cost, -distance(p.unit, g.unit))
		}
		if i == 0 || g.better(&best, 0) {
			best = g
		}
	}
	return best.unit
}

// origin is the best point that is far from where starts set off; where none is far, the farthest; nil where there is nothing left.
func (m *memory) origin(others [][]float64, far float64) *Point {
	sorted := slices.Clone(m.points)
	slices.SortStableFunc(sorted, func(a, b *Point) int {
		switch {
		case a.better(b):
			return -1
		case b.better(a):
			return 1
		}
		return 0
	})
	apart := func(p *Point) float64 {
		least := math.Inf(1)
		for _, o := range others {
			least = min(least, distance(p.unit, o))
		}
		return least
	}
	sorted = slices.DeleteFunc(sorted, func(p *Point) bool { return p.Err != nil || apart(p) == 0 })
	for _, p := range sorted {
		if apart(p) >= far {
			return p
		}
	}
	if len(sorted) == 0 {
		return nil
	}
	return slices.MaxFunc(sorted, func(a, b *Point) int { return cmp.Compare(apart(a), apart(b)) })
}
