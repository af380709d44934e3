package figure

import (
	"context"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion"
	"strandry/plots/canvas"
	"strandry/scenarios"
	"strandry/scenarios/studies/needed"
	"strandry/scenarios/studies/size"
)

// What was found for the scenario's own zone stands in the place of what the table has, at its own temperature and speed alone.
func TestOwnLength(t *testing.T) {
	known := needed.Table{
		Speeds: []float64{1e-3, 2e-3}, Own: 1, Temperatures: []float64{340, 353.15}, Lengths: [][]float64{{5, 4}, {10, 8}},
		NineInTen: []float64{30, 20}, OneInTen: []float64{3, 2}, Zone: "drum",
	}
	f := Needed{Table: known, Material: "PA6", HeatLimit: 353.15, Longest: 20, Limit: 0.003}
	require.Contains(t, f.WithOwnLength(353.15, 8.14, 21.3).own(), "8.14\u00a0m (2 to 21.3, eight times in ten)")
	require.Equal(t, [][]float64{{5, 4}, {10, 8}}, f.Lengths)
	require.Equal(t, f, f.WithOwnLength(346, 8.14, 21.3))
	f.NineInTen = nil
	require.Equal(t, f, f.WithOwnLength(353.15, 8.14, 21.3))
}

// The figures of a demonstration carry the numbers of its studies.
func TestOfAScenario(t *testing.T) {
	t.Parallel()
	s, err := scenarios.Demo("clear-cover")
	require.NoError(t, err)
	ctx, coarse := context.Background(), diffusion.CoarseSettings()
	table, err := needed.Find(ctx, s, needed.Request{Temperatures: []float64{363.15, 383.15}, Speeds: []float64{0.001}, Settings: coarse})
	require.NoError(t, err)
	f := NeededOf(s, table, FrameOf(s, "0.0.0")).(Needed)
	require.NoError(t, checked(f))
	require.Equal(t, table.NineInTen, f.NineInTen)
	require.Positive(t, f.NineInTen[0])
	require.Equal(t, "PC, 1.75 mm · dew point -10 °C · starts at 0.18 % · strandry 0.0.0", plain(f.foot()))
	require.Equal(t, s.Model.Material.DryingTemperature.Value, f.HeatLimit)
	require.Equal(t, s.LongestOf(0), f.Longest)
	require.Less(t, f.Longest, s.Build.Longest, "what the shape of the oven holds in its box")
}

// Where no length will do at any temperature the figure is that of the least moisture that any length leaves.
func TestFloor(t *testing.T) {
	t.Parallel()
	s, err := scenarios.Demo("lamp-shade")
	require.NoError(t, err)
	table, err := needed.Find(context.Background(), s, needed.Request{Temperatures: []float64{308.15, 318.15}, Speeds: []float64{s.Model.Speed}, Settings: diffusion.CoarseSettings()})
	require.NoError(t, err)
	f := NeededOf(s, table, FrameOf(s, "0.0.0")).(Line)
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
	f := aNeeded()
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
