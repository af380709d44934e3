package scenarios_test

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion"
	"strandry/scenarios"
)

// spans are keys of a demonstration between ends written as on an axis.
func spans(t *testing.T, demo string, axes ...string) (*scenarios.Scenario, []scenarios.Span) {
	t.Helper()
	s, err := scenarios.Demo(demo)
	require.NoError(t, err)
	s, err = s.Varied(axes...)
	require.NoError(t, err)
	var all []scenarios.Span
	for _, a := range s.Vary {
		v := diffusion.Varied{From: a.Values[0], To: a.Values[1]}
		all = append(all, scenarios.Span{Key: a.Key, From: v.From, To: v.To, Middle: v.Middle()})
	}
	return s, all
}

// numbersOf are what the keys below act on.
func numbersOf(m *diffusion.Model) []float64 {
	all := []float64{m.Radius, m.Speed, m.Start, m.StartTemperature, m.Pressure}
	for _, zones := range [][]diffusion.Zone{m.Storage, m.Path} {
		for _, z := range zones {
			a := z.Air
			all = append(all, z.Length, z.Duration, a.Temperature, a.VapourPressure, a.Held, a.DryFlow, a.VolumeFlow, a.MeteredAt)
		}
	}
	return all
}

// At any values of their keys courses give the model that the scenario gives: of keys by themselves, and of those that act on the same numbers, of which some are products.
func TestCoursesAreThoseOfTheScenario(t *testing.T) {
	r := rand.New(rand.NewPCG(4, 4))
	for demo, axes := range map[string][]string{
		"winch-drum":       {"zone.drum.length=0.5 m..200 m:2:log", "feed.speed=0.5 mm/s..8 mm/s:2", "zone.drum.temperature=40 °C..100 °C:2"},
		"clear-cover":      {"room.temperature=5 °C..40 °C:2", "room.humidity=10 %..90 %:2"},
		"lamp-shade":       {"feed.bead.width=0.3 mm..0.9 mm:2", "feed.bead.speed=5 mm/s..80 mm/s:2", "strand.diameter=1.5 mm..3 mm:2"},
		"opened-yesterday": {"strand.storage.1.duration=1 h..60 h:2", "strand.moisture=0 %..1 %:2", "zone.warm tube.air.flow=1 L/min..9 L/min:2"},
	} {
		s, all := spans(t, demo, axes...)
		c, err := s.Courses(all)
		require.NoError(t, err, demo)
		varied := c.Varied()
		for range 20 {
			var set []scenarios.Setting
			m := c.Base.Model
			m.Path, m.Storage = slices.Clone(m.Path), slices.Clone(m.Storage)
			for i, span := range all {
				x := span.From + (span.To-span.From)*r.Float64()
				set = append(set, span.Key.Setting(x, 17))
				require.Equal(t, span.Key.Name, varied[i].Name)
				varied[i].Set(&m, x)
			}
			truth, err := s.With(set...)
			require.NoError(t, err)
			want, own := numbersOf(&truth.Model), numbersOf(&m)
			for i := range want {
				require.InDelta(t, want[i], own[i], 1e-3*math.Abs(want[i])+1e-15, "%s: number %d at %v", demo, i, set)
				require.False(t, math.IsNaN(own[i]))
			}
		}
	}
}

// What is no number of the way, or stands in doubt, is refused with its name and the reason.
func TestCoursesRefuse(t *testing.T) {
	for axis, says := range map[string]string{
		"numerics.tolerance=1e-3..1e-1:2":              "numerics.tolerance: it does not act on the strand",
		"build.longest=5 m..50 m:2":                    "build.longest: it does not act on the strand",
		"strand.limit=0.1 %..1 %:2":                    "strand.limit: it changes what is asked of the strand",
		"strand.properties.diffusivity.beta=1..9:2":    "strand.properties.diffusivity.beta: it changes the material",
		"zone.drum.exposed=80 %..100 %:2":              "zone.drum.exposed: it changes more than numbers from one of its values to another",
		"strand.properties.softening=100 °C..150 °C:2": "it changes the material",
	} {
		s, all := spans(t, "winch-drum", axis)
		_, err := s.Courses(all)
		require.ErrorContains(t, err, says)
	}
	text, err := scenarios.DemoText("clear-cover")
	require.NoError(t, err)
	s, err := scenarios.Read("doubtful.toml", []byte(string(text)+"\n[[uncertain]]\nkey = \"room.humidity\"\ndeviation = \"5 %\"\n"))
	require.NoError(t, err)
	for _, key := range []string{"room.humidity", "room.temperature"} { // which share the vapour pressure
		k, ok := s.Key(key)
		require.True(t, ok)
		v := diffusion.Varied{From: k.Value * 0.97, To: k.Value * 1.03}
		_, err = s.Courses([]scenarios.Span{{Key: k, From: v.From, To: v.To, Middle: v.Middle()}})
		require.ErrorContains(t, err, "room.humidity, which is [[uncertain]], acts on the same numbers as "+key)
	}
}
