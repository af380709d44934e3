package size_test

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion"
	"strandry/diffusion/advice"
	"strandry/diffusion/samples"
	"strandry/scenarios"
	"strandry/scenarios/studies/size"
)

func demo(t testing.TB, name string, set ...scenarios.Setting) *scenarios.Scenario {
	t.Helper()
	s, err := scenarios.Demo(name)
	require.NoError(t, err)
	s, err = s.With(set...)
	require.NoError(t, err)
	return s
}

func find(t testing.TB, s *scenarios.Scenario, key string) *size.Answer {
	t.Helper()
	a, err := size.Find(diffusion.NewMarch(), s, size.Request{Key: key})
	require.NoError(t, err)
	return a
}

// mean runs the scenario with a value of the key.
func mean(t testing.TB, s *scenarios.Scenario, key string, value string) (mean, limit float64) {
	t.Helper()
	at, err := s.With(scenarios.Setting{Key: key, Value: value})
	require.NoError(t, err)
	var r diffusion.Result
	require.NoError(t, diffusion.NewMarch().Run(&at.Model, at.Settings, &r))
	return r.Nozzle.Mean, at.Limit
}

type question struct {
	demo, key string
	rises     bool // the content rises with the value
}

func questions() []question {
	return []question{
		{"winch-drum", "zone.drum.length", false}, {"winch-drum", "strand.moisture", true},
		{"opened-yesterday", "zone.warm tube.length", false}, {"opened-yesterday", "feed.flow", true},
		{"opened-yesterday", "strand.storage.1.duration", true}, {"clear-cover", "zone.oven.length", false},
		{"clear-cover", "feed.speed", true}, {"clear-cover", "zone.oven.temperature", false},
		{"clear-cover", "zone.guide.length", true},
	}
}

// A value that is fed back into a run lands on the limit within the numerical error that is
// printed, and one sweep of our own across the value, in steps of a thousandth of it, crosses the limit
// within the printed error of the value.
func TestAnswersAgreeWithAFineSweep(t *testing.T) {
	for _, q := range samples.Each(4, questions()) {
		t.Run(q.demo+" "+q.key, func(t *testing.T) {
			t.Parallel()
			s := demo(t, q.demo)
			a := find(t, s, q.key)
			require.Equal(t, size.Met, a.Outcome)
			content, limit := mean(t, s, q.key, a.Setting.Value)
			require.InDelta(t, limit, content, a.Check.NumericalError)
			require.Equal(t, content, a.Check.Nozzle.Mean)
			require.Positive(t, a.NumericalError)
			require.Less(t, a.NumericalError, 2e-3*a.Value)
			require.LessOrEqual(t, a.DryFrom, a.Value)
			require.LessOrEqual(t, a.Value, a.DryTo)

			step := 1e-3 * a.Value
			crossed := math.NaN()
			before := math.NaN()
			for i := -5; i <= 5; i++ {
				x := a.Value + float64(i)*step
				content, limit := mean(t, s, q.key, a.Key.Setting(x, 16).Value)
				off := content/limit - 1
				if q.rises {
					off = -off
				}
				if before > 0 && off <= 0 { // by a straight line between the two
					crossed = x - step*off/(off-before)
				}
				before = off
			}
			require.InDelta(t, a.Value, crossed, a.NumericalError)
		})
	}
}

// The printed error of the value covers what a much finer march finds.
func TestNumericalErrorOfTheValue(t *testing.T) {
	if testing.Short() {
		t.Skip("no two goroutines meet here")
	}
	for i, q := range questions() {
		if i%3 != 2 || i > samples.Of(5, 8, 8) {
			continue
		}
		s := demo(t, q.demo)
		rough := find(t, s, q.key)
		finer := find(t, demo(t, q.demo, scenarios.Setting{Key: "numerics.resolution", Value: "12"},
			scenarios.Setting{Key: "numerics.tolerance", Value: "5e-5"}), q.key)
		require.InDelta(t, finer.Value, rough.Value, rough.NumericalError+finer.NumericalError, q.key)
	}
}

