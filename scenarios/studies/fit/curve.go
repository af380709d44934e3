package fit

import (
	"math"

	"strandry/diffusion"
	"strandry/scenarios"
)

// properties are what the content of a strand at rest is a function of, besides time.
type properties struct {
	logDiffusivity float64 // ln of that without water at the temperature of the run [ln m2/s]
	start          float64 // content all through [kg/kg dry]
	beta           float64 // growth of the logarithm of the diffusivity with the content [kg dry/kg]
}

// curve is the content at the times of a run's weighings as a function of the strand's properties: marches at the nodes of a lattice, and between them cubic
// polynomials. A node is marched when it is first asked for.
type curve struct {
	model    diffusion.Model
	march    *diffusion.March
	times    []float64 // rising [s]
	of       []int     // the time of each weighing
	lattice  [3]axis
	nodes    map[[3]int][]float64
	blended  []float64
	settings diffusion.Settings
}

// axis is a dimension of the lattice; a spacing of zero is one that is known, at its origin.
type axis struct{ origin, spacing, least float64 }

// shortest time after which a strand is asked for [s]: a weighing at zero is one before anything happens.
const shortest = 1e-2

func newCurve(w *scenarios.Weighings, run *scenarios.Run, known Known) *curve {
	c := &curve{model: w.Model, march: diffusion.NewMarch(), nodes: map[[3]int][]float64{}, settings: diffusion.CoarseSettings()}
	c.model.Path = []diffusion.Zone{run.Zone}
	for _, p := range run.Points {
		if t := math.Max(p.Time, shortest); len(c.times) == 0 || t > c.times[len(c.times)-1] {
			c.times = append(c.times, t)
		}
		c.of = append(c.of, len(c.times)-1)
	}
	c.blended = make([]float64, len(c.times))
	law := &c.model.Material.Diffusivity
	// The spacings leave an error of some 10⁻⁴ of the water that leaves: measured in curve_test.go.
	c.lattice[0] = axis{origin: math.Log(law.Dry(run.Zone.Air.Temperature)), spacing: 0.2, least: math.Inf(-1)}
	c.lattice[1] = axis{origin: run.Start}
	if !run.StartKnown {
		c.lattice[1] = axis{spacing: 0.25 * math.Max(wettest(w, run), 1e-4)}
	}
	c.lattice[2] = axis{origin: law.Beta.Value}
	if known.Beta == scenarios.Fitted {
		c.lattice[2].spacing, c.lattice[2].least = 0.2/math.Max(wettest(w, run), 1e-3), math.Inf(-1)
	}
	return c
}

// node marches the strand for one.
func (c *curve) node(at [3]int) ([]float64, error) {
	if found, ok := c.nodes[at]; ok {
		return found, nil
	}
	m := c.model
	value := func(i int) float64 { return c.lattice[i].origin + float64(at[i])*c.lattice[i].spacing }
	law := &m.Material.Diffusivity
	law.ReferenceValue.Value *= math.Exp(value(0) - c.lattice[0].origin)
	m.Start, m.StartActivity = value(1), 0
	law.Beta.Value = value(2)
	var contents []float64
	err := c.march.RunLengths(&m, 0, c.times, c.settings, func(_ int, r *diffusion.Result) error {
		contents = append(contents, r.Nozzle.Mean)
		return nil
	})
	if err != nil {
		return nil, err
	}
	c.nodes[at] = contents
	return contents, nil
}

// at gives the contents at the times, good until the next call.
func (c *curve) at(p properties) ([]float64, error) {
	var first, count [3]int
	var weights [3][4]float64
	for i, x := range [...]float64{p.logDiffusivity, p.start, p.beta} {
		first[i], count[i], weights[i] = c.lattice[i].stencil(x)
	}
	clear(c.blended)
	for i := range count[0] {
		for j := range count[1] {
			for k := range count[2] {
				node, err := c.node([3]int{first[0] + i, first[1] + j, first[2] + k})
				if err != nil {
					return nil, err
				}
				weight := weights[0][i] * weights[1][j] * weights[2][k]
				for n, v := range node {
					c.blended[n] += weight * v
				}
			}
		}
	}
	return c.blended, nil
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
