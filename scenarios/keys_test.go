package scenarios

import (
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/materials/text/strict"
)

// A value that is written with all its digits comes back as it was, and lies within
// the limits of its key.
func TestKeysAreWrittenAndRead(t *testing.T) {
	s := demo(t, "clear-cover")
	for _, k := range s.Keys() {
		if !k.Known {
			continue
		}
		x, err := k.Parse(k.Setting(k.Value, 17).Value)
		require.NoError(t, err)
		require.InDelta(t, k.Value, x, 1e-14*max(1, k.Value), k.Name)
		if low, high, ok := s.Limits(k); ok {
			require.LessOrEqual(t, low*(1-1e-9), k.Value, k.Name)
			require.LessOrEqual(t, k.Value, high*(1+1e-9), k.Name)
		}
	}
	speed := keyOf(t, s, "feed.speed")
	low, high, ok := s.Limits(speed)
	require.True(t, ok)
	for _, x := range []float64{low, high} { // the feed takes what is said to be its limits
		_, err := s.With(speed.Setting(x, 15))
		require.NoError(t, err)
	}
	_, err := s.With(speed.Setting(1.01*high, 15))
	require.Error(t, err)
	_, err = speed.Parse("4 mm")
	var faults strict.Faults
	require.ErrorAs(t, err, &faults)
	require.ErrorContains(t, err, `feed.speed = "4 mm"`)
	_, err = keyOf(t, s, "zone.oven.emissivity").Parse("much")
	require.Error(t, err)
}

func keyOf(t *testing.T, s *Scenario, name string) Key {
	t.Helper()
	for _, k := range s.Keys() {
		if k.Name == name {
			return k
		}
	}
	require.Fail(t, "no such key", name)
	return Key{}
}
