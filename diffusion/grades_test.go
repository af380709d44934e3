package diffusion

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion/film"
	"strandry/materials"
	"strandry/materials/humidair"
)

// warmingUp are the surroundings of a cold strand of nylon in hot air that grows drier, behind a film that follows it.
func warmingUp(t *testing.T, heat Heat) *coupled {
	p, err := materials.Lookup("pa6")
	require.NoError(t, err)
	m := &Model{
		Radius: 0.875e-3, Material: p, Speed: 2e-3, Start: 0.03, StartTemperature: 296.15,
		Path: []Zone{{
			Name: "box", Length: 0.05, Film: Film{Flow: film.Across, AirSpeed: 1, Emissivity: 0.9},
			Air: Air{Temperature: 343.15, VapourPressure: 300, Relax: Relax{From: 1500, TimeConstant: 40}},
		}},
		Pressure: humidair.StandardPressure,
	}
	s := DefaultSettings()
	s.Heat = heat
	w := NewMarch()
	var r Result
	require.NoError(t, w.Run(m, s, &r))
	return (*coupled)(&w.main.around)
}

// The derivatives on time and on the companion are those that central differences show.
func TestGrades(t *testing.T) {
	const gaps = 20
	for _, heat := range []Heat{Lumped, Resolved} {
		s := warmingUp(t, heat)
		for _, at := range []float64{0.3, 5, 40, 3000} {
			const x, c, q, dt, dx = -2.0, 0.02, 1e-4, 1e-4, 1e-3
			k := func(t, x float64) []float64 {
				k := make([]float64, gaps)
				if s.Conductance(t, x, k) {
					for i := range k {
						k[i] = k[0]
					}
				}
				return k
			}
			byTime, byX := make([]float64, gaps), make([]float64, gaps)
			alike := s.ConductanceGrades(at, x, byTime, byX)
			require.Equal(t, heat == Lumped || at == 3000, alike)
			now, later, before, up, down := k(at, x), k(at+dt, x), k(at-dt, x), k(at, x+dx), k(at, x-dx)
			for i := range gaps {
				n := i
				if alike {
					n = 0
				}
				within(t, (later[i]-before[i])/(2*dt)/now[i], byTime[n], 2e-5*(0.01+math.Abs(byTime[n])), "%v at %g s, gap %d", heat, at, i)
				within(t, (up[i]-down[i])/(2*dx)/now[i], byX[n], 1e-5*byX[n], "%v at %g s, gap %d", heat, at, i)
			}
			near := func(name string, want, got, scale float64) {
				t.Logf("%v at %g s: %s %.6g, by the difference %.6g", heat, at, name, got, want)
				within(t, want, got, 1e-4*math.Abs(want)+1e-6*math.Abs(scale), "%v at %g s: %s", heat, at, name)
			}
			e := s.Exchange(at, c, q, x)
			onTime, onX := s.ExchangeGrades(at, c, q, x, e)
			driftTime, driftX := s.DriftGrades(at, x)
			a, b, drift := s.Exchange(at+dt, c, q, x), s.Exchange(at-dt, c, q, x), (s.Drift(at+dt, x)-s.Drift(at-dt, x))/(2*dt)
			near("flux on time", (a.Flux-b.Flux)/(2*dt), onTime.Flux, e.Flux)
			near("load on time", (a.Load-b.Load)/(2*dt), onTime.Load, e.Load)
			near("drift on time", drift, driftTime, 1)
			a, b, drift = s.Exchange(at, c, q, x+dx), s.Exchange(at, c, q, x-dx), (s.Drift(at, x+dx)-s.Drift(at, x-dx))/(2*dx)
			near("flux on x", (a.Flux-b.Flux)/(2*dx), onX.Flux, e.Flux)
			near("load on x", (a.Load-b.Load)/(2*dx), onX.Load, e.Load)
			near("drift on x", drift, driftX, 1)
		}
	}
}

// Where the companion stays at zero, the derivatives on time are those that central differences show: of a strand that warms, of one as warm as its
// air while that grows drier, and of one on which dew lies, which that does not change. A section of more than one temperature tells none.
func TestGradesAlone(t *testing.T) {
	for _, heat := range []Heat{Lumped, Resolved} {
		s := (*surroundings)(warmingUp(t, heat))
		s.leaves, s.film = 0, exchange{heat: s.thermal.film, mass: 0.02}
		for _, at := range []float64{0.3, 5, 40, 3000} {
			for _, dewy := range []bool{false, true} {
				const c, q, dt = 0.02, 1e-4, 1e-4
				kept := s.supply
				if dewy {
					s.supply.last *= 1000
				}
				flux := func(t float64) float64 {
					j, _, _ := s.flux(t, c, q)
					return j
				}
				k := func(t float64) float64 {
					out := make([]float64, 1)
					s.Conductance(t, out)
					return out[0]
				}
				wantK, want := math.Log(k(at+dt)/k(at-dt))/(2*dt), (flux(at+dt)-flux(at-dt))/(2*dt)
				s.forget()
				now := flux(at)
				gotK, got, known := s.Grades(at, c, q, now)
				require.Equal(t, heat == Lumped || at == 3000, known)
				if known {
					within(t, wantK, gotK, 2e-5*math.Abs(gotK)+1e-9, "%v at %g s", heat, at)
					within(t, want, got, 1e-4*math.Abs(want)+1e-6*math.Abs(now), "%v at %g s, dewy %v", heat, at, dewy)
				}
				s.supply = kept
				s.forget()
			}
		}
	}
}
