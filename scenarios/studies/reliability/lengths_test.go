package reliability_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion"
	"strandry/diffusion/root"
	"strandry/scenarios"
	"strandry/scenarios/studies/reliability"
)

// dryer has a diffusivity between 4e-13 and 1.6e-12 m²/s, nine times in ten, and nothing else in doubt; its film hinders little, so that the length needed goes with
// the inverse of the diffusivity.
func dryer(t *testing.T) *scenarios.Scenario {
	t.Helper()
	s, err := scenarios.Read("dryer.toml", []byte(`
[strand]
material = "pc"
limit = "0.02 %"
moisture = "0.2 %"
[strand.properties.diffusivity]
reference = "80 °C"
value = { value = "8e-13 m2/s", low = "4e-13 m2/s", high = "1.6e-12 m2/s" }
beta = 0
[[strand.properties.diffusivity.piece]]
activation = "50 kJ/mol"
[strand.properties.sorption]
saturation = "0.3 %"
mixing_enthalpy = "0 kJ/mol"
[feed]
speed = "2 mm/s"
[[zone]]
name = "tube"
length = "12 m"
temperature = "80 °C"
air = { vapour_pressure = "0.1 Pa" }
h = "300 W/m2/K"
k_m = "1 m/s"
[numerics]
evaporation = false
`))
	require.NoError(t, err)
	return s
}

// lengths are those of the first zone.
func lengths(t *testing.T, w *diffusion.March, s *scenarios.Scenario, base *diffusion.Odds) *diffusion.LengthOdds {
	t.Helper()
	over, err := w.LengthOdds(&s.Design, 0, base, s.Settings)
	require.NoError(t, err)
	return over
}

// probability is that of the odds themselves at a length of the first zone, given by its logarithm.
func probability(t *testing.T, w *diffusion.March, s *scenarios.Scenario, place float64) float64 {
	t.Helper()
	m := s.Design
	m.Path = append([]diffusion.Zone(nil), m.Path...)
	m.Path[0].Length = math.Exp(place)
	o, err := w.Odds(&m, s.Settings)
	require.NoError(t, err)
	return o.Probability
}

// The length that is dry nine times in ten is that at the median times two to the power of 1.281552/1.644854, by the normal
// distribution (Abramowitz & Stegun, table 26.1), but for the time in which the strand warms up.
func TestLengths(t *testing.T) {
	s := dryer(t)
	w, m := diffusion.NewMarch(), s.Design
	m.Path = append([]diffusion.Zone(nil), m.Path...)
	var r diffusion.Result
	over := func(u float64) (float64, error) {
		m.Path[0].Length = math.Exp(u)
		err := w.Run(&m.Model, s.Settings, &r)
		return math.Log(r.Nozzle.Mean / m.Limit), err
	}
	a, b := math.Log(1.0), math.Log(5000)
	atA, err := over(a)
	require.NoError(t, err)
	atB, err := over(b)
	require.NoError(t, err)
	median, err := root.Find(over, root.Bracket{A: a, B: b, AtA: atA, AtB: atB}, root.Tolerance{Width: 1e-6})
	require.NoError(t, err)
	want := math.Exp(median) * math.Pow(2, 1.281552/1.644854)
	// The odds of the model, of another length, or none are known; nine times in ten may be far from where the search begins.
	own, err := w.Odds(&s.Design, s.Settings)
	require.NoError(t, err)
	m.Path[0].Length = 300
	other, err := w.Odds(&m, s.Settings)
	require.NoError(t, err)
	for i, search := range []reliability.Search{
		{From: median - 3, Step: 0.6},
		{From: median, Crossing: true, Step: 20},
		{From: median, Crossing: true, Step: 0.6},
		{From: median, Crossing: true, Step: 0.6},
		{From: median, Crossing: true, Step: 0.6, Rough: 1e-3},
		{From: math.Log(1e-3), Step: 3},
	} {
		base := []*diffusion.Odds{nil, &own, &other}[i%3]
		search.To = math.Log(1e4)
		f, err := search.Lengths(lengths(t, w, s, base))
		require.NoError(t, err)
		require.Equal(t, reliability.Met, f.Outcome)
		require.InEpsilon(t, want, math.Exp(f.Place), 0.05)
		require.InDelta(t, 0.9, f.Probability, 0.02)
		require.InDelta(t, f.Probability, probability(t, w, s, f.Place), 0.02)
	}
}

// Where all lengths that are looked at are long enough nine times in ten, it is so already; where none is, nowhere.
func TestLengthsWithoutEnd(t *testing.T) {
	s := dryer(t)
	w := diffusion.NewMarch()
	f, err := reliability.Search{From: math.Log(3000), To: math.Log(1e4), Step: 0.6}.Lengths(lengths(t, w, s, nil))
	require.NoError(t, err)
	require.Equal(t, reliability.Already, f.Outcome)
	f, err = reliability.Search{From: math.Log(0.1), To: math.Log(3), Step: 0.6}.Lengths(lengths(t, w, s, nil))
	require.NoError(t, err)
	require.Equal(t, reliability.Nowhere, f.Outcome)
	require.Less(t, f.Probability, 0.1)
}

