package checked

import (
	"context"
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion"
	"strandry/diffusion/exact"
	"strandry/diffusion/samples"
	"strandry/materials"
	"strandry/scenarios"
)

// inEpsilon refuses what is no number, too.
func inEpsilon(t *testing.T, want, got, within float64, what string) {
	t.Helper()
	require.LessOrEqual(t, math.Abs(got-want), within*math.Abs(want), "%s: %g, not %g", what, got, want)
}

const strand = `
[strand]
material = "petg"
moisture = "0.2 %"
[feed]
speed = "2 mm/s"
[[zone]]
name = "oven"
length = "8 m"
temperature = "65 °C"
h = "1000 W/m2/K"
k_m = "1 m/s"
air = { vapour_pressure = "0 Pa" }
`

const guide = `
[[zone]]
name = "guide"
length = "0.4 m"
[numerics]
evaporation = false
`

func scenario(t testing.TB, checks string) *scenarios.Scenario {
	t.Helper()
	s, err := scenarios.Read("checks.toml", []byte(strand+guide+checks))
	require.NoError(t, err)
	return s
}

// marched is the strand of a scenario behind one of its zones, at the medians.
func marched(t testing.TB, s *scenarios.Scenario, zone int) float64 {
	t.Helper()
	var r diffusion.Result
	require.NoError(t, diffusion.NewMarch().Run(&s.Model, s.Settings, &r))
	return r.Zones[zone].Exit.Mean
}

// masses writes a check of a piece of so much dry strand that held so much, on a scale of so many digits of a gram.
func masses(dry, start, end float64, digits int) string {
	return fmt.Sprintf("[[check]]\nbefore = \"%.*f g\"\nafter = \"%.*f g\"\ndried = \"%.*f g\"\nleft = \"0 %%\"\n", digits, dry*(1+start), digits, dry*(1+end), digits, dry)
}

func checkOf(t testing.TB, s *scenarios.Scenario) Check {
	t.Helper()
	all, err := Find(context.Background(), s)
	require.NoError(t, err)
	require.Len(t, all, 1)
	require.Empty(t, all[0].Reason)
	return all[0]
}

// What is predicted is a closed form: Crank's series for a surface kept dry (equation 5.23). What is measured are masses by hand.
func TestAgainstSeries(t *testing.T) {
	s := scenario(t, `
[[check]]
at = "oven"
feed = "1.5 mm/s"
before = "30.060 g"
after = "30.020 g"
dried = "30.000 g"
left = "0 %"
`)
	const start, time = 0.002, 8 / 1.5e-3
	m := &s.Model
	fourier := m.Material.Diffusivity.Dry(338.15) * time / (m.Radius * m.Radius)
	end := start * (1 - exact.ConstantUptake(fourier))
	c := checkOf(t, s)
	require.Equal(t, "oven", c.Zone)
	inEpsilon(t, 1.5e-3, c.Speed, 1e-12, "feed")
	require.Len(t, c.Comparisons, 3)
	for i, want := range []struct {
		of                  Quantity
		measured, predicted float64
		half                float64 // from the middle to the 90 % point: of two even roundings of 1 mg the sum lies within 0.5528 of a step eight times in ten
	}{
		{AtStart, 0.060 / 30, start, 0.5528e-3 / 30},
		{AtExit, 0.020 / 30, end, 0.5528e-3 / 30},
		{Lost, 0.040 / 30.060, (start - end) / (1 + start), 0.5528e-3 / 30.06},
	} {
		got := c.Comparisons[i]
		require.Equal(t, want.of, got.Of)
		inEpsilon(t, want.measured, got.Measured.Value, 1e-6, want.of.String())
		inEpsilon(t, want.predicted, got.Predicted.Value, 0.004, want.of.String())
		inEpsilon(t, want.half, got.Measured.High-got.Measured.Value, 0.01, want.of.String())
		inEpsilon(t, want.half, got.Measured.Value-got.Measured.Low, 0.01, want.of.String())
	}
	// The start is certain, and the end is as uncertain as the content at the exit of the odds of that zone alone.
	require.Equal(t, diffusion.Between{Low: start, High: start}, rounded(c.Comparisons[0].Predicted.Between))
	then, err := s.At(&s.Checks[0])
	require.NoError(t, err)
	then.Path = then.Path[:1]
	odds, err := diffusion.NewMarch().Odds(&then.Design, then.Settings)
	require.NoError(t, err)
	require.Equal(t, diffusion.Between{Low: odds.Low, High: odds.High}, c.Comparisons[1].Predicted.Between)
	// The factor on the diffusivity by the same series.
	inEpsilon(t, 0.020/0.060, 1-exact.ConstantUptake(fourier*c.Diffusivity.Value), 0.01, "factor")
	require.True(t, c.Diffusivity.Low < c.Diffusivity.Value && c.Diffusivity.Value < c.Diffusivity.High)
	inEpsilon(t, c.Comparisons[1].Measured.High/start, 1-exact.ConstantUptake(fourier*c.Diffusivity.Low), 0.01, "the slowest")
	inEpsilon(t, c.Comparisons[1].Measured.Low/start, 1-exact.ConstantUptake(fourier*c.Diffusivity.High), 0.02, "the fastest")
}

