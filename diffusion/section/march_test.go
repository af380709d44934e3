package section_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion/radial"
	"strandry/diffusion/rosenbrock"
	"strandry/diffusion/section"
)

// The field keeps between its start and its surroundings but for the first moments, in which the compact storage and
// the few angles let it pass by a few hundredths of the step; package doc tells how much.
func TestRange(t *testing.T) {
	for _, exposed := range []float64{0.1, 0.25, 0.5, 0.75, 0.95} {
		for _, arcs := range []int{1, 4} {
			for _, b := range []float64{0, 3} {
				for _, angles := range []int{section.CoarseAngles, section.UsualAngles, section.RefinedAngles} {
					m := started(newGrid(t, exposed, arcs, angles), 1)
					low, high := 1.0, 0.0
					early := 0.0
					m.Observe = func(at float64, c []float64) {
						for _, v := range c {
							if at < 0.01 {
								early = max(early, -v, v-1)
							} else {
								low, high = min(low, v), max(high, v)
							}
						}
					}
					through(t, m, drying(endless, b, math.Exp(-b)), 1, usual)
					where := fmt.Sprintf("%g exposed, %d arcs, b %g, %d angles", exposed, arcs, b, angles)
					t.Logf("%s: %.4f to %.4f, early %.4f", where, low, high, early)
					require.Less(t, early, 0.1, where)
					require.Greater(t, low, -1e-3, where)
					require.Less(t, high, 1.01, where)
				}
			}
		}
	}
}

// One step far beyond all times of the section lands at rest: the method is L-stable, and so is the scheme.
func TestOneHugeStep(t *testing.T) {
	m := started(newGrid(t, 0.25, 1, section.UsualAngles), 1)
	through(t, m, radial.Problem{Conductance: radial.Uniform(1), Potential: radial.Linear{}, Surface: film(5, 0.2)}, 1e9, rosenbrock.Settings{Steps: 1})
	for i, c := range m.C {
		requireDelta(t, 0.2, c, 1e-6, "node %d", i)
	}
}

// Twice the radius takes four times as long, with half the film.
func TestScaling(t *testing.T) {
	small := started(newGrid(t, 0.4, 2, section.UsualAngles), 1)
	r, err := radial.NewGrid(2, 15, 3)
	require.NoError(t, err)
	large := started(crossed(t, r, 0.4, 2, section.UsualAngles), 1)
	s := rosenbrock.Settings{Steps: 30}
	through(t, small, drying(8, 2, 1), 0.2, s)
	through(t, large, drying(4, 2, 1), 0.8, s)
	for i, c := range small.C {
		requireDelta(t, c, large.C[i], 1e-12)
	}
	requireDelta(t, 4*small.Lost, large.Lost, 1e-12)
}

// A strand that dries behind a cover and is wetted again, and one that goes from a covered zone to a free one and back
// over the means of its circles: the content is kept to round-off throughout.
func TestHandedOver(t *testing.T) {
	r := along(t, 15, 3)
	m := started(crossed(t, r, 0.3, 1, section.UsualAngles), 1)
	through(t, m, drying(20, 2, 1), 0.1, usual)
	through(t, m, radial.Problem{Conductance: radial.Uniform(1), Potential: radial.Exponential(2), Surface: film(20, 0.9)}, 0.05, usual)
	requireDelta(t, 0.5, m.Grid.Content(m.C)+m.Lost, 1e-12)

	free := &radial.March{}
	free.Start(r, 0)
	require.NoError(t, m.Profile(free.C))
	require.Less(t, r.Centre(free.C), m.Grid.Skin(m.C))
	requireDelta(t, m.Grid.Content(m.C), r.Content(free.C), 1e-15)
	requireDelta(t, m.Grid.Skin(m.C), free.C[14], 1e-15)
	require.NoError(t, free.Advance(drying(20, 2, 1), 0.05, usual))
	left := r.Content(free.C)

	m.Start(crossed(t, r, 0.6, 2, section.CoarseAngles), 0)
	require.NoError(t, m.Spread(free.C))
	back := make([]float64, r.Len())
	requireDelta(t, left, m.Grid.Content(m.C), 1e-15)
	requireDelta(t, 2*left, m.Grid.Mean(m.C), 1e-15)
	require.NoError(t, m.Profile(back))
	requireDelta(t, r.Centre(free.C), r.Centre(back), 1e-14)
	require.ErrorContains(t, m.Spread(free.C[1:]), "14 nodes")
	require.ErrorContains(t, m.Profile(free.C[1:]), "14 nodes")
	require.Error(t, (&section.March{}).Spread(free.C))
}

