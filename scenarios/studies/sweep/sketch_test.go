package sweep

import (
	"context"
	"errors"
	"math"
	"math/rand/v2"
	"runtime"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion"
	"strandry/diffusion/samples"
	"strandry/scenarios"
)

// sketches are grids of the demonstrations that a chart goes over.
func sketches() map[string][]string {
	return map[string][]string{
		"winch-drum":       {"zone.drum.length=1 m..200 m:24:log", "feed.speed=0.5 mm/s..8 mm/s:24:log"},
		"clear-cover":      {"zone.oven.temperature=80 °C..120 °C:24", "zone.oven.length=0.5 m..50 m:24:log"},
		"lamp-shade":       {"zone.warm box.length=0.3 m..300 m:24:log", "room.humidity=20 %..70 %:24"},
		"opened-yesterday": {"zone.warm tube.length=0.5 m..20 m:20:log", "feed.flow=1 mm3/s..8 mm3/s:20:log", "strand.storage.1.duration=1 h..50 h:9:log"},
	}
}

// Rows of a sketch against full odds, at places of their own: what the contents are off by, as a root mean square, is about what is told, and probabilities and ends are near.
func TestSketchAgainstOdds(t *testing.T) {
	count := samples.Of(6, 30, 200)
	for _, name := range samples.Each(4, scenarios.Demos()) {
		s := demo(t, name, sketches()[name]...)
		g := grid(t, Sweep{Scenario: s, Sketch: true})
		require.Equal(t, len(g.Rows), g.Answered())
		r, w := rand.New(rand.NewPCG(3, 4)), diffusion.NewMarch()
		var content, low, high, probability, worst float64
		for range count {
			row := r.IntN(len(g.Rows))
			own := &g.Rows[row]
			alone, err := s.With(g.settings(row)...)
			require.NoError(t, err)
			a, err := w.Assess(&alone.Design, diffusion.CoarseSettings())
			require.NoError(t, err)
			square := func(sketched, marched float64) float64 {
				d := math.Log(sketched / marched)
				return d * d / float64(count)
			}
			content += square(own.Mean, a.Nozzle.Mean)
			low += square(own.Low, a.Low)
			high += square(own.High, a.High)
			worst = math.Max(worst, math.Abs(math.Log(own.Mean/a.Nozzle.Mean)))
			probability = math.Max(probability, math.Abs(own.Probability-a.Probability))
			require.InDelta(t, alone.Limit, own.Limit, 0)
			require.Equal(t, a.Endurance.Survival, own.Survives())
		}
		k := g.Sketched
		t.Logf("%s: %d marches, told %.3f, checked %.3f (worst %.3f); off: content %.3f (worst %.3f), 10 %% point %.3f, 90 %% point %.3f, probability %.3f", name, k.Marches, k.Error, k.Off, k.Worst,
			math.Sqrt(content), worst, math.Sqrt(low), math.Sqrt(high), probability)
		require.LessOrEqual(t, k.Error, k.Sought)
		require.False(t, k.Exhausted)
		require.Less(t, math.Sqrt(content), 1.5*k.Slack()+0.002)
		require.Less(t, worst, 0.12)
		require.Less(t, math.Sqrt(low), 0.06)
		require.Less(t, math.Sqrt(high), 0.06)
		require.Less(t, probability, 0.04)
	}
}

// The same bits on one core and on several, and however often a grid was asked for in between; contents are those of the first look until it is refined.
func TestSketchKeepsWhatItHas(t *testing.T) {
	s := demo(t, "clear-cover", "zone.oven.length=0.5 m..50 m:12:log", "feed.speed=0.5 mm/s..4 mm/s:9")
	whole := grid(t, Sweep{Scenario: s, Sketch: true})
	k, err := NewSketch(s)
	require.NoError(t, err)
	first := k.Contents()
	before, marches := k.Error(), 0
	for more := true; more && k.Error() > enough; {
		g, err := k.Grid(context.Background())
		require.NoError(t, err)
		require.Greater(t, g.Sketched.Marches, marches)
		marches = g.Sketched.Marches
		for i, x := range k.Contents() {
			require.InEpsilon(t, x, g.Rows[i].Mean, 1e-8)
		}
		more, err = k.Refine()
		require.NoError(t, err)
	}
	require.Less(t, k.Error(), before, "it was refined")
	require.NotEqual(t, first, k.Contents())
	defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(1))
	g, err := k.Grid(context.Background())
	require.NoError(t, err)
	g.Sketched.Sought = whole.Sketched.Sought
	require.Equal(t, whole, g)
	require.Equal(t, whole, grid(t, Sweep{Scenario: s, Sketch: true}))
}