// Where the surrogate over many lengths serves badly one over a few is asked: nylon, whose diffusivity and activation energies are little known.
func TestLengthsWhereTheSurrogateServesBadly(t *testing.T) {
	s, err := scenarios.Read("wide.toml", []byte(`
[strand]
material = "pa6"
[feed]
speed = "1 mm/s"
[[zone]]
name = "tube"
length = "30 m"
temperature = "80 °C"
air = { dew_point = "-30 °C" }
h = "30 W/m2/K"
k_m = "0.03 m/s"
`))
	require.NoError(t, err)
	w := diffusion.NewMarch()
	f, err := reliability.Search{From: math.Log(20), To: math.Log(1e5), Crossing: true, Step: 1}.Lengths(lengths(t, w, s, nil))
	require.NoError(t, err)
	require.Equal(t, reliability.Met, f.Outcome)
	own := probability(t, w, s, f.Place)
	require.InDelta(t, 0.9, own, 0.01)
	require.InDelta(t, own, f.Probability, 0.006)
}

// A search towards shorter lengths: a dry strand takes up water in a guide, of which less than some length is short enough nine times in ten. From where the design
// point of another place misleads, and where the stretch ends before it is met, the answer is that of the odds too.
func TestLengthsThatWet(t *testing.T) {
	s, err := scenarios.Read("guide.toml", []byte(`
[strand]
material = "pva"
moisture = "0.1 %"
[feed]
speed = "1 mm/s"
[room]
humidity = "60 %"
[[zone]]
name = "guide"
length = "2 m"
h = "30 W/m2/K"
k_m = "0.03 m/s"
`))
	require.NoError(t, err)
	w := diffusion.NewMarch()
	for _, search := range []reliability.Search{
		{From: math.Log(100), To: math.Log(1e-3), Crossing: true, Step: 1},
		{From: math.Log(100), To: math.Log(1e-3), Step: 2},
		{From: math.Log(0.5), To: math.Log(1e-3), Step: 0.3, Rough: 1e-3},
	} {
		f, err := search.Lengths(lengths(t, w, s, nil))
		require.NoError(t, err)
		require.NotEqual(t, reliability.Nowhere, f.Outcome)
		if f.Outcome == reliability.Met {
			require.InDelta(t, 0.9, probability(t, w, s, f.Place), 0.04)
		} else {
			require.Greater(t, probability(t, w, s, search.From), 0.88)
		}
	}
	f, err := reliability.Search{From: math.Log(1e4), To: math.Log(500), Step: 0.5}.Lengths(lengths(t, w, s, nil))
	require.NoError(t, err)
	require.Equal(t, reliability.Nowhere, f.Outcome)
}

// Polyvinyl alcohol, whose content is a rough function of what is drawn, dries within the odds.
func TestLengthsOfARoughFunction(t *testing.T) {
	for material, dew := range map[string]string{"pva": "-40 °C", "bvoh": "-30 °C"} {
		s, err := scenarios.Read("rough.toml", []byte(`
[strand]
material = "`+material+`"
[feed]
speed = "1 mm/s"
[[zone]]
name = "tube"
length = "20 m"
temperature = "60 °C"
air = { dew_point = "`+dew+`" }
h = "30 W/m2/K"
k_m = "0.03 m/s"
`))
		require.NoError(t, err)
		w := diffusion.NewMarch()
		for _, search := range []reliability.Search{{From: math.Log(1), Step: 1}, {From: math.Log(30), Step: 0.4, Crossing: true}, {From: math.Log(30), Step: 0.4, Crossing: true}} {
			search.To = math.Log(1e5)
			f, err := search.Lengths(lengths(t, w, s, nil))
			require.NoError(t, err)
			if f.Outcome != reliability.Met {
				require.Equal(t, reliability.Nowhere, f.Outcome)
				require.Less(t, f.Probability, 0.9)
				continue
			}
			require.InDelta(t, 0.9, probability(t, w, s, f.Place), 0.05, material)
		}
	}
}

// Air against the strand, a cover and a guide in which it is wetted again: what is found is what the odds in full say there, wherever the search began.
func TestLengthsOnADrum(t *testing.T) {
	for material, from := range map[string]float64{"pa6": 1, "pc": 5} {
		s, err := scenarios.Read("drum.toml", []byte(`
[strand]
material = "`+material+`"
[feed]
speed = "1 mm/s"
[[zone]]
name = "drum"
length = "30 m"
temperature = "65 °C"
air = { dew_point = "-30 °C", flow = "3 L/min", direction = "against" }
shape = { kind = "drum", diameter = "150 mm", pitch = "3 mm" }
[[zone]]
name = "guide"
length = "0.6 m"
`))
		require.NoError(t, err)
		w := diffusion.NewMarch()
		f, err := reliability.Search{From: math.Log(from), To: math.Log(1e5), Step: 1}.Lengths(lengths(t, w, s, nil))
		require.NoError(t, err)
		require.Equal(t, reliability.Met, f.Outcome)
		require.InDelta(t, f.Probability, probability(t, w, s, f.Place), 0.008, material)
	}
}
