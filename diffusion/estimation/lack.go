package estimation

import (
	"math"
	"math/rand/v2"

	"gonum.org/v1/gonum/mat"
)

// Lack is how far residuals have a shape that the model cannot have.
type Lack struct {
	Share       float64 // of the residual squares that lie in the shape of which there is the most
	Probability float64 // that as much or more of them does so if the model holds
}

// LackOfFit sets the residuals of an estimate against some shapes, one in each column, by draws of what the parameters may be. The shapes are smooth
// functions over the readings, a few of them, such as the first polynomials of time.
func (p *Problem) LackOfFit(e *Estimate, s *Posterior, shapes *mat.Dense, seed uint64) (Lack, error) {
	t := newShapeTest(e, shapes)
	if t == nil {
		return Lack{Probability: 1}, nil
	}
	share := t.share(e.Residuals)
	const draws = 1000
	random := rand.New(rand.NewPCG(seed, 0xd1b54a32d192ed03))
	truth, residuals := make([]float64, len(p.Readings)), make([]float64, len(p.Readings))
	as := 1
	for i := range draws {
		k := i * len(s.Draws) / draws
		if err := p.Predict(s.Draws[k], truth); err != nil {
			return Lack{}, err
		}
		for j, r := range p.Readings {
			shown := truth[j] + s.Noise[k]*random.NormFloat64()
			if r.Resolution > 0 {
				shown = r.Resolution * math.Round(shown/r.Resolution)
			}
			residuals[j] = shown - truth[j]
		}
		if t.share(residuals) >= share {
			as++
		}
	}
	return Lack{Share: share, Probability: float64(as) / (draws + 1)}, nil
}

// shapeTest projects residuals.
type shapeTest struct {
	model  *mat.Dense   // what the parameters can do, in orthonormal columns
	shapes []*mat.Dense // of each shape what lies beyond that, of length one
}

// newShapeTest is nil where the readings leave no room for a shape.
func newShapeTest(e *Estimate, shapes *mat.Dense) *shapeTest {
	rows, count := shapes.Dims()
	if e.Freedom < 2*spare {
		return nil
	}
	t := &shapeTest{model: orthonormal(e.Jacobian, mat.NewDense(rows, 1, nil))}
	for k := range count {
		if own := orthonormal(shapes.Slice(0, rows, k, k+1).(*mat.Dense), t.model); own != nil {
			t.shapes = append(t.shapes, own)
		}
	}
	if len(t.shapes) == 0 || t.model == nil {
		return nil
	}
	return t
}

// orthonormal are the columns made orthogonal to those of others, which are orthonormal or zero, and to one another: by Gram and Schmidt, twice. What is all but nil
// then is left out; nil for none.
func orthonormal(columns, others *mat.Dense) *mat.Dense {
	rows, count := columns.Dims()
	_, given := others.Dims()
	var basis []*mat.VecDense
	for k := range given {
		basis = append(basis, mat.VecDenseCopyOf(others.ColView(k)))
	}
	for k := range count {
		v := mat.VecDenseCopyOf(columns.ColView(k))
		before := mat.Norm(v, 2)
		for range 2 {
			for _, b := range basis {
				v.AddScaledVec(v, -mat.Dot(v, b), b)
			}
		}
		const nothing = 1e-9
		if after := mat.Norm(v, 2); after > nothing*before {
			v.ScaleVec(1/after, v)
			basis = append(basis, v)
		}
	}
	basis = basis[given:]
	if len(basis) == 0 {
		return nil
	}
	out := mat.NewDense(rows, len(basis), nil)
	for k, b := range basis {
		out.SetCol(k, b.RawVector().Data)
	}
	return out
}

// share of the squares of residuals, without what the parameters can do, that lies in the shape in which most does.
func (t *shapeTest) share(residuals []float64) float64 {
	r := mat.NewVecDense(len(residuals), residuals)
	all := mat.Dot(r, r) - squaresIn(t.model, r)
	if !(all > 0) {
		return 0
	}
	most := 0.0
	for _, shape := range t.shapes {
		most = math.Max(most, squaresIn(shape, r))
	}
	return most / all
}

func squaresIn(basis *mat.Dense, r *mat.VecDense) float64 {
	var parts mat.VecDense
	parts.MulVec(basis.T(), r)
	return mat.Dot(&parts, &parts)
}
