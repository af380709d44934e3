package scenarios

import (
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion"
	"strandry/diffusion/samples"
	"strandry/materials"
)

// doubted is a dryer of nylon in which nothing is in doubt but what is put after it.
const doubted = `
[room]
humidity = "50 %"
[strand]
material = "pc"
limit = "0.2 %"
[strand.properties]
[strand.properties.diffusivity]
reference = "25 °C"
value = "8e-13 m2/s"
beta = 0
[[strand.properties.diffusivity.piece]]
activation = "50 kJ/mol"
[strand.properties.sorption]
saturation = "1.5 %"
mixing_enthalpy = "0 kJ/mol"
[feed]
speed = "2 mm/s"
[[zone]]
name = "tube"
length = "12 m"
temperature = "80 °C"
air = { dew_point = "-20 °C" }
h = "30 W/m2/K"
k_m = "0.03 m/s"
`

func readDoubted(t *testing.T, more string) *Scenario {
	t.Helper()
	s, err := Read("doubted.toml", []byte(doubted+more))
	require.NoError(t, err)
	return s
}

func oddsOf(t *testing.T, s *Scenario) diffusion.Odds {
	t.Helper()
	o, err := diffusion.NewMarch().Odds(&s.Design, s.Settings)
	require.NoError(t, err)
	return o
}

// at is the content with another value of a key.
func contentAt(t *testing.T, s *Scenario, key, value string) float64 {
	t.Helper()
	varied, err := s.With(Setting{Key: key, Value: value})
	require.NoError(t, err)
	var r diffusion.Result
	require.NoError(t, diffusion.NewMarch().Run(&varied.Model, s.Settings, &r))
	return r.Nozzle.Mean
}

// The 10 and 90 % points of the content, by one uncertain key on which it rests one way, are those of runs at the 10 and 90 % points of the
// key: of a normal one 1.281552 deviations off, of one between ends that share of the 1.644854 that they lie off (Abramowitz & Stegun, table 26.1).
func TestUncertainKeys(t *testing.T) {
	const share = 1.281552 / 1.644854
	require.Empty(t, oddsOf(t, readDoubted(t, "")).Unknowns)
	for _, r := range samples.Each(3, []struct{ key, doubt, low, high string }{
		{"feed.speed", `deviation = "0.2 mm/s"`, "1.7436896 mm/s", "2.2563104 mm/s"},
		{"zone.tube.temperature", `deviation = "4 K"`, "85.126208 °C", "74.873792 °C"},
		{"zone.tube.length", `low = "9 m"` + "\n" + `high = "15 m"`, format(12*math.Pow(15.0/12, share), "m"), format(12*math.Pow(9.0/12, share), "m")},
		{"room.humidity", `low = "30 %"` + "\n" + `high = "60 %"`, format(50*math.Pow(0.6, share), "%"), format(50*math.Pow(1.2, share), "%")},
		{"zone.tube.air.dew_point", `low = "-30 °C"` + "\n" + `high = "-5 °C"`, format(-20-10*share, "°C"), format(-20+15*share, "°C")},
		{"strand.properties.diffusivity.value", `low = "4e-13 m2/s"` + "\n" + `high = "1.6e-12 m2/s"`, format(8e-13*math.Pow(2, share), "m2/s"), format(8e-13*math.Pow(2, -share), "m2/s")},
		{"strand.properties.sorption.saturation", `low = "1.2 %"` + "\n" + `high = "2 %"`, format(1.5*math.Pow(0.8, share), "%"), format(1.5*math.Pow(2/1.5, share), "%")},
	}) {
		s := readDoubted(t, "[[uncertain]]\nkey = \""+r.key+"\"\n"+r.doubt+"\n")
		o := oddsOf(t, s)
		require.Len(t, o.Unknowns, 1, r.key)
		require.InEpsilon(t, contentAt(t, s, r.key, r.low), o.Low, 0.01, r.key)
		require.InEpsilon(t, contentAt(t, s, r.key, r.high), o.High, 0.01, r.key)
		require.Empty(t, s.Unused)
	}
}

func format(x float64, unit string) string { return strconv.FormatFloat(x, 'g', 12, 64) + " " + unit }

// A limit that is stated with its doubt weighs as one of the material does.
func TestUncertainLimit(t *testing.T) {
	s := readDoubted(t, "[[uncertain]]\nkey = \"strand.limit\"\nlow = \"0.1 %\"\nhigh = \"0.5 %\"\n")
	require.InDelta(t, 0.001, s.LimitRange.Min, 1e-12)
	require.InDelta(t, 0.005, s.LimitRange.Max, 1e-12)
	require.Empty(t, s.Given)
	o := oddsOf(t, s)
	width := math.Log(0.005/0.002) / materials.EndDeviate
	if o.Low > 0.002 {
		require.InDelta(t, math.Erfc(math.Log(o.Low/0.002)/width/math.Sqrt2)/2, o.Probability, 1e-3)
	} else {
		width = math.Log(0.002/0.001) / materials.EndDeviate
		require.InDelta(t, 1-math.Erfc(-math.Log(o.Low/0.002)/width/math.Sqrt2)/2, o.Probability, 1e-3)
	}
	require.True(t, o.Probability > 0.01 && o.Probability < 0.99, "a case that tests nothing")
}

