package optimum

import "context"

// polish compares the best point with its neighbours along each variable, with smaller and smaller steps.
func (m *memory) polish(ctx context.Context, finest float64) error {
	const first, smaller = 0.01, 4
	for step := first; step >= finest && m.left() > 0; {
		before := m.best
		if _, err := m.look(ctx, m.beside(before.unit, step)); err != nil {
			return err
		}
		if m.best == before {
			step /= smaller
		}
	}
	return nil
}

// beside are the neighbours of a place along each variable, so far away along a continuous one.
func (m *memory) beside(unit []float64, step float64) [][]float64 {
	var out [][]float64
	for i, v := range m.problem.Variables {
		by := step
		if v.Values != nil {
			by = v.step()
		}
		for _, u := range [...]float64{unit[i] - by, unit[i] + by} {
			if u = min(max(u, 0), 1); u != unit[i] {
				other := append([]float64(nil), unit...)
				other[i] = u
				out = append(out, other)
			}
		}
	}
	return out
}
