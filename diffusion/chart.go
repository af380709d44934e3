package diffusion

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/stat/distuv"

	"strandry/diffusion/surrogate"
)

// Varied is a number of a model that a [Chart] goes over: by its logarithm where From lies above zero, else evenly.
type Varied struct {
	Name     string
	From, To float64 // rising, not below zero [the unit of the number]
	// Set gives the number a value, in a model at the medians of what is in doubt. The path and the storage of the model are its own, its material is not. Called by
	// several goroutines at once.
	Set func(m *Model, value float64)
}

// Chart is the content at the nozzle, and the probability of meeting the limit, over a few numbers of a design: a surrogate of some forty marches
// stands for all of the range at once, so that a map of thousands of places is there in a tenth of a second. [Chart.Refine] makes it truer by more marches;
// those that were made are kept. Not for use by two goroutines at once.
type Chart struct {
	Error      float64  // root mean square of what it is off by, relative to the content, as leaving out each march in turn tells
	Marches    int      // that it rests on
	Settings   Settings // of those marches
	Unanswered int      // of them, those without an answer, which are taken for as wet as the wettest, or as the strand sets off

	over     []Varied
	ensemble *ensemble
	samples  samples
	batches  [][][]float64 // of draws that are still to be marched
	fit      *surrogate.Surrogate
	doubts   int                // unknowns
	asked    [][]float64        // the medians of them, then draws
	crossed  *surrogate.Crossed // the fit at those; nil until it is asked
	point    []float64          // medians of the unknowns, then of what is varied
}

// Chart takes a first look.
func (w *March) Chart(d *Design, over []Varied, s Settings) (*Chart, error) {
	e, err := w.ensemble(d, drawSettings(s))
	if err != nil {
		return nil, err
	}
	doubts := len(e.unknowns)
	for _, v := range over {
		if !(v.From >= 0 && v.From < v.To && v.To < math.Inf(1)) {
			return nil, fmt.Errorf("%s from %g to %g: the ends must rise, and not lie below zero", v.Name, v.From, v.To)
		}
		e.unknowns = append(e.unknowns, Unknown{v.Name, func(d *draw, z float64) { v.Set(d.model, v.value(z)) }})
	}
	c := &Chart{over: over, ensemble: e, doubts: doubts, point: make([]float64, len(e.unknowns))}
	c.samples = e.sampled(e.each)
	c.batches = moreDraws(len(e.unknowns))
	return c, c.learn()
}

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
	c.fit, c.Error, c.Marches = fit, fit.Error, len(c.samples.values)+len(c.samples.onLine)
	c.Unanswered, c.Settings, c.crossed = c.samples.unanswered, c.ensemble.settings, nil
	return nil
}

// outside is the share of a range, at either end, that deviates of it do not reach often.
const outside = 0.02

// value at a deviate: the range is filled evenly, on its scale.
func (v *Varied) value(deviate float64) float64 {
	share := (distuv.UnitNormal.CDF(deviate) - outside) / (1 - 2*outside)
	share = math.Min(math.Max(share, 0), 1)
	if v.From > 0 {
		return v.From * math.Pow(v.To/v.From, share)
	}
	return v.To * share
}

func (v *Varied) deviate(value float64) float64 {
	share := value / v.To
	if v.From > 0 {
		share = math.Log(value/v.From) / math.Log(v.To/v.From)
	}
	return distuv.UnitNormal.Quantile(outside + (1-2*outside)*math.Min(math.Max(share, 0), 1))
}

// Middle is the value at which a design is to be that a chart is made of.
func (v *Varied) Middle() float64 { return v.value(0) }

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

// cross makes ready for many places.
func (c *Chart) cross() {
	if c.crossed != nil {
		return
	}
	const draws = 128
	every := c.ensemble.marches.drawsFor(c.fit, c.doubts)
	c.asked = append([][]float64{make([]float64, c.doubts)}, slices.Clone(every[:draws])...)
	c.crossed = c.fit.Crossed(c.asked)
}
