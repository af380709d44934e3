package fit

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/mat"
)

// Finding is something about weighings that their user should know.
type Finding struct {
	Kind FindingKind
	Run  int // index of the run; -1 for all
	Line int // of the table of masses; 0 for none
	// Amount is what the kind says, in SI.
	Amount float64
	// Factor is by which the diffusivity would be another one, where the kind says so; zero for none.
	Factor float64
}

// FindingKind is what a finding says.
type FindingKind int

const (
	// FewSteps: the masses of the run change by so many steps of the scale (Amount [-]), too few to tell anything.
	FewSteps FindingKind = iota
	// Shape: the residuals have a shape that no diffusivity gives; Amount is how likely that is if the model holds [-].
	Shape
	// Outlier: a weighing is off by Amount [kg]; without it the diffusivity is Factor times as large.
	Outlier
	// Slip: an outlier that is off by what a slip of one digit makes: Amount is what it may have been [kg].
	Slip
	// Reversal: the mass goes against the way the run goes, by Amount [kg], from one weighing to the next.
	Reversal
	// EndsEarly: Amount is the share of the water that was still to move at the last weighing [-].
	EndsEarly
	// BeginsLate: Amount is the share of it that had moved at the first [-].
	BeginsLate
	// AirRules: the air around the strand and not the strand sets the pace; Amount is by how much of all that moves the weighings answer to the diffusivity at most [-].
	AirRules
	// NoDrive: the strand was in equilibrium with the air from the beginning; Amount is the change that was to be expected [kg/kg dry].
	NoDrive
	// Scatter: the weighings scatter by Amount [kg], several steps of the scale.
	Scatter
	// Warming: half of the water moved within Amount [s], as fast as a coil warms.
	Warming
	// DriftMatters: a drift of one step over the run, Amount [kg/s], makes the diffusivity Factor times as large.
	DriftMatters
	// BetaMatters: with beta at the far end of what the library says, Amount [kg dry/kg], the diffusivity is Factor times as large.
	BetaMatters
	// OnlyBound: the diffusivity has a bound on one side only; Amount is it [m2/s], a least one where Factor is above 1, else a greatest one.
	OnlyBound
	// Gains: the run ends heavier than it began by Amount [kg], more than a dry strand could take up from its air.
	Gains
)

// A shape that chance alone gives so seldom is told; where it is rare it is grave.
const unusual, rare = 0.05, 0.01

// Grave tells that no answer should be relied on before this is mended.
func (f Finding) Grave() bool {
	if f.Kind == Shape {
		return f.Amount <= rare
	}
	return slices.Contains([]FindingKind{FewSteps, Slip, NoDrive, AirRules, Gains}, f.Kind)
}

// examine looks for all that may be wrong with the weighings. What is found is in the order in which it is looked for.
func (o *Outcome) examine() error {
	for i := range o.Weighings.Runs {
		if o.ofSteps(i) {
			o.ofCourse(i)
			o.ofReversals(i)
		}
	}
	if err := o.ofOutliers(); err != nil {
		return err
	}
	if o.Lack.Probability <= unusual {
		o.find(Finding{Kind: Shape, Run: -1, Amount: o.Lack.Probability})
	}
	if o.scatters() {
		o.find(Finding{Kind: Scatter, Run: -1, Amount: o.Noise.Value})
	}
	o.judge()
	if !o.Told {
		return nil
	}
	if err := o.ofDrift(); err != nil {
		return err
	}
	return o.ofBeta()
}

// scatters tells that the weighings scatter by more than a step of the scale.
func (o *Outcome) scatters() bool { return o.Noise.Low > o.Weighings.Scale.Resolution }

func (o *Outcome) find(f Finding) { o.Findings = append(o.Findings, f) }

