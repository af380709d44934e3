package fit

import (
	"math"

	"strandry/diffusion"
	"strandry/materials"
	"strandry/scenarios"
)

// properties are what the content of a strand at rest is a function of, besides time.
type properties struct {
	logDiffusivity float64 // ln of that without water at the temperature of the run [ln m2/s]
	start          float64 // content all through [kg/kg dry]
	beta           float64 // growth of the logarithm of the diffusivity with the content [kg dry/kg]
}

// all of them in the order of the axes of a run.
func (p properties) all() [3]float64 { return [3]float64{p.logDiffusivity, p.start, p.beta} }

// curve is the content at some places, such as the times of a run's weighings, as a function of the strand's properties: marches at the nodes of a lattice, and
// between them cubic polynomials. A node is marched when it is first asked for.
type curve struct {
	contents func(properties [3]float64) ([]float64, error) // at a node
	lattice  [3]axis
	nodes    map[[3]int][]float64
	near     [][]float64 // the nodes about the place that was asked for last, in the order of their axes
	first    [3]int      // of them
	blended  []float64
	of       []int // the place of each weighing
}

// axis is a dimension of the lattice; a spacing of zero is one that is known, at its origin.
type axis struct{ origin, spacing, least float64 }

// The spacings leave an error below 10⁻⁴ of the water that moves, 5·10⁻⁵ at the worst of some 5,000 contents (TestCurve, against marches as fine as those of run).
const (
	finely       = 0.2  // of the logarithm of the diffusivity, and of that between the dry strand and the wettest
	coarsely     = 0.25 // of the content of the wettest strand
	contentSteps = 40   // between a dry strand and the wettest that is looked for, at the most: masses that tell nothing are asked for all of them
)

// ofDiffusivity is the axis of the logarithm of a diffusivity about one.
func ofDiffusivity(about float64) axis {
	return axis{origin: math.Log(about), spacing: finely, least: math.Inf(-1)}
}

// ofBeta is that of beta, for contents [kg/kg dry] of the wettest strand as it is guessed, and of the wettest that is looked for: there two nodes lie no further from
// each other than steps powers of e in the diffusivity, since none can be marched at whose diffusivity is beyond all measure.
func ofBeta(law *materials.Diffusivity, known Known, wettest, most float64) axis {
	if known.Beta != scenarios.Fitted {
		return axis{origin: law.Beta.Value}
	}
	const steps = 2
	return axis{origin: law.Beta.Value, spacing: math.Min(finely/math.Max(wettest, 1e-3), steps/most), least: math.Inf(-1)}
}

// shortest time after which a strand is asked for [s]: a weighing at zero is one before anything happens.
const shortest = 1e-2

// newCurve is that of a run.
func newCurve(w *scenarios.Weighings, run *scenarios.Run, known Known) *curve {
	c := &curve{nodes: map[[3]int][]float64{}}
	model := w.Model
	model.Path = []diffusion.Zone{run.Zone}
	var times []float64
	for _, p := range run.Points {
		if t := math.Max(p.Time, shortest); len(times) == 0 || t > times[len(times)-1] {
			times = append(times, t)
		}
		c.of = append(c.of, len(times)-1)
	}
	c.blended = make([]float64, len(times))
	law := &model.Material.Diffusivity
	about := law.Dry(run.Zone.Air.Temperature)
	start := axis{origin: run.Start}
	if !run.StartKnown {
		start = axis{spacing: math.Max(coarsely*wettest(w, run), most(w)/contentSteps)}
	}
	c.lattice = [3]axis{ofDiffusivity(about), start, ofBeta(law, known, wettest(w, run), most(w))}
	march := diffusion.NewMarch()
	c.contents = func(at [3]float64) (out []float64, err error) {
		m := model
		m.Material.Diffusivity.ReferenceValue.Value *= math.Exp(at[0]) / about
		m.Start, m.StartActivity = at[1], 0
		m.Material.Diffusivity.Beta.Value = at[2]
		err = march.RunLengths(&m, 0, times, diffusion.CoarseSettings(), func(_ int, r *diffusion.Result) error {
			out = append(out, r.Nozzle.Mean)
			return nil
		})
		return out, err
	}
	return c
}

// node marches the strand for one.
func (c *curve) node(at [3]int) ([]float64, error) {
	if found, ok := c.nodes[at]; ok {
		return found, nil
	}
	var properties [3]float64
	for i, a := range c.lattice {
		properties[i] = a.origin + float64(at[i])*a.spacing
	}
	contents, err := c.contents(properties)
	if err != nil {
		return nil, err
	}
	c.nodes[at] = contents
	return contents, nil
}

// at gives the contents, good until the next call.
func (c *curve) at(properties [3]float64) ([]float64, error) {
	var first, count [3]int
	var weights [3][4]float64
	for i, x := range properties {
		first[i], count[i], weights[i] = c.lattice[i].stencil(x)
	}
	if len(c.near) == 0 || c.first != first {
		if err := c.approach(first, count); err != nil {
			return nil, err
		}
	}
	clear(c.blended)
	near := c.near
	for i := range count[0] {
		for j := range count[1] {
			for k := range count[2] {
				weight := weights[0][i] * weights[1][j] * weights[2][k]
				for n, v := range near[0] {
					c.blended[n] += weight * v
				}
				near = near[1:]
			}
		}
	}
	return c.blended, nil
}

// approach gathers the nodes of a stencil.
func (c *curve) approach(first, count [3]int) error {
	c.near = c.near[:0]
	for i := range count[0] {
		for j := range count[1] {
			for k := range count[2] {
				node, err := c.node([3]int{first[0] + i, first[1] + j, first[2] + k})
				if err != nil {
					c.near = c.near[:0]
					return err
				}
				c.near = append(c.near, node)
			}
		}
	}
	c.first = first
	return nil
}

// stencil are the nodes about a place and the weights of a cubic through them (Lagrange).
func (a axis) stencil(x float64) (first, count int, weights [4]float64) {
	if a.spacing == 0 {
		return 0, 1, [4]float64{1}
	}
	at := (x - a.origin) / a.spacing
	first = int(math.Floor(at)) - 1
	if !math.IsInf(a.least, -1) {
		first = max(first, int(math.Ceil((a.least-a.origin)/a.spacing)))
	}
	u := at - float64(first)
	weights = [4]float64{
		-(u - 1) * (u - 2) * (u - 3) / 6,
		u * (u - 2) * (u - 3) / 2,
		-u * (u - 1) * (u - 3) / 2,
		u * (u - 1) * (u - 2) / 6,
	}
	return first, 4, weights
}

// marched is how many marches the curve rests on.
func (c *curve) marched() int { return len(c.nodes) }

// heaviest and lightest mass that a run shows [kg].
func heaviest(run *scenarios.Run) float64 { return extreme(run, math.Max) }

func lightest(run *scenarios.Run) float64 { return extreme(run, math.Min) }

func extreme(run *scenarios.Run, of func(a, b float64) float64) float64 {
	found := run.Points[0].Mass
	for _, p := range run.Points {
		found = of(found, p.Mass)
	}
	return found
}