// Air that would condense, a strand that would melt and one that softens are told of the rows that a quick sweep tells them of.
func TestSketchTellsWhatHasNoAnswer(t *testing.T) {
	for name, axes := range map[string][]string{
		"winch-drum":  {"zone.drum.air.flow=0.08 L/min..5 L/min:16:log", "zone.drum.length=2 m..30 m:10:log"},
		"lamp-shade":  {"zone.warm box.length=1 m..100 m:6:log", "zone.warm box.temperature=30 °C..200 °C:30"},
		"clear-cover": {"zone.oven.air.dew_point=-10 °C..95 °C:12", "zone.oven.temperature=60 °C..120 °C:13"}, // the air is above saturation in one corner
	} {
		s := demo(t, name, axes...)
		sketched, marched := grid(t, Sweep{Scenario: s, Sketch: true}), grid(t, Sweep{Scenario: s, Quick: true, Workers: 2})
		failed, soft, beyond := 0, 0, 0
		for i := range marched.Rows {
			own, other := &sketched.Rows[i], &marched.Rows[i]
			if own.Failed == ErrNotSketched.Error() && other.Failed == "" {
				beyond++
				continue
			}
			require.Equal(t, other.Failed, own.Failed, "row %d of %s", i, name)
			if own.Failed != "" {
				require.Zero(t, own.Mean+own.Probability+own.High)
				failed++
				continue
			}
			require.Equal(t, other.Survives(), own.Survives(), "row %d of %s", i, name)
			near := 2.0 // between nodes [K]
			if name == "lamp-shade" && i%30 > 0 && marched.Rows[i-1].Survives() != other.Survives() {
				near = 1e-9 // where it changes the row is marched
			}
			require.InDelta(t, other.Excess.Bear, own.Excess.Bear, near)
			if own.Survives() == diffusion.Softens {
				require.NotEqual(t, diffusion.Dry, own.Verdict)
				soft++
			}
		}
		require.Positive(t, failed, name)
		require.Equal(t, name == "lamp-shade", soft > 0)
		require.Equal(t, name == "clear-cover", beyond > 0)
		require.Less(t, beyond, 10)
		require.Positive(t, sketched.Sketched.Looked)
		require.Less(t, sketched.Sketched.Worst, 0.3)
	}
}

// Axes that are no numbers of the way, and none at all, are refused with what to do.
func TestSketchRefuses(t *testing.T) {
	for says, axes := range map[string][]string{
		"strand.material: a sketch goes over numbers, not over names: sweep without --sketch": {"feed.speed=1 mm/s..2 mm/s:3", "strand.material=pc, petg"},
		"no axis has two numbers":                       {"feed.speed=1 mm/s"},
		"Without --sketch each row is marched":          {"strand.limit=0.1 %..1 %:4"},
		"numerics.tolerance: it does not act":           {"feed.speed=1 mm/s..2 mm/s:3", "numerics.tolerance=1e-3, 1e-2"},
		"strand.properties.density: it changes the mat": {"strand.properties.density=1100 kg/m3..1300 kg/m3:3"},
	} {
		_, err := NewSketch(demo(t, "clear-cover", axes...))
		require.ErrorContains(t, err, says)
	}
	s := demo(t, "clear-cover")
	s.Vary = nil
	_, err := NewSketch(s)
	require.ErrorIs(t, err, ErrNoAxis)
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	_, err = (&Sweep{Scenario: demo(t, "clear-cover", "feed.speed=1 mm/s..2 mm/s:3"), Sketch: true}).Run(ctx)
	require.ErrorIs(t, err, context.Canceled)
}

// One axis, a list that falls and repeats itself, and an axis of one value beside it.
func TestSketchOfAList(t *testing.T) {
	s := demo(t, "winch-drum", "strand.moisture=2 %, 0 %, 1 %, 1 %, 0.4 %", "zone.drum.length=30 m")
	g := grid(t, Sweep{Scenario: s, Sketch: true})
	marched := grid(t, Sweep{Scenario: s, Quick: true})
	for i := range g.Rows {
		require.InEpsilon(t, marched.Rows[i].Mean, g.Rows[i].Mean, 0.1)
	}
	require.Equal(t, g.Rows[2], g.Rows[3])
	require.Equal(t, 4, g.Sketched.Checked)
	o, err := (&Sweep{Scenario: s, Sketch: true}).Origin("1")
	require.NoError(t, err)
	require.True(t, strings.Contains(o.String(), "mode=sketched"))
}

