package cheapest

import (
	"slices"

	"strandry/diffusion/optimum"
)

// bind tells which demands keep the best design from being cheaper: those that designs beside it along each free key, which are cheaper, do not meet. Where the best
// does not meet all demands, they are those.
func (t *task) bind(a *Answer) {
	binds := make([]bool, len(t.demands))
	mark := func(d *Design) (any bool) {
		for j, v := range d.Violations {
			if v > 0 || j == 0 && v > -spare && d.Cost < a.Best.Cost { // dry, but not by what is kept clear of
				binds[j], any = true, true
			}
		}
		return any
	}
	a.Binding = nil
	if !a.Met {
		mark(&a.Best)
	} else {
		x := t.place(&a.Best)
		for i, v := range t.variables() {
			t.along(x, i, &v, func(d *Design) bool { return d.Cost < a.Best.Cost && mark(d) })
		}
	}
	for j, demand := range t.demands {
		if binds[j] {
			a.Binding = append(a.Binding, demand)
		}
	}
}

// along looks at designs farther and farther to either side of a place along one key, as far as the budget goes, until one is enough.
func (t *task) along(x []float64, i int, v *optimum.Variable, enough func(d *Design) bool) {
	for _, sign := range [...]float64{-1, 1} {
		for _, share := range [...]float64{0.01, 0.03, 0.09} {
			other := slices.Clone(x)
			if v.Values != nil {
				at := slices.Index(v.Values, x[i]) + int(sign)
				if at < 0 || at >= len(v.Values) {
					break
				}
				other[i] = v.Values[at]
			} else {
				other[i] = v.Beside(x[i], sign*share)
			}
			if len(t.known) >= t.scenario.Search.Budget {
				return
			}
			if d, err := t.look(t.settings(other)); err == nil && enough(&d) || v.Values != nil {
				break
			}
		}
	}
}
