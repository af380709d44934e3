package figure

import (
	"context"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/plots/canvas"
	"strandry/scenarios"
	"strandry/scenarios/studies/sweep"
)

func drum(t *testing.T) *scenarios.Scenario {
	t.Helper()
	s, err := scenarios.Demo("winch-drum")
	require.NoError(t, err)
	return s
}

func swept(t *testing.T, quick bool, axes ...string) *sweep.Grid {
	t.Helper()
	s, err := drum(t).Varied(axes...)
	require.NoError(t, err)
	g, err := (&sweep.Sweep{Scenario: s, Quick: quick, Workers: 2}).Run(context.Background())
	require.NoError(t, err)
	return g
}

func sheetNames(sheets []Sheet) []string {
	var all []string
	for _, s := range sheets {
		all = append(all, s.Name)
	}
	return all
}

// A map holds each row of the sweep where its axes say, by rising values, the length along
// the abscissa, and rings the scenario's own design.
func TestMapOfASweep(t *testing.T) {
	t.Parallel()
	g := swept(t, true, "feed.speed=4 mm/s, 1 mm/s", "zone.drum.length=2 m, 40 m, 10 m")
	sheets, undrawn := OfSweep(g, drum(t), Frame{Version: "1"})
	require.Empty(t, undrawn)
	require.Equal(t, []string{"map"}, sheetNames(sheets))
	m := sheets[0].Figure.(Map)
	require.Equal(t, []float64{2, 10, 40}, m.X.Values)
	require.InDeltaSlice(t, []float64{1, 4}, m.Y.Values, 1e-12)
	require.Equal(t, "length of drum", m.X.Name)
	rows := g.Rows // 4 mm/s: 2, 40, 10 m; 1 mm/s: 2, 40, 10 m
	require.Equal(t, [][]float64{{rows[3].Mean, rows[5].Mean, rows[4].Mean}, {rows[0].Mean, rows[2].Mean, rows[1].Mean}}, m.Content)
	require.InDelta(t, rows[0].Limit, m.Limit, 0)
	require.InDelta(t, 12, m.Here.X, 1e-12)
	require.InDelta(t, 2, m.Here.Y, 1e-12)
	_, err := Encode(m, canvas.SVG)
	require.NoError(t, err)
}

func TestLineOfASweep(t *testing.T) {
	t.Parallel()
	g := swept(t, false, "zone.drum.temperature=60 °C..90 °C:3")
	sheets, undrawn := OfSweep(g, drum(t), Frame{})
	require.Empty(t, undrawn)
	require.Equal(t, []string{"line"}, sheetNames(sheets))
	l := sheets[0].Figure.(Line)
	for i, row := range g.Rows {
		require.Equal(t, []float64{row.Low, row.Mean, row.High}, []float64{l.Low[i], l.Content[i], l.High[i]})
	}
	require.InDeltaSlice(t, []float64{60, 75, 90}, l.X.Values, 1e-9)
	sheets, _ = OfSweep(swept(t, true, "zone.drum.temperature=60 °C, 70 °C"), drum(t), Frame{})
	require.Nil(t, sheets[0].Figure.(Line).Low, "a quick sweep has no span")
}

// What is unsure on the map of a quick sweep lies where full odds at every row put it: the ratios between knots are near to those.
func TestUnsureOfASweep(t *testing.T) {
	t.Parallel()
	s, err := scenarios.Demo("clear-cover")
	require.NoError(t, err)
	s, err = s.Varied("zone.oven.length=0.3 m..5 m:7:log", "feed.speed=0.5 mm/s..4 mm/s:3:log")
	require.NoError(t, err)
	draw := func(work sweep.Sweep) Map {
		work.Scenario, work.Workers = s, 2
		g, err := work.Run(context.Background())
		require.NoError(t, err)
		sheets, undrawn := OfSweep(g, s, Frame{})
		require.Empty(t, undrawn)
		return sheets[0].Figure.(Map)
	}
	whole, quick := draw(sweep.Sweep{}), draw(sweep.Sweep{Quick: true, Knots: 7})
	require.Len(t, quick.Ratio, 3)
	for j, row := range whole.Ratio {
		for i, want := range row {
			if got := quick.Ratio[j][i]; want.High > 0.5 && want.Low < 2 {
				require.InEpsilon(t, want.Low, got.Low, 0.15, "%d, %d", i, j)
				require.InEpsilon(t, want.High, got.High, 0.15, "%d, %d", i, j)
			}
		}
	}
	require.Regexp(t, `at least 0\.9\d+ m \(less than 0\.3 to 2\.\d m, eight times in ten\)$`, plain(quick.Headline()))
}

