package advice_test

import (
	"errors"
	"fmt"
	"math"
	"runtime"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion"
	"strandry/diffusion/advice"
	"strandry/diffusion/film"
	"strandry/diffusion/samples"
	"strandry/materials/humidair"
)

// drawn is a design whose changes are written to three digits on their way, and made by this test's own hand.
type drawn struct{ *diffusion.Design }

func (d drawn) Written(c advice.Change) (advice.Change, bool) {
	out := advice.Change{Kind: c.Kind}
	for _, p := range c.Parts {
		digit := math.Pow10(int(math.Floor(math.Log10(p.To))) - 2)
		to := math.Ceil(p.To/digit-1e-6) * digit
		if p.To < p.From {
			to = math.Floor(p.To/digit+1e-6) * digit
		}
		if p.To > p.From && to > p.Bound || p.To < p.From && to < p.Bound {
			to = p.Bound
		}
		if p.To = to; to == p.From {
			continue
		}
		p.Key, p.Was, p.Is = fmt.Sprintf("%s %d", c.Kind, p.Zone), fmt.Sprint(p.From), fmt.Sprint(to)
		out.Parts = append(out.Parts, p)
	}
	return out, len(out.Parts) > 0
}

func (d drawn) Changed(all []advice.Change) (*diffusion.Design, error) {
	m := *d.Design
	m.Path = slices.Clone(m.Path)
	for _, c := range all {
		for _, p := range c.Parts {
			if p.Zone < 0 {
				m.Speed = p.To
				continue
			}
			z := &m.Path[p.Zone]
			switch c.Kind {
			case advice.Longer, advice.Shorter:
				z.Length = p.To
			case advice.Hotter, advice.Cooler:
				if z.Air = z.Air.At(p.To); z.Air.VapourPressure < d.Path[p.Zone].Air.VapourPressure && z.Air.Held == 0 {
					return nil, errors.New("air above saturation")
				}
			case advice.Drier, advice.DrierAfter:
				if z.Air.Held > 0 {
					z.Air = diffusion.HeldAt(p.To, z.Air.Temperature)
				} else {
					z.Air.VapourPressure = p.To
				}
			case advice.MoreAir:
				switch {
				case z.Air.Dragged:
					z.Air = z.Air.WithoutLimit()
					z.Air.VolumeFlow, z.Air.MeteredAt, z.Air.Direction = p.To, room, diffusion.Mixed
				case z.Air.Blown:
					z.Film.AirSpeed = p.To
				case z.Air.VolumeFlow > 0:
					z.Air.VolumeFlow = p.To
				default:
					z.Air.DryFlow = p.To
				}
			}
		}
	}
	return &m, nil
}

// bounds are usual ones for a design.
func bounds(m *diffusion.Design) advice.Bounds {
	return advice.Bounds{Longest: []float64{20}, Hottest: m.Material.HottestDrying(), Driest: 233.15, Slowest: m.Speed / 2, Fastest: m.Speed, Room: room}
}

// advised finds advice for a design, and holds each set against an assessment of it.
func advised(t *testing.T, m *diffusion.Design, b advice.Bounds) advice.Advice {
	t.Helper()
	a, d := diagnosed(t, m)
	w := diffusion.NewMarch()
	v := advice.Find(w, drawn{m}, m, diffusion.DefaultSettings(), a, &d, b)
	for _, s := range v.Sets {
		require.Len(t, s.Changes, len(v.Sets[0].Changes), "sets of the smallest size alone")
		require.LessOrEqual(t, len(s.Changes), 3)
		after := assessed(t, m, s.Changes)
		require.Equal(t, diffusion.Dry, after.Verdict)
		require.NotEqual(t, diffusion.Softens, after.Endurance.Survival)
		require.Equal(t, after.Probability, s.Probability)
		require.InDelta(t, after.Nozzle.Mean, s.Mean, 1e-3*s.Mean)
	}
	if n := v.Nearest; n != nil {
		require.Empty(t, v.Sets)
		require.InDelta(t, assessed(t, m, n.Changes).Probability, n.Probability, 0.02)
		require.Less(t, n.Probability, diffusion.NineInTen)
	}
	return v
}