// One march that goes from grid to grid and problem to problem gives the same bits as a new one each
// time, and allocates nothing once it has seen the largest.
func TestReuse(t *testing.T) {
	kept := started(newGrid(t, 0.5, 1, section.MaxAngles), 1)
	through(t, kept, drying(1, 0, 1), 0.1, usual)
	for _, angles := range []int{9, 3, 12, 6} {
		g := newGrid(t, 0.2, 2, angles)
		for name, p := range problems() {
			s := rosenbrock.Settings{Tolerance: 1e-2}
			fresh := started(g, 0.7)
			through(t, fresh, p, 0.3, s)
			run := func() {
				kept.Start(g, 0.7)
				if kept.Advance(p, 0.3, s) != nil {
					t.Errorf("%s: stalled", name)
				}
			}
			require.Zero(t, testing.AllocsPerRun(2, run), name) // of two, so that one of the runtime does not count
			require.Equal(t, fresh.C, kept.C, name)
			require.Equal(t, fresh.Lost, kept.Lost, name)
			require.Equal(t, fresh.Beside, kept.Beside, name)
			require.Equal(t, fresh.Stats, kept.Stats, name)
		}
	}
}

// A march through several durations hands over, to the bit, what each alone gives.
func TestAdvanceThrough(t *testing.T) {
	g := newGrid(t, 0.4, 1, section.UsualAngles)
	durations := []float64{1e-5, 0.02, 0.021, 0.3}
	gather := func(from, to radial.Instant) float64 { return (to.Time - from.Time) * (from.Mean + to.Mean) / 2 }
	for name, p := range problems() {
		m, branch := started(g, 0.8), &section.March{}
		m.Along = gather
		count := 0
		require.NoError(t, m.AdvanceThrough(p, durations, usual, branch, func(i int, b *section.March) error {
			alone := started(g, 0.8)
			alone.Along = gather
			through(t, alone, p, durations[i], usual)
			require.Equal(t, alone.C, b.C, name)
			require.Equal(t, alone.Lost, b.Lost, name)
			require.Equal(t, alone.Beside, b.Beside, name)
			require.Equal(t, alone.Gathered, b.Gathered, name)
			require.Equal(t, durations[i], b.Time, name)
			require.Equal(t, alone.Stats, b.Stats, name)
			count++
			return nil
		}))
		require.Equal(t, len(durations), count)
	}
	m := started(g, 0.8)
	stop := fmt.Errorf("enough")
	for _, last := range []int{0, 3} {
		require.ErrorIs(t, m.AdvanceThrough(drying(1, 0, 1), durations, usual, &section.March{}, func(i int, _ *section.March) error {
			if i == last {
				return stop
			}
			return nil
		}), stop)
	}
	require.NoError(t, m.AdvanceThrough(drying(1, 0, 1), nil, usual, nil, nil))
	require.ErrorContains(t, m.AdvanceThrough(drying(1, 0, 1), []float64{2, 1}, usual, nil, nil), "must rise")
	require.ErrorContains(t, m.AdvanceThrough(drying(1, 0, 1), []float64{math.NaN()}, usual, nil, nil), "duration NaN")
}

// What is gathered along the way gets the mean, its rate and the companion: the rate is the slope of the mean.
func TestAlong(t *testing.T) {
	m := started(newGrid(t, 0.4, 1, section.UsualAngles), 0.8)
	p := problems()["companion"]
	before, rest := 0.0, 0.0
	m.Along = func(from, to radial.Instant) float64 {
		require.Equal(t, before, from.Time)
		before = to.Time
		h := to.Time - from.Time
		if from.Time < 0.02 {
			return h * to.Mean // the film has just set in
		}
		rest = max(rest, math.Abs(to.Mean-from.Mean-h*(from.Rate+to.Rate)/2)/h)
		rest = max(rest, math.Abs(to.Beside-from.Beside-h*(from.BesideRate+to.BesideRate)/2)/h)
		return h * to.Mean
	}
	through(t, m, p, 0.2, rosenbrock.Settings{Steps: 400})
	through(t, m, p, 0.2, rosenbrock.Settings{Steps: 400})
	require.Less(t, rest, 1e-4)
	require.Positive(t, rest)
	require.InDelta(t, 0.4, before, 1e-12)
	require.Greater(t, m.Gathered, 0.4*m.Grid.Mean(m.C))
	require.Less(t, m.Gathered, 0.4*0.8)
}