func rounded(b diffusion.Between) diffusion.Between {
	return diffusion.Between{Low: math.Round(b.Low*1e9) / 1e9, High: math.Round(b.High*1e9) / 1e9}
}

// Contents are on the dry mass, a loss is on the mass before: 100 g of dry strand with 25 g of water, of which 20 leave.
func TestBases(t *testing.T) {
	c := scenarios.Check{Before: 0.125, After: 0.105, Dried: 0.1, Step: 1e-9}
	for of, want := range map[Quantity]float64{AtStart: 0.25, AtExit: 0.05, Lost: 20.0 / 125} {
		r, ok := reads(&c, of, Residue{Known: true})
		require.True(t, ok)
		inEpsilon(t, want, r.estimate().Value, 1e-7, of.String())
		inEpsilon(t, want, value(of, 0.25, 0.05), 1e-12, of.String())
	}
}

// A strand that is five times as slow is wetter, and as fast again drier; in each the factor is found back. The true one agrees.
func TestSlowAndFastStrands(t *testing.T) {
	for factor, want := range map[float64]Outcome{0.2: Wetter, 1: Agrees, 5: Drier} {
		s := scenario(t, "")
		d := s.Model.Material.Diffusivity.ReferenceValue.Value
		truth, err := s.With(scenarios.Setting{Key: "strand.properties.diffusivity.value", Value: fmt.Sprintf("%g m2/s", d*factor)})
		require.NoError(t, err)
		c := checkOf(t, scenario(t, masses(100, 0.002, marched(t, truth, 1), 4)))
		for _, one := range c.Comparisons {
			if one.Of == AtStart {
				require.Equal(t, Agrees, one.Outcome)
				continue
			}
			require.Equal(t, want, one.Outcome, "%g: %+v", factor, one)
			require.Equal(t, want == Agrees, one.Chance >= diffusion.OneInTen)
		}
		inEpsilon(t, factor, c.Diffusivity.Value, 0.05, "factor")
		require.False(t, c.Gained)
	}
}