// Names, and the axis with the fewest values of three, give a figure for each place.
func TestSheetsOfASweep(t *testing.T) {
	t.Parallel()
	g := swept(t, true, "strand.material=pa12, pa6", "feed.speed=1 mm/s, 2 mm/s")
	sheets, undrawn := OfSweep(g, drum(t), Frame{Setup: setupOf(drum(t))})
	require.Empty(t, undrawn)
	require.Equal(t, []string{"line-pa12", "line-pa6"}, sheetNames(sheets))
	require.Equal(t, []float64{g.Rows[2].Mean, g.Rows[3].Mean}, sheets[1].Figure.(Line).Content)
	require.Equal(t, "drum 12 m at 80 °C, dew point -20 °C · starts at 2.5 % · strand material pa6", plain(sheets[1].Figure.(Line).foot()))

	g = swept(t, true, "feed.speed=1 mm/s, 2 mm/s, 4 mm/s", "zone.drum.temperature=60 °C, 90 °C", "zone.drum.length=1 m, 2 m, 3 m")
	sheets, undrawn = OfSweep(g, drum(t), Frame{})
	require.Empty(t, undrawn)
	require.Equal(t, []string{"map-60-C", "map-90-C"}, sheetNames(sheets))
	hot := sheets[1].Figure.(Map)
	require.Equal(t, g.Rows[g.Index([]int{2, 1, 0})].Mean, hot.Content[2][0])
}

// What cannot be drawn is told with its reason, and the rest is drawn.
func TestUndrawn(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		why  string
		axes []string
	}{
		{"no figure: no axis has two numbers", []string{"strand.material=pa12, pa6"}},
		{"no figure: no axis has two numbers", []string{"feed.speed=1 mm/s"}},
		{"line: not drawn: its rows do not share one limit", []string{"strand.limit=0.1 %, 0.2 %"}},
		{"there would be 20 of them", []string{"strand.material=pa12,pa6,pa66,pc,petg,pla,abs,pom,pva,asa", "zone.drum.air.direction=with,against", "feed.speed=4 mm/s, 5 mm/s"}},
	} {
		sheets, undrawn := OfSweep(swept(t, true, c.axes...), drum(t), Frame{})
		require.Empty(t, sheets)
		require.Len(t, undrawn, 1)
		require.Contains(t, undrawn[0], c.why)
	}
	g := swept(t, true, "strand.material=pa12, pa6", "feed.speed=1 mm/s, 2 mm/s")
	g.Rows[0] = sweep.Row{Failed: "no air"}
	sheets, undrawn := OfSweep(g, drum(t), Frame{})
	require.Equal(t, []string{"line-pa6"}, sheetNames(sheets))
	require.Equal(t, []string{"line-pa12: not drawn: 1 of its rows without an answer"}, undrawn)
}

func TestFileNames(t *testing.T) {
	for text, want := range map[string]string{"pa6": "pa6", "90 °C": "90-C", "../mine/a b.toml": "mine-a-b.toml", "5e-3": "5e-3", "…": ""} {
		require.Equal(t, want, fileName(text))
	}
	// A path of 4,000 letters, which is as long as one may be, gives a name as every file system takes it.
	long := strings.Repeat("deep/", 800) + "pa6.toml"
	name := fileName(long)
	require.LessOrEqual(t, len(name), 60)
	require.Contains(t, name, "deep-pa6.toml-")
	require.NotEqual(t, name, fileName("else/"+long))
	require.Equal(t, name, fileName(long))
}

func TestSweepNamesAreTold(t *testing.T) {
	axis := func(values ...string) scenarios.Axis {
		s, err := drum(t).Varied("strand.material=pa6", "feed.speed="+strings.Join(values, ","))
		require.NoError(t, err)
		return s.Vary[1]
	}
	speed := axis("1 mm/s", "2 mm/s")
	require.Equal(t, []string{"line"}, SweepNames([]scenarios.Axis{speed}))
	require.Nil(t, SweepNames(nil))
	s, err := drum(t).Varied("strand.material=pa6, pa12", "feed.speed=1 mm/s, 2 mm/s", "zone.drum.length=1 m, 2 m")
	require.NoError(t, err)
	require.Equal(t, []string{"map-pa6", "map-pa12"}, SweepNames(s.Vary))
}