func TestRefusals(t *testing.T) {
	r := along(t, 15, 3)
	for says, make := range map[string]func() error{
		"exposed share 0:":   func() error { _, err := section.NewGrid(r, section.Shape{Arcs: 1}, 6); return err },
		"exposed share NaN:": func() error { _, err := section.NewGrid(r, section.Shape{Exposed: math.NaN(), Arcs: 1}, 6); return err },
		"exposed share 1.1:": func() error { _, err := section.NewGrid(r, section.Shape{Exposed: 1.1, Arcs: 1}, 6); return err },
		"0 arcs":             func() error { _, err := section.NewGrid(r, section.Shape{Exposed: 1}, 6); return err },
		"9 arcs":             func() error { _, err := section.NewGrid(r, section.Shape{Exposed: 1, Arcs: 9}, 6); return err },
		"2 angles":           func() error { _, err := section.NewGrid(r, section.Shape{Exposed: 1, Arcs: 1}, 2); return err },
		"13 angles":          func() error { _, err := section.NewGrid(r, section.Shape{Exposed: 1, Arcs: 1}, 13); return err },
		"no radial grid":     func() error { _, err := section.NewGrid(nil, section.Shape{Exposed: 1, Arcs: 1}, 6); return err },
		"no grid":            func() error { return (&section.March{}).Advance(drying(1, 0, 1), 1, usual) },
		"tolerance 0": func() error {
			return started(newGrid(t, 1, 1, 6), 1).Advance(drying(1, 0, 1), 1, rosenbrock.Settings{})
		},
		"prescribed": func() error {
			p := drying(1, 0, 1)
			p.Surface = radial.Prescribed(func(float64) float64 { return 0 })
			return started(newGrid(t, 1, 1, 6), 1).Advance(p, 1, usual)
		},
		"a source": func() error {
			p := drying(1, 0, 1)
			p.Source = func(float64, []float64, []float64) {}
			return started(newGrid(t, 1, 1, 6), 1).Advance(p, 1, usual)
		},
		"stalled": func() error {
			return started(newGrid(t, 0.5, 1, 6), 1).Advance(drying(math.NaN(), 0, 1), 1, usual)
		},
	} {
		require.ErrorContains(t, make(), says)
	}
	m := started(newGrid(t, 0.5, 1, 6), 0.3)
	through(t, m, drying(1, 0, 1), 0, usual)
	require.Zero(t, m.Stats.Steps)
	require.Error(t, m.Advance(drying(math.NaN(), 0, 1), 1, rosenbrock.Settings{Steps: 3}))
	// A march of nothing is at nothing.
	m.Start(m.Grid, 0)
	through(t, m, drying(1, 0, 1), 1, usual)
	require.Zero(t, m.Lost)
}

// The angles rise from the middle of the exposed arc, with one on its edge; the shares add up.
func TestAngles(t *testing.T) {
	for _, exposed := range []float64{section.MinExposed, 0.25, 0.5, 0.95, 1} {
		for angles := section.MinAngles; angles <= section.MaxAngles; angles++ {
			g := newGrid(t, exposed, 3, angles)
			require.Equal(t, angles, g.Angles())
			require.Equal(t, angles*15, g.Len())
			edges := 0
			for a := range angles {
				if math.Abs(g.Angle(a)-exposed*math.Pi/3) < 1e-12 {
					edges++
				}
			}
			require.Equal(t, 1, edges)
			require.GreaterOrEqual(t, g.Angle(0), 0.0)
			for a := 1; a < angles; a++ {
				require.Greater(t, g.Angle(a), g.Angle(a-1))
			}
			require.LessOrEqual(t, g.Angle(angles-1), math.Pi/3)
			ones := make([]float64, g.Len())
			for i := range ones {
				ones[i] = 1
			}
			requireDelta(t, 1, g.Mean(ones), 1e-13)
			requireDelta(t, 1, g.Skin(ones), 1e-13)
		}
	}
}

// warming is a companion that nears one on its own, beside a field that nothing crosses.
type warming struct{ still }

func (warming) Exchange(_, _, _, _ float64) radial.Response { return radial.Response{} }