// Masses on a scale of 0.1 g tell nothing of 30 g of strand; but what they cannot miss they do tell.
func TestRoughScale(t *testing.T) {
	c := checkOf(t, scenario(t, "[[check]]\nbefore = \"30.1 g\"\nafter = \"30.0 g\"\n"))
	require.Len(t, c.Comparisons, 1)
	require.Equal(t, Untold, c.Comparisons[0].Outcome, "%+v", c.Comparisons[0])
	inEpsilon(t, 1e-4, c.Step, 1e-9, "step")
	require.False(t, c.Stepped || c.Told())
	require.True(t, c.Diffusivity.Low > 0 && c.Diffusivity.High == 0, "a loss of up to 0.5 %% leaves open any diffusivity that is great: %+v", c.Diffusivity)
	c = checkOf(t, scenario(t, "[[check]]\nbefore = \"30.8 g\"\nafter = \"30.0 g\"\n"))
	require.Equal(t, Drier, c.Comparisons[0].Outcome)
	require.True(t, c.Told())
	require.Zero(t, c.Diffusivity.Value, "more than all its water is gone")
	c = checkOf(t, scenario(t, "[[check]]\nbefore = \"30.000 g\"\nafter = \"30.020 g\"\n"))
	require.Equal(t, Wetter, c.Comparisons[0].Outcome)
	require.True(t, c.Gained)
}

// What drying out may leave is in what was measured where it is not stated: from nothing to what the strand holds in air of the room.
func TestResidue(t *testing.T) {
	text := "[[check]]\nafter = \"30.0300 g\"\ndried = \"30.0000 g\"\n"
	open, known := checkOf(t, scenario(t, text)), checkOf(t, scenario(t, text+"left = \"0.01 %\"\n"))
	s := scenario(t, "")
	p := &s.Model.Material
	temperature := p.HottestDrying()
	inEpsilon(t, temperature, open.Residue.Oven, 1e-12, "oven")
	// PETG: Henry's term of 0.4 % and a step that is nothing in so dry air, at a heat of mixing of zero.
	inEpsilon(t, 0.004*1404.4/25042, open.Residue.Most, 0.01, "residue")
	inEpsilon(t, 1.0001*30.03/30-1, known.Comparisons[0].Measured.Value, 1e-6, "known")
	require.True(t, known.Residue.Known)
	e, left := open.Comparisons[0].Measured, open.Residue.Most
	inEpsilon(t, 0.001+left/2, e.Value, 0.002, "middle")
	inEpsilon(t, 0.8*left, e.Width(), 0.03, "width")
	require.Greater(t, e.Width(), 5*known.Comparisons[0].Measured.Width())
}

// Of truths that are drawn from the model's own odds, and weighed, as many are told to agree as it says, or more where the scale is coarse: the chance is even between 0
// and 1.
func TestCalibrated(t *testing.T) {
	s := scenario(t, "")
	p, err := predicted(diffusion.NewMarch(), &s.Design, s.Settings)
	require.NoError(t, err)
	p.endOff = 0 // the truths are those of the same marches
	random := rand.New(rand.NewPCG(3, 7))
	n := samples.Of(600, 2500, 20000)
	for _, step := range []float64{1e-7, 1e-5, 3e-5, 2e-4} {
		within, counts := map[Quantity][10]int{}, map[Quantity][4]int{}
		for range n {
			truth, dry := p.draws[random.IntN(len(p.draws))], 0.02+0.02*random.Float64()
			weigh := func(kg float64) float64 { return math.Round(kg/step) * step }
			c := scenarios.Check{Before: weigh(dry * (1 + truth.Start)), After: weigh(dry * (1 + truth.End)), Dried: weigh(dry), Step: step}
			for _, of := range []Quantity{AtExit, Lost} {
				r, ok := reads(&c, of, Residue{Known: true})
				require.True(t, ok)
				one := p.compare(of, r)
				tenths, outcomes := within[of], counts[of]
				tenths[min(9, int(10*one.Chance))]++
				outcomes[one.Outcome]++
				within[of], counts[of] = tenths, outcomes
			}
		}
		fine := step < 1e-6
		for of, tenths := range within {
			up := 0
			for i, got := range tenths { // no chance comes out more often than it says, and where the scale is fine just so often
				up += got
				share := float64(i+1) / 10
				four := 4*math.Sqrt(share*(1-share)*float64(n)) + 1e-6
				require.LessOrEqual(t, float64(up), share*float64(n)+four, "%s, step %g: %v", of, step, tenths)
				if fine {
					require.GreaterOrEqual(t, float64(up), share*float64(n)-four, "%s, step %g: %v", of, step, tenths)
				}
			}
			counted := counts[of]
			t.Logf("%s, step %g: %v of %d", of, step, counted, n)
			if rough := step > 1e-4; rough {
				require.Zero(t, counted[Agrees], "%v", counted)
			} else if fine {
				require.Zero(t, counted[Untold], "%v", counted)
			}
		}
	}
}

