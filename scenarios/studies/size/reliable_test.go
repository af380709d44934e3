package size_test

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion"
	"strandry/diffusion/samples"
	"strandry/materials"
	"strandry/scenarios/studies/size"
	"strandry/scenarios/studies/suits"
)

// share of 2,000 draws that meet the limit, each marched by itself. What is drawn is written out here once more, with numbers of another
// generator: each value log-normal, or normal where it may have either sign, with low and high as its 5 and 95 % points; a film by what
// its source states, as what is exceeded one time in ten.
func share(t *testing.T, m *diffusion.Design) float64 {
	t.Helper()
	const count = 2000
	r := rand.New(rand.NewPCG(20, 26))
	w, n := diffusion.NewMarch(), diffusion.CoarseSettings()
	var central, result diffusion.Result
	require.NoError(t, w.Run(&m.Model, n, &central))
	met := 0
	for range count {
		drawn, limit := drawnModel(r, m, &central)
		require.NoError(t, w.Run(&drawn, n, &result))
		if result.Nozzle.Mean <= limit {
			met++
		}
	}
	return float64(met) / count
}

func drawnModel(r *rand.Rand, m *diffusion.Design, central *diffusion.Result) (diffusion.Model, float64) {
	const nine = 1.644854 // 95 % point of the standard normal distribution
	ratio := func(v materials.Value, z float64) float64 {
		if z < 0 {
			return math.Pow(v.Low/v.Value, -z/nine)
		}
		return math.Pow(v.High/v.Value, z/nine)
	}
	plus := func(v materials.Value, z float64) float64 {
		if z < 0 {
			return v.Value + (v.Value-v.Low)*z/nine
		}
		return v.Value + (v.High-v.Value)*z/nine
	}
	d := m.Model
	p := &d.Material
	p.Diffusivity.ReferenceValue.Value *= math.Pow(p.Diffusivity.Scatter.Value, r.NormFloat64()/nine)
	p.Diffusivity.Pieces = slices.Clone(p.Diffusivity.Pieces)
	z := r.NormFloat64()
	for i := range p.Diffusivity.Pieces {
		e := &p.Diffusivity.Pieces[i].Activation
		e.Value = math.Max(0, plus(*e, z))
	}
	p.Diffusivity.Beta.Value = plus(p.Diffusivity.Beta, r.NormFloat64())
	z = r.NormFloat64()
	for _, v := range []*materials.Value{&p.Sorption.Saturation, &p.Sorption.Monolayer, &p.Sorption.Linear, &p.Sorption.Power} {
		if v.Value > 0 && v.Low > 0 {
			v.Value *= ratio(*v, z)
		}
	}
	p.Sorption.MixingEnthalpy.Value = plus(p.Sorption.MixingEnthalpy, r.NormFloat64())
	d.Path = slices.Clone(m.Path)
	z = r.NormFloat64()
	for i := range d.Path {
		f, c := &d.Path[i].Film, central.Zones[i].Film
		f.HeatFactor, f.MassFactor = math.Pow(1+c.Uncertainty, z/1.281552), math.Pow(1+c.MassUncertainty, z/1.281552)
	}
	if d.StartActivity > 0 {
		d.Start = p.Sorption.Content(d.StartActivity, d.StartTemperature)
	}
	limit := m.Limit
	if !m.LimitStated {
		limit *= ratio(m.Material.Limit(m.Purpose), r.NormFloat64())
	}
	return d, limit
}

// A value that is dry nine times in ten is so of 2,000 draws of our own; three standard errors of their share are 0.02, and the odds may be
// off by as much.
func TestNineInTenAgainstBruteForce(t *testing.T) {
	if testing.Short() {
		t.Skip("no two goroutines meet here")
	}
	for _, q := range samples.Each(3, []question{{"clear-cover", "zone.oven.length", false}, {"opened-yesterday", "feed.flow", true}, {"clear-cover", "zone.oven.temperature", false}}) {
		t.Run(q.demo+" "+q.key, func(t *testing.T) {
			t.Parallel()
			s := demo(t, q.demo)
			a := find(t, s, q.key)
			require.Equal(t, size.Met, a.Reliable.Outcome)
			require.Equal(t, q.rises, a.Reliable.Value < a.Value, "on the dry side of the value at the medians")
			require.GreaterOrEqual(t, a.Reliable.Probability, diffusion.NineInTen)
			at := demoOf(t, s, q.key, a.Key.Setting(a.Reliable.Value, 16).Value)
			require.InDelta(t, diffusion.NineInTen, share(t, &at.Design), 0.03)
			half := demoOf(t, s, q.key, a.Setting.Value)
			require.InDelta(t, a.Check.Probability, share(t, &half.Design), 0.03)
			o, err := diffusion.NewMarch().Odds(&at.Design, at.Settings)
			require.NoError(t, err)
			require.Equal(t, a.Reliable.Probability, o.Probability, "the odds of a run")
			require.Equal(t, a.Reliable.Value, map[bool]float64{true: a.Reliable.To, false: a.Reliable.From}[q.rises])
		})
	}
}

// The length that suits and needed lists ask for, by surrogates over lengths, is that of single odds.
func TestReliableLength(t *testing.T) {
	s := demo(t, "clear-cover")
	w := diffusion.NewMarch()
	for _, id := range samples.Each(2, []string{"petg", "pa6"}) {
		p, err := materials.Lookup(id)
		require.NoError(t, err)
		m := suits.Design(s, &p, 0)
		shortest, err := size.ShortestOf(w, m, 0, s.Settings)
		require.NoError(t, err)
		l, err := size.ReliableOf(w, m, 0, shortest, nil, 0, s.Settings)
		require.NoError(t, err)
		require.Equal(t, size.Met, l.Outcome)
		require.Greater(t, l.Value, shortest.Value)
		m.Path[0].Length = l.Value
		o, err := w.Odds(m, s.Settings)
		require.NoError(t, err)
		require.InDelta(t, o.Probability, l.Probability, 0.025, id)
		require.InDelta(t, diffusion.NineInTen, o.Probability, 0.025, id)
		require.InDelta(t, o.Probability, share(t, m), 0.03, id)
	}
	none, err := size.ReliableOf(w, &s.Design, 0, size.Length{Outcome: size.Nowhere, Value: 3}, nil, 0, s.Settings)
	require.NoError(t, err)
	require.Equal(t, size.ReliableLength{Outcome: size.Nowhere, Value: 3}, none)
}
