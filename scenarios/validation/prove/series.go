package prove

import (
	"fmt"
	"math"

	"strandry/diffusion/exact"
)

// series are the eigenfunction series of a step outside a cylinder.
func series() []Check {
	o := origin{"cylinder: series",
		"step outside: series of Crank, The Mathematics of Diffusion (1975), ch. 5; computed with 40 digits and by Laplace inversion",
		Computed, absolute(1e-11, "the reference has 12 digits")}
	var out []Check
	for _, r := range stepTable() {
		name := fmt.Sprintf("%s, Fo = %g", biotText(r.biot), r.fourier)
		out = append(out, o.plain(name, "Mt/M∞", "-", r.uptake, func() float64 { return 1 - exact.RobinMean(r.biot, r.fourier) }))
	}
	short := origin{"cylinder: series",
		"short times: 4 √(Fo/π) - Fo - Fo^1.5/(3 √π), Crank (1975), eq. 5.25 (number from memory), confirmed with 40 digits",
		Computed, absolute(1.3e-7, "the terms left out, Fo²/8 and on")}
	const fo = 1e-3
	three := 4/math.SqrtPi*math.Sqrt(fo) - fo - math.Pow(fo, 1.5)/(3*math.SqrtPi)
	out = append(out, short.plain("held, Fo = 0.001", "Mt/M∞", "-", three, func() float64 { return exact.ConstantUptake(fo) }))
	early := origin{"cylinder: series",
		"early loss through a film: expansion of the Laplace transform, exact value with 40 digits (independent code)",
		Computed, absolute(1e-13, "the reference has 12 digits")}
	for _, r := range []struct{ bi, fo, want float64 }{{1, 0.001, 0.00195291626074}, {10, 0.0001, 0.00185853287596}} {
		out = append(out, early.plain(fmt.Sprintf("Bi = %g, Fo = %g", r.bi, r.fo), "Mt/M∞", "-", r.want,
			func() float64 { return 1 - exact.RobinMean(r.bi, r.fo) }))
	}
	late := origin{"cylinder: series", "late times: -d ln(mean)/dFo = ζ1², computed with 40 digits (independent code)",
		Computed, absolute(1e-8, "ten digits, and the second mode is below 1e-12 of the first")}
	for _, r := range []struct{ bi, want float64 }{{math.Inf(1), 5.783185963}, {1, 1.57699273}, {0.1, 0.195082797}} {
		out = append(out, late.plain(biotText(r.bi)+", Fo 2 to 3", "slope", "-", r.want,
			func() float64 { return math.Log(exact.RobinMean(r.bi, 2) / exact.RobinMean(r.bi, 3)) }))
	}
	return out
}

// step is the state after a step outside: uniform start, linear diffusion.
type step struct{ biot, fourier, uptake, centre, surface float64 }

// stepTable holds rows of testdata/exact/robin-cylinder.csv, which tells their origin.
func stepTable() []step {
	held := math.Inf(1)
	return []step{
		{0.1, 0.02, 0.0039557405434, 0.999999971847, 0.983175099412},
		{0.1, 0.3, 0.0570346676611, 0.965953040381, 0.919934123691},
		{0.1, 1, 0.177400574217, 0.842989594739, 0.802374989855},
		{1, 0.02, 0.035932131945, 0.99999972761, 0.849645687326},
		{1, 0.2, 0.28148374133, 0.870174243933, 0.5702277442},
		{1, 1, 0.796652954334, 0.249379713546, 0.1603384125},
		{10, 0.02, 0.180619490942, 0.999997947794, 0.314168328999},
		{10, 0.1, 0.490016437302, 0.900080429143, 0.131622285099},
		{10, 0.5, 0.925234537113, 0.145800059431, 0.0177579743512},
		{100, 0.02, 0.282283379429, 0.999994155863, 0.0349664955435},
		{100, 0.2, 0.772697451848, 0.512709614146, 0.00648366318172},
		{held, 0.02, 0.298563908822, 0.999992685436, 0},
		{held, 0.1, 0.605824193967, 0.848355113325, 0},
		{held, 0.5, 0.961621294949, 0.0888897160849, 0},
	}
}

func biotText(bi float64) string {
	if math.IsInf(bi, 1) {
		return "held"
	}
	return fmt.Sprintf("Bi = %g", bi)
}
