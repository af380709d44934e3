package materials

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

// Golovoy & Zinbo, Polym. Eng. Sci. 29 (1989), polycarbonate: 8.7e-11 m2/s at
// 100 °C and 33.1 kJ/mol; their other figures are 6.0e-12 at 25 °C and 1.5e-10 at
// 120 °C. Rounding alone allows half a unit of each last digit: 0.05/8.7 = 0.6 %,
// 0.05/33.1 of an exponent of 2.7 = 0.4 %, and 0.05/6.0 = 0.8 % or 0.05/1.5 = 3.3 %.
func TestPolycarbonate(t *testing.T) {
	d := Diffusivity{Reference: 373.15, ReferenceValue: exact(8.7e-11), Pieces: []Arrhenius{{Activation: exact(33100)}}}
	require.InEpsilon(t, 8.7e-11, d.Dry(373.15), 1e-15)
	require.InEpsilon(t, 6.0e-12, d.Dry(298.15), 0.018)
	require.InEpsilon(t, 1.5e-10, d.Dry(393.15), 0.040)
}

func threePieces() Diffusivity {
	return Diffusivity{Reference: 350, ReferenceValue: exact(1e-12), Beta: exact(20), Pieces: []Arrhenius{
		{Activation: exact(60e3)}, {From: 330, Activation: exact(90e3)}, {From: 380, Activation: exact(30e3)}}}
}

// Within each piece d ln D / d(1/T) is -E/R; at the breaks D goes over without a step.
func TestPieces(t *testing.T) {
	d := threePieces()
	for T, activation := range map[float64]float64{280: 60e3, 329: 60e3, 331: 90e3, 350: 90e3, 379: 90e3, 381: 30e3, 500: 30e3} {
		const h = 0.1
		slope := (math.Log(d.Dry(T+h)) - math.Log(d.Dry(T-h))) / (1/(T+h) - 1/(T-h))
		require.InEpsilon(t, -activation/GasConstant, slope, 1e-9, "T = %g", T)
	}
	// By hand across two breaks: 350 -> 380 with 90, 380 -> 400 with 30 kJ/mol.
	want := 1e-12 * math.Exp((90e3*(1/350.0-1/380.0)+30e3*(1/380.0-1/400.0))/GasConstant)
	require.InEpsilon(t, want, d.Dry(400), 5e-12)
	want = 1e-12 * math.Exp((90e3*(1/350.0-1/330.0)+60e3*(1/330.0-1/300.0))/GasConstant)
	require.InEpsilon(t, want, d.Dry(300), 5e-12)
	require.InEpsilon(t, math.E, d.At(360, 0.05)/d.Dry(360), 5e-12)
}

func TestContinuousAndRising(t *testing.T) {
	polymers, err := Library()
	require.NoError(t, err)
	all := []Diffusivity{threePieces()}
	for _, p := range polymers {
		all = append(all, p.Diffusivity)
	}
	for _, d := range all {
		for _, piece := range d.Pieces[1:] {
			// A step of 1e-9 K moves D by E/(R T^2) 1e-9, below 1e-9 for 700 kJ/mol.
			require.InEpsilon(t, d.Dry(piece.From-1e-9), d.Dry(piece.From+1e-9), 1e-9)
		}
		require.InEpsilon(t, d.ReferenceValue.Value, d.Dry(d.Reference), 1e-14)
		before := 0.0
		for T := 223.15; T < 473.15; T += 5 {
			require.Greater(t, d.Dry(T), before)
			before = d.Dry(T)
			require.False(t, math.IsInf(before, 0))
		}
	}
}

// The steepness is the slope of ln D over 1/T, and the pieces join.
func TestPiece(t *testing.T) {
	library, err := Library()
	require.NoError(t, err)
	for _, polymer := range library {
		d := &polymer.Diffusivity
		for _, T := range []float64{240, 300, 340, 350, 380, 450} {
			p := d.Piece(T)
			require.LessOrEqual(t, p.From, T)
			require.Greater(t, p.To, T)
			if T-p.From < 1 || p.To-T < 1 {
				continue
			}
			slope := math.Log(d.Dry(T-0.01)/d.Dry(T+0.01)) / (1/(T-0.01) - 1/(T+0.01))
			require.InEpsilon(t, -p.Steepness, slope, 1e-6, "%s at %g K", polymer.ID, T)
		}
	}
}
