package suits_test

import (
	"context"
	"encoding/json"
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion"
	"strandry/diffusion/advice"
	"strandry/materials"
	"strandry/materials/humidair"
	"strandry/scenarios"
	"strandry/scenarios/studies/rest"
	"strandry/scenarios/studies/size"
	"strandry/scenarios/studies/suits"
)

func demo(t testing.TB, name string) *scenarios.Scenario {
	t.Helper()
	s, err := scenarios.Demo(name)
	require.NoError(t, err)
	return s
}

func find(t testing.TB, s *scenarios.Scenario, names ...string) *suits.Answer {
	t.Helper()
	all := make([]materials.Polymer, len(names))
	for i, name := range names {
		p, err := materials.Lookup(name)
		require.NoError(t, err)
		all[i] = p
	}
	answer, err := suits.Find(context.Background(), s, all, 6*3600)
	require.NoError(t, err)
	return answer
}

// Every figure of the first view against a scenario that is written with that material, its
// drying temperature and no stated start, and so begins in equilibrium with the room.
func TestRowsAreThoseOfDirectRuns(t *testing.T) {
	s := demo(t, "clear-cover")
	answer := find(t, s, "abs", "pla")
	require.Equal(t, "oven", answer.Zone)
	for _, r := range answer.Soaked {
		p := r.Material
		at := func(set ...scenarios.Setting) *scenarios.Scenario {
			direct, err := s.With(append([]scenarios.Setting{
				{Key: "strand.material", Value: p.ID},
				{Key: "zone.oven.temperature", Value: kelvin(p.DryingTemperature.Value)},
			}, set...)...)
			require.NoError(t, err)
			return direct
		}
		direct := at()
		a, err := diffusion.NewMarch().Assess(&direct.Design, direct.Settings)
		require.NoError(t, err)
		require.InEpsilon(t, a.Start.Mean, r.Start, 1e-9)
		// The flow of dry air that the scenario makes of a volume does not rest on the zone.
		require.InEpsilon(t, a.Nozzle.Mean, r.Mean, 1e-6, p.ID)
		require.InDelta(t, a.Probability, r.Odds.Probability, 1e-3, "the same odds")
		require.InEpsilon(t, a.Low, r.Odds.Low, 1e-3)
		require.InEpsilon(t, a.High, r.Odds.High, 1e-3)
		require.Equal(t, a.Verdict, r.Verdict)
		// Over ice at -10 °C: 259.9 Pa (Goff & Gratch, Smithsonian tables, from memory, to the last digit).
		dryness := 259.9 / humidair.SaturationPressure(p.DryingTemperature.Value)
		require.InEpsilon(t, p.Sorption.Content(dryness, p.DryingTemperature.Value), r.Floor, 1e-3)
		if r.Needed.Outcome != size.Met {
			continue
		}
		long := at(scenarios.Setting{Key: "zone.oven.length", Value: metres(r.Length())})
		a, err = diffusion.NewMarch().Assess(&long.Design, long.Settings)
		require.NoError(t, err)
		require.InDelta(t, r.Limit, a.Nozzle.Mean, a.NumericalError+1e-4*r.Limit)
		reliable := at(scenarios.Setting{Key: "zone.oven.length", Value: metres(r.Reliable.Value)})
		o, err := diffusion.NewMarch().Odds(&reliable.Design, reliable.Settings)
		require.NoError(t, err)
		require.InDelta(t, diffusion.NineInTen, o.Probability, 0.02, p.ID)
	}
}

func kelvin(x float64) string { return fmt.Sprintf("%.15g K", x) }

func metres(x float64) string { return fmt.Sprintf("%.15g m", x) }

