package surrogate

import (
	"math"
	"math/rand/v2"
	"slices"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat/distuv"
	"gonum.org/v1/gonum/stat/samplemv"
)

// Step is the deviate of the points on the axes: the 10 and 90 % points of an unknown.
const Step = 1.2815515655446004

// Points are where the function must be known first: the centre, then each unknown alone at +Step and at -Step.
func Points(unknowns int) [][]float64 {
	points := [][]float64{make([]float64, unknowns)}
	for i := range unknowns {
		for _, step := range [...]float64{Step, -Step} {
			p := make([]float64, unknowns)
			p[i] = step
			points = append(points, p)
		}
	}
	return points
}

// knots of the curve along the steepest line, without the centre; the sample of a few thousand draws hardly leaves them.
func knots() []float64 { return []float64{-3, -2, -1, 1, 2, 3} }

// Line is the points on the steepest line through the centre at which the function must be known too, from its values at [Points]. A value
// that is not known is NaN. There is none where the function does not change.
func Line(unknowns int, values []float64) [][]float64 {
	return along(steepest(unknowns, values), knots())
}

// along is knots as points on the line in a direction; none without one.
func along(alpha, knots []float64) [][]float64 {
	if alpha == nil {
		return nil
	}
	var line [][]float64
	for _, t := range knots {
		p := make([]float64, len(alpha))
		for i, a := range alpha {
			p[i] = t * a
		}
		line = append(line, p)
	}
	return line
}

// steepest is the unit vector along which the function falls most, by differences along the axes; nil where it does not change.
func steepest(unknowns int, values []float64) []float64 {
	alpha, sum := make([]float64, unknowns), 0.0
	for i := range alpha {
		up, down := around(values, i)
		alpha[i] = (down - up) / 2
		sum += alpha[i] * alpha[i]
	}
	norm := math.Sqrt(sum)
	if norm < flat {
		return nil
	}
	for i := range alpha {
		alpha[i] /= norm
	}
	return alpha
}

// changes are how much each unknown changes the function, over the most that one does; nil where none does.
func changes(unknowns int, values []float64) []float64 {
	out, most := make([]float64, unknowns), 0.0
	for i := range out {
		up, down := around(values, i)
		out[i] = max(math.Abs(up), math.Abs(down))
		most = max(most, out[i])
	}
	if most < flat {
		return nil
	}
	for i := range out {
		out[i] /= most
	}
	return out
}

// flat is a change that is none.
const flat = 1e-7

// around is what an unknown changes the value by, up and down; one that is not known is taken for the other's contrary.
func around(values []float64, unknown int) (up, down float64) {
	up, down = values[1+2*unknown]-values[0], values[2+2*unknown]-values[0]
	switch {
	case math.IsNaN(up) && math.IsNaN(down):
		return 0, 0
	case math.IsNaN(up):
		up = -down
	case math.IsNaN(down):
		down = -up
	}
	return up, down
}

// Draws are points of standard normal unknowns, by a scrambled Halton sequence (Owen's permutations): n rows. The same seed gives the same
// points.
func Draws(n, unknowns int, seed uint64) [][]float64 {
	if unknowns == 0 {
		return make([][]float64, n)
	}
	batch := mat.NewDense(n, unknowns, nil)
	sequence := samplemv.Halton{Kind: samplemv.Owen, Q: normals{}, Src: rand.NewPCG(seed, 0)}
	sequence.Sample(batch)
	rows := make([][]float64, n)
	for i := range rows {
		rows[i] = batch.RawRowView(i)
	}
	return rows
}

// Along turns draws, which it changes, so that their first coordinate lies along the line of steepest change. The first coordinate of [Draws] is the
// most even, so that they tell what such a function does better than as they are. Unknowns beyond those of the draws do not count.
func (s *Surrogate) Along(draws [][]float64) {
	if len(s.alpha) == 0 || len(draws) == 0 {
		return
	}
	// Householder's reflection takes the first axis to the line.
	mirror := slices.Clone(s.alpha[:len(draws[0])])
	norm := math.Sqrt(dot(mirror, mirror))
	if norm < flat {
		return
	}
	for i := range mirror {
		mirror[i] /= -norm
	}
	mirror[0]++
	square := dot(mirror, mirror)
	if square < flat*flat {
		return // it is the first axis
	}
	for _, z := range draws {
		twice := 2 * dot(mirror, z) / square
		for i, v := range mirror {
			z[i] -= twice * v
		}
	}
}

// AboutLine are draws where it matters most what the function is, from its values at [Points]: most lie where it has its 10 and 90 % points on the line of steepest
// change, and the others nearer to the centre; across the line they are drawn.
func AboutLine(count, unknowns int, values []float64) [][]float64 {
	const seed = 7
	draws, line := Draws(count, unknowns, seed), Surrogate{alpha: steepest(unknowns, values)}
	if line.alpha == nil {
		return draws
	}
	const near = 0.5
	along := [...]float64{-Step, Step, -near, Step, -Step, near}
	for i, z := range draws {
		z[0] = along[i%len(along)]
	}
	line.Along(draws)
	return draws
}

// normals turns shares into standard normal deviates.
type normals struct{}

func (normals) Quantile(x, p []float64) []float64 {
	if x == nil {
		x = make([]float64, len(p))
	}
	for i := range p {
		x[i] = distuv.UnitNormal.Quantile(p[i])
	}
	return x
}
