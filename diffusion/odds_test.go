package diffusion_test

import (
	"errors"
	"math"
	"math/rand/v2"
	"runtime"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion"
	"strandry/diffusion/film"
	"strandry/diffusion/samples"
	"strandry/materials"
)

// deviateOf90 is the standard normal deviate of the 90 % point, that of the 95 % point is 1.644854: Abramowitz & Stegun, Handbook of
// Mathematical Functions (1964), table 26.1.
const deviateOf90, deviateOf95 = 1.281552, 1.644854

// certain takes all doubt from a model but what is put back.
func certain(m *diffusion.Design) *diffusion.Design {
	sure := func(v *materials.Value) { v.Low, v.High = v.Value, v.Value }
	p := &m.Material
	p.Diffusivity.Scatter.Value = 1
	p.Diffusivity.Pieces = slices.Clone(p.Diffusivity.Pieces)
	for i := range p.Diffusivity.Pieces {
		sure(&p.Diffusivity.Pieces[i].Activation)
	}
	for _, v := range []*materials.Value{
		&p.Diffusivity.Beta, &p.Sorption.Saturation, &p.Sorption.Monolayer, &p.Sorption.Linear, &p.Sorption.Power,
		&p.Sorption.MixingEnthalpy, &p.PrintingLimit, &p.MouldingLimit,
	} {
		sure(v)
	}
	m.LimitStated = true
	return m
}

func odds(t *testing.T, m *diffusion.Design) diffusion.Odds {
	t.Helper()
	o, err := diffusion.NewMarch().Odds(m, diffusion.DefaultSettings())
	require.NoError(t, err)
	return o
}

// Without doubt the limit is met or not, and the content is one.
func TestOddsOfWhatIsCertain(t *testing.T) {
	m := certain(transit(t, 0))
	mean := odds(t, m).Low
	for limit, want := range map[float64]float64{0.99 * mean: 0, 1.01 * mean: 1} {
		m.Limit = limit
		o := odds(t, m)
		require.Empty(t, o.Unknowns)
		require.Equal(t, want, o.Probability)
		for _, same := range []float64{o.Low, o.High, o.ByDiffusivity.Low, o.ByDiffusivity.High} {
			require.InEpsilon(t, mean, same, 1e-14)
		}
	}
}

// A limit alone in doubt, log-normal with two widths: the probability is the share of it above the content, by the normal distribution.
func TestOddsOfAnUncertainLimit(t *testing.T) {
	m := certain(transit(t, 0))
	mean := odds(t, m).Low
	phi := func(z float64) float64 { return math.Erfc(-z/math.Sqrt2) / 2 }
	for _, by := range []float64{0.6, 0.9, 1.2, 1.8} { // the limit over the content
		m.Limit = by * mean
		m.LimitRange = materials.Range{Min: m.Limit / 1.5, Max: m.Limit * 2.5}
		width := math.Log(2.5) / deviateOf95
		if by > 1 {
			width = math.Log(1.5) / deviateOf95
		}
		o := odds(t, m)
		require.InDelta(t, phi(math.Log(by)/width), o.Probability, 1e-5, "%g", by)
		// The content over the limit is wettest where the limit is least.
		require.InEpsilon(t, math.Exp(deviateOf90*math.Log(1.5)/deviateOf95)/by, o.Ratio.High, 1e-4)
		require.InEpsilon(t, math.Exp(-deviateOf90*math.Log(2.5)/deviateOf95)/by, o.Ratio.Low, 1e-4)
	}
}