// Groups in their order, and each in its own.
func TestOrder(t *testing.T) {
	for _, name := range []string{"lamp-shade", "opened-yesterday"} {
		s := demo(t, name)
		answer := find(t, s, "pla", "pa6", "abs", "pp")
		for _, rows := range [][]suits.Row{answer.Soaked, answer.Opened} {
			for i := range rows {
				r := &rows[i]
				switch r.Class {
				case suits.AsItIs:
					require.LessOrEqual(t, r.Start, r.Limit)
					require.True(t, r.Rest.Already)
				case suits.Buildable:
					require.LessOrEqual(t, r.Length(), s.Build.Longest)
				case suits.TooLong:
					require.Greater(t, r.Length(), s.Build.Longest)
				case suits.Forbidden:
					require.True(t, math.IsInf(r.Length(), 1))
					require.Equal(t, r.Floor > r.Limit, r.Obstacle == advice.Air)
					require.Equal(t, r.Floor > r.Limit, r.Rest.Never)
				}
				if i == 0 {
					continue
				}
				before := &rows[i-1]
				require.LessOrEqual(t, before.Class, r.Class)
				if before.Class == r.Class && (r.Class == suits.Buildable || r.Class == suits.TooLong) {
					require.LessOrEqual(t, before.Length(), r.Length())
				}
			}
		}
	}
}

// Within a class the rows go by what is missing: by the content over the limit, not by the content (HIPS holds more water
// than PPS and is further within its limit), and where no length will do by what is left of it.
func TestOrderWithinClasses(t *testing.T) {
	s, err := demo(t, "lamp-shade").With(scenarios.Setting{Key: "strand.limit", Value: "printing"})
	require.NoError(t, err)
	rows := find(t, s, "pla", "pps", "pva", "hips").Soaked
	var names []string
	for _, r := range rows {
		names = append(names, r.Material.ID)
	}
	require.Equal(t, []string{"hips", "pps", "pla", "pva"}, names)
	require.Greater(t, rows[0].Start, rows[1].Start)
	require.Equal(t, suits.AsItIs, rows[1].Class)
	require.Greater(t, rows[1].Start/rows[1].Limit, rows[0].Start/rows[0].Limit)
	require.Equal(t, suits.Forbidden, rows[3].Class)
}

// What can be built is built up to the very length, and not beyond.
func TestEdgeOfWhatCanBeBuilt(t *testing.T) {
	s := demo(t, "clear-cover")
	length := find(t, s, "abs").Soaked[0].Length()
	for share, class := range map[float64]suits.Class{1.001: suits.Buildable, 0.999: suits.TooLong} {
		s.Build.Longest = share * length
		require.Equal(t, class, find(t, s, "abs").Soaked[0].Class, "%g", share)
	}
}

// Where the strand lay in the scenario does not count: a room of its own, far colder, leaves every row as it is.
func TestWhereItLayDoesNotCount(t *testing.T) {
	s := demo(t, "clear-cover")
	cold, err := s.With(scenarios.Setting{Key: "strand.room.temperature", Value: "2 °C"}, scenarios.Setting{Key: "strand.room.humidity", Value: "30 %"})
	require.NoError(t, err)
	require.NotEqual(t, s.Model.Start, cold.Model.Start)
	require.Equal(t, numbers(t, find(t, s, "petg").Soaked), numbers(t, find(t, cold, "petg").Soaked))
}

// numbers are all that rows tell, to the bit.
func numbers(t *testing.T, rows []suits.Row) string {
	t.Helper()
	text, err := json.Marshal(rows)
	require.NoError(t, err)
	return string(text)
}

// The dwell that is needed goes with R²/D: twice the radius at a quarter of the speed, which
// is the same flow of polymer, needs the same length.
func TestDwellGoesWithTheSquareOfTheRadius(t *testing.T) {
	s := demo(t, "clear-cover")
	thick, err := s.With(scenarios.Setting{Key: "strand.diameter", Value: "3.5 mm"},
		scenarios.Setting{Key: "feed.speed", Value: "0.25 mm/s"}, scenarios.Setting{Key: "zone.guide.length", Value: "1 mm"})
	require.NoError(t, err)
	thin, err := s.With(scenarios.Setting{Key: "zone.guide.length", Value: "1 mm"})
	require.NoError(t, err)
	for _, p := range []string{"petg"} {
		a, b := find(t, thin, p).Soaked[0], find(t, thick, p).Soaked[0]
		// Film and heating scale otherwise; they are a small part of hours of diffusion.
		require.InEpsilon(t, a.Length(), b.Length(), 0.05, p)
		require.InEpsilon(t, 4*a.Rest.Seconds, b.Rest.Seconds, 0.05, p)
	}
}

