package estimation

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat"
	"gonum.org/v1/gonum/stat/samplemv"
)

// Posterior is a sample of what the parameters may be, given the readings.
type Posterior struct {
	Draws [][]float64 // parameters of each draw
	Noise []float64   // of each draw
	// Effective is the number of independent draws that tell a mean as well as these do, of the parameter of which there are fewest.
	Effective float64
}

// Quantiles of a measure of the parameters.
func (s *Posterior) Quantiles(measure func(parameters []float64) float64, at ...float64) []float64 {
	values := make([]float64, len(s.Draws))
	for i, d := range s.Draws {
		values[i] = measure(d)
	}
	slices.Sort(values)
	out := make([]float64, len(at))
	for i, q := range at {
		out[i] = stat.Quantile(q, stat.LinInterp, values, nil)
	}
	return out
}

// Covariance of the parameters.
func (s *Posterior) Covariance() *mat.SymDense {
	n := len(s.Draws[0])
	all := mat.NewDense(len(s.Draws), n, nil)
	for i, d := range s.Draws {
		all.SetRow(i, d)
	}
	out := mat.NewSymDense(n, nil)
	stat.CovarianceMatrix(out, all, nil)
	return out
}

// target is the logarithm of the posterior as a function of the parameters and the logarithm of the noise, each in a unit of its own, so that no matrix of
// them mixes kilograms with joules.
type target struct {
	problem   *Problem
	unit      []float64
	at        []float64
	predicted []float64
	least     float64 // of the logarithm of the noise
	noisy     float64 // below this there is none, and the display does nothing but round
	most      float64
	failed    error
}

// LogProb implements distmv.LogProber.
func (t *target) LogProb(scaled []float64) float64 {
	x := t.at
	for i, v := range scaled {
		x[i] = v * t.unit[i]
	}
	last := len(x) - 1
	sum := t.problem.logPrior(x[:last])
	if math.IsInf(sum, -1) || !(x[last] >= t.least && x[last] <= t.most) || t.failed != nil {
		return math.Inf(-1)
	}
	if err := t.problem.Predict(x[:last], t.predicted); err != nil {
		t.failed = err
		return math.Inf(-1)
	}
	noise := t.noise(x[last])
	for i, r := range t.problem.Readings {
		sum += r.logProbability(t.predicted[i], noise)
	}
	if math.IsNaN(sum) {
		return math.Inf(-1)
	}
	return sum
}

// noise at a logarithm: of a display that does nothing but round, next to none.
func (t *target) noise(logarithm float64) float64 {
	if logarithm < t.noisy {
		const next = 0.15 // a fiftieth of a step in all: sharper edges would only slow the draws
		return math.Exp(t.noisy) * next
	}
	return math.Exp(logarithm)
}

// Effort is how much is drawn.
type Effort struct {
	Seed      uint64
	Effective float64 // independent draws that are wanted
	Most      int     // draws that are made for them
}

// UsualEffort tells the ends of an interval to some 2 % of its width.
func UsualEffort() Effort { return Effort{Seed: 1, Effective: 1200, Most: 160_000} }

// Sample draws from the posterior, beginning at an estimate. It does the same for the same seed.
func (p *Problem) Sample(e *Estimate, effort Effort) (*Posterior, error) {
	t := &target{problem: p, predicted: make([]float64, len(p.Readings))}
	step := p.coarsest()
	noise := math.Max(e.Noise(), 0.3*step)
	if !(noise > 0) {
		noise = 1e-9 * math.Max(math.Abs(p.Readings[0].Value), math.SmallestNonzeroFloat64) // a perfect fit of readings that are not rounded
	}
	// A noise below a little of a step counts as next to none; in the measure of the logarithm, in which all others are as likely as one another, none is as likely as a
	// noise within a factor of e^odds.
	const much, little, odds = 1e3, 0.15, 3
	t.least, t.noisy, t.most = math.Log(noise/much), math.Inf(-1), math.Log(noise*much)
	if step > 0 {
		t.noisy = math.Log(little * step)
		t.least = t.noisy - odds
	}
	c, err := newChain(t, e, noise, effort.Seed)
	if err != nil {
		return nil, err
	}
	c.tune()
	return c.run(effort)
}

// chain is a Markov chain.
type chain struct {
	target *target
	at     []float64
	shape  *mat.SymDense // of its steps
	factor float64       // on them
	source rand.Source
}

func newChain(t *target, e *Estimate, noise float64, seed uint64) (*chain, error) {
	p := t.problem
	n := len(e.Parameters)
	covariance, err := p.Covariance(e.Jacobian, noise)
	if err != nil {
		return nil, err
	}
	c := &chain{target: t, shape: mat.NewSymDense(n+1, nil), factor: 1, source: rand.NewPCG(seed, 0x9e3779b97f4a7c15)}
	t.unit, t.at = make([]float64, n+1), make([]float64, n+1)
	for i := range n {
		t.unit[i] = math.Sqrt(covariance.At(i, i))
		const inside = 1e-9
		width := p.Upper[i] - p.Lower[i]
		begin := math.Min(math.Max(e.Parameters[i], p.Lower[i]+inside*width), p.Upper[i]-inside*width)
		c.at = append(c.at, begin/t.unit[i])
	}
	for i := range n {
		for k := i; k < n; k++ {
			c.shape.SetSym(i, k, covariance.At(i, k)/(t.unit[i]*t.unit[k]))
		}
	}
	t.unit[n] = 1
	c.shape.SetSym(n, n, 1/(2*float64(max(e.Freedom, 1)))) // variance of the logarithm of a deviation
	c.at = append(c.at, math.Log(noise))
	return c, nil
}

