package prove

import (
	"fmt"
	"math"

	"strandry/diffusion/exact"
)

const cylinderRoots = "cylinder: roots"

// roots are the eigenvalues of the cylinder.
func roots() []Check {
	zeros := origin{cylinderRoots,
		"zeros of J0: Abramowitz & Stegun, Handbook of Mathematical Functions (1964), Table 9.5 (number from memory); recomputed with 40 digits",
		Computed, absolute(1e-12, "the last digit of the reference")}
	var out []Check
	for _, r := range []struct {
		n        int
		zero, j1 float64
	}{
		{1, 2.4048255576958, 0.519147497289}, {3, 8.653727912911, 0.271452299928}, {10, 30.634606468432, -0.144165977686},
	} {
		out = append(out,
			zeros.plain(fmt.Sprintf("zero %d", r.n), "j0", "-", r.zero, func() float64 { return exact.J0Zeros(r.n)[r.n-1] }),
			zeros.plain(fmt.Sprintf("zero %d", r.n), "J1(j0)", "-", r.j1, func() float64 { return math.J1(exact.J0Zeros(r.n)[r.n-1]) }))
	}
	return append(append(out, filmRoots()...), printedRoots()...)
}

func filmRoots() []Check {
	o := origin{cylinderRoots,
		"roots of ζ J1(ζ) = Bi J0(ζ): computed by bisection with 40 digits (independent code)",
		Computed, absolute(1e-10, "the reference has 12 digits")}
	var out []Check
	for _, r := range []struct{ bi, first, sixth float64 }{
		{0.01, 0.14124476373, 16.4712371809}, {0.1, 0.441681782875, 16.4767002709}, {1, 1.25578371179, 16.5311589326},
		{10, 2.17949659666, 17.0098782098}, {100, 2.38090166349, 17.8931366463},
	} {
		for _, k := range [...]struct {
			place int
			want  float64
		}{{1, r.first}, {6, r.sixth}} {
			out = append(out, o.check(fmt.Sprintf("Bi = %g", r.bi), fmt.Sprintf("ζ%d", k.place), "-", k.want, func() (float64, error) {
				z, err := exact.RobinRoots(r.bi, k.place)
				if err != nil {
					return 0, err
				}
				return z[k.place-1], nil
			}))
		}
	}
	return out
}

func printedRoots() []Check {
	o := origin{cylinderRoots, "one-term coefficients: Çengel, Heat Transfer, Table 4-2",
		Published, absolute(5.0001e-5, "four decimals are printed")}
	var out []Check
	for _, r := range []struct{ bi, root, coefficient float64 }{
		{0.01, 0.1412, 1.0025}, {0.1, 0.4417, 1.0246}, {1, 1.2558, 1.2071}, {10, 2.1795, 1.5677},
	} {
		name := fmt.Sprintf("Bi = %g", r.bi)
		out = append(out,
			o.check(name, "ζ1", "-", r.root, firstMode(r.bi, func(m exact.Mode) float64 { return m.Root })),
			o.check(name, "C1", "-", r.coefficient, firstMode(r.bi, func(m exact.Mode) float64 { return m.Coefficient })))
	}
	return out
}

// firstMode makes the computation of one number of the slowest mode.
func firstMode(biot float64, number func(exact.Mode) float64) func() (float64, error) {
	return func() (float64, error) {
		m, err := exact.FirstMode(biot)
		return number(m), err
	}
}