// The probability by closed form against draws of both roundings.
func TestRoundingOfTwoMasses(t *testing.T) {
	random := rand.New(rand.NewPCG(1, 2))
	const n = 40000
	for _, r := range []reading{
		{pair: pair{wetter: 12.431, drier: 12.402, step: 0.01}, lost: true}, {pair: pair{wetter: 12.431, drier: 12.402, step: 0.05}}, {pair: pair{wetter: 3, drier: 2, step: 0.5}, lost: true}, {pair: pair{wetter: 12.4, drier: 12.4, step: 0.1}},
		{pair: pair{wetter: 12.431, drier: 12.402, step: 0.01}, spare: 0.002}, {pair: pair{wetter: 12.431, drier: 12.402, step: 0.001}, least: 0.001},
	} {
		for _, share := range []float64{0.03, 0.3, 0.5, 0.8, 0.97} {
			at, below := r.at(share), 0
			for range n {
				even := func(half float64) float64 { return half * (2*random.Float64() - 1) }
				wetter, drier := r.wetter+even(r.step/2), r.drier+even(r.step/2)
				left := r.least + r.spare*random.Float64()
				q := wetter*(1+left)/drier - 1
				if r.lost {
					q = (wetter - drier) / wetter
				}
				if q <= at {
					below++
				}
			}
			require.InDelta(t, share, float64(below)/n, 0.012, "%+v at %g", r, share)
		}
	}
	require.Zero(t, evenSum(-2, 1, 1))
	require.InDelta(t, 1, evenSum(2, 1, 1), 0)
}

// After a storage the strand sets off with what that has left in it, as uncertain as a path that is nothing but that storage.
func TestStartAfterStorage(t *testing.T) {
	text := "\n[[strand.storage]]\nduration = \"6 h\"\n[[check]]\nbefore = \"30.0060 g\"\ndried = \"30.0000 g\"\nleft = \"0 %\"\nset = { \"strand.moisture\" = \"0.01 %\" }\n"
	s := scenario(t, text)
	c := checkOf(t, s)
	require.True(t, c.OfStart())
	require.Equal(t, Factor{}, c.Diffusivity)
	then, err := s.At(&s.Checks[0])
	require.NoError(t, err)
	stored := then.Design
	stored.Path, stored.Storage = stored.Storage, nil
	a, err := diffusion.NewMarch().Assess(&stored, then.Settings)
	require.NoError(t, err)
	got := c.Comparisons[0].Predicted
	inEpsilon(t, a.Nozzle.Mean, got.Value, 1e-3, "medians")
	inEpsilon(t, a.Low, got.Low, 0.02, "low")
	inEpsilon(t, a.High, got.High, 0.02, "high")
}

// A check that cannot be predicted says why, and the others are there. The same checks are the same to the bit.
func TestWithoutPrediction(t *testing.T) {
	s := scenario(t, masses(30, 0.002, 0.001, 3)+`
[[check]]
before = "30.06 g"
after = "30.03 g"
set = { "zone.guide.air.flow" = "0.0001 L/min", "zone.guide.air.direction" = "against", "zone.guide.length" = "9 km", "zone.guide.air.vapour_pressure" = "0 Pa", "feed.speed" = "50 mm/s", "strand.moisture" = "40 %" }
`)
	all, err := Find(context.Background(), s)
	require.NoError(t, err)
	again, err := Find(context.Background(), s)
	require.NoError(t, err)
	require.Equal(t, all, again)
	require.Empty(t, all[0].Reason)
	require.NotEmpty(t, all[1].Reason, "%+v", all[1])
	require.Empty(t, all[1].Comparisons)
	of, agree, untold := Count(all)
	require.Equal(t, 3, of)
	require.LessOrEqual(t, agree+untold, of)

	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	_, err = Find(ctx, s)
	require.ErrorIs(t, err, context.Canceled)
	none, err := Find(context.Background(), scenario(t, ""))
	require.NoError(t, err)
	require.Empty(t, none)
}

