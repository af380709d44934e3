package scenarios

import (
	"math"
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion"
	"strandry/diffusion/film"
)

const (
	strandText = "[strand]\nmaterial = \"pa6\"\nmoisture = \"2 %\"\n"
	feedText   = "[feed]\nspeed = \"2 mm/s\"\n"
	zoneText   = "[[zone]]\nname = \"drum\"\nlength = \"12 m\"\ntemperature = \"90 °C\"\n"
)

func read(t *testing.T, parts ...string) *Scenario {
	t.Helper()
	s, err := Read("test.toml", []byte(strings.Join(parts, "")))
	require.NoError(t, err)
	return s
}

// Computed by CVODE (banded BDF) on 320 and 640 cells and extrapolated, to
// 2e-8; scipy's BDF agrees to 3e-8 at equal grid. Both are independent of
// this code. The tolerance is the promise of the default settings, 0.1 %.
func TestStandardTransit(t *testing.T) {
	for file, want := range map[string]float64{"transit-beta0": 2.34502e-3, "transit-beta20": 2.44487e-3} {
		s, err := Load("../testdata/transit/" + file + ".toml")
		require.NoError(t, err)
		require.InEpsilon(t, want, run(t, s).Nozzle.Mean, 1e-3, file)
	}
}

// Three statements of one feed. By hand: the section of a 1.75 mm strand is
// 2.405282 mm2, so 2 mm/s carry 4.810564 mm3/s, and a bead of 0.45 mm by 0.2 mm takes
// 53.45071 mm/s.
func TestFeedStatedInThreeWays(t *testing.T) {
	for _, feed := range []string{
		`speed = "2 mm/s"`, `speed = "120 mm/min"`, `flow = "4.810564 mm3/s"`,
		`bead = { width = "0.45 mm", height = "0.2 mm", speed = "53.45071 mm/s" }`,
	} {
		s := read(t, strandText, "[feed]\n", feed, "\n", zoneText)
		require.InEpsilon(t, 2e-3, s.Model.Speed, 1e-6, feed)
	}
	s := read(t, strings.Replace(strandText, "[strand]", "[strand]\ndiameter = \"2.85 mm\"", 1), feedText, zoneText)
	require.InDelta(t, 1.425e-3, s.Model.Radius, 1e-12)
	require.InDelta(t, 2e-3, s.Model.Speed, 1e-12)
}

// Saturation pressures: 2339 Pa at 20 °C and 2810 Pa at 23 °C (steam tables, from
// memory, to the last digit); 103.2 Pa over ice at -20 °C (ASHRAE Handbook of Fundamentals,
// ch. 1, from memory). Dry air weighs 1.204 kg/m3 at 20 °C and 101.325 kPa (same).
func TestAirOfZones(t *testing.T) {
	s := read(t, strandText, feedText, "[room]\ntemperature = \"20 °C\"\nhumidity = \"60 %\"\n", zoneText,
		"air = { dew_point = \"-20 °C\", flow = \"5 L/min\", direction = \"against\" }\n",
		"[[zone]]\nname = \"box\"\nlength = \"1 m\"\ntemperature = \"23 °C\"\nair = { humidity = \"50 %\", flow = \"5 L/min\" }\n",
		"[[zone]]\nname = \"guide\"\nlength = \"1 m\"\ntemperature = \"60 °C\"\n")
	path := s.Model.Path
	require.InDelta(t, 103.2, path[0].Air.VapourPressure, 0.15)
	require.InEpsilon(t, 5e-3/60*1.204*(1-103.2/101325), s.Model.DryFlow(&path[0]), 1e-3)
	require.Equal(t, diffusion.Against, path[0].Air.Direction)
	require.InDelta(t, 1405, path[1].Air.VapourPressure, 1)
	require.Equal(t, diffusion.Mixed, path[1].Air.Direction)
	require.InDelta(t, 0.6*2339, path[2].Air.VapourPressure, 1, "room air keeps its vapour when heated")
	require.Zero(t, s.Model.DryFlow(&path[2]))
}

