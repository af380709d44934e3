package estimation

import (
	"errors"
	"fmt"
	"math"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/optimize"
)

// Estimate is what least squares find.
type Estimate struct {
	Parameters []float64
	Residuals  []float64  // reading less what is predicted
	Squares    float64    // sum of their squares
	Freedom    int        // readings less parameters
	Jacobian   *mat.Dense // change of each prediction with each parameter
}

// Noise is the standard deviation of the residuals, rounding included.
func (e *Estimate) Noise() float64 { return math.Sqrt(e.Squares / float64(e.Freedom)) }

// Covariance of the parameters for readings with independent errors of a deviation, and what is known beforehand. What the readings do not tell at all
// has the variance of what is evenly spread between its bounds.
func (p *Problem) Covariance(jacobian *mat.Dense, noise float64) (*mat.SymDense, error) {
	n := len(p.Lower)
	information := mat.NewSymDense(n, nil)
	information.SymOuterK(1/(noise*noise), jacobian.T())
	for i := range n {
		width := p.Upper[i] - p.Lower[i]
		more := 12 / (width * width)
		if p.Prior != nil && p.Prior[i].known() {
			more = 1 / (p.Prior[i].Deviation * p.Prior[i].Deviation)
		}
		information.SetSym(i, i, information.At(i, i)+more)
	}
	return inverted(information)
}

// inverted is the inverse of a symmetric positive matrix, whose rows may differ by many powers of ten.
func inverted(m *mat.SymDense) (*mat.SymDense, error) {
	n := m.SymmetricDim()
	scale := make([]float64, n)
	for i := range scale {
		scale[i] = 1 / math.Sqrt(m.At(i, i))
	}
	scaled := mat.NewSymDense(n, nil)
	for i := range n {
		for k := i; k < n; k++ {
			scaled.SetSym(i, k, m.At(i, k)*scale[i]*scale[k])
		}
	}
	var factor mat.Cholesky
	if !factor.Factorize(scaled) {
		return nil, fmt.Errorf("the information on %d parameters is not positive", n)
	}
	out := mat.NewSymDense(n, nil)
	if err := factor.InverseTo(out); err != nil {
		return nil, fmt.Errorf("the information on %d parameters: %w", n, err)
	}
	for i := range n {
		for k := i; k < n; k++ {
			out.SetSym(i, k, out.At(i, k)*scale[i]*scale[k])
		}
	}
	return out, nil
}

// within brings numbers without bounds to parameters within theirs, and back.
func (p *Problem) within(free, out []float64) {
	for i, u := range free {
		out[i] = p.Lower[i] + (p.Upper[i]-p.Lower[i])/(1+math.Exp(-u))
	}
}

func (p *Problem) free(parameters []float64) []float64 {
	out := make([]float64, len(parameters))
	for i, v := range parameters {
		const inside = 1e-6 // a start at a bound would stay there
		share := (v - p.Lower[i]) / (p.Upper[i] - p.Lower[i])
		share = math.Min(math.Max(share, inside), 1-inside)
		out[i] = math.Log(share / (1 - share))
	}
	return out
}

// LeastSquares finds the parameters of the least sum of squares near a start, by Newton's method with the Hessian of Gauss. Priors do not count. The error
// is that of a prediction, or that of a problem that is unfit.
func (p *Problem) LeastSquares(start []float64) (*Estimate, error) {
	if err := p.Check(); err != nil {
		return nil, err
	}
	s := squares{problem: p, parameters: make([]float64, len(start)), residuals: make([]float64, len(p.Readings))}
	free := p.free(start)
	s.unit = math.Max(s.at(free), math.SmallestNonzeroFloat64)
	if s.failed != nil {
		return nil, s.failed
	}
	settings := &optimize.Settings{
		MajorIterations:   200,
		GradientThreshold: 1e-12,
		Converger:         &optimize.FunctionConverge{Relative: 1e-15, Iterations: 4},
	}
	found, err := optimize.Minimize(optimize.Problem{
		Func: func(x []float64) float64 { return s.at(x) / s.unit },
		Grad: s.gradient,
		Hess: s.hessian,
	}, free, settings, &optimize.Newton{})
	if s.failed != nil {
		return nil, s.failed
	}
	if found == nil {
		return nil, fmt.Errorf("least squares: %w", err)
	}
	// Where a step can no longer be told from rounding the search ends with an error of its own, at its best place.
	return s.estimate(found.X)
}

// squares is the sum of squares as a function of parameters without bounds.
type squares struct {
	problem    *Problem
	parameters []float64
	residuals  []float64
	unit       float64
	jacobian   *mat.Dense
	failed     error
}

// at is the sum of squares.
func (s *squares) at(free []float64) float64 {
	s.problem.within(free, s.parameters)
	if err := s.problem.Predict(s.parameters, s.residuals); err != nil {
		s.failed = err
		return math.Inf(1)
	}
	sum := 0.0
	for i, r := range s.problem.Readings {
		s.residuals[i] = r.Value - s.residuals[i]
		sum += s.residuals[i] * s.residuals[i]
	}
	return sum
}

// differences is the Jacobian of the predictions in the free parameters, by central differences.
func (s *squares) differences(free []float64) *mat.Dense {
	const step = 1e-4
	rows := len(s.problem.Readings)
	out := mat.NewDense(rows, len(free), nil)
	moved, low, high := append([]float64(nil), free...), make([]float64, rows), make([]float64, rows)
	for k := range free {
		for _, side := range [...]struct {
			by   float64
			into []float64
		}{{-step, low}, {step, high}} {
			moved[k] = free[k] + side.by
			s.problem.within(moved, s.parameters)
			if err := s.problem.Predict(s.parameters, side.into); err != nil {
				s.failed = err
			}
		}
		moved[k] = free[k]
		for i := range rows {
			out.Set(i, k, (high[i]-low[i])/(2*step))
		}
	}
	return out
}

func (s *squares) gradient(grad, free []float64) {
	s.jacobian = s.differences(free)
	s.at(free)
	for k := range grad {
		grad[k] = 0
		for i, r := range s.residuals {
			grad[k] -= 2 * s.jacobian.At(i, k) * r / s.unit
		}
	}
}

func (s *squares) hessian(h *mat.SymDense, free []float64) {
	h.SymOuterK(2/s.unit, s.differences(free).T())
}

// estimate is what is told of a place.
func (s *squares) estimate(free []float64) (*Estimate, error) {
	p := s.problem
	e := &Estimate{Squares: s.at(free), Parameters: append([]float64(nil), s.parameters...), Residuals: append([]float64(nil), s.residuals...)}
	e.Freedom = len(p.Readings) - len(free)
	var err error
	e.Jacobian, err = p.Jacobian(e.Parameters)
	return e, errors.Join(err, s.failed)
}

// Jacobian is the change of each prediction with each parameter, by central differences.
func (p *Problem) Jacobian(parameters []float64) (*mat.Dense, error) {
	s := squares{problem: p, parameters: make([]float64, len(parameters)), residuals: make([]float64, len(p.Readings))}
	free := p.free(parameters)
	jacobian := s.differences(free)
	for k := range free { // of the parameter by the free one
		width := p.Upper[k] - p.Lower[k]
		share := 1 / (1 + math.Exp(-free[k]))
		slope := width * share * (1 - share)
		for i := range p.Readings {
			jacobian.Set(i, k, jacobian.At(i, k)/slope)
		}
	}
	return jacobian, s.failed
}
