package diffusion

import (
	"math"

	"strandry/diffusion/surrogate"
)

// samples are the values that a surrogate rests on.
type samples struct {
	drift          surrogate.Drift
	points, line   [][]float64
	values, onLine []float64
	wet            float64 // value of a draw without an answer
	unanswered     int     // draws without one
}

// add takes more values, of draws.
func (k *samples) add(points [][]float64, values []float64) {
	k.points, k.values = append(k.points, points...), append(k.values, k.filled(values)...)
}

// filled gives values that are no numbers that of a draw without an answer, and counts them.
func (k *samples) filled(values []float64) []float64 {
	for _, x := range values {
		if math.IsNaN(x) {
			k.unanswered++
		}
	}
	return fill(values, k.wet)
}

func (k *samples) fit() (*surrogate.Surrogate, error) {
	return surrogate.Fit(k.drift, k.points, k.values, k.line, k.onLine)
}

// draws are those that a surrogate is first fitted to besides the centre, the axes and the line, from the values at the former: few, where an estimate has told the most.
func (e *ensemble) draws(values []float64) [][]float64 {
	const few, many, seed = 10, 24, 7
	switch n := len(e.unknowns); {
	case n < 2:
		return nil
	case e.drift != nil:
		return surrogate.AboutLine(few, n, values)
	default:
		return surrogate.Draws(many, n, seed)
	}
}

// sampled marches at [surrogate.Points], on the line that they give, and at the first draws.
func (e *ensemble) sampled(marched func(points [][]float64) []float64) samples {
	e.ready()
	n := len(e.unknowns)
	k := samples{drift: e.drift, points: surrogate.Points(n)}
	k.values = marched(k.points)
	if math.IsNaN(k.values[0]) {
		k.values[0] = e.atMedians()
	}
	if more := e.draws(k.values); more != nil {
		k.points, k.values = append(k.points, more...), append(k.values, marched(more)...)
	}
	k.wet = e.wet(k.values)
	k.filled(k.values)
	k.line = surrogate.Line(n, k.values)
	k.onLine = k.filled(e.each(k.line))
	return k
}

// batches are the most that are made.
const batches = 5

// worthwhileError is the error of a surrogate, relative to the content, above which the marches of a batch are made: the more they are, the larger.
func worthwhileError(batch int) float64 {
	errors := [...]float64{0.015, 0.02, 0.03}
	if batch < len(errors) {
		return errors[batch]
	}
	return 0.05
}

// moreDraws are batches of draws for a surrogate that serves badly, each twice the one before.
func moreDraws(unknowns int) [][][]float64 {
	const least, seed = 16, 77
	all := surrogate.Draws(least*(1<<batches-1), unknowns, seed)
	out := make([][][]float64, batches)
	for i := range out {
		count := least << i
		out[i], all = all[:count], all[count:]
	}
	return out
}
