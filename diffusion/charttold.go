package diffusion

import (
	"context"
	"math"
	"slices"

	"gonum.org/v1/gonum/stat"

	"strandry/diffusion/parallel"
	"strandry/diffusion/root"
	"strandry/materials"
)

// Told is what a chart tells of a place.
type Told struct {
	Content     float64 // at the nozzle, at the medians of what is in doubt [kg/kg dry]
	Low, High   float64 // 10 and 90 % points of it [kg/kg dry]
	Probability float64 // that it is no more than the limit
	Density     float64 // rise of the probability with the logarithm of the limit
	Ratio       Between // 10 and 90 % points of the content over the limit, the limit's own doubt included [-]
}

// Tell tells of many places, each a value of every number that is varied, on all cores and in their order. The error is that of the context.
func (c *Chart) Tell(ctx context.Context, places [][]float64) ([]Told, error) {
	const together = 32
	c.cross()
	shares := slices.Collect(slices.Chunk(places, together))
	found, err := parallel.Each(ctx, len(shares), func(i int) ([]Told, error) {
		t := c.teller()
		out := make([]Told, 0, len(shares[i]))
		for _, values := range shares[i] {
			out = append(out, t.tell(values))
		}
		return out, nil
	})
	return slices.Concat(found...), err
}

// teller tells of one place after another.
type teller struct {
	chart  *Chart
	limit  limitInLogs
	law    *estimating // nil for none
	draw   drawing
	others []float64
}

func (c *Chart) teller() *teller {
	t := &teller{chart: c, limit: inLogs(c.ensemble.design.LimitInDoubt()), others: make([]float64, len(c.over))}
	if c.ensemble.by != nil {
		t.law = c.ensemble.estimating(c.ensemble.by)
		t.law.unknowns = t.law.unknowns[:c.doubts]
	}
	return t
}

func (t *teller) tell(values []float64) Told {
	c := t.chart
	for i := range c.over {
		t.others[i] = c.over[i].deviate(values[i])
	}
	logs := c.crossed.Rest(t.others)
	if t.law != nil {
		t.begin(&c.ensemble.design.Model)
		for i := range c.over {
			c.over[i].Set(&t.law.model, values[i])
		}
		for i := range logs {
			logs[i] += t.law.at(&t.draw, c.asked[i])
		}
	}
	return t.limit.told(logs[0], logs[1:])
}

// begin makes the model of the estimate anew, in the memory of its path and storage.
func (t *teller) begin(m *Model) {
	own := &t.law.model
	path, storage := append(own.Path[:0], m.Path...), append(own.Storage[:0], m.Storage...)
	*own = *m
	own.Path, own.Storage = path, storage
}

// limitInLogs is a limit in doubt, by logarithms.
type limitInLogs struct {
	value        float64 // logarithm
	below, above float64 // deviates to one of the logarithm, on either side; zero for a limit that is certain
}

func inLogs(limit materials.Value) limitInLogs {
	l := limitInLogs{value: math.Log(limit.Value)}
	if limit.Low < limit.High {
		l.below, l.above = materials.EndDeviate/math.Log(limit.Value/limit.Low), materials.EndDeviate/math.Log(limit.High/limit.Value)
	}
	return l
}

// meets is the probability that a content, of which a sample of logarithms is given, is no more than the limit times exp(by).
func (l *limitInLogs) meets(sample []float64, by float64) float64 {
	const far = 5 // deviates, beyond which there is but 3e-7
	sum := 0.0
	for _, log := range sample {
		over := log - by - l.value
		deviate := over * l.above
		if over < 0 {
			deviate = over * l.below
		}
		switch {
		case l.above == 0 && over > 0, deviate > far:
		case l.above == 0, deviate < -far:
			sum++
		default:
			sum += math.Erfc(deviate/math.Sqrt2) / 2
		}
	}
	return sum / float64(len(sample))
}

// told reads a place off a sample, which it sorts.
func (l *limitInLogs) told(median float64, sample []float64) Told {
	const around = 0.02
	slices.Sort(sample)
	low, high := point(sample, OneInTen), point(sample, NineInTen)
	t := Told{Content: math.Exp(median), Low: math.Exp(low), High: math.Exp(high), Probability: l.meets(sample, 0)}
	t.Density = (l.meets(sample, around) - l.meets(sample, -around)) / (2 * around)
	if l.above == 0 {
		t.Ratio = Between{math.Exp(low - l.value), math.Exp(high - l.value)}
		return t
	}
	t.Ratio = Between{math.Exp(l.point(sample, OneInTen)), math.Exp(l.point(sample, NineInTen))}
	return t
}

// point is what the logarithm of the content over the limit stays below with a probability.
func (l *limitInLogs) point(sorted []float64, share float64) float64 {
	const reach, close = 5, 1e-3 // deviates of the limit, beyond which it is not
	widest := reach / min(l.below, l.above)
	f := func(x float64) (float64, error) { return l.meets(sorted, x) - share, nil }
	b := root.Bracket{A: sorted[0] - l.value - widest, AtA: -share, B: sorted[len(sorted)-1] - l.value + widest, AtB: 1 - share}
	x, err := root.Find(f, b, root.Tolerance{Value: close / 10, Width: close})
	if err != nil {
		return point(sorted, share) - l.value // a limit that is wide beyond all measure
	}
	return x
}

// point of a sorted sample that lies below a share of it: the values about it, since one alone is rough.
func point(sorted []float64, share float64) float64 {
	const about = 0.03 // of the sample, on either side
	n := float64(len(sorted))
	from, to := int(math.Round((share-about)*n)), int(math.Round((share+about)*n))
	return stat.Mean(sorted[from:max(to, from+1)], nil)
}
