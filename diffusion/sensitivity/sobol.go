package sensitivity

import (
	"math"

	"strandry/diffusion/surrogate"
)

// Function is what is asked.
type Function struct {
	Unknowns int                       // at least one
	At       func(z []float64) float64 // finite
	Off      float64                   // root mean square of what it is off at a few dozen draws at which the function that it stands in for was tried; zero if it is that itself
}

// Index is a share of the variance, from 0 to 1.
type Index struct {
	Value     float64
	Low, High float64 // between these nine times in ten
	Estimate  float64 // what the estimator gave; Value is that, brought to where an index can lie
}

// Indices are those of all unknowns; each is zero where there is no variance.
type Indices struct {
	Variance     float64
	First, Total []Index
}

// draws of the estimators, and the blocks of them from which their error comes.
const draws, blocks = 8192, 16

// Sobol estimates the indices of a function. The same function has the same indices, to the bit.
func Sobol(f Function) Indices { return sobol(f, 1) }

// sobol draws by a seed.
func sobol(f Function, seed uint64) Indices {
	s := newSample(f, seed)
	whole := s.moments(0, draws)
	out := Indices{First: make([]Index, f.Unknowns), Total: make([]Index, f.Unknowns)}
	const round = 1e-24 // of the square of the mean
	if !(whole.variance > round*whole.mean*whole.mean) {
		return out
	}
	out.Variance = whole.variance
	var parts []moments
	for b := range blocks {
		parts = append(parts, s.moments(b*draws/blocks, (b+1)*draws/blocks))
	}
	shifts := s.shifts(f.Off, seed)
	for i := range f.Unknowns {
		total := func(m moments) float64 { return m.total[i] }
		first := func(m moments) float64 { return m.first[i] }
		out.Total[i] = index(whole, parts, shifts, total, 1, seed)
		out.First[i] = index(whole, parts, shifts, first, out.Total[i].Value, seed)
	}
	return out
}

// sample is the function at the draws.
type sample struct {
	a, b   [][]float64
	fa, fb []float64
	fab    [][]float64 // for each unknown
}

func newSample(f Function, seed uint64) *sample {
	both := surrogate.Draws(draws, 2*f.Unknowns, seed)
	s := &sample{fa: make([]float64, draws), fb: make([]float64, draws)}
	for k, row := range both {
		a, b := row[:f.Unknowns:f.Unknowns], row[f.Unknowns:]
		s.a, s.b = append(s.a, a), append(s.b, b)
		s.fa[k], s.fb[k] = f.At(a), f.At(b)
	}
	z := make([]float64, f.Unknowns)
	for i := range f.Unknowns {
		values := make([]float64, draws)
		for k := range s.a {
			copy(z, s.a[k])
			z[i] = s.b[k][i]
			values[k] = f.At(z)
		}
		s.fab = append(s.fab, values)
	}
	return s
}

// moments are what the indices are made of.
type moments struct {
	mean, variance float64
	first, total   []float64 // variance by an unknown alone, and with the others
}

// moments are those of the draws from one to another.
func (s *sample) moments(from, to int) moments {
	n := float64(to - from)
	m := moments{first: make([]float64, len(s.fab)), total: make([]float64, len(s.fab))}
	for k := from; k < to; k++ {
		m.mean += (s.fa[k] + s.fb[k]) / (2 * n)
	}
	for k := from; k < to; k++ {
		a, b := s.fa[k]-m.mean, s.fb[k]-m.mean
		m.variance += (a*a + b*b) / (2 * n)
	}
	for i, fab := range s.fab {
		for k := from; k < to; k++ {
			step := fab[k] - s.fa[k]
			m.first[i] += (s.fb[k] - m.mean) * step / n
			m.total[i] += step * step / (2 * n)
		}
	}
	return m
}

// index joins the errors of one index, of which the part of the variance is given, into an interval.
func index(whole moments, parts []moments, shifts []shift, part func(moments) float64, most float64, seed uint64) Index {
	estimate := part(whole) / whole.variance
	sum := 0.0
	for _, m := range parts {
		off := (part(m) - estimate*m.variance) / whole.variance
		sum += off * off
	}
	off := reach(shifts, part, math.Sqrt(sum/blocks/(blocks-1)), seed)
	x := Index{Value: math.Min(math.Max(estimate, 0), most), Estimate: estimate}
	x.Low = math.Max(0, math.Min(x.Value, estimate-off))
	x.High = math.Min(1, math.Max(x.Value, estimate+off))
	return x
}
