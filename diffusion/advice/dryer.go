package advice

import "strandry/diffusion"

// Dryer is the zone that a design dries with: of those whose air brings the strand within its limit, that
// where diffusion comes furthest (greatest Fourier number). Air that does so where the strand leaves it
// goes before such as does only as supplied; where the air of none does, that with the lowest equilibrium. The
// result is that of an assessment or a trace, which have Fourier numbers.
func Dryer(m *diffusion.Design, r *diffusion.Result) int {
	better := func(i, j int) bool {
		a, b := r.Zones[i], r.Zones[j]
		if x, y := a.Equilibrium <= m.Limit, b.Equilibrium <= m.Limit; x != y {
			return x
		}
		if a.Supplied == b.Supplied || a.Supplied <= m.Limit && b.Supplied <= m.Limit {
			return a.Fourier > b.Fourier
		}
		return a.Supplied < b.Supplied
	}
	best := 0
	for i := range m.Path {
		if better(i, best) {
			best = i
		}
	}
	return best
}

// DryerOf is [Dryer] where no result is at hand: one march more. It is an error where the design has no answer.
func DryerOf(w *diffusion.March, m *diffusion.Design, s diffusion.Settings) (int, error) {
	t, err := w.Trace(&m.Model, s)
	if err != nil {
		return 0, err
	}
	return Dryer(m, &t.Result), nil
}
