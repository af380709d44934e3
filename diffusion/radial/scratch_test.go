package radial

import (
	"fmt"
	"math"
	"testing"
	"time"
)

func psat(T float64) float64 {
	t := T - 0.23855557567849/(T-0.65017534844798e3)
	A := t*t + 0.11670521452767e4*t - 0.72421316703206e6
	B := -0.17073846940092e2*t*t + 0.12020824702470e5*t - 0.32325550322333e7
	C := 0.14915108613530e2*t*t - 0.48232657361591e4*t + 0.40511340542057e6
	q := 2 * C / (-B + math.Sqrt(B*B-4*A*C))
	return 1e6 * q * q * q * q
}

type tz struct{ T0, Ta, k, t0 float64 }

func (z *tz) T(t float64) float64 { return z.Ta + (z.T0-z.Ta)*math.Exp(-z.k*(t-z.t0)) }
func (z *tz) Conductance(t float64, k []float64) {
	d := 4e-13 * math.Exp(-55e3/8.314462618*(1/z.T(t)-1/296.15))
	for i := range k {
		k[i] = d
	}
}

func transit(m *March, g *Grid, beta float64, s Settings) (float64, error) {
	m.Start(g, 0.025)
	T := 296.15
	for _, zn := range [][3]float64{{0.5, 60, 400}, {12, 110, 120}, {0.6, 25, 1400}} {
		z := &tz{T, zn[1] + 273.15, 2 * 25 / (1130 * 1700 * .875e-3), m.Time}
		pv := zn[2]
		sf := Exchange(func(t, c, q float64) (float64, float64, float64) {
			T := z.T(t)
			a := 0.02 / 1130 / (461.5 * T)
			ps := psat(T) / 0.095
			return a * (c*ps - pv), a * ps, 0
		})
		if err := m.Advance(Problem{z, Exponential(beta), sf, nil}, zn[0]/2e-3, s); err != nil {
			return 0, err
		}
		T = z.T(m.Time)
	}
	return g.Mean(m.C), nil
}

func TestScratch(t *testing.T) {
	for _, beta := range []float64{20, 0} {
		ref := 2.444867e-3
		if beta == 0 {
			ref = 2.345023e-3
		}
		for _, sch := range Schemes() {
			for _, skin := range []float64{4, 4.5, 5, 5.5, 6} {
				for _, n := range []int{3, 4, 5, 6, 8, 12} {
					for _, tol := range []float64{1e-2, 3e-3, 1e-3, 1e-4, 1e-7} {
						g, err := NewGrid(.875e-3, int(float64(n)*skin), skin)
						if err != nil {
							t.Fatal(err)
						}
						m := &March{}
						t0 := time.Now()
						x, err := transit(m, g, beta, Settings{Scheme: sch, Tolerance: tol})
						el := time.Since(t0)
						bal := (g.Content(m.C) + m.Lost) / (0.025 * g.Radius() * g.Radius() / 2)
						fmt.Println(beta, sch.Order(), skin, n, tol, x/ref-1, err, m.Stats, bal-1, el)
					}
				}
			}
		}
	}
}

func BenchmarkScratch(b *testing.B) {
	for _, beta := range []float64{20, 0} {
		ref := 2.444867e-3
		if beta == 0 {
			ref = 2.345023e-3
		}
		for _, sch := range Schemes() {
			for _, r := range []float64{3, 3.5, 4} {
				for _, tol := range []float64{3e-2, 1e-2, 3e-3, 1e-3} {
					b.Run(fmt.Sprintf("b=%g/o=%d/r=%g/tol=%g", beta, sch.Order(), r, tol), func(b *testing.B) {
						g, _ := NewGrid(.875e-3, int(5*r), 5)
						m := &March{}
						var x float64
						for range b.N {
							x, _ = transit(m, g, beta, Settings{Scheme: sch, Tolerance: tol})
						}
						b.ReportMetric((x/ref-1)*1e3, "err‰")
						b.ReportMetric(float64(m.Stats.Steps), "steps")
						b.ReportMetric(float64(m.Stats.Rejected), "rej")
					})
				}
			}
		}
	}
}
