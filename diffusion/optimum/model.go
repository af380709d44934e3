package optimum

import (
	"math"

	"gonum.org/v1/gonum/mat"
)

// model stands in for the cost and the violations near a place: through what is known, sums of cubes of distances and a plane.
type model struct {
	centre []float64
	scale  float64     // of distances
	places [][]float64 // of the points, in scales from the centre
	rows   *mat.Dense  // a weight of each point, a constant and slopes, for the cost and each violation
	out    []float64
	at     []float64
}

// modelOf fits the points about a place; false where they tell too little, such as fewer than one more than the variables.
func modelOf(points []*Point, centre []float64, scale float64) (*model, bool) {
	n, k := len(centre), len(points)
	if k < n+1 {
		return nil, false
	}
	m := &model{centre: centre, scale: scale, at: make([]float64, n)}
	outputs := 1 + len(points[0].Violations)
	m.out = make([]float64, outputs)
	right := mat.NewDense(k+n+1, outputs, nil)
	for i, p := range points {
		m.places = append(m.places, m.scaled(p.unit, nil))
		right.Set(i, 0, p.Cost)
		for j, v := range p.Violations {
			right.Set(i, 1+j, v)
		}
	}
	left := mat.NewDense(k+n+1, k+n+1, nil)
	const ridge = 1e-9 // keeps places that lie close together, or in a plane, from being fitted wildly
	for i, a := range m.places {
		for j, b := range m.places[:i] {
			left.Set(i, j, cube(a, b))
			left.Set(j, i, left.At(i, j))
		}
		left.Set(i, i, ridge)
		left.Set(i, k, 1)
		left.Set(k, i, 1)
		for j, x := range a {
			left.Set(i, k+1+j, x)
			left.Set(k+1+j, i, x)
		}
	}
	for j := range n + 1 {
		left.Set(k+j, k+j, -ridge)
	}
	var lu mat.LU
	lu.Factorize(left)
	m.rows = mat.NewDense(k+n+1, outputs, nil)
	if err := lu.SolveTo(m.rows, false, right); err != nil {
		if _, poor := err.(mat.Condition); !poor {
			return nil, false
		}
	}
	for _, w := range m.rows.RawMatrix().Data {
		if math.IsNaN(w) || math.IsInf(w, 0) {
			return nil, false
		}
	}
	return m, true
}

func (m *model) scaled(unit, into []float64) []float64 {
	for i, u := range unit {
		into = append(into, (u-m.centre[i])/m.scale)
	}
	return into
}

// cube of the distance of two places.
func cube(a, b []float64) float64 {
	square := 0.0
	for i := range a {
		d := a[i] - b[i]
		square += d * d
	}
	return square * math.Sqrt(square)
}

// predict gives the cost and the violations at a place; the slice is used again by the next call.
func (m *model) predict(unit []float64) []float64 {
	m.at = m.scaled(unit, m.at[:0])
	raw := m.rows.RawMatrix()
	row := func(i int) []float64 { return raw.Data[i*raw.Stride : i*raw.Stride+raw.Cols] }
	copy(m.out, row(len(m.places)))
	for j, x := range m.at {
		addTo(m.out, x, row(len(m.places)+1+j))
	}
	for i, p := range m.places {
		addTo(m.out, cube(p, m.at), row(i))
	}
	return m.out
}

func addTo(out []float64, times float64, row []float64) {
	for i, w := range row {
		out[i] += times * w
	}
}
