package scenarios_test

import (
	"context"
	"fmt"
	"math"
	"math/rand/v2"
	"runtime"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion"
	"strandry/diffusion/samples"
	"strandry/scenarios"
)

// lengthAndFeed are what most maps go over, for the first zone of a demonstration that is long.
func lengthAndFeed(zone int) []diffusion.Varied {
	return []diffusion.Varied{
		{Name: "length", From: 1, To: 200, Set: func(m *diffusion.Model, value float64) { m.Path[zone].Length = value }},
		{Name: "feed", From: 0.5e-3, To: 8e-3, Set: func(m *diffusion.Model, value float64) { m.Speed = value }},
	}
}

func charted(t testing.TB, name string) (*scenarios.Scenario, *diffusion.Chart) {
	s, err := scenarios.Demo(name)
	require.NoError(t, err)
	c, err := diffusion.NewMarch().Chart(&s.Design, lengthAndFeed(0), s.Settings)
	require.NoError(t, err)
	return s, c
}

// tell is what a chart tells of one place.
func tell(t testing.TB, c *diffusion.Chart, values ...float64) diffusion.Told {
	told, err := c.Tell(context.Background(), [][]float64{values})
	require.NoError(t, err)
	return told[0]
}

// A chart against marches and odds at places of their own: the first look tells about how wet, and refining makes it truer.
func TestChart(t *testing.T) {
	places := samples.Of(6, 30, 300)
	for _, name := range samples.Each(4, scenarios.Demos()) {
		s, c := charted(t, name)
		first := c.Marches
		w, r := diffusion.NewMarch(), rand.New(rand.NewPCG(5, 6))
		off := func() (content, probability float64) {
			for range places {
				m := s.Design
				m.Path = append([]diffusion.Zone(nil), m.Path...)
				length, feed := math.Exp(r.Float64()*math.Log(200)), 0.5e-3*math.Pow(16, r.Float64())
				m.Path[0].Length, m.Speed = length, feed
				o, err := w.Odds(&m, s.Settings)
				require.NoError(t, err)
				var one diffusion.Result
				require.NoError(t, w.Run(&m.Model, s.Settings, &one))
				d := math.Log(c.Content(length, feed) / one.Nozzle.Mean)
				content += d * d / float64(places)
				probability = math.Max(probability, math.Abs(tell(t, c, length, feed).Probability-o.Probability))
			}
			return math.Sqrt(content), probability
		}
		content, probability := off()
		t.Logf("%s: %d marches, told %.3f, off by %.3f, probability by %.3f", name, c.Marches, c.Error, content, probability)
		require.Less(t, content, 0.3)
		require.Less(t, probability, 0.15)
		for range 3 {
			more, err := c.Refine()
			require.NoError(t, err)
			require.True(t, more)
		}
		require.Greater(t, c.Marches, first)
		content, probability = off()
		t.Logf("%s: %d marches, told %.3f, off by %.3f, probability by %.3f", name, c.Marches, c.Error, content, probability)
		require.Less(t, content, 0.1)
		require.Less(t, probability, 0.06)
	}
}

// What is told of many places is what is told of each alone, to the bit on any number of cores, and its content that at the medians.
func TestChartTells(t *testing.T) {
	_, c := charted(t, "opened-yesterday")
	var places [][]float64
	for i := range 70 {
		places = append(places, []float64{1 + 2.8*float64(i), 0.5e-3 + 1e-4*float64(i)})
	}
	all, err := c.Tell(context.Background(), places)
	require.NoError(t, err)
	defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(1))
	alone, err := c.Tell(context.Background(), places)
	require.NoError(t, err)
	require.Equal(t, alone, all)
	for i, p := range places {
		require.InEpsilon(t, c.Content(p...), all[i].Content, 1e-8)
		require.Equal(t, all[i], tell(t, c, p...))
		require.True(t, all[i].Low < all[i].Content && all[i].Content < all[i].High)
	}
	done, cancel := context.WithCancel(context.Background())
	cancel()
	_, err = c.Tell(done, places)
	require.ErrorIs(t, err, context.Canceled)
}

// The whole first map, of sixty by sixty contents; and refined, with its probabilities.
func BenchmarkChart(b *testing.B) {
	for _, name := range scenarios.Demos() {
		for _, refined := range []int{0, 3} {
			b.Run(fmt.Sprintf("%s/refined %d times", name, refined), func(b *testing.B) {
				for b.Loop() {
					_, c := charted(b, name)
					for range refined {
						_, err := c.Refine()
						require.NoError(b, err)
					}
					var places [][]float64
					for i := range 60 {
						for k := range 60 {
							length, feed := math.Exp(float64(i)/59*math.Log(200)), 0.5e-3*math.Pow(16, float64(k)/59)
							if refined > 0 {
								places = append(places, []float64{length, feed})
							} else {
								c.Content(length, feed)
							}
						}
					}
					_, err := c.Tell(context.Background(), places)
					require.NoError(b, err)
					b.ReportMetric(c.Error, "error")
				}
			})
		}
	}
}

// Ends that do not rise, or do not lie above zero, are refused with their name; after the last batch there is nothing to refine.
func TestChartRefusesAndEnds(t *testing.T) {
	s, err := scenarios.Demo("lamp-shade")
	require.NoError(t, err)
	for _, ends := range [][2]float64{{2, 1}, {-1, 1}, {0, 0}, {1, math.Inf(1)}, {math.NaN(), 1}, {1, 1}} {
		over := lengthAndFeed(0)
		over[0].From, over[0].To = ends[0], ends[1]
		_, err := diffusion.NewMarch().Chart(&s.Design, over, s.Settings)
		require.ErrorContains(t, err, "length from", "%v", ends)
	}
	c, err := diffusion.NewMarch().Chart(&s.Design, lengthAndFeed(0), s.Settings)
	require.NoError(t, err)
	refined, more := 0, true
	for more {
		before := c.Marches
		more, err = c.Refine()
		require.NoError(t, err)
		if more {
			refined++
			require.Greater(t, c.Marches, before)
		}
	}
	require.Equal(t, 5, refined)
}

// A moist box wets a strand so steeply that some draws stall on the coarse grid of the odds; they are marched on a finer one. The probability is that of
// 600 draws on the grid of a run, 0.832, of which 0.015 is chance.
func TestOddsWhereCoarseGridsStall(t *testing.T) {
	if samples.Of(0, 1, 1) == 0 {
		t.Skip("takes some seconds")
	}
	s, err := scenarios.Read("steep.toml", []byte(`
[strand]
material = "pa6"
diameter = "2.03 mm"
limit = "0.7888 %"
[feed]
flow = "4.606 mm3/s"
[room]
temperature = "27.24 °C"
humidity = "1.025 %"
[[zone]]
name = "hot"
length = "94.14 m"
temperature = "60.1 °C"
air = { vapour_pressure = "16.08 Pa" }
vertical = true
[[zone]]
name = "warm box"
length = "13.83 m"
temperature = "92.55 °C"
air = { dew_point = "83.09 °C", speed = "0.2298 m/s", past = "along" }
[[zone]]
name = "bore"
length = "48.72 m"
temperature = "99.49 °C"
contact = { share = "9.81 %", moves = true }
bore = "2.188 mm"
air = { humidity = "0.6402 %" }
`))
	require.NoError(t, err)
	o, err := diffusion.NewMarch().Odds(&s.Design, s.Settings)
	require.NoError(t, err)
	require.InDelta(t, 0.832, o.Probability, 0.03)
}
