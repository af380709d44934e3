package suits_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion"
	"strandry/materials"
	"strandry/scenarios/studies/size"
	"strandry/scenarios/studies/suits"
)

// Each kind by hand: what needs nothing, what is dry as drawn, and what would be if it were longer are three.
func TestKinds(t *testing.T) {
	met := func(m float64) size.ReliableLength { return size.ReliableLength{Outcome: size.Met, Value: m} }
	any, none := size.ReliableLength{Outcome: size.Everywhere}, size.ReliableLength{Outcome: size.Nowhere}
	const longest = 20
	for _, c := range []struct {
		row         suits.Row
		kind        suits.Kind
		reach       suits.Reach
		built, even bool
	}{
		{suits.Row{Class: suits.AsItIs, Verdict: diffusion.Dry, Reliable: any}, suits.NeedsNone, suits.Reliably, false, false},
		{suits.Row{Class: suits.AsItIs, Verdict: diffusion.Dry, Reliable: met(0.2)}, suits.DryAsDrawn, suits.Reliably, false, false},
		{suits.Row{Class: suits.AsItIs, Verdict: diffusion.Wet, Reliable: any}, suits.WetAsDrawn, suits.Reliably, false, false}, // the path wets it
		{suits.Row{Class: suits.Buildable, Verdict: diffusion.Dry, Reliable: met(3)}, suits.DryAsDrawn, suits.Reliably, false, false},
		{suits.Row{Class: suits.Buildable, Verdict: diffusion.Unsure, Reliable: met(15)}, suits.UnsureAsDrawn, suits.Reliably, true, false},
		{suits.Row{Class: suits.Buildable, Verdict: diffusion.Wet, Reliable: met(25)}, suits.WetAsDrawn, suits.AtMedians, false, true},
		{suits.Row{Class: suits.Buildable, Verdict: diffusion.Unsure, Reliable: none}, suits.UnsureAsDrawn, suits.AtMedians, false, true},
		{suits.Row{Class: suits.TooLong, Verdict: diffusion.Wet, Reliable: met(90)}, suits.WetAsDrawn, suits.Beyond, false, false},
		{suits.Row{Class: suits.Forbidden, Verdict: diffusion.Wet, Reliable: none}, suits.WetAsDrawn, suits.Never, false, false},
		{suits.Row{Class: suits.Forbidden, Verdict: diffusion.TooHot, Survives: diffusion.Softens, Reliable: met(3)}, suits.SoftensAsDrawn, suits.Never, false, false},
		{suits.Row{Class: suits.Forbidden, Verdict: diffusion.Wet, Survives: diffusion.Softens, Reliable: met(3)}, suits.SoftensAsDrawn, suits.Never, false, false},
		{suits.Row{Class: suits.Unanswered, Reliable: none}, suits.Unknown, suits.Never, false, false},
	} {
		r := c.row
		require.Equal(t, c.kind, r.Kind())
		require.Equal(t, c.reach, r.Reach(longest), r.Kind().String())
		require.Equal(t, c.built, r.Built(longest), r.Kind().String())
		require.Equal(t, c.even, r.Even(longest), r.Kind().String())
		require.Contains(t, suits.Kinds(), r.Kind())
	}
}

// The first view gives the order, the likeliest of a kind first, and each material stands beside itself.
func TestPairs(t *testing.T) {
	row := func(id string, v diffusion.Verdict, p float64) suits.Row {
		return suits.Row{Material: materials.Polymer{ID: id}, Class: suits.Buildable, Verdict: v, Odds: diffusion.Odds{Probability: p}, Limit: 1}
	}
	s := suits.Answer{
		Soaked: []suits.Row{row("a", diffusion.Wet, 0.05), row("b", diffusion.Unsure, 0.4), row("c", diffusion.Unsure, 0.6), row("d", diffusion.Dry, 0.95)},
		Opened: []suits.Row{row("d", diffusion.Dry, 0.99), row("a", diffusion.Dry, 0.99), row("b", diffusion.Dry, 0.99), row("c", diffusion.Dry, 0.99)},
	}
	order := ""
	for _, p := range s.Pairs() {
		require.Equal(t, p.Soaked.Material.ID, p.Opened.Material.ID)
		order += p.Soaked.Material.ID
	}
	require.Equal(t, "dcba", order)
}
