package scenarios

import (
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/interp"
)

// Courses that are not those of the scenario are found out.
func TestCoursesThatAreNotSmooth(t *testing.T) {
	s, err := Demo("winch-drum")
	require.NoError(t, err)
	var all []Span
	for name, ends := range map[string][3]float64{"feed.speed": {1e-3, 4e-3, 2e-3}, "zone.drum.temperature": {323.15, 363.15, 353.15}} {
		k, ok := s.Key(name)
		require.True(t, ok)
		all = append(all, Span{Key: k, From: ends[0], To: ends[1], Middle: ends[2]})
	}
	c, err := s.Courses(all)
	require.NoError(t, err)
	require.NoError(t, c.join())
	for i := range c.keys {
		own := c.keys[i].by[0]
		var wrong interp.NotAKnotCubic
		require.NoError(t, wrong.Fit([]float64{0.5, 0.6, 0.8, 1}, []float64{1, 3, 2, 7}))
		c.keys[i].by[0] = wrong
		require.ErrorContains(t, c.join(), "neither smooth nor a product nor a sum")
		c.keys[i].by[0] = own
	}
	require.NoError(t, c.join())
}