func assessed(t *testing.T, m *diffusion.Design, changes []advice.Change) *diffusion.Assessment {
	t.Helper()
	changed, err := drawn{m}.Changed(changes)
	require.NoError(t, err)
	a, err := diffusion.NewMarch().Assess(changed, diffusion.DefaultSettings())
	require.NoError(t, err)
	return a
}

func kinds(s advice.Set) []advice.Kind {
	var all []advice.Kind
	for _, c := range s.Changes {
		all = append(all, c.Kind)
	}
	slices.Sort(all)
	return all
}

// Too short a chamber: one change does, and each that is told is no greater than it need be: a tenth less of it is not dry.
func TestOneChange(t *testing.T) {
	m := design(t, "pc", 0.5, 110, 103, 0.02)
	v := advised(t, m, bounds(m))
	require.NotEmpty(t, v.Sets)
	require.Equal(t, []advice.Kind{advice.Longer}, kinds(v.Sets[0]), "the feed is the last to be touched")
	for _, s := range v.Sets {
		require.LessOrEqual(t, s.Probability, 0.97)
		less := s.Changes[0]
		less.Parts = slices.Clone(less.Parts)
		p := &less.Parts[0]
		p.To = p.From + 0.9*(p.To-p.From)
		require.NotEqual(t, diffusion.Dry, assessed(t, m, []advice.Change{less}).Verdict, less.Kind.String())
	}
}

// Moist air in the chamber and room air behind it: both have to be drier, and neither alone will do, nor any other single change as far as it goes.
func TestTwoChanges(t *testing.T) {
	m := design(t, "pa12", 150, 80, humidair.VapourPressureAt(0.9, room), 3)
	b := bounds(m)
	b.Longest, b.Slowest = []float64{180}, 0.9*m.Speed
	v := advised(t, m, b)
	require.NotEmpty(t, v.Sets)
	require.Equal(t, []advice.Kind{advice.Drier, advice.DrierAfter}, kinds(v.Sets[0]))
	for _, single := range []advice.Change{
		{Kind: advice.Drier, Parts: []advice.Part{{Zone: 0, To: 12.8}}}, {Kind: advice.DrierAfter, Parts: []advice.Part{{Zone: 1, To: 12.8}}},
		{Kind: advice.Longer, Parts: []advice.Part{{Zone: 0, To: 180}}}, {Kind: advice.Shorter, Parts: []advice.Part{{Zone: 1, To: 1.5}}},
		{Kind: advice.Slower, Parts: []advice.Part{{Zone: -1, To: 1.8e-3}}},
	} {
		require.NotEqual(t, diffusion.Dry, assessed(t, m, []advice.Change{single}).Verdict, single.Kind.String())
	}
}

// What wets the strand is dried, shortened or passed faster, if faster is possible.
func TestAgainstRewetting(t *testing.T) {
	m := design(t, "pc", 60, 110, 103, 0.4)
	b := bounds(m)
	b.Fastest = 8 * m.Speed
	var found []advice.Kind
	for _, s := range advised(t, m, b).Sets {
		found = append(found, kinds(s)...)
	}
	require.ElementsMatch(t, []advice.Kind{advice.DrierAfter, advice.Shorter, advice.Faster}, found)
}

// Zones behind the dryer come to one dew point: one whose air is drier than need be stays as it is.
func TestOneDewPointBehind(t *testing.T) {
	m := design(t, "pc", 60, 110, 103, 0.4)
	box := m.Path[1]
	box.Name, box.Length, box.Air.Held, box.Air.VapourPressure = "box", 0.01, 0, 103
	m.Path = append(m.Path, box)
	b := bounds(m)
	sets := advised(t, m, b).Sets
	i := slices.IndexFunc(sets, func(s advice.Set) bool { return s.Changes[0].Kind == advice.DrierAfter })
	require.GreaterOrEqual(t, i, 0)
	require.Len(t, sets[i].Changes[0].Parts, 1)
	p := sets[i].Changes[0].Parts[0]
	require.Equal(t, 1, p.Zone)
	require.Greater(t, p.To, 103.0)
}

