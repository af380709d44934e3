package main

import (
	"bytes"
	"context"
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
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

// Of the materials that are named nothing else is shown; a name is understood as people write it, or answered with what it may mean.
func TestEvidenceOfSome(t *testing.T) {
	whole, abs := evidence(t), evidence(t, "ABS")
	at := strings.Index(whole, "\nABS\n")
	require.Positive(t, at)
	require.Contains(t, abs, whole[at:at+strings.Index(whole[at:], "\n\n")])
	require.NotContains(t, abs, "\nPC\n")
	require.Contains(t, evidence(t, "pc", "abs"), "\nPC\n")
	status, out, said := call("evidence", "Nylon")
	require.Equal(t, answered, status)
	require.Contains(t, out, "\nPA6\n")
	require.Equal(t, "\"Nylon\" taken as pa6; others: pa66, pa6-66, pa12, pa6-cf20\n", said)
	for given, says := range map[string]string{"abss": `did you mean "abs"?`, "tpu": "tpu-ester, tpu-ether", "mine.toml": "only materials of the library"} {
		status, out, said := call("evidence", given)
		require.Equal(t, failed, status)
		require.Empty(t, out)
		require.Contains(t, said, says)
	}
}

// The example in the help of materials is one that works, and each verb begins its help with a sentence and an example.
func TestHelpIsTrue(t *testing.T) {
	help := mustAnswer(t, "materials", "--help")
	_, example, _ := strings.Cut(help, "\n    base = ")
	example, _, _ = strings.Cut("    base = "+example, "\n\n")
	file := filepath.Join(t.TempDir(), "my-petg.toml")
	require.NoError(t, create(file, []byte(example)))
	require.Contains(t, mustAnswer(t, "materials", file), "PETG")
	all := mustAnswer(t, "--help")
	for _, verb := range []string{"new", "run", "size", "suits", "keeps", "sweep", "doubt", "plot", "buildlog", "materials", "evidence", "prove"} {
		require.Contains(t, all, "\n  "+verb+" ")
		require.Regexp(t, "^"+verb+" [^\n.]+\\.\n\n    strandry "+verb, mustAnswer(t, verb, "--help"))
	}
	for _, group := range []string{"Ask about", "Study what", "Show it", "Know what"} {
		require.Contains(t, all, "\n"+group)
	}
}
