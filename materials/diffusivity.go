package materials

import (
	"math"

	"strandry/materials/exponential"
)

// Diffusivity of water in a polymer: Arrhenius in pieces, exponential in content.
type Diffusivity struct {
	Reference      float64     // [K], where ReferenceValue holds
	ReferenceValue Value       // [m2/s], limit of no water, 1e-18 to 1e-7
	Pieces         []Arrhenius // ascending; the first starts at 0 K
	Beta           Value       // [kg dry/kg], -200 to 500
	Scatter        Value       // factor f, 1 to 1000: published values lie in D/f to D f
	Lean           float64     // logarithm of a factor s on both ends of that, D s/f to D s f, where the range of the value is lopsided; else 0
	Correlation    Correlation // of the deviates of ReferenceValue, the activation energy at the reference, and Beta
	Temperature    Range       // [K], where the data hold
}

// Arrhenius is the law of one stretch of temperature.
type Arrhenius struct {
	From       float64 // [K], where the piece starts; it ends where the next one starts
	Activation Value   // [J/mol], 0 to 300000
}

// Dry returns the diffusivity [m2/s] in the limit of no water at T [K], T > 0:
//
//	ln D(T) = ln D_ref + (1/R) ∫ E d(1/T'), from T to T_ref,
//
// the Arrhenius law with E constant in each piece, hence continuous at the breaks.
// Outside Temperature it is an extrapolation.
func (d *Diffusivity) Dry(T float64) float64 {
	if T >= d.Reference {
		return d.ReferenceValue.Value * exponential.Of(d.exponent(d.Reference, T))
	}
	return d.ReferenceValue.Value * exponential.Of(-d.exponent(T, d.Reference))
}

// Piece is a stretch of temperature with one activation energy.
type Piece struct {
	Steepness float64 // E/R [K]
	From, To  float64 // [K]; To is not part of it
}

// Piece returns the piece that holds at T [K].
func (d *Diffusivity) Piece(T float64) Piece {
	i := d.piece(T)
	p := Piece{Steepness: d.Pieces[i].Activation.Value / GasConstant, From: d.Pieces[i].From, To: math.Inf(1)}
	if i+1 < len(d.Pieces) {
		p.To = d.Pieces[i+1].From
	}
	return p
}

// piece is the index of that which holds at T [K].
func (d *Diffusivity) piece(T float64) int {
	i := 0
	for i+1 < len(d.Pieces) && T >= d.Pieces[i+1].From {
		i++
	}
	return i
}

// exponent sums (E/R)(1/from - 1/to) over the pieces between two temperatures.
func (d *Diffusivity) exponent(from, to float64) float64 {
	if len(d.Pieces) == 1 {
		return d.Pieces[0].Activation.Value / GasConstant * (1/from - 1/to)
	}
	sum := 0.0
	for i := range d.Pieces {
		piece := &d.Pieces[i]
		low, high := max(from, piece.From), to
		if i+1 < len(d.Pieces) {
			high = min(to, d.Pieces[i+1].From)
		}
		if low < high {
			sum += piece.Activation.Value / GasConstant * (1/low - 1/high)
		}
	}
	return sum
}

// At returns the diffusivity [m2/s] at T [K], T > 0, and content C [kg/kg dry]:
// Dry(T) exp(Beta C).
func (d *Diffusivity) At(T, C float64) float64 {
	return d.Dry(T) * exponential.Of(d.Beta.Value*C)
}