// No heat beyond what the bound, or the strand, allows; that is what the nearest has.
func TestHeatHasItsBound(t *testing.T) {
	hottest := func(to float64) float64 {
		m := design(t, "petg", 3, 40, 103, 0.02)
		b := bounds(m)
		b.Longest, b.Slowest, b.Hottest = []float64{3}, m.Speed, to
		v := advised(t, m, b)
		require.NotNil(t, v.Nearest)
		i := slices.IndexFunc(v.Nearest.Changes, func(c advice.Change) bool { return c.Kind == advice.Hotter })
		require.GreaterOrEqual(t, i, 0)
		return v.Nearest.Changes[i].Parts[0].To
	}
	m := design(t, "petg", 1, 40, 103, 0.02)
	require.InDelta(t, 325, hottest(325), 1e-9)
	require.InDelta(t, m.Material.GivesWay().Min, hottest(500), 1e-9)
}

// Where none does, it is told what would have to give: the length that would do, or the air.
func TestNearest(t *testing.T) {
	m := design(t, "pa6", 2, 70, 103, 0.02)
	b := bounds(m)
	b.Longest = []float64{4}
	v := advised(t, m, b)
	require.NotNil(t, v.Nearest)
	require.Zero(t, v.Floor)
	require.Equal(t, "chamber", v.LengthZone)
	require.Greater(t, v.Length, 4.0)
	long := append(slices.Clone(v.Nearest.Changes), advice.Change{Kind: advice.Longer, Parts: []advice.Part{{Zone: 0, To: v.Length}}})
	require.InDelta(t, 0.9, assessed(t, m, long).Probability, 0.07)

	moist := design(t, "pla", 12, 45, humidair.VapourPressureAt(0.5, room), 0.02)
	b = bounds(moist)
	b.Driest = humidair.DewPoint(moist.Path[0].Air.VapourPressure)
	v = advised(t, moist, b)
	require.NotNil(t, v.Nearest)
	p := &moist.Material
	held := p.Sorption.Content(moist.Path[0].Air.VapourPressure/humidair.SaturationPressure(318.15), 318.15)
	require.InEpsilon(t, held, v.Floor, 1e-9)
	require.Greater(t, v.Floor, moist.Limit)
	require.Equal(t, "chamber", v.FloorZone)
	require.Zero(t, v.Length)
}

// What is dry needs nothing, and where nothing can be changed nothing is said.
func TestNoAdvice(t *testing.T) {
	m := design(t, "pc", 12, 110, 103, 0.02)
	require.Equal(t, advice.Advice{}, advised(t, m, bounds(m)))
	m = design(t, "pa6", 1, 80, 12, 0.02)
	m.Path = m.Path[:1]
	b := bounds(m)
	b.Longest, b.Slowest = []float64{1}, m.Speed
	require.Equal(t, advice.Advice{}, advised(t, m, b))
}

// What softens is cooled, whatever else is done, to no more than can be built; what softens before the path is past help.
func TestSofteningIsCooled(t *testing.T) {
	m := design(t, "petg", 3, 200, 103, 0.02)
	a, d := diagnosed(t, m)
	require.Less(t, a.Nozzle.Mean, m.Limit)
	require.Equal(t, advice.Softening, d.Cause)
	b := bounds(m)
	b.Longest = []float64{60}
	v := advised(t, m, b)
	require.NotEmpty(t, v.Sets)
	for _, s := range v.Sets {
		c := s.Changes[0]
		require.Equal(t, advice.Cooler, c.Kind)
		require.InDelta(t, m.Material.DryingTemperature.Value, c.Parts[0].To, 1) // three digits of kelvins
		require.Equal(t, diffusion.Holds, s.Endurance.Survival)
	}
	m.StartTemperature = 420
	require.Equal(t, advice.Advice{}, advised(t, m, bounds(m)))
}