// With the diffusivity alone in doubt the content falls as it rises, so that its 10 and 90 % points are those of marches at the 90 and 10 %
// points of the diffusivity: the reference by its scatter, the activation energy by what it makes of the diffusivity at 90 °C.
func TestOddsByOneUnknown(t *testing.T) {
	m := certain(transit(t, 0))
	m.Path = m.Path[1:2] // a single zone, so that all of it is at one temperature
	m.Material.Diffusivity.Scatter.Value = 3
	at := func(factor float64) float64 {
		varied := *m
		varied.Material.Diffusivity.ReferenceValue.Value *= factor
		return run(t, &varied).Nozzle.Mean
	}
	f := math.Pow(3, deviateOf90/deviateOf95)
	o := odds(t, m)
	require.Equal(t, []string{diffusion.UnknownDiffusivity}, o.Unknowns)
	within(t, at(f), o.Low, 0.005)
	within(t, at(1/f), o.High, 0.005)
	within(t, at(f), o.ByDiffusivity.Low, 0.002)
	within(t, at(1/f), o.ByDiffusivity.High, 0.002)
	m.Limit, m.LimitStated = at(math.Pow(3, -0.4/deviateOf95)), true // met from a deviate of -0.4 on
	require.InDelta(t, 0.6554, odds(t, m).Probability, 0.01)         // table 26.1

	m.Material.Diffusivity.Scatter.Value = 1
	law := &m.Material.Diffusivity
	law.Pieces = slices.Clone(law.Pieces)
	energy := law.Pieces[0].Activation.Value
	law.Pieces[0].Activation.Low, law.Pieces[0].Activation.High = energy/1.2, energy*1.4
	o = odds(t, m)
	require.Equal(t, []string{diffusion.UnknownActivation}, o.Unknowns)
	by := func(share float64) float64 {
		varied := *m
		varied.Material.Diffusivity.Pieces = []materials.Arrhenius{law.Pieces[0]}
		varied.Material.Diffusivity.Pieces[0].Activation.Value *= share
		return run(t, &varied).Nozzle.Mean
	}
	within(t, by(math.Pow(1.4, deviateOf90/deviateOf95)), o.Low, 0.005)
	within(t, by(math.Pow(1.2, -deviateOf90/deviateOf95)), o.High, 0.005)
	within(t, run(t, m).Nozzle.Mean, o.ByDiffusivity.Low, 0.002)

	m.Path[0].Air.Temperature = law.Reference // the law turns about its reference: there it is in no doubt
	m.StartTemperature = law.Reference
	o = odds(t, m)
	within(t, o.Low, o.High, 2e-3)
}

// A strand that set off in equilibrium with the room, and has no time to change: its content is in the doubt of the isotherm alone, whose
// level is log-normal. A content that is known by itself is in none.
func TestOddsOfTheStart(t *testing.T) {
	m := certain(transit(t, 0))
	m.Path = m.Path[2:]
	m.Path[0].Length = 1e-9
	s := &m.Material.Sorption
	level := []*materials.Value{&s.Saturation, &s.Monolayer, &s.Linear, &s.Power}
	for _, v := range level {
		v.Low, v.High = v.Value/1.2, v.Value*1.5
	}
	o := odds(t, m)
	within(t, m.Start, o.Low, 1e-3)
	within(t, m.Start, o.High, 1e-3)
	m.StartActivity = 0.5
	m.Start = s.Content(0.5, m.StartTemperature)
	o = odds(t, m)
	within(t, m.Start*math.Pow(1.2, -deviateOf90/deviateOf95), o.Low, 0.005)
	within(t, m.Start*math.Pow(1.5, deviateOf90/deviateOf95), o.High, 0.005)
}

// With the film alone in doubt the content lies between those of marches whose coefficients, of heat and of mass together, are off by what the source
// of the correlation states, which is exceeded one time in ten. A film that is given is in no doubt.
func TestOddsOfTheFilm(t *testing.T) {
	m := certain(transit(t, 0))
	m.Path = m.Path[1:2]
	m.Path[0].Length = 0.3
	require.Empty(t, odds(t, m).Unknowns)
	m.Path[0].Film = diffusion.Film{Flow: film.Across, AirSpeed: 0.3, Emissivity: 0.9}
	coefficients := run(t, m).Zones[0].Film
	require.Greater(t, coefficients.MassUncertainty, coefficients.Uncertainty)
	at := func(share float64) float64 {
		varied := *m
		varied.Path = slices.Clone(m.Path)
		f := &varied.Path[0].Film
		f.HeatFactor, f.MassFactor = math.Pow(1+coefficients.Uncertainty, share), math.Pow(1+coefficients.MassUncertainty, share)
		return run(t, &varied).Nozzle.Mean
	}
	o := odds(t, m)
	require.Equal(t, []string{diffusion.UnknownFilm}, o.Unknowns)
	within(t, at(deviateOf90/deviateOf95), o.Low, 2e-3)
	within(t, at(-deviateOf90/deviateOf95), o.High, 2e-3)
	require.Greater(t, o.High/o.Low, 1.01, "a case that tests nothing")
}