// The band of a value is that of the content over the slope of its logarithm. With the surface held and most of the water
// gone, only the first term of the series of the cylinder is left, and the logarithm falls by j0² Fo, j0 = 2.404826
// (Crank, The Mathematics of Diffusion, eq. 5.23, number from memory); Fo goes with the length and, by
// Arrhenius, with the temperature.
func TestBandIsThatOfTheContentOverTheSlope(t *testing.T) {
	s, err := scenarios.Read("held.toml", []byte(`title = "a surface held dry"
[strand]
material = "pc"
moisture = "0.3 %"
[feed]
speed = "1 mm/s"
[[zone]]
name = "box"
length = "20 m"
temperature = "40 °C"
air = { vapour_pressure = "0.1 Pa" }
h = "100 W/m2/K"
k_m = "1 m/s"
`))
	require.NoError(t, err)
	const j02 = 2.404826 * 2.404826
	p, radius := s.Model.Material, s.Model.Radius
	fourier := func(length, temperature float64) float64 {
		return p.Diffusivity.Dry(temperature) * length / (1e-3 * radius * radius)
	}
	off := func(a *size.Answer) float64 {
		mean := a.Check.Nozzle.Mean
		return (a.Check.NumericalError + math.Abs(mean-a.Design.Limit)) / mean
	}
	a := find(t, s, "zone.box.length")
	require.InEpsilon(t, a.Value*off(a)/(j02*fourier(a.Value, 313.15)), a.NumericalError, 0.01)
	a = find(t, s, "zone.box.temperature")
	slope := j02 * fourier(20, a.Value) * 33.1e3 / (8.314462618 * a.Value * a.Value) // of Golovoy & Zinbo, 33.1 kJ/mol
	require.InEpsilon(t, off(a)/slope, a.NumericalError, 0.02)
}

// In the regular regime time enters through D t alone: with air without limit, a strand lumped in heat
// and a single zone, the length at a diffusivity f times as large is the f-th part. The film
// takes a share that does not scale, hence the per cent.
func TestLengthScalesWithTheDiffusivity(t *testing.T) {
	s, err := scenarios.Read("one.toml", []byte(`
[strand]
material = "pa12"
moisture = "1 %"
[feed]
speed = "1 mm/s"
[nozzle]
temperature = "250 °C"
[[zone]]
name = "box"
length = "4 m"
temperature = "80 °C"
air = { dew_point = "-40 °C" }
k_m = "1 m/s"
`))
	require.NoError(t, err)
	a := find(t, s, "zone.box.length")
	slow := *s
	slow.Model.Material.Diffusivity.ReferenceValue.Value *= 0.4
	require.InEpsilon(t, 1/0.4, findModel(t, &slow).Value/a.Value, 0.01)
	require.LessOrEqual(t, a.Marches, 45)
	slower := find(t, demoOf(t, s, "feed.speed", "0.5 mm/s"), "zone.box.length")
	require.InEpsilon(t, a.Value/2, slower.Value, 1e-3)
	speed := find(t, s, "feed.speed")
	require.InEpsilon(t, 4/a.Value, speed.Value/1e-3, 1e-3, "length over speed is what counts")
}

func findModel(t *testing.T, s *scenarios.Scenario) size.Length {
	t.Helper()
	l, err := size.LengthOf(diffusion.NewMarch(), &s.Design, 0, s.Settings)
	require.NoError(t, err)
	return l
}

func demoOf(t *testing.T, s *scenarios.Scenario, key, value string) *scenarios.Scenario {
	t.Helper()
	s, err := s.With(scenarios.Setting{Key: key, Value: value})
	require.NoError(t, err)
	return s
}

// No length mends air whose own equilibrium is above the limit.
func TestFloorOfTheAirIsRefused(t *testing.T) {
	s := demo(t, "lamp-shade")
	for _, key := range []string{"zone.warm box.length", "zone.warm box.temperature", "feed.bead.speed"} {
		a := find(t, s, key)
		require.Equal(t, size.Nowhere, a.Outcome)
		require.Equal(t, advice.Air, a.Diagnosis.Cause, key)
		z := a.Design.Path[0]
		require.InEpsilon(t, a.Design.Material.Sorption.Content(a.Check.Zones[0].AirActivity, z.Air.Temperature), a.Diagnosis.Floor, 1e-9)
		require.Greater(t, a.Diagnosis.Floor, a.Design.Limit)
		require.Equal(t, size.Nowhere, a.Reliable.Outcome)
		require.Equal(t, a.Check.Probability, a.Reliable.Probability)
		require.Zero(t, a.NumericalError)
	}
}

// A slower feed dries longer in the drum and takes up water for longer behind it: the driest
// speed lies between, and both of its neighbours are wetter.
func TestRewettingHasABestSpeed(t *testing.T) {
	if testing.Short() {
		t.Skip("no two goroutines meet here")
	}
	s := demo(t, "winch-drum", scenarios.Setting{Key: "strand.limit", Value: "moulding"})
	a := find(t, s, "feed.speed")
	require.Equal(t, size.Nowhere, a.Outcome)
	require.True(t, a.Inside)
	require.Equal(t, advice.Rewetting, a.Diagnosis.Cause)
	for _, factor := range []float64{0.8, 1.25} {
		content, _ := mean(t, s, "feed.speed", a.Key.Setting(factor*a.Value, 12).Value)
		require.Greater(t, content, a.Check.Nozzle.Mean)
	}
	// With a short guide the same question has two answers, and what lies between is dry.
	short := demoOf(t, s, "zone.guide.length", "20 mm")
	a = find(t, short, "feed.speed")
	require.Equal(t, size.Met, a.Outcome)
	require.Less(t, a.DryFrom, a.DryTo)
	require.InDelta(t, a.DryTo, a.Value, 1e-6*a.Value, "the faster end is next to the speed in force")
	for _, x := range []float64{1.01 * a.DryFrom, 0.99 * a.DryTo} {
		content, limit := mean(t, short, "feed.speed", a.Key.Setting(x, 12).Value)
		require.Less(t, content, limit)
	}
	content, limit := mean(t, short, "feed.speed", a.Key.Setting(0.99*a.DryFrom, 12).Value)
	require.Greater(t, content, limit)
}

