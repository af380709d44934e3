package scenarios

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// A scenario where weighings are wanted, and the other way round, is told as what it is, and not key by key.
func TestMixedUp(t *testing.T) {
	scenario := []byte("[strand]\nmaterial = \"pa6\"\n[feed]\nspeed = \"1 mm/s\"\n[[zone]]\nlength = \"1 m\"\n")
	const not = "a.toml: this is a scenario of a strand that runs; allowed: weighings of one at rest, each [[run]] with its table of masses; strandry new --weighings FILE writes a file to start from"
	_, err := ReadWeighings("a.toml", scenario, nil)
	require.EqualError(t, err, not)
	_, err = ReadPlan("a.toml", scenario, nil)
	require.EqualError(t, err, not)
	_, err = Read("a.toml", []byte("[strand]\nmaterial = \"pa6\"\n[[run]]\nfile = \"b.csv\"\n"))
	require.EqualError(t, err, "a.toml: these are weighings of a strand at rest; allowed: a scenario of one that runs, with [feed] and [[zone]]; strandry fit reads weighings")
	_, err = ReadWeighings("a.toml", []byte("[strand]\nmaterial = \"pa6\"\n"), nil)
	require.ErrorContains(t, err, "run: no run")
}
