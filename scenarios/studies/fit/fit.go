package fit

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

	"strandry/diffusion/estimation"
	"strandry/materials"
	"strandry/scenarios"
)

// Between is a number as a median, and the ends between which it lies nine times in ten, given the weighings.
type Between struct{ Value, Low, High float64 }

// Factor by which an end is away from the other's middle, for what is positive: the root of their ratio.
func (b Between) Factor() float64 { return math.Sqrt(b.High / b.Low) }

// Outcome is what weighings tell.
type Outcome struct {
	Weighings *scenarios.Weighings
	Known     Known

	Temperature float64 // [K], at which the diffusivity hangs together with the activation energy the least; that of the run if there is one
	Diffusivity Between // without water, there [m2/s]
	Library     Between // the same by the material that the file names, 5 and 95 % points
	Activation  Between // [J/mol]; zero where it is not fitted
	Beta        Between // [kg dry/kg]; zero where it is not fitted
	Correlation [3]float64
	PriorShare  float64 // of what is known of the diffusivity, what the library brought; zero without the prior
	Drift       Between // of the scale [kg/s]; zero where there is none
	Noise       Between // of a weighing besides its rounding [kg]

	Runs     []RunOutcome
	Lack     estimation.Lack
	Findings []Finding
	Helps    []Help // ways to weigh that would tell clearly more, where the weighings leave much to know
	Told     bool   // the weighings tell the diffusivity
	Checks   int    // pieces weighed at the machine that count too
	Marches  int

	parameters *parameters
	estimate   *estimation.Estimate
	posterior  *estimation.Posterior
	contents   [][]float64 // of each run at its times, where least squares are [kg/kg dry]
}

// RunOutcome is what is told of one run.
type RunOutcome struct {
	Diffusivity Between // without water at the run's temperature [m2/s]
	Start       Between // content [kg/kg dry]
	Dry         Between // mass [kg]
	Equilibrium float64 // content that the strand tends to [kg/kg dry]
	End         float64 // content at the last weighing [kg/kg dry]
	Residuals   []float64
	Band        []Between // of the mass that the scale should show, at each weighing [kg]
}

// Options of a fit.
type Options struct {
	Prior  bool              // what the library says counts too
	Effort estimation.Effort // of the draws; zero for the usual one
}

// Fit finds what the weighings tell. The error is one of the march, or that there are too few weighings.
func Fit(w *scenarios.Weighings, o Options) (*Outcome, error) {
	known := asked(w)
	if known.Prior = o.Prior; o.Prior {
		if err := countedBefore(w); err != nil {
			return nil, err
		}
	}
	p, err := newParameters(w, known)
	if err != nil {
		return nil, err
	}
	e, err := p.leastSquares()
	if err != nil {
		return nil, tooFew(err, w)
	}
	if w.Beta == scenarios.WhereTold {
		if better, its, err := withBeta(w, known, e); err != nil {
			return nil, err
		} else if better != nil {
			p, e = better, its
		}
	}
	effort := o.Effort
	if effort == (estimation.Effort{}) {
		effort = estimation.UsualEffort()
	}
	out, err := told(w, p, e, effort)
	if err != nil {
		return nil, err
	}
	const enough = 1.5 // either way
	if out.Told && out.Diffusivity.Factor() < enough {
		return out, nil
	}
	return out, out.helps()
}

// countedBefore refuses a material that was fitted to the same masses: they would count twice.
func countedBefore(w *scenarios.Weighings) error {
	source := w.Model.Material.Diffusivity.ReferenceValue.Source
	for i := range w.Runs {
		if run := &w.Runs[i]; run.Sum != "" && strings.Contains(source, run.Sum) {
			return fmt.Errorf("%s: the material was fitted to %s too, which would count twice: leave out --prior, or name the material that it was fitted from", w.File, run.File)
		}
	}
	return nil
}

// find fits what is to be fitted, and nothing else.
func find(w *scenarios.Weighings, known Known, effort estimation.Effort) (*Outcome, error) {
	p, err := newParameters(w, known)
	if err != nil {
		return nil, err
	}
	e, err := p.leastSquares()
	if err != nil {
		return nil, err
	}
	return told(w, p, e, effort)
}

// told draws about an estimate, and tells all that the draws tell.
func told(w *scenarios.Weighings, p *parameters, e *estimation.Estimate, effort estimation.Effort) (*Outcome, error) {
	s, err := p.problem.Sample(e, effort)
	if err != nil {
		return nil, err
	}
	out := &Outcome{Weighings: w, Known: p.known, parameters: p, estimate: e, posterior: s}
	out.summarise()
	if err := out.runs(); err != nil {
		return nil, err
	}
	if err := out.lack(); err != nil {
		return nil, err
	}
	return out, out.examine()
}

// tooFew says of too few weighings how many are needed.
func tooFew(err error, w *scenarios.Weighings) error {
	if errors.Is(err, estimation.ErrTooFew) {
		return fmt.Errorf("%s: %w; weigh oftener, or state moisture and dry_mass where they are known", w.File, err)
	}
	return err
}

// withBeta fits beta as well where the weighings tell it twice as well as the library does: nil where they do not. What is asked is how much they can tell, by
// the change that it makes, not what they say.
func withBeta(w *scenarios.Weighings, known Known, without *estimation.Estimate) (*parameters, *estimation.Estimate, error) {
	beta := w.Model.Material.Diffusivity.Beta
	library := (beta.High - beta.Low) / 2 / materials.EndDeviate
	if library == 0 || without.Freedom < 4 {
		return nil, nil, nil
	}
	known.Beta = scenarios.Fitted
	p, err := newParameters(w, known)
	if err != nil {
		return nil, nil, err
	}
	p.beginAt(without)
	e, err := p.problem.LeastSquares(p.begin)
	if err != nil {
		return nil, nil, err
	}
	told, err := p.deviation(e, p.beta)
	if err != nil || told > library/2 {
		return nil, nil, err
	}
	return p, e, nil
}