// More air, in the terms in which the zone has it, where the strand's own water fills it.
func TestMoreAir(t *testing.T) {
	for _, c := range samples.Each(2, []struct {
		air  func(z *diffusion.Zone)
		from float64
	}{
		{func(z *diffusion.Zone) { z.Air.DryFlow = 1e-6 }, 1e-6},
		{func(z *diffusion.Zone) { z.Air.VolumeFlow, z.Air.MeteredAt = 1e-6, room }, 1e-6},
		{func(z *diffusion.Zone) {
			z.Film.Flow, z.Film.Bore, z.Film.AirSpeed, z.Air.Blown = film.Annulus, 2.5e-3, 0.2, true
		}, 0.2},
		{func(z *diffusion.Zone) {
			z.Film.Flow, z.Film.Bore = film.Annulus, 6e-3
			z.Air.Dragged = true
		}, 0},
	}) {
		m := design(t, "abs", 60, 80, 12.8, 0.02)
		m.Start = 0.03
		z := &m.Path[0]
		z.Air.Direction = diffusion.With
		c.air(z)
		if z.Air.Dragged { // v A of the shear between strand and bore, a few hundredths of a litre in a minute
			c.from = m.DryFlow(z) * humidair.DryAirConstant * room / (m.Pressure - 12.8)
		}
		b := bounds(m)
		b.Longest, b.Slowest = []float64{60}, m.Speed
		v := advised(t, m, b)
		sets := v.Sets
		if v.Nearest != nil {
			sets = []advice.Set{*v.Nearest}
		}
		require.NotEmpty(t, sets)
		require.Contains(t, kinds(sets[0]), advice.MoreAir)
		for _, one := range sets[0].Changes {
			if one.Kind == advice.MoreAir {
				require.InEpsilon(t, c.from, one.Parts[0].From, 1e-12)
				require.Greater(t, one.Parts[0].To, c.from)
			}
		}
	}
}

// A humidity that is held is held lower, so that its air has the dew point of the bound or a higher one.
func TestHeldHumidity(t *testing.T) {
	m := design(t, "pla", 20, 45, 103, 0.02)
	m.Path[0].Air = diffusion.HeldAt(0.2, 318.15)
	m.Path = append(m.Path, m.Path[1])
	m.Path[2].Name, m.Path[2].Air = "box", diffusion.HeldAt(0.3, room)
	b := bounds(m)
	b.Longest = []float64{200}
	v := advised(t, m, b)
	require.NotEmpty(t, v.Sets)
	i := slices.IndexFunc(v.Sets[0].Changes, func(c advice.Change) bool { return c.Kind == advice.Drier })
	require.GreaterOrEqual(t, i, 0)
	p := v.Sets[0].Changes[i].Parts[0]
	require.InDelta(t, 0.2, p.From, 0)
	require.GreaterOrEqual(t, humidair.DewPoint(humidair.VapourPressureAt(p.To, 318.15)), 233.15-1e-6)
	require.Less(t, p.To, 0.2)
}

// The same advice to the bit on one core and on two.
func TestAdviceOnAnyCores(t *testing.T) {
	m := design(t, "pa12", 40, 80, humidair.VapourPressureAt(0.5, room), 3)
	find := func(cores int) advice.Advice {
		defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(cores))
		return advised(t, m, bounds(m))
	}
	require.Equal(t, find(1), find(2))
}

// Every kind has a word of its own.
func TestKindsHaveWords(t *testing.T) {
	seen := map[string]bool{}
	for k := advice.Slower; k <= advice.Cooler; k++ {
		require.False(t, seen[k.String()])
		seen[k.String()] = true
	}
	require.Len(t, seen, 9)
}

// narrow is a design through which no more air can be blown.
type narrow struct{ drawn }

func (d narrow) Changed(all []advice.Change) (*diffusion.Design, error) {
	if slices.ContainsFunc(all, func(c advice.Change) bool { return c.Kind == advice.MoreAir }) {
		return nil, errors.New("too fast")
	}
	return d.drawn.Changed(all)
}

// What the design does not take stands in the way of nothing else.
func TestRefusedChangeIsLeftOut(t *testing.T) {
	m := design(t, "abs", 20, 80, 12.8, 0.02)
	m.Start = 0.03
	m.Path[0].Air.DryFlow, m.Path[0].Air.Direction = 1e-6, diffusion.With
	a, d := diagnosed(t, m)
	b := bounds(m)
	find := func(of advice.Draft) []advice.Kind {
		v := advice.Find(diffusion.NewMarch(), of, m, diffusion.DefaultSettings(), a, &d, b)
		if v.Nearest != nil {
			v.Sets = append(v.Sets, *v.Nearest)
		}
		require.NotEmpty(t, v.Sets)
		return kinds(v.Sets[0])
	}
	require.Contains(t, find(drawn{m}), advice.MoreAir)
	require.NotContains(t, find(narrow{drawn{m}}), advice.MoreAir)
}
