package scenarios

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// What is not given is assumed and said so, apart from what a run assumes.
func TestBuildAndStoreHaveDefaults(t *testing.T) {
	s := demo(t, "winch-drum")
	require.InDelta(t, 20, s.Build.Longest, 0)
	require.Equal(t, []string{"build.longest: 20 m"}, s.Build.Assumed)
	require.Equal(t, []string{"build.hottest: 80 °C", "build.driest: -40 °C", "build.slowest: 1 mm/s", "build.fastest: 2 mm/s"}, s.Build.Usual)
	require.InDelta(t, s.Model.Speed/2, s.Build.Slowest, 0)
	require.InDelta(t, s.Room.Temperature, s.Store.Temperature, 0)
	require.InDelta(t, 0.02, s.Store.Humidity, 0)
	require.Len(t, s.Store.Assumed, 2)
	require.InDelta(t, 600, s.Opening.TimeConstant, 0)
	require.InDelta(t, 30, s.Opening.Duration, 0)
	require.Equal(t, []string{"opening.time_constant: 10 min", "opening.duration: 30 s", "opening.per_day: 4"}, s.Opening.Assumed)
	for _, assumed := range s.Assumed {
		require.NotRegexp(t, "^(build|store|opening)", assumed)
	}

	given, err := s.With(Setting{"build.longest", "35 m"}, Setting{"store.humidity", "15 %"},
		Setting{"opening.time_constant", "2 min"}, Setting{"opening.per_day", "12"})
	require.NoError(t, err)
	require.InDelta(t, 35, given.Build.Longest, 1e-12)
	require.Empty(t, given.Build.Assumed)
	long, err := s.With(Setting{"zone.guide.length", "35 m"})
	require.NoError(t, err)
	require.InDelta(t, 35, long.Build.Longest, 1e-12, "what is drawn can be built")
	bound, err := s.With(Setting{"build.hottest", "75 °C"}, Setting{"build.driest", "-20 °C"}, Setting{"build.slowest", "0.5 mm/s"}, Setting{"build.fastest", "3 mm/s"})
	require.NoError(t, err)
	require.InDeltaSlice(t, []float64{348.15, 253.15, 0.5e-3, 3e-3}, []float64{bound.Build.Hottest, bound.Build.Driest, bound.Build.Slowest, bound.Build.Fastest}, 1e-9)
	require.Empty(t, bound.Build.Usual)
	require.True(t, equalModels(s, bound))
	// Over water at 20 °C: 2339 Pa (Wagner & Pruss 2002, from memory, to the last digit).
	require.InDelta(t, 0.15*2339, given.Store.VapourPressure, 0.5)
	require.Len(t, given.Opening.Assumed, 1)
	require.InDelta(t, 12, given.Opening.PerDay, 0)
	require.True(t, equalModels(s, given))
}

func equalModels(a, b *Scenario) bool {
	a.Build, a.Store, a.Opening = b.Build, b.Store, b.Opening
	return equal(a, b)
}
