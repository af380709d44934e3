package main

import (
	"bytes"
	"context"
	"encoding/json"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"
)

func evidence(t *testing.T, args ...string) string {
	t.Helper()
	var out, errOut bytes.Buffer
	require.Equal(t, answered, run(context.Background(), append([]string{"evidence"}, args...), &out, &errOut), errOut.String())
	require.Empty(t, errOut.String())
	return out.String()
}

// The page in testdata is what the command prints.
func TestEvidencePage(t *testing.T) {
	page, err := os.ReadFile(filepath.Join("..", "..", "testdata", "measured", "evidence.txt"))
	require.NoError(t, err)
	require.Equal(t, string(page), evidence(t), "make it anew: go run ./cmd/strandry evidence > testdata/measured/evidence.txt")
}

func TestEvidenceJSON(t *testing.T) {
	var d struct {
		Independent struct{ Figures, Inside, Partly, Outside int }
		Unmeasured  []string `json:"without_measured_figure"`
		Figures     []struct {
			Material, Quantity, Unit, Verdict, Source string
			Predicted                                 float64
			Thickness                                 *float64 `json:"thickness_m"`
			Time                                      *float64 `json:"time_s"`
		}
	}
	require.NoError(t, json.Unmarshal([]byte(evidence(t, "--json")), &d))
	require.Equal(t, d.Independent.Figures, d.Independent.Inside+d.Independent.Partly+d.Independent.Outside)
	require.Positive(t, d.Independent.Outside, "bad news is told")
	require.Contains(t, d.Unmeasured, "bvoh")
	plates := 0
	for _, f := range d.Figures {
		require.NotEmpty(t, f.Source)
		require.NotEmpty(t, f.Unit)
		if f.Quantity == "uptake" {
			plates++
			require.InDelta(t, 3.2e-3, *f.Thickness, 1e-15)
			require.InDelta(t, 86400, *f.Time, 1e-9)
		} else {
			require.Nil(t, f.Thickness)
		}
	}
	require.Positive(t, plates)
}

func TestEvidenceTakesNoArgument(t *testing.T) {
	var out, errOut bytes.Buffer
	require.Equal(t, misused, run(context.Background(), []string{"evidence", "pc"}, &out, &errOut))
}