// some are the next draws; taken is the share of steps that were.
func (c *chain) some(count int) (draws *mat.Dense, taken float64, err error) {
	n := len(c.at)
	steps := mat.NewSymDense(n, nil)
	steps.ScaleSym(c.factor*2.38*2.38/float64(n), c.shape)
	proposal, ok := samplemv.NewProposalNormal(steps, c.source)
	if !ok {
		return nil, 0, fmt.Errorf("the steps of %d parameters have no shape", n)
	}
	draws = mat.NewDense(count, n, nil)
	before := slices.Clone(c.at)
	samplemv.MetropolisHastingser{Initial: before, Target: c.target, Proposal: proposal, Src: c.source}.Sample(draws)
	moved := 0
	for i := range count {
		row := draws.RawRowView(i)
		if !slices.Equal(row, before) {
			moved++
		}
		before = row
	}
	c.at = slices.Clone(before)
	return draws, float64(moved) / float64(count), c.target.failed
}

// tune finds the shape and the size of the steps. Its draws do not count.
func (c *chain) tune() {
	const rounds, each = 8, 500
	var kept [][]float64
	for round := range rounds {
		draws, taken, err := c.some(each)
		if err != nil {
			return // told when it is run
		}
		c.resize(taken)
		if round < 2 {
			continue // not there yet
		}
		for i := range each {
			kept = append(kept, slices.Clone(draws.RawRowView(i)))
		}
		if round%2 == 1 {
			c.reshape(kept)
			kept = kept[len(kept)/2:]
		}
	}
}

// resize brings the share of steps taken towards a quarter.
func (c *chain) resize(taken float64) {
	const best, floor = 0.25, 0.01
	c.factor = math.Min(math.Max(c.factor*math.Pow(math.Max(taken, floor)/best, 1.5), 1e-8), 25)
}

// reshape takes the shape of draws, with a little of the one before, so that no direction is lost.
func (c *chain) reshape(draws [][]float64) {
	s := Posterior{Draws: draws}
	found := s.Covariance()
	n := found.SymmetricDim()
	const old = 0.02
	shape := mat.NewSymDense(n, nil)
	for i := range n {
		for k := i; k < n; k++ {
			shape.SetSym(i, k, (1-old)*found.At(i, k)+old*c.factor*c.shape.At(i, k))
		}
	}
	var factor mat.Cholesky
	if factor.Factorize(shape) {
		c.shape, c.factor = shape, 1
	}
}

// run draws until there are as many independent draws as are wanted, or most are made.
func (c *chain) run(effort Effort) (*Posterior, error) {
	n := len(c.at) - 1
	var kept [][]float64
	const block = 10_000
	effective, begun := 0.0, 0
	for len(kept) < effort.Most && effective < effort.Effective {
		draws, taken, err := c.some(min(block, effort.Most-len(kept)))
		if err != nil {
			return nil, err
		}
		rows, _ := draws.Dims()
		for i := range rows {
			kept = append(kept, draws.RawRowView(i))
		}
		effective = c.effective(kept)
		const least, most, restarts = 0.05, 0.7, 5               // shares of steps taken
		if begun < restarts && (taken < least || taken > most) { // not tuned yet: what was drawn counts no more
			if begun++; begun == 1 {
				c.reshape(kept)
			}
			c.resize(taken)
			kept, effective = nil, 0
		}
	}
	s := &Posterior{Effective: effective}
	const stored = 8000
	for i := 0; i < len(kept); i += max(1, len(kept)/stored) {
		draw := make([]float64, n)
		for k := range draw {
			draw[k] = kept[i][k] * c.target.unit[k]
		}
		s.Draws = append(s.Draws, draw)
		s.Noise = append(s.Noise, c.target.noise(kept[i][n]))
	}
	if len(s.Draws) < spare {
		return nil, fmt.Errorf("no draws: the readings are all but impossible")
	}
	return s, nil
}

// effective is the number of independent draws by the means of batches, of the parameter of which there are fewest.
func (c *chain) effective(draws [][]float64) float64 {
	least := float64(len(draws))
	batch := max(1, int(math.Sqrt(float64(len(draws)))))
	column := make([]float64, len(draws))
	for k := range len(c.at) - 1 {
		for i, d := range draws {
			column[i] = d[k]
		}
		variance := stat.Variance(column, nil)
		var means []float64
		for i := 0; i+batch <= len(column); i += batch {
			means = append(means, stat.Mean(column[i:i+batch], nil))
		}
		if between := stat.Variance(means, nil) * float64(batch); between > 0 {
			least = math.Min(least, float64(len(draws))*variance/between)
		}
	}
	return least
}
