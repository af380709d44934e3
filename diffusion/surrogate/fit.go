package surrogate

import (
	"errors"
	"math"

	"gonum.org/v1/gonum/mat"
)

// Surrogate stands in for a function. It is not changed by use.
type Surrogate struct {
	centre float64
	alpha  []float64 // nil where the function does not change
	curve  *curve
	shift  bool      // the polynomial shifts t, else it is added
	terms  []float64 // of the polynomial
	Error  float64   // root mean square of what each value differs from the fit without it
}

// ErrTooFew is that too few values are known.
var ErrTooFew = errors.New("too few values to fit")

// Fit makes a surrogate from the values at [Points] and at the [Line] that they give, and at any further points. Values that are not
// known are NaN; half of those at Points may be, the centre and two of the line must be known.
func Fit(points [][]float64, values []float64, line [][]float64, onLine []float64) (*Surrogate, error) {
	unknowns := len(points[0])
	s := &Surrogate{centre: values[0], alpha: steepest(unknowns, values)}
	if math.IsNaN(s.centre) {
		return nil, ErrTooFew
	}
	if s.alpha == nil {
		return s, nil
	}
	knots := []knot{{0, s.centre}}
	for i, t := range lineKnots(s.alpha, line) {
		if !math.IsNaN(onLine[i]) {
			knots = append(knots, knot{t, onLine[i]})
		}
	}
	var known [][]float64
	var at []float64
	for i, p := range points {
		if !math.IsNaN(values[i]) {
			known, at = append(known, p), append(at, values[i])
		}
	}
	if len(knots) < 3 || 2*len(known) < len(points) {
		return nil, ErrTooFew
	}
	var err error
	if s.curve, err = newCurve(knots); err != nil {
		return nil, err
	}
	s.added(known, at)
	if s.curve.falls {
		other := *s
		other.shifted(known, at)
		if other.Error < s.Error {
			*s = other
		}
	}
	return s, nil
}

// lineKnots are the places of the points on the line.
func lineKnots(alpha []float64, line [][]float64) []float64 {
	ts := make([]float64, len(line))
	for i, p := range line {
		ts[i] = dot(alpha, p)
	}
	return ts
}

// added fits what is added to the curve.
func (s *Surrogate) added(points [][]float64, values []float64) {
	rows := make([]row, len(points))
	for i, p := range points {
		rows[i] = row{point: p, value: values[i] - s.curve.at(dot(s.alpha, p)), weight: 1}
	}
	var left []float64
	s.shift = false
	s.terms, left = least(rows)
	s.Error = rms(left)
}

// shifted fits what shifts along the curve. A shift counts by what it changes, the slope of the curve there.
func (s *Surrogate) shifted(points [][]float64, values []float64) {
	const level = 1e-4 // of the square of a slope: a flat stretch tells little of the shift
	rows := make([]row, len(points))
	for i, p := range points {
		t := dot(s.alpha, p)
		now := s.curve.inverse(values[i])
		rows[i] = row{point: p, value: now - t, weight: math.Sqrt(s.curve.slope(now)*s.curve.slope(t) + level)}
	}
	var left []float64
	s.shift = true
	s.terms, left = least(rows)
	for i, r := range rows {
		t := dot(s.alpha, r.point) + r.value - left[i] // where the fit without this value puts it
		left[i] = values[i] - s.curve.at(t)
	}
	s.Error = rms(left)
}

// At is the function at a point of the unknowns, as the surrogate has it.
func (s *Surrogate) At(z []float64) float64 {
	if s.alpha == nil {
		return s.centre
	}
	t, q := dot(s.alpha, z), s.polynomial(z)
	if s.shift {
		return s.curve.at(t + q)
	}
	return s.curve.at(t) + q
}

// Like makes the surrogate of another function of the same unknowns from its values at the centre and on [Surrogate.Line]: what the unknowns do to one
// another is taken for the same, only how the function changes along the line is not. Its error is not known. A value that is not known is NaN; the
// centre and two of the line must be.
func (s *Surrogate) Like(centre float64, onLine []float64) (*Surrogate, error) {
	out := *s
	out.centre, out.Error = centre, 0
	if math.IsNaN(centre) {
		return nil, ErrTooFew
	}
	if s.alpha == nil {
		return &out, nil
	}
	at := []knot{{0, centre}}
	for i, t := range knots() {
		if !math.IsNaN(onLine[i]) {
			at = append(at, knot{t, onLine[i]})
		}
	}
	if len(at) < 3 {
		return nil, ErrTooFew
	}
	var err error
	out.curve, err = newCurve(at)
	return &out, err
}

// Line is the points on the line of steepest change; none where the function does not change.
func (s *Surrogate) Line() [][]float64 { return along(s.alpha) }

// Steepest is the point on the line of steepest change at which the function has a value; nil where there is none.
func (s *Surrogate) Steepest(value float64) []float64 {
	if s.alpha == nil {
		return nil
	}
	const near = 1e-3
	t := s.curve.inverse(value)
	if math.Abs(s.curve.at(t)-value) > near {
		return nil
	}
	point := make([]float64, len(s.alpha))
	for i, a := range s.alpha {
		point[i] = t * a
	}
	return point
}

// polynomial of degree two, in the order of [monomials].
func (s *Surrogate) polynomial(z []float64) float64 {
	sum, next := s.terms[0], 1
	for _, x := range z {
		sum += s.terms[next] * x
		next++
	}
	for i, x := range z {
		for _, y := range z[i:] {
			sum += s.terms[next] * x * y
			next++
		}
	}
	return sum
}

// monomials of degree two and less.
func monomials(z []float64) []float64 {
	terms := append([]float64{1}, z...)
	for i, x := range z {
		for _, y := range z[i:] {
			terms = append(terms, x*y)
		}
	}
	return terms
}

// row is one equation of the fit.
type row struct {
	point         []float64
	value, weight float64
}

// least fits a polynomial by weighted least squares, held a little towards zero, and tells what each value differs from the fit that is
// made without it: its residual over one less its leverage.
func least(rows []row) (terms, left []float64) {
	const hold = 1e-3 // of the root of the number of rows
	n := len(monomials(rows[0].point))
	a, b := mat.NewDense(len(rows)+n, n, nil), mat.NewVecDense(len(rows)+n, nil)
	for i, r := range rows {
		for j, x := range monomials(r.point) {
			a.Set(i, j, r.weight*x)
		}
		b.SetVec(i, r.weight*r.value)
	}
	for j := range n {
		a.Set(len(rows)+j, j, hold*math.Sqrt(float64(len(rows))))
	}
	var qr mat.QR
	qr.Factorize(a)
	var x mat.VecDense
	_ = qr.SolveVecTo(&x, false, b) // held towards zero, it is never singular
	var q mat.Dense
	qr.QTo(&q)
	terms, left = x.RawVector().Data, make([]float64, len(rows))
	for i, r := range rows {
		leverage := 0.0
		for j := range n {
			leverage += q.At(i, j) * q.At(i, j)
		}
		const most = 0.98
		left[i] = (r.value - dot(terms, monomials(r.point))) / (1 - math.Min(leverage, most))
	}
	return terms, left
}

func dot(a, b []float64) float64 {
	sum := 0.0
	for i := range a {
		sum += a[i] * b[i]
	}
	return sum
}

func rms(x []float64) float64 {
	sum := 0.0
	for _, v := range x {
		sum += v * v
	}
	return math.Sqrt(sum / float64(len(x)))
}