// Continuity by hand: 5 L/min in a ring of bore 10 mm around 1.75 mm, 76.13 mm2, runs at
// 1.0946 m/s in the room at 20 °C, and 363.15/293.15 times that at 90 °C.
func TestFilmOfZones(t *testing.T) {
	zone := func(more string) diffusion.Film {
		m := read(t, strandText, feedText, "[room]\ntemperature = \"20 °C\"\n", zoneText, more).Model
		f := m.Path[0].Film
		f.AirSpeed = m.AirSpeed(&m.Path[0])
		return f
	}
	require.Equal(t, diffusion.Film{Flow: film.Natural, Emissivity: 0.9}, zone(""))
	require.Equal(t, diffusion.Film{Flow: film.Natural, Emissivity: 0.5, Vertical: true}, zone("vertical = true\nemissivity = 0.5\n"))
	require.Equal(t, film.Along, zone("air = { speed = \"0.2 m/s\" }\n").Flow)
	require.Equal(t, film.Across, zone("air = { speed = \"0.2 m/s\", past = \"across\" }\n").Flow)
	require.Contains(t, read(t, strandText, feedText, zoneText, "air = { speed = \"0.2 m/s\" }\n").Assumed, "zone.drum.air.past: along")
	require.NotContains(t, strings.Join(read(t, strandText, feedText, zoneText, "air = { speed = \"0.2 m/s\", past = \"along\" }\n").Assumed, "\n"), "past")
	tube := zone("bore = \"10 mm\"\nair = { flow = \"5 L/min\" }\n")
	require.Equal(t, film.Annulus, tube.Flow)
	require.InEpsilon(t, 1.0946*363.15/293.15, tube.AirSpeed, 1e-4)
	tube = zone("bore = \"10 mm\"\nair = { speed = \"3 m/s\" }\n")
	require.InDelta(t, 3, tube.AirSpeed, 1e-12)
	given := zone("h = \"25 W/(m2 K)\"\nk_m = \"20 mm/s\"\n")
	require.Equal(t, []float64{25, 0.02}, []float64{given.Heat, given.Mass})
}

func TestContactOfZones(t *testing.T) {
	zone := func(more string) (*Scenario, diffusion.Contact) {
		s := read(t, strandText, feedText, zoneText, more)
		return s, s.Model.Path[0].Contact
	}
	s, c := zone("")
	require.Equal(t, diffusion.Contact{}, c)
	require.Contains(t, s.Assumed, "zone.drum.exposed: 100 %")
	_, c = zone("contact = { share = \"0 %\" }\n")
	require.Equal(t, diffusion.Contact{}, c)
	_, c = zone("contact = { share = \"10 %\", arcs = 3, moves = true }\n")
	require.Equal(t, diffusion.Contact{Covered: 0.1, Arcs: 3, Moves: true}, c)

	s, c = zone("contact = { share = \"10 %\" }\n")
	require.Equal(t, diffusion.Contact{Covered: 0.1, Arcs: 1}, c)
	require.Contains(t, s.Assumed, "zone.drum.contact.arcs: 1")
	require.Contains(t, s.Assumed, "zone.drum.contact.moves: false, it stays in its place")
	short, same := zone("exposed = \"90 %\"\n")
	require.InDelta(t, 0.1, same.Covered, 1e-12)
	require.InDelta(t, 0.9, same.Exposed(), 1e-12)
	require.Equal(t, 1, same.Arcs)
	require.False(t, same.Moves)
	require.Contains(t, short.Assumed, "zone.drum.contact: one arc that stays in its place")

	// Settings reach both, but not one beside the other.
	free, _ := zone("")
	for _, set := range []Setting{{"zone.drum.contact.share", "25 %"}, {"zone.drum.exposed", "75 %"}} {
		at, err := free.With(set)
		require.NoError(t, err)
		require.InDelta(t, 0.25, at.Model.Path[0].Contact.Covered, 1e-12)
		varied, err := free.Varied(set.Key + "=20 %..80 %:4")
		require.NoError(t, err)
		require.Len(t, varied.Vary[0].Values, 4)
	}
	at, err := s.With(Setting{"zone.drum.contact.share", "40 %"}, Setting{"zone.drum.contact.arcs", "4"}, Setting{"zone.drum.contact.moves", "true"})
	require.NoError(t, err)
	require.Equal(t, diffusion.Contact{Covered: 0.4, Arcs: 4, Moves: true}, at.Model.Path[0].Contact)
	_, err = s.With(Setting{"zone.drum.exposed", "75 %"})
	require.ErrorContains(t, err, "given together with")
	_, err = free.With(Setting{"zone.drum.contact.arcs", "2"})
	require.ErrorContains(t, err, "missing")
}

