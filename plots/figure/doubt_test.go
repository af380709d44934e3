package figure

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion/sensitivity"
	"strandry/scenarios/studies/doubt"
)

func aDoubt() Doubt {
	index := func(value, by float64) sensitivity.Index {
		return sensitivity.Index{Value: value, Low: max(0, value-by), High: min(1, value+by), Estimate: value}
	}
	rows := []doubt.Row{
		{Unknown: "activation energy", First: index(0.37, 0.03), Total: index(0.42, 0.02), Left: 0.82},
		{Unknown: "limit", First: index(0.36, 0.03), Total: index(0.36, 0.03), Left: 0.7},
		{Unknown: "zone.long drum of ash.temperature", First: index(0.15, 0.05), Total: index(0.19, 0.05), Left: 0.9},
		{Unknown: "growth of the diffusivity with content", First: index(0.002, 0.004), Total: index(0.003, 0.004), Left: 0.998},
		{Unknown: "heat of sorption", First: sensitivity.Index{High: 0.01, Estimate: -0.003}, Total: index(0.004, 0.004), Left: 1},
	}
	return DoubtOf(&doubt.Answer{Rows: rows}, frame())
}

func TestDoubtHeadlines(t *testing.T) {
	f := aDoubt()
	require.Equal(t, 1, f.Decides)
	require.Equal(t, "The activation energy makes 42\u00a0% of the doubt; to know the limit leaves the interval 30\u00a0% narrower", f.Headline())
	f.Narrows = f.Rows[0]
	require.Equal(t, "The activation energy makes 42\u00a0% of the doubt; to know it leaves the interval 18\u00a0% narrower", f.Headline())
	f.Decides = 2
	require.Equal(t, "Any of these may decide: activation energy, limit; to know the activation energy leaves the interval 18\u00a0% narrower", f.Headline())
}

func TestDoubtRefusals(t *testing.T) {
	for name, spoil := range map[string]func(f *Doubt){
		"empty": func(f *Doubt) { f.Rows = nil }, "no name": func(f *Doubt) { f.Rows[1].Unknown = "" },
		"not a number": func(f *Doubt) { f.Rows[1].First.Value = math.NaN() }, "left infinite": func(f *Doubt) { f.Rows[1].Left = math.Inf(1) },
		"below zero": func(f *Doubt) { f.Rows[4].First.Low = -0.01 }, "above one": func(f *Doubt) { f.Rows[0].Total.High = 1.01 },
		"outside above": func(f *Doubt) { f.Rows[0].First.High = 0.3 },
		"outside":       func(f *Doubt) { f.Rows[0].Total.Low = 0.5 }, "none decides": func(f *Doubt) { f.Decides = 0 }, "too many decide": func(f *Doubt) { f.Decides = 6 },
	} {
		f := aDoubt()
		require.NoError(t, checked(f))
		spoil(&f)
		require.Error(t, checked(f), name)
	}
}