// The same of strands whose material is drawn here and marched for itself, without the draws that it is judged by.
func TestCalibratedByMarches(t *testing.T) {
	s := scenario(t, "")
	w := diffusion.NewMarch()
	p, err := predicted(w, &s.Design, s.Settings)
	require.NoError(t, err)
	random := rand.New(rand.NewPCG(5, 11))
	n, agree, sides := samples.Of(250, 1000, 5000), 0, [2]int{}
	for range n {
		truth := s.Model
		truth.Material = s.Model.Material.Drawn(materials.Deviates{
			Diffusivity: random.NormFloat64(), Activation: random.NormFloat64(), Beta: random.NormFloat64(), Isotherm: random.NormFloat64(), Mixing: random.NormFloat64(),
		})
		var r diffusion.Result
		require.NoError(t, w.Run(&truth, s.Settings.Coarser(), &r))
		const step, dry = 1e-7, 0.03
		weigh := func(content float64) float64 { return math.Round(dry*(1+content)/step) * step }
		c := scenarios.Check{Before: weigh(r.Start.Mean), After: weigh(r.Nozzle.Mean), Step: step}
		reading, ok := reads(&c, Lost, Residue{})
		require.True(t, ok)
		switch p.compare(Lost, reading).Outcome {
		case Agrees:
			agree++
		case Wetter:
			sides[0]++
		case Drier:
			sides[1]++
		}
	}
	t.Logf("%d of %d agree, wetter and drier %v", agree, n, sides)
	require.InDelta(t, 0.9*float64(n), float64(agree), 4*math.Sqrt(0.09*float64(n)))
	require.InDelta(t, 0.05*float64(n), float64(sides[0]), 4*math.Sqrt(0.05*float64(n)))
}

// Whatever the masses that a scenario takes, and whatever is asked: a probability, which does not fall where more is asked.
func FuzzRounding(f *testing.F) {
	f.Add(0.012431, 0.012402, 1e-6, 0.0, 0.002, true, 1, 0.001, 0.002)
	f.Add(0.03, 0.03, 0.03, 0.1, 0.0, false, 0, -2.0, 1.0)
	f.Add(1e-8, 1e-8, 1e-8, 0.0, 0.0, true, 2, 1.0, 5.0)
	f.Fuzz(func(t *testing.T, wetter, drier, step, least, spare float64, lost bool, shows int, x, more float64) {
		sound := step > 0 && step <= drier && drier >= 1e-8 && drier <= 100 && wetter >= drier/2 && wetter <= 2*drier && least >= 0 && least <= 0.1 && spare >= 0 && spare <= 0.5
		if !sound || !(math.Abs(x) < 1e6) || !(more >= 0 && more < 1e6) {
			return
		}
		r := reading{pair: pair{wetter: wetter, drier: drier, step: step, display: display(uint(shows) % 3)}, least: least, spare: spare, lost: lost}
		low, high := r.notMore(x), r.notMore(x+more)
		require.True(t, low >= 0 && high <= 1 && low <= high+1e-9, "%+v: %g at %g, %g at %g", r, low, x, high, x+more)
		e := r.estimate()
		require.True(t, e.Low <= e.Value && e.Value <= e.High && !math.IsInf(e.High-e.Low, 0), "%+v", e)
	})
}
