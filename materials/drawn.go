package materials

import "math"

// EndDeviate is the standard normal deviate of the Low and the High of a [Value]: one time in twenty the truth lies below, one time in
// twenty above. It is the 95 % point of the normal distribution.
const EndDeviate = 1.6448536269514722

// LogNormal is the value at a standard normal deviate, for what is positive: the truth is lognormal, with the Value as its median, Low
// and High as its 5 and 95 % points; where these are not alike, each side of the median has its own width.
func (v Value) LogNormal(deviate float64) float64 {
	end := v.High
	if deviate < 0 {
		end = v.Low
	}
	if end == v.Value || !(end > 0) || !(v.Value > 0) {
		return v.Value
	}
	return v.Value * math.Exp(math.Abs(deviate)/EndDeviate*math.Log(end/v.Value))
}

// Normal is the same for what may have either sign: a normal distribution, each side with its own width.
func (v Value) Normal(deviate float64) float64 {
	end := v.High
	if deviate < 0 {
		end = v.Low
	}
	return v.Value + math.Abs(deviate)/EndDeviate*(end-v.Value)
}

// Spread is what [Value.LogNormal] has: the logarithm of the median, and the standard deviations of the logarithm below and above it, zero where the value is certain
// on that side.
func (v Value) Spread() (median, below, above float64) {
	side := func(end float64) float64 {
		if !(end > 0) || !(v.Value > 0) {
			return 0
		}
		return math.Abs(math.Log(end/v.Value)) / EndDeviate
	}
	return math.Log(v.Value), side(v.Low), side(v.High)
}

// Deviates say, as independent standard normal deviates, how far a polymer lies from the medians of its values. Where the [Correlation] of its diffusivity is not
// zero, those of activation energy and beta are made from these three: each stands for what the ones above it do not tell.
type Deviates struct {
	Diffusivity float64 // at the reference temperature, by the scatter
	Activation  float64 // of diffusion, in all pieces; the law turns about its reference
	Beta        float64
	Isotherm    float64 // its level: all contents in equilibrium
	Mixing      float64 // enthalpy
}

// Drawn is the polymer at some deviates.
func (p *Polymer) Drawn(d Deviates) Polymer {
	out := *p
	out.Deviate(d, nil)
	return out
}

// Deviate moves the polymer, which is at its medians, to some deviates. The pieces of its diffusivity are then in the memory of those given, which grows
// where it has to, and is given back.
func (p *Polymer) Deviate(d Deviates, pieces []Arrhenius) []Arrhenius {
	law := &p.Diffusivity
	activation, beta := d.Activation, d.Beta
	if c := law.correlated(); c != (Correlation{}) {
		activation, beta = c.deviates(d.Diffusivity, d.Activation, d.Beta)
	}
	law.ReferenceValue.Value *= law.Factor(d.Diffusivity)
	pieces = append(pieces[:0], law.Pieces...)
	law.Pieces = pieces
	at := law.piece(law.Reference) // the others were not fitted with D
	for i := range law.Pieces {
		e, deviate := &law.Pieces[i].Activation, d.Activation
		if i == at {
			deviate = activation
		}
		if deviate != 0 {
			e.Value = e.LogNormal(deviate)
		}
	}
	law.Beta.Value = law.Beta.Normal(beta)
	s := &p.Sorption
	if d.Isotherm != 0 {
		for _, level := range [...]*Value{&s.Saturation, &s.Monolayer, &s.Linear, &s.Power} {
			level.Value = level.LogNormal(d.Isotherm)
		}
	}
	s.MixingEnthalpy.Value = s.MixingEnthalpy.Normal(d.Mixing)
	return pieces
}