func TestRanges(t *testing.T) {
	if testing.Short() {
		t.Skip("no two goroutines meet here")
	}
	w := diffusion.NewMarch()
	ask := func(name, key string, ends ...string) (*size.Answer, error) {
		r := size.Request{Key: key}
		if len(ends) == 2 {
			r.From, r.To = &ends[0], &ends[1]
		}
		s := demo(t, name, scenarios.Setting{Key: "numerics.resolution", Value: "2.5"}, scenarios.Setting{Key: "numerics.tolerance", Value: "0.05"})
		if name == "winch-drum" { // without its cover
			s = demoOf(t, s, "zone.drum.exposed", "100 %")
		}
		return size.Find(w, s, r)
	}
	a, err := ask("winch-drum", "zone.drum.temperature")
	require.NoError(t, err)
	require.True(t, a.Usual)
	require.InDelta(t, a.Design.Material.DryingTemperature.Value, a.To, 1e-9)
	require.Equal(t, size.Nowhere, a.Outcome)
	require.Equal(t, advice.Time, a.Diagnosis.Cause)
	a, err = ask("winch-drum", "zone.drum.temperature", "80 °C", "160 °C")
	require.NoError(t, err)
	require.False(t, a.Usual)
	require.Equal(t, size.Met, a.Outcome)

	a, err = ask("clear-cover", "zone.oven.length", "20 m", "50 m")
	require.NoError(t, err)
	require.Equal(t, size.Everywhere, a.Outcome)
	a, err = ask("winch-drum", "zone.drum.length", "1 m", "50 m")
	require.NoError(t, err)
	require.Equal(t, size.Nowhere, a.Outcome)
	require.InDelta(t, 50, a.Value, 1e-9)
	require.False(t, a.Inside, "the longest is the driest")
	a, err = ask("lamp-shade", "zone.warm box.air.dew_point") // not in the file
	require.NoError(t, err)
	require.True(t, a.Narrowed, "no dew point above the air's own temperature")
	require.InDelta(t, 273.15+45, a.To, 0.1)

	// So little air that the march has no answer.
	a, err = ask("winch-drum", "zone.drum.air.flow", "0.0002 L/min", "50 L/min")
	require.NoError(t, err)
	require.True(t, a.Narrowed)
	require.Equal(t, size.Nowhere, a.Outcome)
	require.Equal(t, size.Nowhere, a.Reliable.Outcome)

	for _, c := range []struct{ key, from, to, says string }{
		{"zone.drum.lenght", "1 m", "2 m", `did you mean "zone.drum.length"?`},
		{"numerics.resolution", "2", "3", "it is a setting of the solver; try zone.drum.length, feed.speed, zone.drum.temperature"},
		{"zone.warm.length", "1 m", "2 m", `the path has no zone "warm", only drum, guide; try zone.drum.length, zone.guide.length, feed.speed`},
		{"feed.flow", "1 mm3/s", "2 mm3/s", "the file says feed.speed in its place; try feed.speed, zone.drum.air.flow, zone.drum.length"}, {"zone.drum.contact.share", "1 %", "5 %", "the file says zone.drum.exposed in its place; try zone.drum.exposed"},
		{"strand.room.humidity", "1 %", "2 %", "try strand.moisture, room.humidity"}, {"zone.drum.air.humidity", "1 %", "2 %", "the file says zone.drum.air.dew_point in its place"},
		{"strand.material", "1", "2", "it is a name and no number; strandry suits compares"}, {"zone.drum.vertical", "1", "2", "it is a word and no number"},
		{"zone.drum.contact.arcs", "1", "2", "the file says zone.drum.exposed"}, {"zone.drum", "1", "2", "it is a whole zone"}, {"zone.drum.name", "1", "2", "it is a name"},
		{"store.humidity", "1 %", "2 %", "strandry keeps tells; try room.humidity"}, {"speed", "1", "2", "no such number; try feed.speed"}, {"foo", "1", "2", "try zone.drum.length, feed.speed"},
		{"pull.spool", "1 N", "2 N", "it is about the machine"}, {"zone.drum.wall.insulation", "1 mm", "2 mm", "it is about the machine"}, {"zone.drum.heater", "1 W", "2 W", "it is about the machine"},
		{"build.longest", "2 m", "3 m", "it only says what can be built"},
		{"zone.drum.length", "2 m", "1 m", "nothing lies between"},
		{"zone.drum.length", "2", "3 m", "a length needs its unit"},
		{"zone.drum.length", "-3 m", "-2 m", "outside the limits"},
		{"zone.drum.shape.pitch", "2 mm", "3 mm", "nothing that it is set to changes"},
	} {
		_, err := ask("winch-drum", c.key, c.from, c.to)
		require.ErrorContains(t, err, c.says, c.key)
	}
}

