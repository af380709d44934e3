package samples

import (
	"runtime/debug"
	"testing"

	"github.com/stretchr/testify/require"
)

func TestOf(t *testing.T) {
	for value, want := range map[string]int{"": 2, "more": 30, "long": 400} {
		t.Setenv(Variable, value)
		require.Equal(t, want, Of(2, 30, 400), value)
	}
	t.Setenv(Variable, "lots")
	require.PanicsWithValue(t, "STRANDRY_SAMPLES is none of more, long", func() { Of(2, 30, 400) })
}

func TestEach(t *testing.T) {
	all := []int{0, 1, 2, 3, 4, 5, 6}
	t.Setenv(Variable, "")
	require.Equal(t, []int{0, 3, 6}, Each(3, all))
	for _, value := range []string{"more", "long"} {
		t.Setenv(Variable, value)
		require.Equal(t, all, Each(3, all))
	}
}

// three is a package whose tests end with a status of three.
type three struct{}

func (three) Run() int { return 3 }

func TestRun(t *testing.T) {
	before := debug.SetGCPercent(100)
	defer debug.SetGCPercent(before)
	require.Equal(t, 3, Run(three{}))
	require.Equal(t, 400, debug.SetGCPercent(100))
}
