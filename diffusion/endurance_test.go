package diffusion

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// The place that decides: the worst, of those the one with the hottest strand, of those the one with the hottest air, of those
// the first.
func TestThePlaceThatDecides(t *testing.T) {
	e := Endurance{Strand: 300, Air: 300, Bears: 345, Yields: 360}
	for _, step := range []struct {
		zone        string
		strand, air float64
		want        string
	}{
		{"warm", 340, 344, "warm"}, {"cooler", 330, 345, "warm"}, {"hot air", 320, 350, "hot air"}, {"hotter strand", 340, 348, "hotter strand"},
		{"hotter air", 340, 355, "hotter air"}, {"less hot air", 340, 352, "hotter air"}, {"the same", 340, 355, "hotter air"}, {"soft", 361, 361, "soft"},
		{"hot again", 359, 500, "soft"},
	} {
		e.meet(step.zone, step.strand, step.air)
		require.Equal(t, step.want, e.Zone)
	}
}
