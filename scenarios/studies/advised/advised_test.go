package advised

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion"
	"strandry/diffusion/advice"
	"strandry/materials/humidair"
	"strandry/scenarios"
)

// airs is a way through air that is stated in each of the ways.
const airs = `[strand]
material = "petg"
[feed]
%FEED%
[room]
temperature = "22 °C"
[[zone]]
name = "drum"
length = "12 m"
temperature = "60 °C"
air = { %AIR% }
%BORE%
[[zone]]
name = "guide"
length = "600 mm"
`

func read(t *testing.T, feed, air, bore string) *scenarios.Scenario {
	t.Helper()
	s, err := scenarios.Read("airs.toml", []byte(strings.NewReplacer("%FEED%", feed, "%AIR%", air, "%BORE%", bore).Replace(airs)))
	require.NoError(t, err)
	return s
}

// part is a change of one part, from what the scenario has.
func part(kind advice.Kind, zone int, from, to, bound float64) advice.Change {
	return advice.Change{Kind: kind, Parts: []advice.Part{{Zone: zone, From: from, To: to, Bound: bound}}}
}

// Each number is rounded away from what is drawn, to one that can be built, no further than its bound; and what the reader makes of it is what the
// change says, to the bit.
func TestChangesAsTheyAreWritten(t *testing.T) {
	sat := humidair.SaturationPressure
	dewed, held := read(t, `speed = "2 mm/s"`, `dew_point = "-10 °C", flow = "5 L/min"`, ""), read(t, `flow = "4.8 mm3/s"`, `humidity = "8 %"`, "")
	vapour := read(t, `bead = { width = "0.45 mm", height = "0.2 mm", speed = "30 mm/s" }`, `vapour_pressure = "260 Pa", speed = "0.5 m/s"`, `bore = "6 mm"`)
	roomy := read(t, `speed = "2 mm/s"`, `speed = "0.1 m/s"`, "")
	dragged := read(t, `speed = "2 mm/s"`, `dew_point = "-10 °C"`, `bore = "6 mm"`)
	flow, feed := held.Model.Speed, vapour.Model.Speed
	for _, c := range []struct {
		of       *scenarios.Scenario
		change   advice.Change
		key, was string
		is       string
	}{
		{dewed, part(advice.Longer, 0, 12, 17.3, 20), "zone.drum.length", "12 m", "18 m"},
		{dewed, part(advice.Longer, 0, 12, 12.01, 20), "zone.drum.length", "12 m", "13 m"},
		{dewed, part(advice.Longer, 0, 12, 22.1, 300), "zone.drum.length", "12 m", "24 m"},
		{dewed, part(advice.Longer, 0, 12, 19.99, 19.992), "zone.drum.length", "12 m", "19.9 m"}, // the bound, towards what is drawn
		{dewed, part(advice.Shorter, 1, 0.6, 0.537, 0.3), "zone.guide.length", "600 mm", "500 mm"},
		{dewed, part(advice.Hotter, 0, 333.15, 336, 338.15), "zone.drum.temperature", "60 °C", "65 °C"},
		{dewed, part(advice.Hotter, 0, 333.15, 336, 336.65), "zone.drum.temperature", "60 °C", "63.5 °C"},
		{dewed, part(advice.Cooler, 0, 333.15, 318.15, 318.15), "zone.drum.temperature", "60 °C", "45 °C"},
		{dewed, part(advice.Drier, 0, sat(263.15), sat(255), sat(233.15)), "zone.drum.air.dew_point", "-10 °C", "-20 °C"},
		{dewed, part(advice.Drier, 0, sat(263.15), sat(237), sat(236.15)), "zone.drum.air.dew_point", "-10 °C", "-37 °C"},
		{dewed, part(advice.DrierAfter, 1, sat(280.15), sat(271), sat(233.15)), "zone.guide.air.dew_point", "7 °C", "-5 °C"},
		{held, part(advice.Drier, 0, 0.08, 0.00234, 0.001), "zone.drum.air.humidity", "8 %", "0.22 %"},
		{vapour, part(advice.Drier, 0, 260, 97, 12.8), "zone.drum.air.vapour_pressure", "260 Pa", "95 Pa"},
		{dewed, part(advice.Slower, -1, 2e-3, 1.23e-3, 1e-3), "feed.speed", "2 mm/s", "1.2 mm/s"},
		{dewed, part(advice.Faster, -1, 2e-3, 2.21e-3, 4e-3), "feed.speed", "2 mm/s", "2.4 mm/s"},
		{held, part(advice.Slower, -1, flow, 0.613*flow, 0.5*flow), "feed.flow", "4.8 mm3/s", "2.8 mm3/s"},
		{vapour, part(advice.Slower, -1, feed, 0.51*feed, 0.505*feed), "feed.bead.speed", "30 mm/s", "15.2 mm/s"},
		{dewed, part(advice.MoreAir, 0, 5.0/6e4, 7.3/6e4, 20.0/6e4), "zone.drum.air.flow", "5 L/min", "7.5 L/min"},
		{vapour, part(advice.MoreAir, 0, 0.5, 0.61, 2), "zone.drum.air.speed", "0.5 m/s", "0.65 m/s"},
		{dragged, part(advice.MoreAir, 0, 3e-7, 1e-4, 1e-3), "zone.drum.air.flow", "0.018 L/min", "6 L/min"},
		{roomy, part(advice.Drier, 0, roomy.Room.VapourPressure, sat(274), sat(233.15)), "zone.drum.air.dew_point", "11.11 °C", "0 °C"},
	} {
		written, ok := draft{c.of}.Written(c.change)
		require.True(t, ok, c.is)
		p := written.Parts[0]
		require.Equal(t, []string{c.key, c.was, c.is}, []string{p.Key, p.Was, p.Is})
		m, err := draft{c.of}.Changed([]advice.Change{written})
		require.NoError(t, err, c.is)
		require.Equal(t, p.To, number(m, written.Kind, &p), c.key)
	}
}

