package diffusion

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/stat"
	"gonum.org/v1/gonum/stat/distuv"

	"strandry/diffusion/surrogate"
	"strandry/materials"
)

// Odds say how likely it is that the strand meets its limit, and where its content lies, when all that is not known for sure about the
// design is drawn from what is known about it. They rest on some thirty marches, more where the content is a rough function of what is
// drawn, and on a surrogate of what an estimate by closed forms leaves of them. Against 4,096 marches in each of twenty scenarios the probability was within 0.01 and the 10 and 90 % points within 3 %.
type Odds struct {
	Probability   float64 // that the mean content at the nozzle is no more than the limit
	Low, High     float64 // 10 and 90 % points of that content [kg/kg dry]
	ByDiffusivity Between // the same if nothing but the diffusivity at its reference were in doubt, with what goes along with it where its doubts are correlated
	Correlated    bool    // they are: activation energy and growth with content stand for what the diffusivity does not tell of them
	FastIsWetter  bool    // the greater the diffusivity, the wetter at the nozzle: what lets water out let in more of it before, or after
	Density       float64 // rise of the probability with the logarithm of the limit
	Ratio         Between // 10 and 90 % points of the content over the limit, the limit's own doubt included [-]
	Printing      float64 // probability of a content within the material's printing limit
	Moulding      float64 // and within its moulding limit
	Fit           float64 // error of the surrogate: root mean square, relative to the content
	Unknowns      []string
	DesignPoint   DesignPoint // the most likely case of the unknowns and the limit in which the strand is wetter for its limit than nine times in ten

	surrogate *surrogate.Surrogate // that they rest on: see [March.Span] and [March.OddsLike]
}

// Between are a low and a high value, most often contents [kg/kg dry].
type Between struct{ Low, High float64 }

// NineInTen and OneInTen are the probabilities from which on a strand is called dry, and below which wet.
const NineInTen, OneInTen = 0.9, 0.1

// Verdict judges; off is the numerical error, relative to the content. A strand that softens is never dry.
func (o *Odds) Verdict(off float64, s Survival) Verdict {
	slack := o.Density * off
	switch {
	case o.Probability+slack <= OneInTen:
		return Wet
	case s == Softens:
		return TooHot
	case o.Probability-slack >= NineInTen:
		return Dry
	}
	return Unsure
}

// drawSettings are [DrawSettings] for every question about a design, whatever it asks for itself, so that it has the same odds in all of them.
func drawSettings(s Settings) Settings {
	s.Floor = 0
	return s.as(DrawSettings())
}

// Odds finds the odds of a design.
func (w *March) Odds(d *Design, s Settings) (Odds, error) {
	e, fit, err := w.learned(d, s)
	if err != nil {
		return Odds{}, err
	}
	return e.odds(d, fit), nil
}

// odds reads them off a sample.
func (e *ensemble) odds(d *Design, f fitted) Odds {
	o := Odds{Unknowns: names(e.unknowns), ByDiffusivity: f.byDiffusivity, FastIsWetter: f.fastIsWetter, Correlated: d.Material.Diffusivity.Correlated(), surrogate: f.surrogate}
	if f.surrogate != nil {
		o.Fit = f.surrogate.Error
	}
	sample := f.sample
	const around = 0.02
	limit := d.LimitInDoubt()
	o.Probability = meets(limit, sample, 0)
	o.Printing, o.Moulding = meets(d.Material.PrintingLimit, sample, 0), meets(d.Material.MouldingLimit, sample, 0)
	o.Density = (meets(limit, sample, around) - meets(limit, sample, -around)) / (2 * around)
	b := deciles(sample)
	o.Low, o.High, o.Ratio = b.Low, b.High, ratio(limit, sample)
	if f.axes != nil {
		o.DesignPoint = e.designPoint(f.axes)
	}
	return o
}

// byDiffusivity are the 10 and 90 % points of the content by the diffusivity alone, and whether it is greater where the diffusivity is,
// from the values at [surrogate.Points].
func (e *ensemble) byDiffusivity(values []float64) (b Between, fastIsWetter bool) {
	b = Between{math.Exp(values[0]), math.Exp(values[0])}
	if len(e.unknowns) == 0 || e.unknowns[0].Name != UnknownDiffusivity {
		return b, false
	}
	for _, v := range values[1:3] {
		b.Low, b.High = min(b.Low, math.Exp(v)), max(b.High, math.Exp(v))
	}
	return b, values[1] > values[2]
}

