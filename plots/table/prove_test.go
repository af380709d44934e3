package table

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"math"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/require"

	"strandry/scenarios/validation/prove"
)

// result is one of the family of two that the tests below print.
func result(name string, expected, got, within float64) prove.Result {
	return prove.Result{
		Check: prove.Check{Family: "made up", Name: name, Quantity: "pull", Unit: "N", Source: "a book, Table 1", Kind: prove.Published,
			Expected: expected, Tolerance: prove.Tolerance{Absolute: within, Reason: "two digits"}},
		Got: got, Difference: got - expected, Within: within,
	}
}

func proofText(t *testing.T, p *Proof) string {
	t.Helper()
	var out bytes.Buffer
	require.NoError(t, WriteText(&out, p))
	return out.String()
}

func TestProofPassed(t *testing.T) {
	p := &Proof{Results: []prove.Result{result("first", 10, 10.04, 0.05), result("second", 2, 2, 0.05)}}
	require.True(t, p.Whole())
	text := proofText(t, p)
	require.True(t, strings.HasPrefix(text, "MADE UP\n"))
	require.True(t, strings.HasSuffix(text, "2 of 2 checks passed\n"))
	require.Equal(t, 1, strings.Count(text, "a book, Table 1 [published; tolerance: two digits]"))
	require.NotContains(t, text, "FAILED")
	for _, cell := range []string{"10.000", "10.040", "4.0e-02", "5.0e-02", "2 of 2", "80 %"} {
		require.Contains(t, text, cell)
	}
}

func TestProofFailuresStandFirst(t *testing.T) {
	bad := result("broken", 1, math.NaN(), 0.1)
	bad.Err = errors.New("no such thing")
	p := &Proof{Results: []prove.Result{result("good", 2, 2, 0.05), result("off", 10, 10.1, 0.05), bad}}
	require.False(t, p.Whole())
	text := proofText(t, p)
	require.True(t, strings.HasPrefix(text, "FAILED: 2 of 3 checks\n"))
	top, _, _ := strings.Cut(text, "MADE UP")
	require.Contains(t, top, "!!! made up, off: pull [N]")
	require.Contains(t, top, "not computed: no such thing")
	require.NotContains(t, top, "good")
	require.Contains(t, text, "1 of 3")
	require.Contains(t, text, "no number")
	require.True(t, strings.HasSuffix(text, "1 of 3 checks passed\n"))
	require.NotContains(t, text, "NaN")

	var out bytes.Buffer
	require.NoError(t, WriteJSON(&out, p))
	var d struct {
		Passed   int
		Families []struct {
			Worst *float64 `json:"worst_of_tolerance"`
		}
		Results []struct {
			Got    *float64
			Passed bool
			Error  string
		}
	}
	require.NoError(t, json.Unmarshal(out.Bytes(), &d))
	require.Equal(t, 1, d.Passed)
	require.Nil(t, d.Families[0].Worst)
	require.InDelta(t, 10.1, *d.Results[1].Got, 0)
	require.Nil(t, d.Results[2].Got)
	require.Equal(t, "no such thing", d.Results[2].Error)
	require.False(t, d.Results[1].Passed)
}

func TestNoChecksProveNothing(t *testing.T) { require.False(t, (&Proof{}).Whole()) }

func TestNoOrdersAreSaid(t *testing.T) {
	p := &Proof{Results: []prove.Result{result("first", 2, 2, 0.05)}, Unmeasured: "the march stalled"}
	require.False(t, p.Whole())
	require.Contains(t, proofText(t, p), "!!! The orders of the solver could not be measured: the march stalled\n")
}

// The real table fits a terminal of a hundred columns, no value runs into the next, and each
// difference shows in the digits.
func TestProofOfTheProgram(t *testing.T) {
	p := &Proof{}
	var err error
	p.Results, err = prove.Run(context.Background(), 2)
	require.NoError(t, err)
	require.True(t, p.Whole())
	for _, line := range strings.Split(proofText(t, p), "\n") {
		require.LessOrEqual(t, utf8.RuneCountInString(line), 100, line)
		require.NotContains(t, line, "…", "a name is cut off")
	}
	for i := range p.Results {
		for _, cell := range p.Cells(&p.Results[i])[1:3] {
			require.LessOrEqual(t, utf8.RuneCountInString(cell), 15, "%s", p.Results[i].Name)
		}
	}
	total := 0
	for _, f := range p.Families() {
		total += f.Checks
	}
	require.Equal(t, len(p.Results), total)
}