// number is what a model has where a part acts.
func number(m *diffusion.Design, kind advice.Kind, p *advice.Part) float64 {
	if p.Zone < 0 {
		return m.Speed
	}
	z := &m.Path[p.Zone]
	switch kind {
	case advice.Longer, advice.Shorter:
		return z.Length
	case advice.Hotter, advice.Cooler:
		return z.Air.Temperature
	case advice.MoreAir:
		if z.Air.Blown {
			return z.Film.AirSpeed
		}
		return z.Air.VolumeFlow
	}
	if z.Air.Held > 0 {
		return z.Air.Held
	}
	return z.Air.VapourPressure
}

// What rounds back to what is drawn is no change.
func TestNoChangeIsNotWritten(t *testing.T) {
	s := read(t, `speed = "2 mm/s"`, `dew_point = "-10 °C"`, "")
	for _, c := range []advice.Change{
		part(advice.Longer, 0, 12, 12.01, 12.01), part(advice.Slower, -1, 2e-3, 1.9999e-3, 1.9999e-3), part(advice.Hotter, 0, 333.15, 333.16, 333.16),
		part(advice.Drier, 0, humidair.SaturationPressure(263.15), humidair.SaturationPressure(263.14), humidair.SaturationPressure(263.14)),
	} {
		_, ok := draft{s}.Written(c)
		require.False(t, ok, c.Kind.String())
	}
}

// The advice of a demonstration, laid over it, is dry as told; what is not enough is told to be none, and all that was assumed is said.
func TestAdviceOnDemos(t *testing.T) {
	for _, name := range scenarios.Demos() {
		s, err := scenarios.Demo(name)
		require.NoError(t, err)
		w := diffusion.NewMarch()
		a, err := w.Assess(&s.Design, s.Settings)
		require.NoError(t, err)
		_, v := Find(w, s, a)
		require.Equal(t, a.Verdict == diffusion.Dry, len(v.Sets) == 0 && v.Nearest == nil, name)
		sets := v.Sets
		if v.Nearest != nil {
			sets = append(sets, *v.Nearest)
		}
		for i, set := range sets {
			changed, err := s.With(Settings(set.Changes)...)
			require.NoError(t, err)
			after, err := w.Assess(&changed.Design, changed.Settings)
			require.NoError(t, err)
			require.Equal(t, set.Probability, after.Probability, name)
			require.Equal(t, i < len(v.Sets), after.Verdict == diffusion.Dry, name)
		}
	}
}
