package prove

import (
	"fmt"
	"math"

	"strandry/diffusion/exact"
)

const surfaceFamily = "cylinder: surface that varies"

// driven are exact solutions with a surface or a diffusivity that varies in time, and
// the steady ones with D = exp(2 c).
func driven() []Check {
	o := origin{surfaceFamily,
		"surface rising as K t, or as 1 - exp(-b t): Laplace inversion (independent code); cases of Crank (1975), ch. 5",
		Computed, absolute(3e-12, "the inversion is good to about 1e-12")}
	var out []Check
	for _, r := range []driving{{0, 0.05, 0.0155223909719}, {0, 0.2, 0.112628482571}, {0, 1, 0.875368230642},
		{1, 0.2, 0.103820743412}, {3, 0.05, 0.0438515557547}, {1000, 0.05, 0.4481020864132}} {
		out = append(out, o.plain(r.name(), "mean", "-", r.mean, r.exactly))
	}
	reduced := origin{surfaceFamily,
		"reduced time, D at 50, 80 and 65 °C in turn: Crank (1975), ch. 7; computed with 40 digits (independent code)",
		Computed, absolute(1e-11, "the reference has 12 digits")}
	for i, want := range []float64{0.81264877409, 0.447144685689, 0.380990032142} {
		out = append(out, reduced.plain(fmt.Sprintf("after zone %d", i+1), "mean left", "-", want,
			func() float64 { return 1 - exact.ConstantUptake(exact.ReducedTime(radius, threeHolds()[:i+1]...)) }))
	}
	steady := origin{surfaceFamily,
		"steady states with D = exp(2 c): boundary-value solver at 1e-13 (independent code)",
		Computed, absolute(1e-12, "of the boundary-value solver, with its last digits")}
	shell := exact.Shell{InnerRadius: 1, OuterRadius: 3, Inner: 1, Diffusivity: 1, Exponent: 2}
	return append(out,
		steady.plain("hollow cylinder", "c at r = 2", "-", 0.6056743440777701, func() float64 { return shell.At(2) }),
		steady.plain("rod with a source", "mean", "-", 0.2364787139396523, sourceRod().Mean))
}

// driving is the mean in a cylinder after a surface that rises linearly, or for a rate
// other than zero approaches one exponentially.
type driving struct{ rate, fourier, mean float64 }

func (d driving) name() string {
	if d.rate == 0 {
		return fmt.Sprintf("ramp, Fo = %g", d.fourier)
	}
	return fmt.Sprintf("b = %g, Fo = %g", d.rate, d.fourier)
}

func (d driving) exactly() float64 {
	if d.rate == 0 {
		return exact.RampMean(d.fourier)
	}
	return exact.ApproachMean(d.rate, d.fourier)
}

// surface is the value at the surface at a time.
func (d driving) surface(t float64) float64 {
	if d.rate == 0 {
		return t
	}
	return -math.Expm1(-d.rate * t)
}

// sourceRod is a rod with a uniform source, its surface at 0.1.
func sourceRod() exact.Rod {
	return exact.Rod{Radius: 1, Surface: 0.1, Source: 1.6, Diffusivity: 1, Exponent: 2}
}

// arrhenius is D0 exp[-(E/R)(1/T - 1/298.15 K)], written out here.
func arrhenius(d0, activation, celsius float64) float64 {
	return d0 * math.Exp(-activation/8.31446261815324*(1/(celsius+zeroCelsius)-1/298.15))
}

// threeHolds are the zones of the reduced time.
func threeHolds() []exact.Hold {
	at := func(celsius, seconds float64) exact.Hold {
		return exact.Hold{Duration: seconds, Diffusivity: arrhenius(2e-12, 50000, celsius)}
	}
	return []exact.Hold{at(50, 600), at(80, 1200), at(65, 900)}
}
