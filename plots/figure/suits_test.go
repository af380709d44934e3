package figure

import (
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/materials"
	"strandry/scenarios/studies/size"
	"strandry/scenarios/studies/suits"
)

func met(m float64) size.Length { return size.Length{Outcome: size.Met, Value: m, From: m} }

func TestSuitsOf(t *testing.T) {
	nowhere, everywhere := size.Length{Outcome: size.Nowhere}, size.Length{Outcome: size.Everywhere}
	row := func(name string, central size.Length, reliable size.ReliableLength) suits.Row {
		return suits.Row{Material: materials.Polymer{Name: name, Softening: materials.Value{Low: 363.15, High: 373.15}}, Heated: 353.15, Class: suits.Buildable, Needed: central, Reliable: reliable}
	}
	nine := func(m float64) size.ReliableLength { return size.ReliableLength{Outcome: size.Met, Value: m} }
	none, any := size.ReliableLength{Outcome: size.Nowhere, Value: 9}, size.ReliableLength{Outcome: size.Everywhere}
	rows := []suits.Row{
		row("usual", met(6), nine(18)), row("long", met(6), nine(28)), row("unsure", met(6), none),
		row("none", nowhere, none), row("any", everywhere, any), row("perhaps", everywhere, nine(3)), row("hardly", everywhere, none),
	}
	f := SuitsOf(&suits.Answer{Zone: "drum", Length: 12, Longest: 20}, rows, frame())
	require.NoError(t, checked(f))
	want := []Suit{
		{Material: "usual", Length: 6, Reliable: 18, Sure: true}, {Material: "long", Length: 6, Reliable: 28},
		{Material: "unsure", Length: 6}, {Material: "none"}, {Material: "any", Any: true, Sure: true}, {Material: "perhaps", Any: true, Reliable: 3, Sure: true},
		{Material: "hardly", Any: true},
	}
	for i := range want {
		want[i].Temperature, want[i].Bears = 353.15, 363.15
	}
	require.Equal(t, want, f.Rows)
	require.Equal(t, 12.0, f.Given)
}