// ratio is what the content over the limit stays below one time and nine times in ten, from a sorted sample. Every eighth of it does: the limit's own doubt
// smooths the rest.
func ratio(limit materials.Value, sorted []float64) Between {
	const every, halvings = 8, 24
	var thin []float64
	for i := min(every/2, len(sorted)-1); i < len(sorted); i += every {
		thin = append(thin, sorted[i])
	}
	widest := 0.0
	if limit.Low < limit.High {
		const reach = 4 // deviates
		widest = reach * math.Log(limit.High/limit.Low)
	}
	at := func(share float64) float64 {
		low, high := thin[0]-math.Log(limit.Value)-widest, thin[len(thin)-1]-math.Log(limit.Value)+widest
		for range halvings {
			if middle := (low + high) / 2; meets(limit, thin, middle) < share {
				low = middle
			} else {
				high = middle
			}
		}
		return math.Exp((low + high) / 2)
	}
	return Between{at(OneInTen), at(NineInTen)}
}

// deciles are the 10 and 90 % points of what a sample, which it sorts, has the logarithms of.
func deciles(sample []float64) Between {
	b := Deciles(sample)
	return Between{math.Exp(b.Low), math.Exp(b.High)}
}

// Deciles are the 10 and 90 % points of a sample of one value or more, which it sorts.
func Deciles(sample []float64) Between {
	slices.Sort(sample)
	const about = 0.015 // of the sample, on either side: one value alone is a rough quantile
	at := func(share float64) float64 {
		n := float64(len(sample))
		from, to := int(math.Round((share-about)*n)), int(math.Round((share+about)*n))
		return stat.Mean(sample[from:max(to, from+1)], nil)
	}
	return Between{at(OneInTen), at(NineInTen)}
}

// Rests is the probability that the content in equilibrium with a water activity [-] at a temperature [K] is within the limit.
func (w *March) Rests(design *Design, activity, temperature float64) float64 {
	unknowns := design.Unknowns()
	draws := w.draws(len(unknowns))
	sample := make([]float64, 0, len(draws))
	for _, z := range draws {
		d := draw{model: &design.Model}
		for i, u := range unknowns {
			u.change(&d, z[i])
		}
		p := design.Material.Drawn(d.material)
		sample = append(sample, logarithm(p.Sorption.Content(activity, temperature), design.Limit))
	}
	return meets(design.LimitInDoubt(), sample, 0)
}

// meets is the probability that a content, of which a sample of logarithms is given, is no more than a limit times exp(by).
func meets(limit materials.Value, sample []float64, by float64) float64 {
	median, below, above := limit.Spread()
	sum := 0.0
	for _, log := range sample {
		deviate := 0.0
		switch off := log - by - median; {
		case limit.Low == limit.High:
			if math.Exp(log-by) <= limit.Value {
				sum++
			}
			continue
		case off < 0:
			deviate = off / below
		case off > 0:
			deviate = off / above
		}
		sum += distuv.UnitNormal.Survival(deviate)
	}
	return sum / float64(len(sample))
}

// drawsFor are the points at which the odds ask a surrogate.
func (w *March) drawsFor(f *surrogate.Surrogate, unknowns int) [][]float64 {
	all := w.draws(unknowns)
	flat := make([]float64, 0, len(all)*unknowns)
	out := make([][]float64, len(all))
	for i, z := range all {
		flat = append(flat, z...)
		out[i] = flat[i*unknowns:]
	}
	f.Along(out)
	return out
}

// draws are points that are drawn.
func (w *March) draws(unknowns int) [][]float64 {
	const count, seed = 2048, 1
	for len(w.drawn) <= unknowns {
		w.drawn = append(w.drawn, nil)
	}
	if w.drawn[unknowns] == nil {
		w.drawn[unknowns] = surrogate.Draws(count, unknowns, seed)
	}
	return w.drawn[unknowns]
}