// A bore is not endless room air. By hand, 1.75 mm in 10 mm: a ring of 76.13 mm2; 3 m/s through it at 90 °C are
// 3·76.13e-6 m3/s of air that weighs 1.204·293.15/363.15 kg/m3 dry (2339·0.5 Pa of it vapour), and 2 mm/s drag along
// π·2e-3·((25e-6 - 0.7656e-6)/(2 ln 5.7143) - 0.7656e-6) m3/s.
func TestAirInABore(t *testing.T) {
	zone := func(more string) (*Scenario, *diffusion.Zone) {
		s := read(t, strandText, feedText, "[room]\ntemperature = \"20 °C\"\nhumidity = \"50 %\"\n", zoneText, more)
		return s, &s.Model.Path[0]
	}
	s, z := zone("bore = \"10 mm\"\n")
	require.True(t, z.Air.Dragged)
	require.Equal(t, diffusion.With, z.Air.Direction)
	dry := 1.204 * 293.15 / 363.15 * (101325 - 0.5*2339) / 101325
	require.InEpsilon(t, dry*math.Pi*2e-3*((25e-6-0.765625e-6)/(2*math.Log(10/1.75))-0.765625e-6), s.Model.DryFlow(z), 1e-3)
	require.Contains(t, s.Assumed, "zone.drum.air.flow: what the strand drags along through the bore, with it")
	faster, err := s.With(Setting{"feed.speed", "4 mm/s"})
	require.NoError(t, err)
	require.InEpsilon(t, 2*s.Model.DryFlow(z), faster.Model.DryFlow(&faster.Model.Path[0]), 1e-9)

	s, z = zone("bore = \"10 mm\"\nair = { speed = \"3 m/s\" }\n")
	require.False(t, z.Air.Dragged)
	require.InEpsilon(t, dry*3*76.13e-6, s.Model.DryFlow(z), 1e-3)
	require.Equal(t, diffusion.With, z.Air.Direction)
	require.Contains(t, s.Assumed, "zone.drum.air.flow: the speed through the ring between strand and bore, 11.1 L/min")
	require.Contains(t, s.Assumed, "zone.drum.air.direction: with")
	_, z = zone("bore = \"10 mm\"\nair = { speed = \"3 m/s\", direction = \"against\" }\n")
	require.Equal(t, diffusion.Against, z.Air.Direction)

	for _, air := range []string{`flow = "unlimited"`, `flow = "unlimited", speed = "3 m/s"`} {
		s, z = zone("bore = \"10 mm\"\nair = { " + air + " }\n")
		require.False(t, z.Air.Limited())
		require.Zero(t, s.Model.DryFlow(z))
		require.Equal(t, film.Annulus, z.Film.Flow)
	}
	limited, err := s.With(Setting{"zone.drum.air.flow", "5 L/min"})
	require.NoError(t, err)
	require.Positive(t, limited.Model.DryFlow(&limited.Model.Path[0]))
	_, z = zone("")
	require.False(t, z.Air.Limited())
	s, _ = zone("bore = \"10 mm\"\n")
	unlimited, err := s.With(Setting{"zone.drum.air.flow", "unlimited"})
	require.NoError(t, err)
	require.False(t, unlimited.Model.Path[0].Air.Limited())
}

// PA6 in equilibrium holds 2.7 % at 23 °C and 50 % RH (handbook-typical, as the
// library's source says; to 0.1 %).
func TestStart(t *testing.T) {
	const material = "[strand]\nmaterial = \"pa6\"\n"
	room := "[room]\nhumidity = \"50 %\"\n"
	s := read(t, material, feedText, room, zoneText)
	require.InDelta(t, 0.027, s.Model.Start, 0.001)
	require.Contains(t, s.Assumed, "strand.moisture: in equilibrium with the room")
	same := read(t, material, "room = {}\n", feedText, room, zoneText)
	require.Equal(t, s.Model.Start, same.Model.Start)
	damper := read(t, material, "room = { humidity = \"80 %\" }\n", feedText, room, zoneText)
	require.Greater(t, damper.Model.Start, s.Model.Start)
	dry := read(t, material, "moisture = \"0 %\"\n[[strand.storage]]\nduration = \"6 h\"\n", feedText, room, zoneText)
	require.Zero(t, dry.Model.Start)
	require.InDelta(t, 21600, dry.Model.Storage[0].Duration, 1e-9)
	require.InDelta(t, 1405, dry.Model.Storage[0].Air.VapourPressure, 1)
}

func TestTitleFallsBackOnTheFile(t *testing.T) {
	require.Equal(t, "test", read(t, strandText, feedText, zoneText).Title)
	require.Equal(t, "Own", read(t, "title = \"Own\"\n", strandText, feedText, zoneText).Title)
}

// A document may be shared; run with -race.
func TestDocumentIsSharedSafely(t *testing.T) {
	s := demo(t, "clear-cover")
	axis := s.Vary[0]
	found := make([]float64, len(axis.Values))
	var all sync.WaitGroup
	for i := range axis.Values {
		all.Go(func() {
			at, err := s.With(axis.Setting(i))
			if err == nil {
				found[i] = at.Model.Path[0].Air.Temperature
			}
		})
	}
	all.Wait()
	require.Equal(t, axis.Values, found)
}

func BenchmarkWith(b *testing.B) {
	s, err := Demo("winch-drum")
	require.NoError(b, err)
	for b.Loop() {
		if _, err := s.With(Setting{"zone.drum.length", "20 m"}); err != nil {
			b.Fatal(err)
		}
	}
}