// A companion goes on beside a field of nothing: 1 - exp(-2 t).
func TestCompanionOfNothing(t *testing.T) {
	m := started(newGrid(t, 0.4, 1, section.UsualAngles), 0)
	through(t, m, radial.Problem{Potential: radial.Linear{}, Companion: warming{}}, 0.7, rosenbrock.Settings{Steps: 20})
	requireDelta(t, -math.Expm1(-1.4), m.Beside, 1e-7)
	requireDelta(t, 0, m.Grid.Mean(m.C), 0)
}

// Beside a companion that is steady nothing is left of a film that varied in time before.
func TestSteadyAfterUnsteady(t *testing.T) {
	g := newGrid(t, 0.4, 1, section.UsualAngles)
	s := rosenbrock.Settings{Steps: 10}
	after, fresh := started(g, 0.8), started(g, 0.8)
	through(t, after, problems()["exponential, film"], 0.1, s)
	after.Start(g, 0.8)
	for _, m := range []*section.March{after, fresh} {
		through(t, m, problems()["steady companion"], 0.3, s)
	}
	require.Equal(t, fresh.C, after.C)
}

// A branch that has marched beside a companion takes up one that has none.
func TestBranchLeavesItsCompanion(t *testing.T) {
	g := newGrid(t, 0.4, 1, section.UsualAngles)
	branch := &section.March{}
	at := func(beside bool) func(int, *section.March) error {
		return func(_ int, b *section.March) error {
			require.Equal(t, beside, b.Beside != 0)
			return nil
		}
	}
	require.NoError(t, started(g, 0.8).AdvanceThrough(problems()["companion"], []float64{0.1, 0.2}, usual, branch, at(true)))
	require.NoError(t, started(g, 0.8).AdvanceThrough(problems()["film"], []float64{0.1, 0.2}, usual, branch, at(false)))
}

// telling is a companion that tells its derivatives, by central differences.
type telling struct{ radial.Companion }

const apart = 1e-5

func (c telling) ConductanceGrades(t, x float64, byTime, byX []float64) bool {
	logs := func(out []float64, at func(d float64, k []float64)) {
		up, down := make([]float64, len(out)), make([]float64, len(out))
		at(apart, up)
		at(-apart, down)
		for i := range out {
			out[i] = math.Log(up[i]/down[i]) / (2 * apart)
		}
	}
	logs(byTime, func(d float64, k []float64) { c.Conductance(t+d, x, k) })
	logs(byX, func(d float64, k []float64) { c.Conductance(t, x+d, k) })
	return false
}

func (c telling) ExchangeGrades(t, v, q, x float64, _ radial.Response) (byTime, byX radial.Response) {
	slope := func(up, down radial.Response) radial.Response {
		return radial.Response{Flux: (up.Flux - down.Flux) / (2 * apart), Load: (up.Load - down.Load) / (2 * apart)}
	}
	return slope(c.Exchange(t+apart, v, q, x), c.Exchange(t-apart, v, q, x)), slope(c.Exchange(t, v, q, x+apart), c.Exchange(t, v, q, x-apart))
}

func (c telling) DriftGrades(t, x float64) (byTime, byX float64) {
	return (c.Drift(t+apart, x) - c.Drift(t-apart, x)) / (2 * apart), (c.Drift(t, x+apart) - c.Drift(t, x-apart)) / (2 * apart)
}

// alike is telling whose gaps are all alike.
type alike struct{ telling }

func (c alike) ConductanceGrades(t, x float64, byTime, byX []float64) bool {
	c.telling.ConductanceGrades(t, x, byTime, byX)
	return true
}

// Derivatives that are told lead where differences do.
func TestKnownDerivatives(t *testing.T) {
	for _, name := range []string{"companion", "steady companion", "exacting companion"} {
		p := problems()[name]
		run := func(c radial.Companion) *section.March {
			m := started(newGrid(t, 0.4, 1, section.CoarseAngles), 0.8)
			p.Companion = c
			through(t, m, p, 0.3, rosenbrock.Settings{Steps: 20})
			return m
		}
		plain := p.Companion
		want := run(plain)
		for _, c := range []radial.Companion{telling{plain}, alike{telling{plain}}} {
			got := run(c)
			requireDelta(t, want.Beside, got.Beside, 1e-6*math.Abs(want.Beside), name)
			requireDelta(t, want.Grid.Mean(want.C), got.Grid.Mean(got.C), 1e-6, name)
			requireDelta(t, want.Lost, got.Lost, 1e-6, name)
		}
	}
}