// judge tells whether the diffusivity is known, and where only a bound of it is.
func (o *Outcome) judge() {
	p, at := o.parameters, 0
	reach := o.between(func(x []float64) float64 { return x[at] })
	const factor = 3 // either way: no better than most published values
	const near = 1.2 // of ln: an even spread over the last powers of ten comes as near
	low, high := p.problem.Lower[at], p.problem.Upper[at]
	inside := reach.Low > low+near && reach.High < high-near // what leans on an end of what is looked for is narrow by that end
	o.Told = inside && o.Diffusivity.Factor() <= factor && !slices.ContainsFunc(o.Findings, func(f Finding) bool { return f.Kind == NoDrive })
	if o.Told || slices.ContainsFunc(o.Findings, func(f Finding) bool { return f.Kind == Shape }) {
		return
	}
	switch { // a bound that the library has anyhow says nothing
	case reach.High > high-near && reach.Low > low+2*near && o.Diffusivity.Low > o.Library.Low:
		o.find(Finding{Kind: OnlyBound, Run: -1, Amount: o.Diffusivity.Low, Factor: 2})
	case reach.Low < low+near && reach.High < high-2*near && o.Diffusivity.High < o.Library.High:
		o.find(Finding{Kind: OnlyBound, Run: -1, Amount: o.Diffusivity.High, Factor: 0.5})
	}
}

// drive is how far the strand was from the equilibrium at the start [kg/kg dry], above zero where it dries.
func (r *RunOutcome) drive() float64 { return r.Start.Value - r.Equilibrium }

// fewSteps of the scale tell nothing: a change by fewer is no drying that could be followed.
const fewSteps = 4

// ofSteps looks at how many steps of the scale a run changes by, and tells whether there are enough to look further.
func (o *Outcome) ofSteps(i int) (enough bool) {
	run, r := &o.Weighings.Runs[i], &o.Runs[i]
	steps := math.Round((heaviest(run) - lightest(run)) / o.Weighings.Scale.Resolution)
	const clear = 5 // steps
	gain := run.Points[len(run.Points)-1].Mass - run.Points[0].Mass
	trend := gain > (heaviest(run)-lightest(run))/2
	if trend && gain > r.Dry.Value*r.Equilibrium+clear*o.Weighings.Scale.Resolution {
		o.find(Finding{Kind: Gains, Run: i, Amount: gain})
	}
	if steps < fewSteps {
		o.find(Finding{Kind: FewSteps, Run: i, Amount: steps})
	}
	if r.Start == (Between{r.Start.Value, r.Start.Value, r.Start.Value}) && math.Abs(r.drive()) < 0.05*math.Max(r.Start.Value, r.Equilibrium) {
		o.find(Finding{Kind: NoDrive, Run: i, Amount: r.drive()})
	}
	return steps >= fewSteps
}

// ofCourse looks at the beginning and the end of a run, by what is most likely.
func (o *Outcome) ofCourse(i int) {
	p, run, r := o.parameters, &o.Weighings.Runs[i], &o.Runs[i]
	contents := o.contents[i]
	start := p.of(i, o.estimate.Parameters).start
	all := start - r.Equilibrium
	if all == 0 {
		return
	}
	moved := func(k int) float64 { return (start - contents[p.curves[i].of[k]]) / all }
	last := len(run.Points) - 1
	const much, late = 0.3, 0.25
	if left := 1 - moved(last); left > much && !run.DryMassKnown {
		o.find(Finding{Kind: EndsEarly, Run: i, Amount: left})
	}
	if gone := moved(0); gone > late && !run.StartKnown {
		o.find(Finding{Kind: BeginsLate, Run: i, Amount: gone})
	}
	const half, quick = 0.5, 3600
	for k := range run.Points {
		if moved(k) < half {
			continue
		}
		if t := run.Points[k].Time; t < quick && moved(last) > half {
			o.find(Finding{Kind: Warming, Run: i, Amount: t})
		}
		break
	}
	o.ofAir(i, all)
}

// ofAir looks at whether the masses answer to the diffusivity.
func (o *Outcome) ofAir(i int, all float64) {
	p := o.parameters
	dry := o.estimate.Parameters[p.dry[i]]
	most := 0.0
	for k, at := range p.readings {
		if at.run == i && at.ofRun() {
			most = math.Max(most, math.Abs(o.estimate.Jacobian.At(k, 0)/(dry*all)))
		}
	}
	const little = 0.03 // where the strand sets the pace it is a quarter or so
	if most < little {
		o.find(Finding{Kind: AirRules, Run: i, Amount: most})
	}
}

// spread of the weighings about what is predicted [kg]: by the middle of the residuals, so that a few that are off do not hide themselves; no less than rounding
// makes.
func (o *Outcome) spread() float64 { return o.parameters.spreadOf(o.estimate.Residuals) }

