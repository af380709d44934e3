package main

import (
	"context"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion/samples"
	"strandry/plots/folder"
	"strandry/plots/table"
	"strandry/scenarios/validation/prove"
)

func TestProve(t *testing.T) {
	path := filepath.Join(t.TempDir(), "a", "b")
	out := mustAnswer(t, "prove", "-o", path)
	n := len(prove.Checks())
	require.Contains(t, out, fmt.Sprintf("%d of %d checks passed\n", n, n))
	page, err := os.ReadFile(filepath.Join(path, "proof.html"))
	require.NoError(t, err)
	require.Contains(t, string(page), fmt.Sprintf("%d of %d checks passed", n, n))
	require.Len(t, mustList(t, path), 1)
	if samples.Of(1, 2, 2) == 2 {
		require.Equal(t, out, mustAnswer(t, "prove", "-o", path), "again, to the same words")
	}

	d := decoded(t, "prove", "--json")
	require.EqualValues(t, n, at(t, d, "passed"))
	require.Equal(t, "space", at(t, d, "orders", 0, "in"))
}

// mustList lists what lies in a folder beside the list of what was written.
func mustList(t *testing.T, path string) []string {
	t.Helper()
	all := names(t, path)
	require.Equal(t, folder.Marker, all[0])
	return all[1:]
}

func TestProveMisusedOrInTheWay(t *testing.T) {
	file := filepath.Join(t.TempDir(), "file")
	require.NoError(t, os.WriteFile(file, nil, 0o644))
	for want, all := range map[int][][]string{
		misused: {{"prove", "extra"}, {"prove", "-o", ""}, {"prove", "--jason"}},
		failed:  {{"prove", "-o", file}},
	} {
		for _, args := range all {
			status, _, errOut := call(args...)
			require.Equal(t, want, status, "%v: %s", args, errOut)
			require.NotEmpty(t, errOut)
		}
	}
}

// A check that fails makes an error, though all is said before, and though nobody listens.
func TestProveSaysNo(t *testing.T) {
	p, err := proved(context.Background())
	require.NoError(t, err)
	p.Results[5].Difference = 1
	var out strings.Builder
	path := t.TempDir()
	err = showProof(p, target{path: path}, false, &out)
	require.ErrorContains(t, err, fmt.Sprintf("1 of %d checks failed", len(p.Results)))
	require.True(t, strings.HasPrefix(out.String(), "FAILED: 1 of"))
	require.Len(t, mustList(t, path), 1)
	for _, writer := range []io.Writer{io.Discard, fullDisk{}} {
		for _, asJSON := range []bool{false, true} {
			err = showProof(p, target{}, asJSON, writer)
			require.ErrorContains(t, err, "checks failed")
		}
	}
	require.Error(t, showProof(&table.Proof{}, target{}, false, io.Discard), "nothing proved")
	p.Results[5].Difference = 0
	file := filepath.Join(path, "proof.html")
	require.ErrorContains(t, showProof(p, target{path: file}, false, &out), "this is a file", "the table is said all the same")
	require.True(t, strings.HasSuffix(out.String(), "checks passed\n"))
	require.ErrorContains(t, showProof(p, target{path: file}, false, fullDisk{}), "this is a file")
	require.NoError(t, showProof(p, target{}, false, io.Discard))
	p.Unmeasured = "stalled"
	require.ErrorContains(t, showProof(p, target{}, false, io.Discard), "stalled")
}

func TestProveInterrupted(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	var out, errOut strings.Builder
	require.Equal(t, failed, run(ctx, []string{"prove"}, &out, &errOut))
	require.Equal(t, "strandry: interrupted\n", errOut.String())
}
