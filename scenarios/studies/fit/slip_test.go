package fit

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// What a number may have been that was misread: each other digit but for the last, and neighbours that changed places.
func TestMisread(t *testing.T) {
	of := func(number int) (all []int) {
		for _, change := range misread(number) {
			all = append(all, number+change)
		}
		return all
	}
	all := of(2054)
	require.Len(t, all, 3*9+3)
	for _, likely := range []int{2014, 2094, 2954, 1054, 9054, 54, 2045, 2504, 254} { // the last: 0254
		require.Contains(t, all, likely)
	}
	for _, never := range []int{2054, 2055, 2050, 2065, 4052} {
		require.NotContains(t, all, never)
	}
	require.Equal(t, 9+0, len(of(55)))
	require.Empty(t, of(7))
}