// The verdict by its definition.
func TestVerdictOfOdds(t *testing.T) {
	for _, r := range []struct {
		probability, density, off float64
		survival                  diffusion.Survival
		want                      diffusion.Verdict
	}{
		{0.9, 0, 0, diffusion.Holds, diffusion.Dry}, {0.899, 0, 0, diffusion.Holds, diffusion.Unsure},
		{0.101, 0, 0, diffusion.Holds, diffusion.Unsure}, {0.1, 0, 0, diffusion.Holds, diffusion.Wet},
		{0.92, 1, 0.03, diffusion.Doubtful, diffusion.Unsure}, {0.92, 1, 0.01, diffusion.Doubtful, diffusion.Dry},
		{0.08, 1, 0.03, diffusion.Holds, diffusion.Unsure}, {0.08, 1, 0.01, diffusion.Softens, diffusion.Wet},
		{0.95, 0, 0, diffusion.Softens, diffusion.TooHot}, {0.5, 0, 0, diffusion.Softens, diffusion.TooHot},
	} {
		o := diffusion.Odds{Probability: r.probability, Density: r.density}
		require.Equal(t, r.want, o.Verdict(r.off, r.survival), "%v", r)
	}
}

// The same bits on one core and on several.
func TestOddsOnAnyNumberOfCores(t *testing.T) {
	m := path(t, "pva", 6, 70, dry)
	several := odds(t, m)
	defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(1))
	require.Equal(t, several.Numbers(), odds(t, m).Numbers())
}

// The odds for several lengths are those of each by itself, to the bit; with a bore whose strand drags its air too.
func TestOddsOfLengthsAreThoseOfEach(t *testing.T) {
	paths := map[string]*diffusion.Design{"open": path(t, "pa6", 6, 90, dry), "bore": tube(t, 3e-3), "against": path(t, "pla", 6, 50, dry)}
	air := &paths["against"].Path[0].Air
	air.DryFlow, air.Direction = 1e-5, diffusion.Against
	for name, m := range paths {
		lengths := []float64{0.5, 3, 3.5, 12}
		zone := len(m.Path) - 1
		w, seen := diffusion.NewMarch(), 0
		err := w.OddsLengths(m, zone, lengths, diffusion.DefaultSettings(), func(i int, o diffusion.Odds, err error) error {
			require.NoError(t, err)
			alone := *m
			alone.Path = slices.Clone(m.Path)
			alone.Path[zone].Length = lengths[i]
			require.Equal(t, odds(t, &alone).Numbers(), o.Numbers(), "%s, %g m", name, lengths[i])
			seen++
			return nil
		})
		require.NoError(t, err)
		require.Equal(t, len(lengths), seen)
	}
}

// Where there is hardly any air against the strand the medians of a long zone have no answer in the steps of a short one: each length has the odds of its own, or none as by itself.
func TestOddsOfLengthsInHardlyAnyAir(t *testing.T) {
	answered, flows := 0, map[string]float64{"pa6": 1e-8, "pva": 3e-9}
	if samples.Of(0, 1, 1) > 0 {
		flows["pc"] = 1e-8 // whose long zone has an answer in finer steps
	}
	for material, flow := range flows {
		m := path(t, material, 6, 90, dry)
		m.Path[0].Air.DryFlow, m.Path[0].Air.Direction = flow, diffusion.Against
		lengths := []float64{0.002, 0.5, 3}
		err := diffusion.NewMarch().OddsLengths(m, 0, lengths, diffusion.DefaultSettings(), func(i int, o diffusion.Odds, err error) error {
			alone := *m
			alone.Path = slices.Clone(m.Path)
			alone.Path[0].Length = lengths[i]
			want, wants := diffusion.NewMarch().Odds(&alone, diffusion.DefaultSettings())
			require.Equal(t, wants == nil, err == nil, "%s, %g m", material, lengths[i])
			require.Equal(t, want.Numbers(), o.Numbers(), "%s, %g m", material, lengths[i])
			if err == nil {
				answered++
			}
			return nil
		})
		require.NoError(t, err)
	}
	require.Positive(t, answered)
	require.Less(t, answered, 3*len(flows), "some have none")
}

