package diffusion

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"strandry/diffusion/surrogate"
)

// Around is the probability of meeting the limit over the length of one zone, around a length: one surrogate stands in for the content over
// all that is in doubt and over the length, so that a whole range of lengths takes as many marches as the odds at one.
type Around struct {
	Error   float64 // of the surrogate: root mean square, relative to the content
	design  *Design
	fit     *surrogate.Surrogate
	draws   [][]float64
	middle  float64 // logarithm of the length
	width   float64 // of the logarithm that one deviate stands for
	sample  []float64
	deviate []float64
}

// reach of a surrogate over lengths, in widths: the points it is fitted to thin out beyond.
const reach = 1.3

// soft is the share of the limit that is added to a content before its logarithm is taken: how far below the limit it lies changes no odds, and the content
// is the rougher a function of what is drawn the further it is from where it set off.
const soft = 0.3

// OddsAround finds it for the zone with the given index, for lengths [m], or durations [s] if it has one, from exp(-1.3 width) to exp(1.3 width) times the given one. Against
// the odds at single lengths the probability was mostly within 0.01. More marches are made, three times as many at most, while the error of the surrogate is above off.
func (w *March) OddsAround(d *Design, zone int, length, width, off float64, s Settings) (*Around, error) {
	if err := d.has(zone); err != nil {
		return nil, err
	}
	varied := *d
	varied.Path = slices.Clone(d.Path)
	varied.Path[zone].Extend(length)
	e, err := w.ensemble(&varied, drawSettings(s))
	if err != nil {
		return nil, err
	}
	doubts := len(e.unknowns)
	stretch := func(m *Model, deviate float64) error {
		z := &m.Path[zone]
		z.Extend(z.Extent() * math.Exp(width*deviate))
		return nil
	}
	e.unknowns = append(e.unknowns, Unknown{"length", func(d *draw, z float64) {
		d.given = append(d.given, func(m *Model) error { return stretch(m, z) })
	}})
	const few, enough = 2, 512 // over a wide range of lengths
	e.soft = soft * d.Limit
	fit, _, err := e.emulate(off, few, e.each)
	if err != nil {
		return nil, fmt.Errorf("the odds over a length: %w", errors.Join(err, e.failed))
	}
	return &Around{Error: fit.Error, design: &varied, fit: fit, draws: w.drawsFor(fit, doubts)[:enough], middle: math.Log(length), width: width, deviate: make([]float64, doubts+1)}, nil
}

// Holds tells whether a length [m] is in the range.
func (a *Around) Holds(length float64) bool {
	return math.Abs(math.Log(length)-a.middle) <= reach*a.width
}

// Probability of meeting the limit at a length [m] of the range.
func (a *Around) Probability(length float64) float64 {
	last := len(a.deviate) - 1
	a.deviate[last] = (math.Log(length) - a.middle) / a.width
	a.sample = a.sample[:0]
	for _, z := range a.draws {
		copy(a.deviate[:last], z)
		content := math.Exp(a.fit.At(a.deviate)) - soft*a.design.Limit
		a.sample = append(a.sample, logarithm(content, a.design.Limit))
	}
	return meets(a.design.LimitInDoubt(), a.sample, 0)
}