// Of values at one end of which the scenario cannot be read those are kept at which it can.
func TestReadable(t *testing.T) {
	bad := errors.New("bad")
	for _, c := range []struct{ from, to, first, last int }{{0, 9, 0, 9}, {3, 9, 3, 9}, {0, 4, 0, 4}, {8, 9, 8, 9}, {0, 1, 0, 1}} {
		first, last, err := readable(10, func(rank int) error {
			if rank < c.from || rank > c.to {
				return bad
			}
			return nil
		})
		require.NoError(t, err)
		require.Equal(t, []int{c.first, c.last}, []int{first, last})
	}
	for _, c := range [][2]int{{1, 8}, {9, 9}, {0, 0}, {4, 4}} {
		_, _, err := readable(10, func(rank int) error {
			if rank < c[0] || rank > c[1] {
				return bad
			}
			return nil
		})
		require.ErrorIs(t, err, bad)
	}
}

// What a sketch is off by counts in its verdicts: a row whose odds are nearer to nine in ten than that makes of them is unsure. What it tells of the marched rows is what it differs by from those.
func TestSketchCountsItsError(t *testing.T) {
	s := demo(t, "clear-cover", "zone.oven.length=0.5 m..20 m:40:log", "feed.speed=0.5 mm/s..4 mm/s:9")
	g := grid(t, Sweep{Scenario: s, Sketch: true})
	near := 0
	for i := range g.Rows {
		r := &g.Rows[i]
		slack := r.Density * g.Sketched.Slack()
		want := diffusion.Unsure
		switch {
		case r.Probability >= diffusion.NineInTen+slack:
			want = diffusion.Dry
		case r.Probability <= diffusion.OneInTen-slack:
			want = diffusion.Wet
		case r.Probability >= diffusion.NineInTen, r.Probability <= diffusion.OneInTen:
			near++
		}
		require.Equal(t, want, r.Verdict)
	}
	require.Positive(t, near)

	k, err := NewSketch(s)
	require.NoError(t, err)
	first, err := k.Grid(context.Background())
	require.NoError(t, err)
	marched := grid(t, Sweep{Scenario: s, Quick: true, Workers: 2})
	sum, worst := 0.0, 0.0
	for _, row := range k.lattice.nodes {
		d := math.Abs(math.Log(first.Rows[row].Mean / marched.Rows[row].Mean))
		sum, worst = sum+d*d, math.Max(worst, d)
	}
	require.Len(t, k.lattice.nodes, first.Sketched.Checked)
	require.InEpsilon(t, math.Sqrt(sum/float64(len(k.lattice.nodes))), first.Sketched.Off, 1e-6)
	require.InEpsilon(t, worst, first.Sketched.Worst, 1e-6)
	require.InDelta(t, math.Max(first.Sketched.Error, first.Sketched.Off), first.Sketched.Slack(), 0)
}

// Between rows that were marched the excess of the heat is in between, by the logarithm of what lies above zero.
func TestSketchBetweenNodes(t *testing.T) {
	values := []float64{1, 10, 2, 5}
	a := sketchAxis{order: []int{0, 2, 3, 1}, nodes: []int{0, 3}, log: true}
	low, high, share := a.between(values, 1)
	require.Equal(t, []int{0, 3}, []int{low, high})
	require.InDelta(t, math.Log10(2), share, 1e-12)
	a.log = false
	_, _, share = a.between(values, 2)
	require.InDelta(t, 4./9, share, 1e-12)
	low, high, share = a.between(values, 3)
	require.Equal(t, []int{3, 3}, []int{low, high})
	require.Zero(t, share)
}

// A first look at sixty by sixty contents, and the whole sketch.
func BenchmarkSketch(b *testing.B) {
	for _, name := range scenarios.Demos() {
		s := demo(b, name, sketches()[name][:2]...)
		s, err := s.Varied(strings.ReplaceAll(sketches()[name][0], ":24", ":60"), strings.NewReplacer(":24", ":60", ":20", ":60").Replace(sketches()[name][1]))
		require.NoError(b, err)
		b.Run(name+"/first look", func(b *testing.B) {
			for b.Loop() {
				k, err := NewSketch(s)
				require.NoError(b, err)
				k.Contents()
				b.ReportMetric(k.Error(), "error")
			}
		})
		b.Run(name+"/refined, with odds", func(b *testing.B) {
			for b.Loop() {
				g := grid(b, Sweep{Scenario: s, Sketch: true})
				b.ReportMetric(g.Sketched.Error, "error")
			}
		})
	}
}