// A draw without an answer counts as wet, and for one of several lengths as it does for that length alone.
func TestOddsOfDrawsWithoutAnAnswer(t *testing.T) {
	m := path(t, "pa6", 6, 90, dry)
	m.StartActivity = 0.5 // so that some draws of a short zone are wetter than all of a long one
	m.Start = m.Material.Sorption.Content(0.5, m.StartTemperature)
	without := odds(t, m)
	m.Given = []diffusion.Given{{Name: "what has no answer at one end", Change: func(_ *diffusion.Model, deviate float64) error {
		if deviate > 1 {
			return errors.New("no answer")
		}
		return nil
	}}}
	lengths := []float64{0.01, 6, 40}
	err := diffusion.NewMarch().OddsLengths(m, 0, lengths, diffusion.DefaultSettings(), func(i int, o diffusion.Odds, err error) error {
		require.NoError(t, err)
		alone := *m
		alone.Path = slices.Clone(m.Path)
		alone.Path[0].Length = lengths[i]
		require.Equal(t, odds(t, &alone).Numbers(), o.Numbers(), "%g m", lengths[i])
		return nil
	})
	require.NoError(t, err)
	require.Greater(t, odds(t, m).High, without.High)
}

// Against marches at draws that know nothing of the surrogate: the laws of the doubt as the documentation of package materials has them. The probability lies within 0.03 of
// 4,000 of them, and of fewer within what chance allows. 3 random models, or up to 60.
func TestOddsAgainstManyMarches(t *testing.T) {
	if testing.Short() {
		t.Skip("no two goroutines meet here")
	}
	library, err := materials.Library()
	require.NoError(t, err)
	count, marches := samples.Of(3, 12, 60), samples.Of(300, 1000, 4000)
	r := rand.New(rand.NewPCG(3, 11))
	w := diffusion.NewMarch()
	worst, ends := 0.0, []float64{}
	for i := range count {
		m := random(r, library)
		for k := range m.Path {
			m.Path[k].Film = diffusion.Film{Heat: 30, Mass: 0.03}
		}
		m.Limit, m.LimitStated = run(t, m).Nozzle.Mean*math.Exp(0.5*r.NormFloat64()), true
		if m.Limit < 1e-8 {
			continue
		}
		o, err := w.Odds(m, diffusion.DefaultSettings())
		require.NoError(t, err)
		met, contents := 0, make([]float64, 0, marches)
		var result diffusion.Result
		for range marches {
			varied := drawnByHand(r, m)
			require.NoError(t, w.Run(&varied.Model, diffusion.CoarseSettings(), &result))
			contents = append(contents, result.Nozzle.Mean)
			if result.Nozzle.Mean <= m.Limit {
				met++
			}
		}
		share := float64(met) / float64(marches)
		slices.Sort(contents)
		low, high := contents[marches/10], contents[marches*9/10]
		t.Logf("%d %s: %.3f against %.3f, %.4g to %.4g against %.4g to %.4g, fit %.3f", i, m.Material.ID, o.Probability, share, o.Low, o.High, low, high, o.Fit)
		chance := 3 * math.Sqrt(max(share*(1-share), 0.01)/float64(marches))
		require.InDelta(t, share, o.Probability, 0.015+chance)
		worst = max(worst, math.Abs(share-o.Probability))
		ends = append(ends, math.Abs(math.Log(o.High/high)))
		if low > 0.01*m.Limit {
			ends = append(ends, math.Abs(math.Log(o.Low/low)))
		}
	}
	slices.Sort(ends)
	t.Logf("probability within %.3f; 10 and 90 %% points: half within %.3f, nine in ten within %.3f, all within %.3f", worst, ends[len(ends)/2], ends[len(ends)*9/10], ends[len(ends)-1])
}

