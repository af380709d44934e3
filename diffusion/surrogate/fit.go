package surrogate

import (
	"errors"
	"math"

	"gonum.org/v1/gonum/mat"

	"strandry/diffusion/simd"
)

// Surrogate stands in for a function. It is not changed by use.
type Surrogate struct {
	Error float64 // root mean square of what each value at a draw differs from the fit without it

	rates   []float64 // one over the length of each unknown
	places  []float64 // of the values, in lengths, one unknown after another
	weights []float64 // of the values
	drift   Drift     // nil for none
	plane   []float64 // a constant, and a slope for each unknown
	alpha   []float64 // direction of steepest fall; nil where there is none

	// Of what is like another surrogate: by how much what the drift leaves is more than there, and what is added along the line; nil for nothing.
	scale float64
	along *curve
}

// Drift is what is known of a function beforehand: what the values differ by from it is what is fitted (kriging with an external drift: Wackernagel,
// Multivariate Geostatistics (2003), chapter 37, from memory). It may be called by several goroutines at once.
type Drift func(z []float64) float64

// ErrTooFew is that too few values are known.
var ErrTooFew = errors.New("too few values to fit")

// Fit makes a surrogate from the values at [Points], with any further draws after them, and at the [Line] that they give. Values that are
// not known are NaN; half of those at the points may be, the centre and two of the line must be known. Drift is nil for none.
func Fit(drift Drift, points [][]float64, values []float64, line [][]float64, onLine []float64) (*Surrogate, error) {
	unknowns, alpha := len(points[0]), steepest(len(points[0]), values)
	values, onLine = drift.leaves(points, values), drift.leaves(line, onLine)
	changes := changes(unknowns, values)
	if math.IsNaN(values[0]) {
		return nil, ErrTooFew
	}
	if changes == nil {
		return &Surrogate{drift: drift, alpha: alpha, plane: append([]float64{values[0]}, make([]float64, unknowns)...)}, nil
	}
	s := sample{centre: values[0]}
	known := s.add(points, values, 1+2*unknowns)
	if s.add(line, onLine, len(line)) < min(2, len(line)) || 2*known < len(points) {
		return nil, ErrTooFew
	}
	length, err := s.first(mostCompared).likeliest(changes)
	if err != nil {
		return nil, err
	}
	out, err := s.surrogate(changes, length)
	if err == nil {
		out.alpha, out.drift = alpha, drift
	}
	return out, err
}

// Copy is a surrogate of the surrogate, from its values at [Points], on their line, and at some draws: it has no drift, and is quicker for it.
func (s *Surrogate) Copy(draws [][]float64) (*Surrogate, error) {
	if s.drift == nil {
		return s, nil
	}
	values := func(points [][]float64) []float64 {
		out := make([]float64, len(points))
		for i, z := range points {
			out[i] = s.At(z)
		}
		return out
	}
	points := Points(len(s.plane) - 1)
	line := Line(len(s.plane)-1, values(points))
	points = append(points, draws...)
	return Fit(nil, points, values(points), line, values(line))
}

// leaves is what values differ by from the drift.
func (d Drift) leaves(points [][]float64, values []float64) []float64 {
	if d == nil {
		return values
	}
	out := make([]float64, len(values))
	for i, value := range values {
		out[i] = value - d(points[i])
	}
	return out
}

// sample is what is known of a function.
type sample struct {
	points [][]float64
	values []float64 // less that at the centre
	drawn  []bool    // whether the point is a draw, not a place that was chosen
	centre float64
}

// add takes what is known, of which so many first were chosen, and counts it.
func (s *sample) add(points [][]float64, values []float64, chosen int) (known int) {
	for i, p := range points {
		if !math.IsNaN(values[i]) {
			s.points, s.values = append(s.points, p), append(s.values, values[i]-s.centre)
			s.drawn = append(s.drawn, i >= chosen)
			known++
		}
	}
	return known
}

// first are the first few of a sample.
func (s *sample) first(count int) *sample {
	count = min(count, len(s.values))
	return &sample{s.points[:count], s.values[:count], s.drawn[:count], s.centre}
}

// mostCompared are the values by which lengths are compared.
const mostCompared = 128

// likeliest is the length, for the unknown that matters most, with which the values of a sample are the most likely.
func (s *sample) likeliest(changes []float64) (float64, error) {
	best, least := 0.0, math.Inf(1)
	for _, length := range [...]float64{1.5, 2.5, 4, 6.5, 10} {
		var k kriged
		if !k.solve(s, rates(changes, length)) {
			continue
		}
		n := float64(len(s.values))
		if unlikely := n*math.Log(mat.Dot(&k.values, &k.weights)/n) + k.factors.LogDet(); unlikely < least {
			best, least = length, unlikely
		}
	}
	if best == 0 {
		return 0, ErrTooFew
	}
	return best, nil
}

