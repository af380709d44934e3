package exact

import "math"

// Modes are the slowest eigenfunctions of a cylinder behind a film, J0(ζ x) with ζ J1(ζ) = Bi J0(ζ), in rising order of ζ. The zero value holds
// none; Find fills it and keeps its memory.
type Modes struct {
	Biot    float64   // [-]
	Root    []float64 // ζ [-]
	Surface []float64 // J0(ζ), the eigenfunction at x = 1 [-]
	slope   []float64 // J1(ζ), minus its derivative there over ζ [-]
}

// Find fills m with the given number of modes for a Biot number above 0 [-], +Inf for a surface that is held; it gives
// the errors of [RobinRoots].
func (m *Modes) Find(biot float64, count int) error {
	if err := checkRoots(biot, count); err != nil {
		return err
	}
	m.Biot, m.Root, m.Surface, m.slope = biot, m.Root[:0], m.Surface[:0], m.slope[:0]
	for k := range count {
		var z, j0, j1 float64
		if math.IsInf(biot, 1) { // the surface is held
			z = j0Zero(k + 1)
			j1 = math.J1(z)
		} else {
			z, j0, j1 = robinRoot(biot, k+1)
		}
		m.Root, m.Surface, m.slope = append(m.Root, z), append(m.Surface, j0), append(m.slope, j1)
	}
	return nil
}

// Take makes m the first so many modes of another.
func (m *Modes) Take(o *Modes, count int) {
	m.Biot = o.Biot
	m.Root = append(m.Root[:0], o.Root[:count]...)
	m.Surface = append(m.Surface[:0], o.Surface[:count]...)
	m.slope = append(m.slope[:0], o.slope[:count]...)
}

// Mean is the volume mean of mode n, counted from zero: 2 J1(ζ)/ζ [-].
func (m *Modes) Mean(n int) float64 { return 2 * m.slope[n] / m.Root[n] }

// Norm is ∫ J0²(ζ x) x dx over 0 < x < 1 for mode n, [J0²(ζ) + J1²(ζ)]/2. Abramowitz & Stegun, eq. 11.4.5; Carslaw & Jaeger, sec. 7.7
// (numbers from memory).
func (m *Modes) Norm(n int) float64 {
	return (m.Surface[n]*m.Surface[n] + m.slope[n]*m.slope[n]) / 2
}

// Overlap is ∫ J0(u x) J0(v x) x dx over 0 < x < 1 for mode n of m, with the root u, and mode k of another set, with the root v,
//
//	[u J1(u) J0(v) − v J1(v) J0(u)] / (u² − v²),
//
// Lommel's integral (Abramowitz & Stegun, eq. 11.3.29, number from memory). Where two modes of the same rank nearly coincide, the quotient loses
// its digits; the integral is then the mean of their norms, to the second order in their distance.
func (m *Modes) Overlap(n int, o *Modes, k int) float64 {
	const near = 1e-5
	u, v := m.Root[n], o.Root[k]
	if n == k && math.Abs(u-v) < near*v {
		return (m.Norm(n) + o.Norm(k)) / 2
	}
	if m.Biot == o.Biot {
		return 0
	}
	return (u*m.slope[n]*o.Surface[k] - v*o.slope[k]*m.Surface[n]) / ((u - v) * (u + v))
}

// Amount is the weight of mode n in a profile that is even, by so much above the surroundings [the unit of the profile], plus a sum of the modes of
// another set with the given weights.
func (m *Modes) Amount(n int, even float64, o *Modes, weights []float64) float64 {
	sum := even * m.Mean(n) / 2
	for k := len(weights) - 1; k >= 0; k-- {
		sum += weights[k] * o.Overlap(k, m, n)
	}
	return sum / m.Norm(n)
}

// At is mode n at the relative radius x, 0 to 1 [-].
func (m *Modes) At(n int, x float64) float64 { return math.J0(m.Root[n] * x) }

// taylor is the number of terms of [Modes.Inside] beyond the first: the next would be below 2e-10.
const taylor = 12

// Inside appends mode n at each relative radius, 0 to 1, less what it is at x = 1 [-], to 2e-10: next to the surface by its Taylor series there, whose
// coefficients follow from Bessel's equation, z y” + y' + z y = 0.
func (m *Modes) Inside(n int, radii, values []float64) []float64 {
	const reach = 1
	z := m.Root[n]
	a := [taylor + 1]float64{m.Surface[n], -m.slope[n]}
	before := 0.0
	for k := range taylor - 1 {
		f := float64(k + 1)
		a[k+2] = -(f*f*a[k+1] + z*a[k] + before) / (z * f * (f + 1))
		before = a[k]
	}
	for _, x := range radii {
		s := z * (x - 1)
		if s < -reach {
			values = append(values, math.J0(z*x)-a[0])
			continue
		}
		sum := a[taylor]
		for k := taylor - 1; k > 0; k-- {
			sum = sum*s + a[k]
		}
		values = append(values, sum*s)
	}
	return values
}
