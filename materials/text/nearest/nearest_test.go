package nearest

import (
	"testing"

	"github.com/stretchr/testify/require"
)

func TestName(t *testing.T) {
	keys := []string{"length", "name", "temperature", "air", "shape"}
	for given, want := range map[string]string{
		"lenght": "length", "Length": "length", "temprature": "temperature",
		"shap": "shape", "flow": "", "": "", "x": "", "ari": "air",
	} {
		require.Equal(t, want, Name(given, keys), given)
	}
	require.Equal(t, "pa6", Name("PA-6", []string{"pa66", "pa6"}))
	require.Equal(t, "mm", Name("MM", []string{"m", "mm", "km"}))
	require.Empty(t, Name("k", []string{"h", "s"}))
}

func TestKeys(t *testing.T) {
	keys := []string{"room.humidity", "feed.speed", "zone.drum.length", "zone.drum.temperature", "zone.guide.length", "zone.guide.air.flow"}
	for given, want := range map[string][]string{
		"drum.lenght": {"zone.drum.length", "zone.guide.length"}, "zone.warm.length": {"zone.drum.length", "zone.guide.length"}, "length": {"zone.drum.length", "zone.guide.length"},
		"store.humidity": {"room.humidity"}, "zone.guide.speed": {"feed.speed", "zone.guide.length"}, "numerics.tolerance": nil, "": nil, "...": nil,
	} {
		require.Equal(t, want, Keys(given, keys, 2), given)
	}
}

// Worked examples of the distance: "kitten" to "sitting" takes three slips
// : replace k by s, replace e by i, add g;
// a swap of neighbours counts once.
func TestDistance(t *testing.T) {
	require.Equal(t, 3, distance([]rune("kitten"), []rune("sitting")))
	require.Equal(t, 1, distance([]rune("ab"), []rune("ba")))
	require.Equal(t, 4, distance(nil, []rune("four")))
}
