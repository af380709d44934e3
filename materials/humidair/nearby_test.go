package humidair

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// The polynomial is the formula that it stands for, from the triple point to where the formula takes over, and where they meet.
func TestNearby(t *testing.T) {
	for T := TripleTemperature; T < dryersEnd; T += 0.173 {
		require.InEpsilon(t, region4(T), nearby(T), 2e-11, "%g K", T)
		require.InDelta(t, nearby(T), SaturationPressure(T), 0)
	}
	require.InEpsilon(t, region4(dryersEnd), nearby(dryersEnd), 2e-11)
	require.InDelta(t, region4(dryersEnd), SaturationPressure(dryersEnd), 0)
}
