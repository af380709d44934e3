package exact

import (
	"fmt"
	"math"
)

// J0Zeros returns the first n positive zeros of the Bessel function J0 [-],
// in rising order, correct to rounding (1e-15 relative). It returns nil for
// n < 1.
//
// The start is McMahon's expansion (Abramowitz & Stegun, eq. 9.5.12, from
// memory), followed by Newton's method.
func J0Zeros(n int) []float64 {
	if n < 1 {
		return nil
	}
	zeros := make([]float64, n)
	for i := range zeros {
		zeros[i] = j0Zero(i + 1)
	}
	return zeros
}

// newtonSteps is enough for McMahon's start: its error is below 2e-3 for the
// first zero and every step squares it. A step below rounding is the last.
const (
	newtonSteps = 5
	rounding    = 1e-15 // relative
)

// j0Zero returns the k-th positive zero of J0, k ≥ 1.
func j0Zero(k int) float64 {
	z := nearJ0Zero(k)
	for range newtonSteps {
		change := math.J0(z) / math.J1(z)
		z += change
		if math.Abs(change) <= rounding*z {
			break
		}
	}
	return z
}

// nearJ0Zero is j0Zero by McMahon's expansion alone, within 2e-3.
func nearJ0Zero(k int) float64 {
	b := (float64(k) - 0.25) * math.Pi
	e := 1 / (8 * b)
	return b + e*(1-e*e*(124.0/3-e*e*120928.0/15))
}

// nearJ1Zero is the k-th positive zero of J1 by McMahon's expansion, within 2e-3, and 0 for k = 0.
func nearJ1Zero(k int) float64 {
	if k == 0 {
		return 0
	}
	b := (float64(k) + 0.25) * math.Pi
	e := 1 / (8 * b)
	return b - e*(3-e*e*(12-e*e*113184.0/15))
}

// RobinRoots returns the first n positive roots ζ [-] of
//
//	ζ J1(ζ) = Bi J0(ζ),
//
// in rising order, correct to rounding (1e-15 relative for the first, 1e-13 at
// worst) for every Bi > 0 [-]; Bi = +Inf gives the zeros of J0. It reports an
// error if Bi is not positive or n < 1.
//
// The k-th root lies between the (k−1)-th zero of J1 (0 for k = 1) and the k-th
// zero of J0; Newton's method is kept inside that bracket by bisection.
// Crank, eq. 5.47 (number from memory).
func RobinRoots(Bi float64, n int) ([]float64, error) {
	var m Modes
	if err := m.Find(Bi, n); err != nil {
		return nil, err
	}
	return m.Root, nil
}

func checkRoots(Bi float64, n int) error {
	if !(Bi > 0) {
		return fmt.Errorf("exact: Biot number %g: must be above 0 (+Inf for a surface held constant)", Bi)
	}
	if n < 1 {
		return fmt.Errorf("exact: %d roots asked for: at least 1 is needed", n)
	}
	return nil
}

// robinRoot returns the k-th root of f(ζ) = ζ J1(ζ) − Bi J0(ζ), whose
// derivative is ζ J0(ζ) + Bi J1(ζ), with J0 and J1 there.
func robinRoot(Bi float64, k int) (z, j0, j1 float64) {
	// McMahon's expansion misses the zeros of J0 and J1 by less than 2e-3; a bracket a little wider holds the same root.
	const wider, steps, near = 5e-3, 80, 1e-8
	low, high := nearJ1Zero(k-1)-wider, nearJ0Zero(k)+wider
	z = low + math.Atan(Bi/low)
	if k == 1 {
		low = 0
		z = math.Sqrt(2 / (1/Bi + 2/(high*high)))
	}
	sign := 1.0 // f rises through the odd roots and falls through the even ones
	if k%2 == 0 {
		sign = -1
	}
	for range steps {
		if z < low || z > high {
			z = low + (high-low)/2
		}
		j0, j1 = math.J0(z), math.J1(z)
		f := z*j1 - Bi*j0
		if sign*f < 0 {
			low = z
		} else {
			high = z
		}
		change := f / (z*j0 + Bi*j1)
		z -= change
		if math.Abs(change) <= near*z { // the next step would be below rounding: its square
			j0, j1 = j0+change*j1, j1-change*(j0-j1/z)
			break
		}
	}
	return z, j0, j1
}

// Mode is the slowest mode of decay, J0(ζ1 x) exp(−ζ1² Fo): a smooth solution
// of the linear equation by itself, fit for measuring the order of a scheme.
type Mode struct {
	Biot        float64 // [-], +Inf for a surface held constant
	Root        float64 // ζ1 [-]
	Coefficient float64 // C1 [-], its share in the answer to a uniform start
}

// FirstMode returns the slowest mode for a Biot number Bi > 0 [-], +Inf for a
// surface held constant. The coefficient of the one-term approximation is
//
//	C1 = 2 J1(ζ1) / { ζ1 [J0²(ζ1) + J1²(ζ1)] }.
//
// Source: Çengel, Heat Transfer, Table 4-2; Incropera & DeWitt, Table 5.1 (from
// memory). It reports an error if Bi is not positive.
func FirstMode(Bi float64) (Mode, error) {
	roots, err := RobinRoots(Bi, 1)
	if err != nil {
		return Mode{}, err
	}
	z := roots[0]
	j0, j1 := math.J0(z), math.J1(z)
	return Mode{Biot: Bi, Root: z, Coefficient: 2 * j1 / (z * (j0*j0 + j1*j1))}, nil
}

// At returns the mode [-] at the relative radius x in [0, 1] [-] and the
// Fourier number Fo ≥ 0 [-]; at x = 0, Fo = 0 it is 1. The uniform start of
// one unit holds Coefficient times this.
func (m Mode) At(x, Fo float64) float64 {
	if !inUnit(x) || !(Fo >= 0) {
		return math.NaN()
	}
	return math.J0(m.Root*x) * math.Exp(-m.Root*m.Root*Fo)
}

// Mean returns the volume mean of the mode [-] at the Fourier number Fo ≥ 0 [-].
func (m Mode) Mean(Fo float64) float64 {
	if !(Fo >= 0) {
		return math.NaN()
	}
	return 2 * math.J1(m.Root) / m.Root * math.Exp(-m.Root*m.Root*Fo)
}

// inUnit tells whether x is a relative radius.
func inUnit(x float64) bool { return x >= 0 && x <= 1 }
