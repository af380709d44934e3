package diffusion

import (
	"math"

	"strandry/diffusion/surrogate"
)

// stand finds a surrogate, from more marches, in so many batches at most, while it is off by more than this, and the values that it rests on.
func (e *ensemble) stand(off float64, most int, marched func(points [][]float64) []float64) (*surrogate.Surrogate, []float64, error) {
	k := e.known(marched)
	f, err := k.fit()
	for _, more := range further(len(e.unknowns))[:most] {
		if err != nil || f.Error <= off || len(e.unknowns) < 2 {
			break
		}
		k.points, k.values = append(k.points, more...), append(k.values, fill(marched(more), k.wet)...)
		f, err = k.fit()
	}
	return f, k.values, err
}

// known are the values that a surrogate rests on.
type known struct {
	points, line   [][]float64
	values, onLine []float64
	wet            float64 // value of a draw without an answer
}

func (k *known) fit() (*surrogate.Surrogate, error) {
	return surrogate.Fit(k.points, k.values, k.line, k.onLine)
}

// known marches at [surrogate.Points] and on the line that they give.
func (e *ensemble) known(marched func(points [][]float64) []float64) known {
	if e.near == nil {
		e.near = e.agreements()
	}
	n := len(e.unknowns)
	k := known{points: surrogate.Points(n)}
	k.values = marched(k.points)
	if math.IsNaN(k.values[0]) {
		k.values[0] = e.centre()
	}
	k.wet = e.wet(k.values)
	fill(k.values, k.wet)
	k.line = surrogate.Line(n, k.values)
	k.onLine = fill(e.each(k.line), k.wet)
	return k
}

// wet is the logarithm of the content that a draw without an answer, which as a rule has too little air, is taken for: the wettest of those with one, or
// that with which it set off. There is none where the medians, the first of the values, have no answer.
func (e *ensemble) wet(values []float64) float64 {
	wettest := values[0]
	for _, x := range values {
		if !math.IsNaN(wettest) && x > wettest {
			wettest = x
		}
	}
	if e.measure == nil {
		wettest = math.Max(wettest, e.log(max(e.model.Start, e.model.Limit)))
	}
	return wettest
}

// fill gives values that are no numbers another one.
func fill(values []float64, another float64) []float64 {
	for i, x := range values {
		if math.IsNaN(x) {
			values[i] = another
		}
	}
	return values
}

// centre is the logarithm of the content at the medians at the usual steps, where those of the draws have no answer.
func (e *ensemble) centre() float64 {
	usual := *e
	usual.settings.Resolution, usual.settings.Tolerance = DefaultSettings().Resolution, DefaultSettings().Tolerance
	return usual.march(make([]float64, len(e.unknowns)))
}

// batches are the most that are made.
const batches = 4

// badly is the error of a surrogate, relative to the content, from which on more marches are made.
const badly = 0.05

// further are batches of draws for a surrogate that serves badly, each twice the one before, so that they tell themselves apart by their number.
func further(unknowns int) [][][]float64 {
	const least, seed = 32, 77
	all := surrogate.Draws(least*(1<<batches-1), unknowns, seed)
	out := make([][][]float64, batches)
	for i := range out {
		count := least << i
		out[i], all = all[:count], all[count:]
	}
	return out
}
