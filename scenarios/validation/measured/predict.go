package measured

import (
	"math"
	"slices"

	"strandry/materials"
)

// Prediction is what the library says of a figure, [Quantity.Unit].
type Prediction struct {
	Value, Low, High float64
	// Extrapolated tells that a temperature or the humidity lies outside the range that the
	// library states for its data.
	Extrapolated bool
}

// Predict computes a figure from a polymer, by the laws of the package comment.
func Predict(p *materials.Polymer, f *Figure) Prediction {
	at := f.At
	var out Prediction
	switch f.Quantity {
	case Equilibrium:
		out = contentAt(&p.Sorption, at.Humidity, at.Temperature)
	case Uptake:
		c := contentAt(&p.Sorption, at.Humidity, at.Temperature)
		d := diffusivityAt(p, at.Humidity, at.Temperature)
		share := func(d float64) float64 { return plateShare(d * at.Time / (at.Thickness * at.Thickness)) }
		out = Prediction{Value: c.Value * share(d.Value), Low: c.Low * share(d.Low), High: c.High * share(d.High)}
	case Diffusivity:
		out = diffusivityAt(p, at.Humidity, at.Temperature)
	case ActivationEnergy:
		out = slopes(&p.Diffusivity, at, func(cold, warm float64) float64 {
			return materials.GasConstant * math.Log(warm/cold) / (1/at.Temperature - 1/at.To)
		})
	case DiffusivityRatio:
		out = slopes(&p.Diffusivity, at, func(cold, warm float64) float64 { return warm / cold })
	default:
		out = contentRatio(&p.Sorption, at)
	}
	out.Extrapolated = extrapolated(p, f)
	return out
}

// extrapolated tells whether the conditions leave the ranges of the data.
func extrapolated(p *materials.Polymer, f *Figure) bool {
	temperatures := []float64{f.At.Temperature}
	if f.At.To > 0 {
		temperatures = append(temperatures, f.At.To)
	}
	for _, t := range temperatures {
		if f.usesDiffusivity() && !p.Diffusivity.Temperature.Holds(t) || f.usesIsotherm() && !p.Sorption.Temperature.Holds(t) {
			return true
		}
	}
	return f.usesIsotherm() && !p.Sorption.ActivityRange.Holds(f.At.Humidity)
}

func (f *Figure) usesDiffusivity() bool {
	return f.Quantity != Equilibrium && f.Quantity != EquilibriumRatio
}

func (f *Figure) usesIsotherm() bool { return f.At.Humidity > 0 }

// contentAt is the content [kg/kg dry] at an activity a [-] and T [K].
func contentAt(s *materials.Sorption, a, T float64) Prediction {
	out := Prediction{Value: s.Content(a, T)}
	var ends [2][]float64
	for _, h := range heats(s) {
		for i, high := range []bool{false, true} {
			end := atEnd(s, high)
			end.MixingEnthalpy.Value = h
			ends[i] = append(ends[i], end.Content(a, T))
		}
	}
	out.Low, out.High = slices.Min(ends[0]), slices.Max(ends[1])
	return out
}

// atEnd is the isotherm with each parameter at the end of its range that gives the least or the greatest
// content.
func atEnd(s *materials.Sorption, high bool) materials.Sorption {
	out := *s
	for _, v := range []*materials.Value{&out.Saturation, &out.Monolayer, &out.C, &out.K, &out.Linear, &out.Power} {
		v.Value = end(v, high)
	}
	out.Exponent.Value = end(&out.Exponent, !high) // below an activity of one a larger exponent gives less
	return out
}

func end(v *materials.Value, high bool) float64 {
	if high {
		return v.High
	}
	return v.Low
}

// heats are the ends of the range of the heat of mixing [J/mol].
func heats(s *materials.Sorption) []float64 {
	return []float64{s.MixingEnthalpy.Low, s.MixingEnthalpy.High}
}

// contentRatio is C(T2)/C(T1) at one activity.
func contentRatio(s *materials.Sorption, at Conditions) Prediction {
	ratio := func(s *materials.Sorption) float64 {
		return s.Content(at.Humidity, at.To) / s.Content(at.Humidity, at.Temperature)
	}
	out := Prediction{Value: ratio(s)}
	var ends []float64
	for _, h := range heats(s) {
		end := *s
		end.MixingEnthalpy.Value = h
		ends = append(ends, ratio(&end))
	}
	out.Low, out.High = slices.Min(ends), slices.Max(ends)
	return out
}

// diffusivityAt is the diffusivity [m2/s] that sorption from the dry state to the activity a [-] at T [K] shows,
// with its scatter.
func diffusivityAt(p *materials.Polymer, a, T float64) Prediction {
	d := p.Diffusivity.Dry(T) * sorptionMean(p.Diffusivity.Beta.Value*p.Sorption.Content(a, T))
	return Prediction{Value: d, Low: d * p.Diffusivity.Factor(-materials.EndDeviate), High: d * p.Diffusivity.Factor(materials.EndDeviate)}
}

// sorptionMean is (5/3) ∫ u^(2/3) exp(x u) du from 0 to 1, the mean of exp(x C/C0) that sorption to C0 shows, as its
// power series; x is βC0, -20 to 20.
func sorptionMean(x float64) float64 {
	const terms = 80
	sum, power := 0.0, 1.0
	for k := range terms {
		sum += power * (5.0 / 3) / (float64(k) + 5.0/3)
		power *= x / float64(k+1)
	}
	return sum
}

// slopes applies a function to the dry diffusivities at the two temperatures, for the activation energy and
// for the ends of its range.
func slopes(d *materials.Diffusivity, at Conditions, of func(cold, warm float64) float64) Prediction {
	apply := func(d *materials.Diffusivity) float64 { return of(d.Dry(at.Temperature), d.Dry(at.To)) }
	withEnd := func(high bool) float64 {
		out := *d
		out.Pieces = slices.Clone(d.Pieces)
		for i := range out.Pieces {
			v := &out.Pieces[i].Activation
			v.Value = end(v, high)
		}
		return apply(&out)
	}
	return Prediction{Value: apply(d), Low: withEnd(false), High: withEnd(true)}
}

// plateShare is the share of the equilibrium that a plate has taken up at τ = D t/h² [-], τ >= 0, h being its full
// thickness. The two forms differ by less than 1e-3 of the share where they meet.
func plateShare(tau float64) float64 {
	const meet, terms = 0.04, 6
	if tau <= meet {
		return 4 / math.SqrtPi * math.Sqrt(tau)
	}
	left := 0.0
	for n := range terms {
		odd := float64(2*n + 1)
		left += math.Exp(-odd*odd*math.Pi*math.Pi*tau) / (odd * odd)
	}
	return 1 - 8/(math.Pi*math.Pi)*left
}
