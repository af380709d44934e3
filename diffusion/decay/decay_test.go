package decay_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion/decay"
)

// The exponential from the table is that of the library.
func TestTable(t *testing.T) {
	table := decay.New()
	for d := 0.0; d < 39.99; d += 0.00137 {
		require.InEpsilon(t, math.Exp(-d), table.At(d), 3e-10)
	}
	require.Zero(t, table.At(40))
	require.Zero(t, table.At(1e300))
	require.Zero(t, table.At(math.Inf(1)))
}