// The scenario's own material keeps the properties and the limit that the scenario gives it.
func TestOwnMaterial(t *testing.T) {
	s, err := demo(t, "clear-cover").With(scenarios.Setting{Key: "strand.limit", Value: "0.05 %"},
		scenarios.Setting{Key: "strand.properties.drying_temperature", Value: "100 °C"}, scenarios.Setting{Key: "nozzle.temperature", Value: "300 °C"})
	require.NoError(t, err)
	require.InDelta(t, 573.15, suits.Design(s, &s.Model.Material, 0).NozzleTemperature, 1e-9)
	library, err := materials.Lookup("pc")
	require.NoError(t, err)
	answer, err := suits.Find(t.Context(), s, []materials.Polymer{library, s.Model.Material}, 6*3600)
	require.NoError(t, err)
	limits, heated := map[string]float64{}, map[string]float64{}
	for _, r := range answer.Soaked {
		require.Equal(t, "pc", r.Material.ID)
		limits[r.Material.Origin], heated[r.Material.Origin] = r.Limit, r.Heated
	}
	own := s.Model.Material.Origin
	require.NotEqual(t, materials.FromLibrary, own)
	require.InDelta(t, 5e-4, limits[own], 1e-12)
	require.InDelta(t, 373.15, heated[own], 1e-9)
	require.InDelta(t, library.PrintingLimit.Value, limits[materials.FromLibrary], 1e-12, "the library's is another one")
	require.InDelta(t, library.DryingTemperature.Value, heated[materials.FromLibrary], 1e-9)
	one := find(t, s, "pc")
	require.Len(t, one.Soaked, 1)
	require.Less(t, one.Opened[0].Start, one.Soaked[0].Start, "six hours in the room do not wet it through")
}

// A strand that lay in the room for very long is one in equilibrium with it.
func TestLainForEver(t *testing.T) {
	s := demo(t, "clear-cover")
	p, err := materials.Lookup("petg")
	require.NoError(t, err)
	answer, err := suits.Find(context.Background(), s, []materials.Polymer{p}, 300*86400)
	require.NoError(t, err)
	require.InEpsilon(t, answer.Soaked[0].Start, answer.Opened[0].Start, 1e-3)
	require.InEpsilon(t, answer.Soaked[0].Length(), answer.Opened[0].Length(), 1e-2)
}

func TestStopsWithItsContext(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	library, err := materials.Library()
	require.NoError(t, err)
	_, err = suits.Find(ctx, demo(t, "winch-drum"), library, 3600)
	require.ErrorIs(t, err, context.Canceled)
}

func ExampleFind() {
	s, err := scenarios.Demo("clear-cover")
	if err != nil {
		fmt.Println(err)
		return
	}
	p, err := materials.Lookup("abs")
	if err != nil {
		fmt.Println(err)
		return
	}
	answer, err := suits.Find(context.Background(), s, []materials.Polymer{p}, 6*3600)
	if err != nil {
		fmt.Println(err)
		return
	}
	r := answer.Soaked[0]
	fmt.Printf("%s: %s, %s, needs %.1f m\n", r.Material.Name, r.Class, r.Verdict, r.Length())
	// Output: ABS: buildable, dry, needs 0.5 m
}

const oven = `title = "an oven of still air"
[strand]
material = "pc"
[feed]
speed = "1 mm/s"
[[zone]]
name = "oven"
length = "3 m"
temperature = "110 °C"
air = { dew_point = "-20 °C" }
`

