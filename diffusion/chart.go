package diffusion

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/stat/distuv"

	"strandry/diffusion/surrogate"
)

// Varied is a number of a model that a [Chart] goes over, on a logarithmic scale.
type Varied struct {
	Name     string
	From, To float64 // above zero, rising [the unit of the number]
	// Set gives the number a value. The path and the storage of the model are its own.
	Set func(m *Model, value float64) error
}

// Chart is the content at the nozzle, and the probability of meeting the limit, over a few numbers of a design: a surrogate of some forty marches
// stands for all of the range at once, so that a map of thousands of places is there in a tenth of a second. [Chart.Refine] makes it truer by more marches;
// those that were made are kept. Not for use by two goroutines at once.
type Chart struct {
	Error   float64 // root mean square of what it is off by, relative to the content, as leaving out each march in turn tells
	Marches int     // that it rests on

	over     []Varied
	ensemble *ensemble
	samples  samples
	batches  [][][]float64 // of draws that are still to be marched
	fit      *surrogate.Surrogate
	doubts   int         // unknowns
	asked    [][]float64 // draws of them, then what is varied
	point    []float64   // medians of the unknowns, then of what is varied
}

// Chart takes a first look.
func (w *March) Chart(d *Design, over []Varied, s Settings) (*Chart, error) {
	e, err := w.ensemble(d, drawSettings(s))
	if err != nil {
		return nil, err
	}
	doubts := len(e.unknowns)
	for _, v := range over {
		if !(v.From > 0 && v.From < v.To && v.To < math.Inf(1)) {
			return nil, fmt.Errorf("%s from %g to %g: the ends must rise, and lie above zero", v.Name, v.From, v.To)
		}
		e.unknowns = append(e.unknowns, Unknown{v.Name, func(d *draw, z float64) {
			d.given = append(d.given, func(m *Model) error { return v.Set(m, v.value(z)) })
		}})
	}
	c := &Chart{over: over, ensemble: e, doubts: doubts, point: make([]float64, len(e.unknowns))}
	c.samples = e.sampled(e.each)
	c.batches = moreDraws(len(e.unknowns))
	return c, c.learn()
}

// chartDraws are the draws by which a chart tells a probability, to a hundredth or so.
const chartDraws = 64

// Refine makes the next marches, half as many as there are or more. It tells whether there were any left to make.
func (c *Chart) Refine() (more bool, err error) {
	if len(c.batches) == 0 {
		return false, nil
	}
	c.samples.add(c.batches[0], c.ensemble.each(c.batches[0]))
	c.batches = c.batches[1:]
	return true, c.learn()
}

func (c *Chart) learn() error {
	fit, err := c.samples.fit()
	if err != nil {
		return fmt.Errorf("a chart: %w", errors.Join(err, c.ensemble.failed))
	}
	c.asked = c.asked[:0]
	for _, z := range c.ensemble.marches.drawsFor(fit, c.doubts)[:chartDraws] {
		c.asked = append(c.asked, append(slices.Clone(z), make([]float64, len(c.over))...))
	}
	c.fit, c.Error, c.Marches = fit, fit.Error, len(c.samples.values)+len(c.samples.onLine)
	return nil
}

// outside is the share of a range, at either end, that deviates of it do not reach often.
const outside = 0.02

// value at a deviate: the range is filled evenly, on its scale.
func (v *Varied) value(deviate float64) float64 {
	share := (distuv.UnitNormal.CDF(deviate) - outside) / (1 - 2*outside)
	return v.From * math.Pow(v.To/v.From, math.Min(math.Max(share, 0), 1))
}

func (v *Varied) deviate(value float64) float64 {
	share := math.Log(value/v.From) / math.Log(v.To/v.From)
	return distuv.UnitNormal.Quantile(outside + (1-2*outside)*math.Min(math.Max(share, 0), 1))
}

// at brings what is varied to some values, in the order in which it was given.
func (c *Chart) at(values []float64) {
	for i := range c.over {
		c.point[c.doubts+i] = c.over[i].deviate(values[i])
	}
}

// Content is that at the medians of what is in doubt, at a value of each number that is varied, within its range [kg/kg dry].
func (c *Chart) Content(values ...float64) float64 {
	c.at(values)
	return math.Exp(c.fit.At(c.point))
}

// Probability is that of meeting the limit there.
func (c *Chart) Probability(values ...float64) float64 {
	c.at(values)
	for _, p := range c.asked {
		copy(p[c.doubts:], c.point[c.doubts:])
	}
	return meets(c.ensemble.design.LimitInDoubt(), c.ensemble.marches.at(c.fit, c.asked), 0)
}
