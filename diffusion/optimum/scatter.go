package optimum

import (
	"context"
	"errors"
	"math/rand/v2"
)

// Scatter looks at so many places drawn at random, evenly on the scales of the variables, for comparison with [Search]: what is found says nothing of starts and neighbours.
func Scatter(ctx context.Context, p *Problem, seed uint64, count int) (*Found, error) {
	if err := p.check(); err != nil {
		return nil, err
	}
	if count < 1 {
		return nil, errors.New("optimum: fewer than one place")
	}
	const stream = 1 << 33 // beside those of a search
	rng := rand.New(rand.NewPCG(seed, stream))
	m := &memory{problem: p, budget: count, seen: map[string]*Point{}}
	units := make([][]float64, count)
	for i := range units {
		units[i] = make([]float64, len(p.Variables))
		for k, v := range p.Variables {
			u := rng.Float64()
			if v.Values != nil {
				u = float64(rng.IntN(len(v.Values))) * v.step()
			}
			units[i][k] = u
		}
	}
	if _, err := m.look(ctx, units); err != nil {
		return nil, err
	}
	if m.best.Err != nil {
		return nil, errors.Join(ErrNoAnswer, m.points[0].Err)
	}
	return m.found(nil, false, Settings{}.filled()), nil
}