// On a path of one zone of still air, a strand that runs and one that lies see the same: rest is the dwell,
// for strands that are wet throughout and for those whose skin alone is.
func TestRestIsTheDwellInStillAir(t *testing.T) {
	s, err := scenarios.Read("oven.toml", []byte(oven))
	require.NoError(t, err)
	answer := find(t, s, "pa66", "pc", "abs", "petg", "pva", "pla")
	met := 0
	for _, rows := range [][]suits.Row{answer.Soaked, answer.Opened} {
		for _, r := range rows {
			for _, c := range []struct {
				outcome size.Outcome
				length  float64
				rest    rest.Time
				within  float64
			}{
				{r.Needed.Outcome, r.Needed.Value, r.Rest, 1e-3},
				{r.Reliable.Outcome, r.Reliable.Value, rest.Time{Already: r.RestReliable.Already, Never: r.RestReliable.Never, Seconds: r.RestReliable.Seconds}, 0.07},
			} {
				require.Equal(t, c.outcome == size.Met, c.rest.Seconds > 0, r.Material.ID)
				require.Equal(t, c.outcome == size.Nowhere, c.rest.Never, r.Material.ID)
				require.Equal(t, c.outcome == size.Everywhere, c.rest.Already, r.Material.ID)
				if c.rest.Seconds > 0 {
					met++
					require.InEpsilon(t, c.length/answer.Speed, c.rest.Seconds, c.within, r.Material.ID)
				}
			}
		}
	}
	require.Greater(t, met, 13)
}

// Behind a dryer that would do, a zone of moist air needs no length: its strand is wet again after some.
func TestNoneNeeded(t *testing.T) {
	s, err := scenarios.Read("oven.toml", []byte(oven+"[[zone]]\nname = \"steam\"\nlength = \"90 m\"\ntemperature = \"80 °C\"\nair = { humidity = \"30 %\" }\n"))
	require.NoError(t, err)
	m := suits.Design(s, &s.Model.Material, 0)
	m.Path[0].Length = 20
	l, err := size.ShortestOf(diffusion.NewMarch(), m, 1, s.Settings)
	require.NoError(t, err)
	require.Equal(t, size.Met, l.Outcome)
	require.True(t, l.None())
	require.Zero(t, suits.Needed(l))
}

// A material whose water the air cannot take has no answer on this path, and says why; the others have theirs.
func TestUnanswered(t *testing.T) {
	s, err := scenarios.Read("little.toml", []byte(strings.Replace(oven, `"-20 °C"`, `"-20 °C", flow = "0.02 L/min", direction = "against"`, 1)))
	require.NoError(t, err)
	answer := find(t, s, "pva", "pc")
	for _, rows := range [][]suits.Row{answer.Soaked, answer.Opened} {
		require.Equal(t, "pc", rows[0].Material.ID)
		require.Positive(t, rows[0].Mean)
	}
	last := answer.Soaked[1]
	require.Equal(t, suits.Unanswered, last.Class)
	require.Contains(t, last.Failed, "so little air")
	require.True(t, math.IsInf(last.Length(), 1))
}

// A wet skin that dips below the limit for a minute before the core is wet: rest finds it as the length does.
func TestShortDip(t *testing.T) {
	text := strings.NewReplacer(`"pc"`, "\"pla\"\nlimit = \"0.0507759 %\"", `"3 m"`, `"1 m"`, `"110 °C"`, `"23 °C"`, `dew_point = "-20 °C"`, `humidity = "30 %"`).Replace(oven) +
		"[room]\ntemperature = \"23 °C\"\nhumidity = \"80 %\"\n[strand.properties]\ndiffusivity = { value = \"4.0e-12 m2/s\", piece = [{ activation = \"43 kJ/mol\" }] }\n" +
		"sorption = { linear = \"0.7 %\", power = \"0.2 %\", exponent = 12, mixing_enthalpy = \"3 kJ/mol\" }\n"
	s, err := scenarios.Read("dip.toml", []byte(text))
	require.NoError(t, err)
	answer, err := suits.Find(context.Background(), s, []materials.Polymer{s.Model.Material}, 600)
	require.NoError(t, err)
	r := answer.Opened[0]
	require.Greater(t, r.Floor, r.Limit)
	require.Equal(t, size.Met, r.Needed.Outcome)
	require.InEpsilon(t, r.Needed.Value/answer.Speed, r.Rest.Seconds, 1e-3)
}