// One march for all lengths gives the length that separate marches give.
func TestLengthOfAModel(t *testing.T) {
	s := demo(t, "clear-cover", scenarios.Setting{Key: "zone.oven.air.direction", Value: "with"})
	w := diffusion.NewMarch()
	l, err := size.LengthOf(w, &s.Design, 0, s.Settings)
	require.NoError(t, err)
	require.Equal(t, size.Met, l.Outcome)
	require.Less(t, l.Marches, 10)
	content, limit := mean(t, s, "zone.oven.length", fmt.Sprintf("%.17g m", l.Value))
	require.InEpsilon(t, limit, content, 1e-4)
	require.Less(t, l.NumericalError, 1e-3*l.Value)
	whole := find(t, s, "zone.oven.length")
	require.InDelta(t, whole.Value, l.Value, l.NumericalError)
	require.Greater(t, l.NumericalError, 0.5*whole.NumericalError) // it is told from a coarser march, not from a finer one
	require.Less(t, l.NumericalError, 4*whole.NumericalError)
	mixed := demo(t, "clear-cover")
	other, err := size.LengthOf(w, &mixed.Design, 0, mixed.Settings)
	require.NoError(t, err)
	require.InEpsilon(t, other.Value, l.Value, 0.02, "the air is hardly moister for the strand's water")
	own := find(t, mixed, "zone.oven.length") // the error of the other is told by the rough march next to it
	require.InDelta(t, own.Value, other.Value, other.NumericalError)
	require.Greater(t, other.NumericalError, 0.8*own.NumericalError)
	require.Less(t, other.NumericalError, 4*own.NumericalError)
}

// A strand that needs none of a zone does not soften on the shortest, though it would soften on those that dry it most; one that needs some is told of at the length that it needs.
func TestWhereALengthSurvives(t *testing.T) {
	d := demo(t, "clear-cover").Design
	d.Path = slices.Clone(d.Path)
	d.Path[0].Air.Temperature = d.Material.GivesWay().Max + 30
	d.Start, d.StartActivity = d.Limit/2, 0
	w := diffusion.NewMarch()
	none, err := size.LengthOf(w, &d, 0, diffusion.CoarseSettings())
	require.NoError(t, err)
	require.True(t, none.None())
	require.NotEqual(t, diffusion.Softens, none.Survives)
	d.Start = 3 * d.Limit
	some, err := size.LengthOf(w, &d, 0, diffusion.CoarseSettings())
	require.NoError(t, err)
	require.Equal(t, size.Met, some.Outcome)
	require.False(t, some.None())
	require.Equal(t, diffusion.Softens, some.Survives)
}

func ExampleFind() {
	s, err := scenarios.Demo("clear-cover")
	if err != nil {
		fmt.Println(err)
		return
	}
	a, err := size.Find(diffusion.NewMarch(), s, size.Request{Key: "zone.oven.length"})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%s: %.2f m\n", a.Outcome, a.Value)
	// Output: met: 1.03 m
}

// The least air that a range is narrowed to is one that a whole assessment takes, though the strand is driest
// in it: moist air against a dry strand. And air whose dew would lie on the cold strand however
// much of it there is does not lack flow.
func TestFlowAtTheEndOfItsRange(t *testing.T) {
	cases := map[string]string{"pva": `dew_point = "10 °C"`, "pa6": `humidity = "40 %"`}
	if samples.Of(1, 1, 2) == 1 {
		delete(cases, "pa6") // whose draws seek their air for long
	}
	for material, air := range cases {
		s, err := scenarios.Read("moist.toml", []byte(fmt.Sprintf(`title = "moist air"
[strand]
material = %q
moisture = "0.1 %%"
[feed]
speed = "2 mm/s"
[[zone]]
name = "dryer"
length = "2 m"
temperature = "40 °C"
air = { %s, flow = "5 L/min", direction = "against" }
[numerics]
resolution = 3
tolerance = 0.01
`, material, air)))
		require.NoError(t, err)
		a, err := size.Find(diffusion.NewMarch(), s, size.Request{Key: "zone.dryer.air.flow"})
		require.NoError(t, err, material)
		require.Positive(t, a.Check.Nozzle.Mean)
	}
}