// What a study has changed stays changed: the doubt goes along with it.
func TestUncertainKeysOfAChangedModel(t *testing.T) {
	s := readDoubted(t, "[[uncertain]]\nkey = \"zone.tube.length\"\ndeviation = \"1 m\"\n")
	m := s.Model
	m.Path = append([]diffusion.Zone(nil), m.Path...)
	m.Path[0].Length, m.Speed = 30, 4e-3
	require.NoError(t, s.Given[0].Change(&m, 2))
	require.InDelta(t, 32, m.Path[0].Length, 1e-9)
	require.InDelta(t, 4e-3, m.Speed, 0)
	require.InDelta(t, 12, s.Model.Path[0].Length, 0)
}

func TestUncertainFaults(t *testing.T) {
	for text, said := range map[string]string{
		"key = \"feed.sped\"\ndeviation = \"1 mm/s\"":                                                               "feed.speed",
		"key = \"numerics.resolution\"\ndeviation = 1":                                                              "does not act",
		"key = \"build.longest\"\ndeviation = \"1 m\"":                                                              "does not act",
		"key = \"strand.properties.softening\"\ndeviation = \"1 K\"":                                                "does not act",
		"key = \"feed.speed\"":                                                                                      "deviation",
		"key = \"feed.speed\"\nlow = \"1 mm/s\"":                                                                    "high",
		"key = \"feed.speed\"\nlow = \"3 mm/s\"\nhigh = \"4 mm/s\"":                                                 "between low and high",
		"key = \"feed.speed\"\ndeviation = \"1 mm/s\"\nlow = \"1 mm/s\"":                                            "low",
		"key = \"feed.flow\"\ndeviation = \"1 mm3/s\"":                                                              "no number of the scenario",
		"key = \"feed.speed\"\ndeviation = \"1 mm/s\"\n[[uncertain]]\nkey = \"feed.speed\"\ndeviation = \"1 mm/s\"": "uncertain twice",
		"key = \"feed.speed\"\ndeviation = \"0 mm/s\"":                                                              "deviation",
		"key = \"strand.limit\"\nlow = \"0.1 %\"\nhigh = \"500 %\"":                                                 "high",
	} {
		_, err := Read("doubted.toml", []byte(doubted+"[[uncertain]]\n"+text+"\n"))
		require.ErrorContains(t, err, said, text)
		require.ErrorContains(t, err, "doubted.toml")
		require.Contains(t, strings.ToLower(err.Error()), "uncertain", text)
	}
}

// What a doubt makes of the model is what reading the scenario with the value makes of it, between the deviates at which that was done, and beyond them.
func TestDoubtsFollowTheScenario(t *testing.T) {
	s := read(t, `
[strand]
material = "pa6"
[feed]
speed = "2 mm/s"
[[zone]]
name = "drum"
length = "12 m"
temperature = "80 °C"
air = { dew_point = "-20 °C", flow = "5 L/min", direction = "against" }
shape = { kind = "drum", diameter = "150 mm", pitch = "3 mm" }
[[uncertain]]
key = "zone.drum.temperature"
deviation = "4 °C"
[[uncertain]]
key = "zone.drum.air.dew_point"
deviation = "5 °C"
[[uncertain]]
key = "zone.drum.air.flow"
low = "3 L/min"
high = "8 L/min"
[[uncertain]]
key = "room.humidity"
deviation = "8 %"
`)
	require.Len(t, s.Given, 4)
	for i, given := range s.Given {
		for _, z := range []float64{-6, -3.3, -1.2816, 0, 0.1, 0.75, 2.9, 5} {
			u := s.Uncertain[i]
			want, err := s.With(u.Key.Setting(u.At(z), 17))
			require.NoError(t, err)
			m := s.Model
			m.Path, m.Storage = slices.Clone(m.Path), slices.Clone(m.Storage)
			require.NoError(t, given.Change(&m, z))
			got := m.Path[0].Air
			for k, pair := range [][2]float64{
				{want.Model.Path[0].Air.Temperature, got.Temperature}, {want.Model.Path[0].Air.VapourPressure, got.VapourPressure},
				{want.Model.Path[0].Air.VolumeFlow, got.VolumeFlow}, {want.Model.Start, m.Start}, {want.Model.StartActivity, m.StartActivity},
			} {
				require.InDelta(t, pair[0], pair[1], 2e-4*pair[0], "%s at %g: %d", given.Name, z, k)
			}
		}
	}
}

// A doubt that is wider than what a key takes ends where that does.
func TestDoubtsEndWhereTheirKeysDo(t *testing.T) {
	s := readDoubted(t, `
[[uncertain]]
key = "room.humidity"
deviation = "30 %"
`)
	for z := -5.0; z <= 5; z += 0.1 {
		m := s.Model
		require.NoError(t, s.Given[0].Change(&m, z))
		require.GreaterOrEqual(t, m.StartActivity, 0.0)
		require.LessOrEqual(t, m.StartActivity, 1.0)
		require.InDelta(t, s.Uncertain[0].At(z), m.StartActivity, 0.005)
	}
}
