package figure

import (
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion"
	"strandry/diffusion/samples"
	"strandry/materials"
	"strandry/plots/words"
)

// hotMap is a map with a temperature along one axis: the strand has that temperature, holds to 70 °C and softens
// above 85 °C.
func hotMap(up bool) Map {
	m := aMap()
	m.Here = nil
	heat := Axis{Name: "temperature of drum", Unit: "°C", Heat: &Heat{Bears: 70, Yields: 85}}
	n := len(m.X.Values)
	if up {
		n = len(m.Y.Values)
	}
	for k := range n {
		heat.Values = append(heat.Values, 40+80*float64(k)/float64(n-1))
	}
	if up {
		m.Y = heat
	} else {
		m.X = heat
	}
	for j := range m.Content {
		row := make([]diffusion.Excess, len(m.Content[j]))
		for i := range row {
			k := i
			if up {
				k = j
			}
			row[i] = diffusion.Excess{Yield: heat.Values[k] - 85, Bear: heat.Values[k] - 70}
		}
		m.Excess = append(m.Excess, row)
	}
	return m
}

func hotLine() Line {
	m := hotMap(false)
	l := aLine()
	l.X, l.Excess = m.X, m.Excess[0]
	return l
}

// The headlines of maps and lines do not count what softens as fit.
func TestHotHeadlines(t *testing.T) {
	f := hotMap(false)
	fit, soft, doubtful := f.Fits()
	all := 0
	for _, row := range f.Content {
		for _, c := range row {
			if c <= f.Limit {
				all++
			}
		}
	}
	require.Equal(t, all, fit+soft)
	require.Positive(t, soft)
	require.Positive(t, doubtful)
	require.Contains(t, f.Headline(), "are as dry, but soften")
	for j := range f.Excess {
		for i := range f.Excess[j] {
			f.Excess[j][i].Yield = 1
		}
	}
	require.Equal(t, "No design shown both meets the limit of 0.2\u00a0% and keeps the strand from softening", f.Headline())
	l := hotLine()
	require.Contains(t, l.Headline(), "it softens")
	for i := range l.Excess {
		l.Excess[i].Yield = 1
	}
	require.Contains(t, l.Headline(), "No temperature of drum shown both meets the limit")
}

// A path that softens says so in the headline of each of its figures.
func TestFate(t *testing.T) {
	t.Parallel()
	m, tr := model(), trace()
	tr.Result = diffusion.Result{Start: diffusion.State{Temperature: 293.15}, Zones: []diffusion.ZoneResult{
		{Name: "drum", Exit: diffusion.State{Temperature: 363.15}, AirTemperature: 363.15}, {Name: "guide", Exit: diffusion.State{Temperature: 293.15}, AirTemperature: 293.15},
	}}
	for _, c := range []struct {
		low, high float64
		want      string
	}{{300, 310, "; but it softens, at 90\u00a0°C in drum"}, {350, 370, "; but it may soften, at 90\u00a0°C in drum"}, {364, 370, ""}} {
		m.Material.Softening = materials.Value{Low: c.low, Value: c.low, High: c.high}
		for _, f := range []Figure{Path{Frame: frame(), Design: m, Trace: tr}, Heatmap{frame(), m, tr}, Profiles{Frame: frame(), Design: m, Trace: tr}} {
			require.Regexp(t, c.want+"$", f.Headline())
			clean(t, c.want, f)
		}
	}
	require.NotContains(t, Path{Frame: frame(), Design: m, Trace: tr}.Headline(), "soften")
}

// Names of the heat stand clear of all else, wherever the range lies on the axis.
func TestHeatNamesDoNotOverlap(t *testing.T) {
	t.Parallel()
	for _, r := range samples.Each(3, [][2]float64{{70, 70}, {45, 50}, {70, 85}, {100, 118}, {30, 200}, {130, 150}}) {
		for _, up := range []bool{false, true} {
			f := hotMap(up)
			axis := &f.X
			if up {
				axis = &f.Y
			}
			axis.Heat = &Heat{Bears: r[0], Yields: r[1]}
			clean(t, "map", f)
		}
		l := hotLine()
		l.X.Heat = &Heat{Bears: r[0], Yields: r[1]}
		clean(t, "line", l)
		l.X.Heat = nil
		clean(t, "line of another axis", l)
		n := aNeeded()
		n.GivesWay = materials.Range{Min: r[0] + words.ZeroCelsius, Max: r[1] + words.ZeroCelsius}
		clean(t, "needed", n)
	}
}

// Heat of another shape than the contents, or without a number, is refused.
func TestRefusedHeat(t *testing.T) {
	f := hotMap(false)
	f.Excess = f.Excess[1:]
	require.ErrorContains(t, checked(f), "rows of heat")
	f = hotMap(false)
	f.Excess[2] = f.Excess[2][1:]
	require.ErrorContains(t, checked(f), "row 3 has")
	l := hotLine()
	l.Excess = l.Excess[1:]
	require.Error(t, checked(l))
}
