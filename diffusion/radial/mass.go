package radial

// mass is the mass matrix, row i: lower[i] c[i-1] + diag[i] c[i] + upper[i] c[i+1];
// the last row has one more entry, far c[n-3]. [m²]
type mass struct {
	lower, diag, upper []float64
	far                float64
}

func newMass(n int) mass {
	block := make([]float64, 3*n)
	return mass{lower: block[:n:n], diag: block[n : 2*n : 2*n], upper: block[2*n:]}
}

// Lumped is the grid with a diagonal mass matrix of the same content: of second order
// only, but a field on it keeps within the range of its start and its surroundings,
// however steep a front is.
func (g *Grid) Lumped() *Grid {
	lumped := *g
	lumped.mass = newMass(g.Len())
	copy(lumped.mass.diag, g.weight)
	lumped.lumped = true
	return &lumped
}

// Mass gives the rows of the mass matrix [m²], to be read only: lower[i] c[i-1] + diag[i] c[i] +
// upper[i] c[i+1], and far c[n-3] besides in the last row.
func (g *Grid) Mass() (lower, diag, upper []float64, far float64) {
	return g.lower, g.diag, g.upper, g.far
}

// Weights gives the content weights [m²], to be read only: Σ Weights[i] c[i] is ∫ c r dr.
func (g *Grid) Weights() []float64 { return g.weight }