func (p *parameters) spreadOf(residuals []float64) float64 {
	var sizes []float64
	for _, r := range residuals {
		sizes = append(sizes, math.Abs(r))
	}
	slices.Sort(sizes)
	const normal = 1.4826 // deviation of a normal distribution over its median absolute deviation
	return math.Max(normal*sizes[len(sizes)/2], p.weighings.Scale.Resolution/math.Sqrt(12))
}

// ofReversals looks for masses that rise in a run that dries, or fall in one that wets.
func (o *Outcome) ofReversals(i int) {
	run, r := &o.Weighings.Runs[i], &o.Runs[i]
	sign := 1.0
	if r.drive() < 0 {
		sign = -1
	}
	const clear = 5
	for k := 1; k < len(run.Points); k++ {
		against := sign * (run.Points[k].Mass - run.Points[k-1].Mass)
		if against > clear*o.spread()*math.Sqrt2 && against > 2*o.Weighings.Scale.Resolution {
			o.find(Finding{Kind: Reversal, Run: i, Line: run.Points[k].Line, Amount: against})
		}
	}
}

// ofDrift asks what a drift of one step over the longest run would do, where none is fitted.
func (o *Outcome) ofDrift() error {
	p := o.parameters
	if p.drift >= 0 {
		return nil
	}
	longest := 0.0
	for i := range o.Weighings.Runs {
		longest = math.Max(longest, o.Weighings.Runs[i].Zone.Duration)
	}
	rate := o.Weighings.Scale.Resolution / longest
	moved := mat.NewVecDense(len(p.readings), nil)
	for k, at := range p.readings {
		if at.ofRun() {
			moved.SetVec(k, rate*o.Weighings.Runs[at.run].Points[at.point].Time)
		}
	}
	by, err := o.response(moved)
	if err != nil {
		return err
	}
	const matters = 0.7 // of the half-width that is told
	if math.Abs(by) > matters*math.Log(o.Diffusivity.Factor()) {
		o.find(Finding{Kind: DriftMatters, Run: -1, Amount: rate, Factor: math.Exp(by)})
	}
	return nil
}

// response is what a change of the readings does to the logarithm of the diffusivity, by least squares.
func (o *Outcome) response(change *mat.VecDense) (float64, error) {
	p := o.parameters
	noise := p.error(o.estimate)
	covariance, err := p.problem.Covariance(o.estimate.Jacobian, noise)
	if err != nil {
		return 0, err
	}
	var slope, by mat.VecDense
	slope.MulVec(o.estimate.Jacobian.T(), change)
	by.MulVec(covariance, &slope)
	return by.AtVec(0) / (noise * noise), nil
}

// ofBeta asks what the ends of beta would do, where it is taken from the library.
func (o *Outcome) ofBeta() error {
	p := o.parameters
	beta := o.Weighings.Model.Material.Diffusivity.Beta
	if p.beta >= 0 || beta.Low == beta.High {
		return nil
	}
	worst := Finding{Kind: BetaMatters, Run: -1, Factor: 1}
	for _, end := range [...]float64{beta.Low, beta.High} {
		w := *o.Weighings
		w.Model.Material.Diffusivity.Beta.Value = end
		other, err := newParameters(&w, p.known)
		if err != nil {
			return err
		}
		e, err := other.problem.LeastSquares(o.estimate.Parameters)
		if err != nil {
			return err
		}
		factor := math.Exp(other.logDiffusivity(e.Parameters, o.Temperature) - p.logDiffusivity(o.estimate.Parameters, o.Temperature))
		if math.Abs(math.Log(factor)) > math.Abs(math.Log(worst.Factor)) {
			worst.Factor, worst.Amount = factor, end
		}
	}
	if math.Abs(math.Log(worst.Factor)) > math.Log(o.Diffusivity.Factor()) {
		o.find(worst)
	}
	return nil
}

// String is the word for programs.
func (k FindingKind) String() string {
	return [...]string{"few_steps", "shape", "outlier", "slip", "reversal", "ends_early", "begins_late", "air_rules", "no_drive", "scatter", "warming",
		"drift_matters", "beta_matters", "only_bound", "gains"}[k]
}