// rates are one over the length over which each unknown changes the function, the longer the less it does.
func rates(changes []float64, length float64) []float64 {
	const least = 0.1
	out := make([]float64, len(changes))
	for i, c := range changes {
		out[i] = max(c, least) / length
	}
	return out
}

// kriged is a system of equations for the weights of the values.
type kriged struct {
	factors         mat.Cholesky
	values, weights mat.VecDense
	places          []float64
}

// sloped is the variance of the slopes and of the constant of the trend, in that of the rest: they are as good as free.
const sloped = 30

// solve finds the weights; false where rounding does not let it.
func (k *kriged) solve(s *sample, rates []float64) bool {
	const jitter = 1e-6 // variance of what a value itself is off by
	n, unknowns := len(s.values), len(rates)
	k.places = make([]float64, 0, n*unknowns)
	for _, p := range s.points {
		for i, x := range p {
			k.places = append(k.places, x*rates[i])
		}
	}
	covariance := mat.NewSymDense(n, nil)
	for i := range n {
		for j := range i {
			here, there := k.places[i*unknowns:(i+1)*unknowns], k.places[j*unknowns:(j+1)*unknowns]
			covariance.SetSym(i, j, matern(here, there)+sloped*(1+dot(s.points[i], s.points[j])))
		}
		covariance.SetSym(i, i, 1+jitter+sloped*(1+dot(s.points[i], s.points[i])))
	}
	k.values = *mat.NewVecDense(n, s.values)
	return k.factors.Factorize(covariance) && k.factors.SolveVecTo(&k.weights, &k.values) == nil
}

// matern is the correlation of the function at two places, in lengths: of the order 5/2, that of functions that can be derived twice.
func matern(a, b []float64) float64 {
	square := 0.0
	for i, x := range a {
		square += (x - b[i]) * (x - b[i])
	}
	d := math.Sqrt(5 * square)
	return (1 + d + 5./3*square) * math.Exp(-d)
}

// surrogate of a sample.
func (s *sample) surrogate(changes []float64, length float64) (*Surrogate, error) {
	var k kriged
	out := &Surrogate{rates: rates(changes, length)}
	if !k.solve(s, out.rates) {
		return nil, ErrTooFew
	}
	out.weights, out.places = k.weights.RawVector().Data, make([]float64, len(k.places))
	for at, x := range k.places {
		out.places[at%len(changes)*len(s.values)+at/len(changes)] = x
	}
	out.plane = make([]float64, 1+len(changes))
	out.plane[0] = s.centre
	for i, w := range out.weights {
		out.plane[0] += sloped * w
		for j, x := range s.points[i] {
			out.plane[1+j] += sloped * w * x
		}
	}
	var inverse mat.SymDense
	if err := k.factors.InverseTo(&inverse); err != nil {
		return nil, ErrTooFew
	}
	sum, count := 0.0, 0.0
	for i, drawn := range s.drawn {
		if drawn || len(changes) == 1 {
			left := out.weights[i] / inverse.At(i, i)
			sum, count = sum+left*left, count+1
		}
	}
	out.Error = math.Sqrt(sum / max(1, count))
	return out, nil
}

// At is the function at a point of the unknowns, as the surrogate has it.
func (s *Surrogate) At(z []float64) float64 {
	value := s.rest(z)
	if s.along != nil {
		value = s.scale*value + s.along.at(dot(s.alpha, z))
	}
	if s.drift != nil {
		value += s.drift(z)
	}
	return value
}

// rest is what the drift leaves.
func (s *Surrogate) rest(z []float64) float64 {
	value := s.plane[0] + dot(s.plane[1:], z)
	n := len(s.weights)
	for first := 0; first < n; first += together {
		var squares [together]float64 // of the distances, in lengths
		weights := s.weights[first:min(first+together, n)]
		for i, rate := range s.rates {
			here := z[i] * rate
			simd.AddSquares(squares[:len(weights)], s.places[i*n+first:][:len(weights)], here)
		}
		value += simd.Matern(squares[:], weights)
	}
	return value
}

// together are the values whose distances are found at a time.
const together = 64

func dot(a, b []float64) float64 {
	sum := 0.0
	for i := range a {
		sum += a[i] * b[i]
	}
	return sum
}
