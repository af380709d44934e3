package diffusion

import (
	"math"

	"strandry/diffusion/radial"
)

// runWithFourier is Run with the Fourier numbers of the zones, which take a quarter of a march more.
func (w *March) runWithFourier(m *Model, s Settings, result *Result) error {
	c := &w.main.cylinder
	c.Along = w.main.fourier
	defer func() { c.Along = nil }()
	return w.Run(m, s, result)
}

// fourier is the integral of D/R² at the mean content over a step. Between the ends of the step the content and what
// the strand's temperature deviates by are cubics through their values and rates; the temperature that the zone
// gives is known at every time. Simpson's rule is halved until it agrees with itself to a hundred-thousandth.
func (l *strand) fourier(from, to radial.Instant) float64 {
	if !(to.Time > from.Time) {
		return 0
	}
	a, b := l.fourierRate(from.Time, from, to), l.fourierRate(to.Time, from, to)
	middle := l.fourierRate((from.Time+to.Time)/2, from, to)
	whole := (to.Time - from.Time) / 6 * (a + 4*middle + b)
	const agree, halvings = 1e-5, 12
	steady := math.Abs(a-middle) + math.Abs(b-middle)
	if steady < 0.03*middle && l.around.thermal.even(from.Time) {
		return whole // to 1e-4 though the content may change four times as fast at one end as at the other, and far better as a rule
	}
	return l.halved(from, to, simpson{from.Time, to.Time, a, middle, b, whole}, agree, halvings)
}

// simpson is an interval with the values at its ends and its middle and the integral by Simpson's rule.
type simpson struct{ from, to, a, middle, b, sum float64 }

func (l *strand) halved(from, to radial.Instant, s simpson, agree float64, left int) float64 {
	h, centre := (s.to-s.from)/12, (s.from+s.to)/2
	first, second := l.fourierRate((s.from+centre)/2, from, to), l.fourierRate((centre+s.to)/2, from, to)
	one := simpson{s.from, centre, s.a, first, s.middle, h * (s.a + 4*first + s.middle)}
	two := simpson{centre, s.to, s.middle, second, s.b, h * (s.middle + 4*second + s.b)}
	sum := one.sum + two.sum
	if left == 0 || math.Abs(sum-s.sum) <= agree*sum {
		return sum + (sum-s.sum)/15
	}
	return l.halved(from, to, one, agree, left-1) + l.halved(from, to, two, agree, left-1)
}

// fourierRate is D/R² [1/s] at the mean content at a time within a step.
func (l *strand) fourierRate(t float64, from, to radial.Instant) float64 {
	a := &l.around
	mean := cubic(t, from.Time, to.Time, from.Mean, to.Mean, from.Rate, to.Rate)
	beside := cubic(t, from.Time, to.Time, from.Beside, to.Beside, from.BesideRate, to.BesideRate)
	return a.dry(a.thermal.surface(t, beside)) * math.Exp(float64(l.potential)*mean)
}

// cubic is the polynomial through two values and slopes.
func cubic(t, t0, t1, y0, y1, slope0, slope1 float64) float64 {
	h := t1 - t0
	u := (t - t0) / h
	v := 1 - u
	return v*v*(1+2*u)*y0 + u*u*(1+2*v)*y1 + h*u*v*(v*slope0-u*slope1)
}