// drawnByHand is a model with other values of what is in doubt, by the laws that package materials documents.
func drawnByHand(r *rand.Rand, m *diffusion.Design) *diffusion.Design {
	logNormal := func(v *materials.Value, z float64) {
		end := v.High
		if z < 0 {
			end = v.Low
		}
		if v.Value > 0 {
			v.Value *= math.Pow(end/v.Value, math.Abs(z)/deviateOf95)
		}
	}
	normal := func(v *materials.Value, z float64) {
		if z > 0 {
			v.Value += z / deviateOf95 * (v.High - v.Value)
		} else {
			v.Value += z / deviateOf95 * (v.Value - v.Low)
		}
	}
	out := *m
	p := &out.Material
	p.Diffusivity.ReferenceValue.Value *= math.Exp(r.NormFloat64() / deviateOf95 * math.Log(p.Diffusivity.Scatter.Value))
	p.Diffusivity.Pieces = slices.Clone(p.Diffusivity.Pieces)
	z := r.NormFloat64()
	for i := range p.Diffusivity.Pieces {
		logNormal(&p.Diffusivity.Pieces[i].Activation, z)
	}
	normal(&p.Diffusivity.Beta, r.NormFloat64())
	z = r.NormFloat64()
	for _, v := range []*materials.Value{&p.Sorption.Saturation, &p.Sorption.Monolayer, &p.Sorption.Linear, &p.Sorption.Power} {
		logNormal(v, z)
	}
	normal(&p.Sorption.MixingEnthalpy, r.NormFloat64())
	if out.StartActivity > 0 {
		out.Start = p.Sorption.Content(out.StartActivity, out.StartTemperature)
	}
	return &out
}

// Of the designs that are said to be dry with some probability as many are, when what is in doubt about each is drawn once and taken for
// the truth. In each band of a tenth the number of dry ones lies within three deviations of what was said. 30 random designs, or up to 3,000.
func TestOddsAreCalibrated(t *testing.T) {
	if testing.Short() {
		t.Skip("no two goroutines meet here")
	}
	library, err := materials.Library()
	require.NoError(t, err)
	count := samples.Of(20, 300, 3000)
	r := rand.New(rand.NewPCG(5, 17))
	w := diffusion.NewMarch()
	var said, dry, number [10]float64
	for range count {
		m := random(r, library)
		m.LimitStated = true
		m.Limit = max(1e-8, run(t, m).Nozzle.Mean*math.Exp(0.4*r.NormFloat64()))
		m.LimitRange = materials.Range{Min: m.Limit / 1.5, Max: m.Limit * 1.5}
		o, err := w.Odds(m, diffusion.DefaultSettings())
		require.NoError(t, err)
		var truth diffusion.Result
		require.NoError(t, w.Run(&drawnByHand(r, m).Model, diffusion.CoarseSettings(), &truth))
		limit := m.Limit * math.Pow(1.5, r.NormFloat64()/deviateOf95)
		band := min(9, int(10*o.Probability))
		number[band]++
		said[band] += o.Probability
		if truth.Nozzle.Mean <= limit {
			dry[band]++
		}
	}
	for i := range said {
		if number[i] == 0 {
			continue
		}
		p := said[i] / number[i]
		t.Logf("%.0f designs said to be dry with a probability of %.2f: %.2f are", number[i], p, dry[i]/number[i])
		require.InDelta(t, p, dry[i]/number[i], 3*math.Sqrt(max(p*(1-p), 0.01)/number[i])+0.01)
	}
}

// The content at rest is log-normal as the level of the isotherm is, and the limit as well: their quotient is within 1 as often as the normal
// distribution of the sum of both variances says.
func TestRests(t *testing.T) {
	m := certain(transit(t, 0))
	s := &m.Material.Sorption
	for _, v := range []*materials.Value{&s.Saturation, &s.Monolayer, &s.Linear, &s.Power} {
		v.Low, v.High = v.Value/1.3, v.Value*1.3
	}
	rest := s.Content(0.3, 340)
	for _, by := range []float64{0.8, 1, 1.4} {
		m.Limit = by * rest
		m.LimitRange = materials.Range{Min: m.Limit / 1.5, Max: m.Limit * 1.5}
		width := math.Hypot(math.Log(1.3), math.Log(1.5)) / deviateOf95
		want := math.Erfc(-math.Log(by)/width/math.Sqrt2) / 2
		require.InDelta(t, want, diffusion.NewMarch().Rests(m, 0.3, 340), 2e-3, "%g", by)
	}
}
