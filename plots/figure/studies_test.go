package figure

import (
	"context"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion"
	"strandry/materials"
	"strandry/plots/canvas"
	"strandry/scenarios"
	"strandry/scenarios/studies/required"
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
	f := SuitsOf(&suits.Study{Zone: "drum", Length: 12, Longest: 20}, rows, frame())
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

// The figures of a demonstration carry the numbers of its studies.
func TestOfAScenario(t *testing.T) {
	t.Parallel()
	s, err := scenarios.Demo("clear-cover")
	require.NoError(t, err)
	ctx, coarse := context.Background(), diffusion.CoarseSettings()
	table, err := required.Find(ctx, s, required.Request{Temperatures: []float64{363.15, 383.15}, Speeds: []float64{0.001}, Settings: coarse})
	require.NoError(t, err)
	f := RequiredOf(s, table, FrameOf(s, "0.0.0")).(Required)
	require.NoError(t, checked(f))
	require.Equal(t, table.NineInTen, f.NineInTen)
	require.Positive(t, f.NineInTen[0])
	require.Equal(t, "PC, 1.75 mm · dew point -10 °C · starts at 0.18 % · strandry 0.0.0", plain(f.foot()))
	require.Equal(t, s.Model.Material.DryingTemperature.Value, f.HeatLimit)
	require.Equal(t, s.Build.Longest, f.Longest)
}

// Where no length will do at any temperature the figure is that of the least moisture that any length leaves.
func TestFloor(t *testing.T) {
	t.Parallel()
	s, err := scenarios.Demo("lamp-shade")
	require.NoError(t, err)
	table, err := required.Find(context.Background(), s, required.Request{Temperatures: []float64{308.15, 318.15}, Speeds: []float64{s.Model.Speed}, Settings: diffusion.CoarseSettings()})
	require.NoError(t, err)
	f := RequiredOf(s, table, FrameOf(s, "0.0.0")).(Line)
	require.NoError(t, checked(f))
	require.InDeltaSlice(t, []float64{35, 45}, f.X.Values, 1e-9)
	for i, residual := range table.Residual {
		require.Equal(t, [...]float64{residual.Low, residual.Mean, residual.High}, [...]float64{f.Low[i], f.Content[i], f.High[i]})
	}
	require.Regexp(t, `^No length of warm box brings PLA within its limit of 0.025 %: at 45 °C, up to where it holds, the least left is 0.12 % \(0.0\d+ to 0.\d+\)$`, plain(f.Headline()))
	clean(t, "floor", f)
}

// A speed at which the strand needs none of the zone lies on the floor of the figure, and is named so.
func TestNoLengthNeeded(t *testing.T) {
	f := aRequired()
	for k := range f.Lengths {
		for i := range f.Lengths[k] {
			f.Lengths[k][i] = size.Shortest
		}
	}
	require.NoError(t, checked(f))
	require.Equal(t, "PA6 can be dried at a feed of up to 4\u00a0mm/s (of those shown): at 30\u00a0°C it needs no drum", f.Headline())
	files, err := Encode(f, canvas.SVG)
	require.NoError(t, err)
	svg := files[0]
	require.Contains(t, string(svg), ">4\u00a0mm/s: no need<")
	require.NotContains(t, string(svg), "1\u00a0mm<")
}
