package root

// Place is where a function was looked at, and its value there.
type Place struct{ X, Y float64 }

// Walk is places in the order in which they were looked at, rising or falling, none twice.
type Walk []Place

// Crossed is the bracket of the last two places, if the function changes its sign between them; a value of zero counts as below.
func (w Walk) Crossed() (b Bracket, ok bool) {
	if len(w) < 2 {
		return Bracket{}, false
	}
	here, next := w[len(w)-2], w[len(w)-1]
	return Bracket{A: here.X, B: next.X, AtA: here.Y, AtB: next.Y}, (here.Y > 0) != (next.Y > 0)
}

// Least is the index of the place with the least value, the first of several; -1 for none.
func (w Walk) Least() int {
	best := min(0, len(w)-1)
	for i, p := range w {
		if p.Y < w[best].Y {
			best = i
		}
	}
	return best
}

// Dip looks between the neighbours of the least of all places, which are above zero, for a place where the function is not: within is as for [Find], its width a
// share of the way between the neighbours. It gives the least place that it has found, and a bracket from the neighbour before it; ok is false where the function
// stays above zero, or where the least place is the first or the last.
func (w Walk) Dip(f Func, within Tolerance) (least Place, b Bracket, ok bool, err error) {
	i := w.Least()
	if i < 0 {
		return Place{}, Bracket{}, false, nil
	}
	if least = w[i]; i == 0 || i == len(w)-1 {
		return least, Bracket{}, false, nil
	}
	before, after := w[i-1], w[i+1]
	low, high := before, after
	if low.X > high.X {
		low, high = high, low
	}
	within.Width *= high.X - low.X
	least.X, least.Y, err = Least(f, Valley{A: low.X, M: w[i].X, B: high.X, AtA: low.Y, AtM: w[i].Y, AtB: high.Y}, within)
	if err != nil || least.Y > 0 {
		return least, Bracket{}, false, err
	}
	return least, Bracket{A: before.X, B: least.X, AtA: before.Y, AtB: least.Y}, true, nil
}
