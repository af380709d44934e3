package materials

import (
	"math"
	"slices"
)

// Correlation tells how the doubts of a diffusivity go together, as those do that were fitted to the same weighings: the correlation coefficients of
// the standard normal [Deviates] of its three numbers, each -0.999 to 0.999, their matrix positive definite. The zero value leaves them independent.
type Correlation struct {
	Activation     float64 // of D at the reference with the activation energy of the piece that holds there
	Beta           float64 // of D at the reference with beta
	ActivationBeta float64 // of that activation energy with beta
}

// mostCorrelated is the greatest coefficient: beyond, two numbers are one.
const mostCorrelated = 0.999

// Possible tells that three numbers can go together so: each coefficient is -0.999 to 0.999, and their matrix is positive definite, that is, has a determinant above
// zero (of 1e-12 or more).
func (c Correlation) Possible() bool {
	const least = 1e-12
	for _, x := range [...]float64{c.Activation, c.Beta, c.ActivationBeta} {
		if !(math.Abs(x) <= mostCorrelated) {
			return false
		}
	}
	return 1+2*c.Activation*c.Beta*c.ActivationBeta-c.Activation*c.Activation-c.Beta*c.Beta-c.ActivationBeta*c.ActivationBeta >= least
}

// deviates are the correlated ones of activation energy and beta that independent ones make, the diffusivity's own being as it is: the lower Cholesky
// factor of the matrix times the three.
func (c Correlation) deviates(diffusivity, activation, beta float64) (ofActivation, ofBeta float64) {
	own := math.Sqrt(1 - c.Activation*c.Activation)
	shared := (c.ActivationBeta - c.Activation*c.Beta) / own
	rest := math.Sqrt(max(0, 1-c.Beta*c.Beta-shared*shared))
	return c.Activation*diffusivity + own*activation, c.Beta*diffusivity + shared*activation + rest*beta
}

// correlated is the correlation of what is in doubt: with what is certain nothing goes.
func (d *Diffusivity) correlated() Correlation {
	c := d.Correlation
	if c == (Correlation{}) || len(d.Pieces) == 0 {
		return Correlation{}
	}
	if !(d.Scatter.Value > 1) {
		c.Activation, c.Beta = 0, 0
	}
	if e := d.atReference().Activation; e.Low == e.High {
		c.Activation, c.ActivationBeta = 0, 0
	}
	if d.Beta.Low == d.Beta.High {
		c.Beta, c.ActivationBeta = 0, 0
	}
	return c
}

// atReference is the piece that holds at the reference temperature.
func (d *Diffusivity) atReference() *Arrhenius { return &d.Pieces[d.piece(d.Reference)] }

// Correlated tells that the doubts of the diffusivity, its activation energy and beta go together.
func (d *Diffusivity) Correlated() bool { return d.correlated() != Correlation{} }

// Factor is that on the diffusivity at its reference at a standard normal deviate: f to the power of the deviate over 1.645, f being the scatter, with
// a side of its own above and below where the range of the value is lopsided.
func (d *Diffusivity) Factor(deviate float64) float64 {
	reach := math.Log(d.Scatter.Value)
	switch {
	case d.Lean == 0:
	case deviate > 0:
		reach = max(0, reach+d.Lean)
	default:
		reach = max(0, reach-d.Lean)
	}
	return math.Exp(deviate / EndDeviate * reach)
}

// Between makes two diffusivities [m2/s], above zero, the 5 and 95 % points of that at the reference: scatter and lean are those of the two.
func (d *Diffusivity) Between(low, high float64) {
	const even = 1e-12
	d.Scatter.Value = math.Sqrt(high / low)
	if d.Lean = (math.Log(low)+math.Log(high))/2 - math.Log(d.ReferenceValue.Value); math.Abs(d.Lean) < even {
		d.Lean = 0
	}
}

// Uncorrelate drops the correlation, since what is said in by, a file or a table of one, restates one of the numbers that go together and not the others; the first doubt about the
// polymer says so. It does nothing where there is none.
func (p *Polymer) Uncorrelate(by string) {
	if p.Diffusivity.Correlation == (Correlation{}) {
		return
	}
	p.Diffusivity.Correlation = Correlation{}
	p.Doubts = slices.Insert(slices.Clone(p.Doubts), 0, Note{
		Text: "Diffusivity, activation energy and beta were fitted together, and their doubts went together. One of them is restated, so that the correlation does not hold any more: " +
			"it is left out, and their doubts are taken as independent, which as a rule is the wider doubt.",
		Source: by, Kind: Given, About: AboutDiffusivity,
	})
}