// beginAt begins where an estimate without beta ended.
func (p *parameters) beginAt(without *estimation.Estimate) {
	found := slices.Insert(slices.Clone(without.Parameters), p.beta, p.begin[p.beta])
	copy(p.begin, found)
}

// deviation of a parameter by the weighings, for errors as large as the residuals, or the rounding.
func (p *parameters) deviation(e *estimation.Estimate, at int) (float64, error) {
	covariance, err := p.problem.Covariance(e.Jacobian, p.error(e))
	if err != nil {
		return 0, err
	}
	return math.Sqrt(covariance.At(at, at)), nil
}

// error of a weighing [kg]: that of the residuals, or of the rounding alone.
func (p *parameters) error(e *estimation.Estimate) float64 {
	return math.Max(e.Noise(), p.weighings.Scale.Resolution/math.Sqrt(12))
}

// leastSquares begins at a few diffusivities, since far off the sum of squares has no slope.
func (p *parameters) leastSquares() (*estimation.Estimate, error) {
	var best *estimation.Estimate
	for _, by := range [...]float64{0, 2, -2, 4, -4} { // of ln
		begin := append([]float64(nil), p.begin...)
		begin[0] = math.Min(math.Max(begin[0]+by, p.problem.Lower[0]), p.problem.Upper[0])
		e, err := p.problem.LeastSquares(begin)
		if err != nil {
			return nil, err
		}
		const clearly = 0.999
		if best == nil || e.Squares < clearly*best.Squares {
			best = e
		}
		if best.Noise() < p.weighings.Scale.Resolution { // no other can be much better
			break
		}
	}
	return best, nil
}

// between are the median and the ends of a measure of the draws.
func (o *Outcome) between(measure func(x []float64) float64) Between {
	q := o.posterior.Quantiles(measure, 0.5, 0.05, 0.95)
	return Between{q[0], q[1], q[2]}
}

// parameter is the same of one that may be known: zero.
func (o *Outcome) parameter(at int) Between {
	if at < 0 {
		return Between{}
	}
	return o.between(func(x []float64) float64 { return x[at] })
}

// summarise tells of all but the runs.
func (o *Outcome) summarise() {
	p, w := o.parameters, o.Weighings
	o.Temperature = o.independent()
	o.Diffusivity = o.between(func(x []float64) float64 { return math.Exp(p.logDiffusivity(x, o.Temperature)) })
	law := &w.Model.Material.Diffusivity
	middle, scatter := law.Dry(o.Temperature), law.Scatter.Value
	o.Library = Between{middle, middle / scatter, middle * scatter}
	o.Activation, o.Beta, o.Drift = o.parameter(p.activation), o.parameter(p.beta), o.parameter(p.drift)
	o.Correlation = o.correlation()
	noise := estimation.Posterior{Draws: columns(o.posterior.Noise)}
	q := noise.Quantiles(func(x []float64) float64 { return x[0] }, 0.5, 0.05, 0.95)
	o.Noise = Between{q[0], q[1], q[2]}
	if o.Known.Prior {
		c := o.posterior.Covariance()
		prior := p.problem.Prior[0].Deviation
		o.PriorShare = math.Min(1, c.At(0, 0)/(prior*prior))
	}
	for _, c := range p.curves {
		o.Marches += c.marched()
	}
	for _, c := range p.pieces {
		o.Marches += c.curve.marched()
	}
	o.Checks = len(p.pieces)
}

func columns(values []float64) [][]float64 {
	out := make([][]float64, len(values))
	for i, v := range values {
		out[i] = []float64{v}
	}
	return out
}

// independent is the temperature at which the diffusivity and the activation energy hang together the least [K]: there, what is known of the one says nothing of the other.
// It is kept within what was weighed.
func (o *Outcome) independent() float64 {
	p := o.parameters
	if p.activation < 0 {
		return p.middle
	}
	c := o.posterior.Covariance()
	// ln D at T is x0 - E/R (1/T - 1/T0); its covariance with E is nil where 1/T - 1/T0 = R cov(x0, E)/var(E).
	inverse := 1/p.middle + materials.GasConstant*c.At(0, p.activation)/c.At(p.activation, p.activation)
	low, high := temperatures(o.Weighings)
	const tenths = 10 // of a kelvin
	return math.Min(math.Max(math.Round(tenths*(1/inverse-zeroCelsius))/tenths+zeroCelsius, low), high)
}

// zeroCelsius is 0 °C [K]: a temperature that is told is a round one.
const zeroCelsius = 273.15

// correlation of ln D at its temperature with the activation energy, with beta, and of these two.
func (o *Outcome) correlation() (out [3]float64) {
	p := o.parameters
	draws := make([][]float64, len(o.posterior.Draws))
	for i, x := range o.posterior.Draws {
		row := []float64{p.logDiffusivity(x, o.Temperature), 0, 0}
		for k, at := range [...]int{p.activation, p.beta} {
			if at >= 0 {
				row[k+1] = x[at]
			}
		}
		draws[i] = row
	}
	s := estimation.Posterior{Draws: draws}
	c := s.Covariance()
	for i, pair := range [...][2]int{{0, 1}, {0, 2}, {1, 2}} {
		if product := c.At(pair[0], pair[0]) * c.At(pair[1], pair[1]); product > 0 {
			out[i] = c.At(pair[0], pair[1]) / math.Sqrt(product)
		}
	}
	return out
}
