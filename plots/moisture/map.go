package moisture

import (
	"math"

	"strandry/diffusion"
	"strandry/plots/canvas"
	"strandry/plots/field"
)

// Grid is moisture over the values of two axes. What is nil of Excess and Ratio is not shown.
type Grid struct {
	X, Y    []float64             // rising
	Content [][]float64           // [kg/kg dry]; Content[j][i] at X[i], Y[j], as in all that follows
	Limit   float64               // [kg/kg dry]
	Start   float64               // content that the strand sets off with, at which no line is drawn, for it would follow the numerical error [kg/kg dry]
	Excess  [][]diffusion.Excess  // of the heat; nil where every strand holds
	Ratio   [][]diffusion.Between // 10 and 90 % points of the content over the limit [-]; nil where they are not known
}

// over is a quantity of the grid over the shares of a panel.
func (g *Grid) over(p *canvas.Panel, of func(j, i int) float64) field.Field {
	f := field.Field{Z: make([][]float64, len(g.Y))}
	for _, v := range g.X {
		f.U = append(f.U, p.X.Norm(v))
	}
	for j, v := range g.Y {
		f.V = append(f.V, p.Y.Norm(v))
		for i := range g.X {
			f.Z[j] = append(f.Z[j], of(j, i))
		}
	}
	return f
}

// fine is into how many cells each way smooth quantities are divided.
const fine = 160

// Map is a grid of moisture on a panel, in bands of colour.
type Map struct {
	p      *canvas.Panel
	field  field.Field // of the logarithm where all values allow
	bands  bands
	log    bool
	lines  [][][]canvas.Point // for each level
	heat   *heat              // nil where every strand holds
	unsure *unsure            // nil where that is not known
}

// heat is by how much the strand is hotter than what all but surely makes it soften, and than what it bears [K].
type heat struct{ yield, bear field.Field }

// NewMap lays a grid out on a panel.
func NewMap(p *canvas.Panel, g Grid) *Map {
	low, high := canvas.Bounds(g.Content...)
	m := &Map{p: p, log: low > 0, bands: bandsOf(low, high, g.Limit, g.Start)}
	m.field = g.over(p, func(j, i int) float64 { return m.inner(g.Content[j][i]) }).Finer(fine)
	for _, level := range m.bands.levels {
		m.lines = append(m.lines, p.Contours(m.field, m.inner(level)))
	}
	if g.Excess != nil {
		m.heat = &heat{
			g.over(p, func(j, i int) float64 { return g.Excess[j][i].Yield }),
			g.over(p, func(j, i int) float64 { return g.Excess[j][i].Bear }),
		}
	}
	if g.Ratio != nil {
		m.unsure = newUnsure(p, &g)
	}
	return m
}

// inner is a content as the field has it.
func (m *Map) inner(content float64) float64 {
	if m.log {
		return math.Log(content)
	}
	return content
}

// Passing is where contours run.
func (m *Map) Passing() []canvas.Point {
	var out []canvas.Point
	for _, lines := range m.lines {
		for _, line := range lines {
			for i := 1; i < len(line); i++ {
				out = append(out, line[i], canvas.Between(line[i-1], line[i], 0.5))
			}
		}
	}
	return out
}

// survival is that at a place of the panel.
func (m *Map) survival(u, v float64) diffusion.Survival {
	if m.heat == nil {
		return diffusion.Holds
	}
	return diffusion.Excess{Yield: m.heat.yield.At(u, v), Bear: m.heat.bear.At(u, v)}.Survival()
}
