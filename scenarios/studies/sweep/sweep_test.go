package sweep

import (
	"context"
	"errors"
	"fmt"
	"math/rand/v2"
	"runtime"
	"strings"
	"testing"
	"time"
	"unsafe"

	"github.com/stretchr/testify/require"

	"strandry/diffusion"
	"strandry/diffusion/samples"
	"strandry/scenarios"
)

func demo(t testing.TB, name string, axes ...string) *scenarios.Scenario {
	t.Helper()
	s, err := scenarios.Demo(name)
	require.NoError(t, err)
	s, err = s.Varied(axes...)
	require.NoError(t, err)
	return s
}

func grid(t testing.TB, s Sweep) *Grid {
	t.Helper()
	g, err := s.Run(context.Background())
	require.NoError(t, err)
	return g
}

// Grids that take every way through the code: lengths that share a march, lengths
// that cannot (air against the strand), lengths as the first, the last and no axis,
// lists that fall and repeat themselves, names, storage, three axes.
func grids(t testing.TB) map[string]*scenarios.Scenario {
	all := map[string]*scenarios.Scenario{
		"one axis":       demo(t, "clear-cover", "feed.speed=1 mm/s, 3 mm/s"),
		"lengths first":  demo(t, "clear-cover", "zone.guide.length=0.1 m..20 m:7:log", "feed.speed=4 mm/s"),
		"lengths last":   demo(t, "lamp-shade", "feed.bead.speed=20 mm/s..60 mm/s:2", "zone.warm box.length=0.5 m..200 m:3:log"),
		"against":        demo(t, "winch-drum", "zone.drum.length=9 m, 2 m, 2 m"),
		"lists":          demo(t, "lamp-shade", "zone.warm box.length=30 m, 2 m, 2 m, 9 m", "room.humidity=20 %, 60 %"),
		"names":          demo(t, "opened-yesterday", "strand.material=pa12, petg", "zone.warm tube.air.direction=with,against"),
		"three":          demo(t, "clear-cover", "strand.material=petg,pc", "zone.guide.length=0.2 m..2 m:3", "zone.oven.temperature=60 °C..90 °C:2"),
		"storage, steps": demo(t, "opened-yesterday", "strand.storage.1.duration=1 h..50 h:3:log", "numerics.tolerance=1e-2, 1e-1"),
	}
	for name, s := range all {
		if name != "one axis" { // it is marched as the sweep chooses
			all[name] = rough(t, s)
		}
	}
	return all
}

// rough has the largest steps that can be asked for.
func rough(t testing.TB, s *scenarios.Scenario) *scenarios.Scenario {
	t.Helper()
	s, err := s.With(scenarios.Setting{Key: "numerics.resolution", Value: "2.5"}, scenarios.Setting{Key: "numerics.tolerance", Value: "0.1"})
	require.NoError(t, err)
	return s
}

// The same bits on one, two and five cores, and whatever was known before.
func TestSameBitsForAnyNumberOfWorkers(t *testing.T) {
	dice := rand.New(rand.NewPCG(1, 2))
	all := grids(t)
	if samples.Of(1, 2, 2) == 1 { // the others are held against separate runs
		all = map[string]*scenarios.Scenario{"names": all["names"], "lengths last": all["lengths last"], "against": all["against"], "lengths first": all["lengths first"]}
	}
	if testing.Short() { // enough for the race detector
		all = map[string]*scenarios.Scenario{"names": all["names"], "lengths last": all["lengths last"]}
	}
	for name, s := range all {
		want := grid(t, Sweep{Scenario: s, Workers: 1})
		require.Equal(t, len(want.Rows), want.Answered(), name)
		for _, workers := range samples.Each(2, []int{5, 2}) {
			require.Equal(t, want, grid(t, Sweep{Scenario: s, Workers: workers}), name)
		}
		known := map[int]Row{-1: {}, len(want.Rows): {}}
		for i, row := range want.Rows {
			if dice.IntN(2) == 0 {
				known[i] = row
			}
		}
		seen := 0
		g := grid(t, Sweep{Scenario: s, Workers: 2, Known: known, Done: func(i int, row Row) error {
			seen++
			require.NotContains(t, known, i)
			require.Equal(t, want.Rows[i], row)
			return nil
		}})
		require.Equal(t, want, g, name)
		require.Equal(t, len(want.Rows)+2, len(known)+seen, name)
	}
}

// Each row is what a scenario with its settings gives by itself, to the bit: nozzle, limit and
// odds.
func TestRowsAreThoseOfSeparateRuns(t *testing.T) {
	for name, s := range grids(t) {
		g := grid(t, Sweep{Scenario: s, Workers: 2})
		for i, row := range g.Rows {
			if i%samples.Of(3, 1, 1) != 0 {
				continue
			}
			var set []scenarios.Setting
			for k, place := range g.At(i) {
				set = append(set, g.Axes[k].Setting(place))
			}
			alone, err := s.With(set...)
			require.NoError(t, err)
			a, err := diffusion.NewMarch().Assess(&alone.Design, row.Settings)
			require.NoError(t, err)
			want := Row{
				Mean: a.Nozzle.Mean, Centre: a.Nozzle.Centre, Skin: a.Nozzle.Skin, Removed: a.Removed, Limit: alone.Limit,
				Low: a.Low, High: a.High, Verdict: a.Verdict, Excess: a.Endurance.Excess(), Settings: row.Settings,
				Probability: a.Probability, Density: a.Density, Ratio: a.Ratio,
			}
			require.Equal(t, want, row, "%s, row %d", name, i)
		}
	}
}

// The order is row-major with the last axis fastest: every index comes back from its places.
func TestOrder(t *testing.T) {
	g := grid(t, Sweep{Scenario: grids(t)["three"], Quick: true})
	require.Len(t, g.Rows, 12)
	require.Equal(t, []int{0, 0, 1}, g.At(1))
	require.Equal(t, []int{0, 1, 0}, g.At(2))
	require.Equal(t, []int{1, 0, 0}, g.At(6))
	for i := range g.Rows {
		require.Equal(t, i, index(g.Axes, g.At(i)))
	}
	require.Greater(t, g.Rows[0].Mean, g.Rows[1].Mean, "the hotter oven is the later row")
}

// A quick sweep is the same without the odds.
func TestQuick(t *testing.T) {
	s := grids(t)["lengths first"]
	whole, quick := grid(t, Sweep{Scenario: s}), grid(t, Sweep{Scenario: s, Quick: true})
	for i, row := range whole.Rows {
		require.Less(t, row.Low, row.Mean)
		require.Greater(t, row.High, row.Mean)
		row.Low, row.High, row.Verdict = row.Mean, row.Mean, diffusion.Unsure
		row.Probability, row.Density, row.Ratio = 0, 0, diffusion.Between{}
		require.Equal(t, row, quick.Rows[i])
	}
}

// At its knots a quick sweep has what figures show of the doubt, as near to the odds themselves as odds like another's are; elsewhere it has none.
func TestBeltOfAQuickSweep(t *testing.T) {
	s := demo(t, "clear-cover", "zone.oven.length=0.3 m..5 m:9:log", "zone.oven.temperature=90 °C..120 °C:2", "strand.material=pc, petg")
	g := grid(t, Sweep{Scenario: s, Quick: true, Knots: 3})
	known := 0
	for i, row := range g.Rows {
		if at := g.At(i); at[0]%4 != 0 { // the first, the middle and the last of nine
			require.Zero(t, row.Ratio)
			require.Equal(t, row.Mean, row.Low)
			continue
		}
		if known++; known%samples.Of(2, 1, 1) != 0 {
			continue
		}
		m, err := (&knotOdds{sweep: &Sweep{Scenario: s}, grid: g}).model(i)
		require.NoError(t, err)
		o, err := diffusion.NewMarch().Odds(m, row.Settings)
		require.NoError(t, err)
		for _, pair := range [][2]float64{{o.Low / row.Limit, row.Low / row.Limit}, {o.High / row.Limit, row.High / row.Limit}, {o.Ratio.Low, row.Ratio.Low}, {o.Ratio.High, row.Ratio.High}} {
			tolerance := 0.15
			if o.Ratio.High < 1./2 { // far below the limit less is asked
				tolerance = 0.3
			}
			require.InEpsilon(t, pair[0], pair[1], tolerance, "row %d", i)
		}
	}
	require.Equal(t, 12, known)
}

// Figures get a quick sweep with the odds at seven values of its longest axis, and at all of two.
func TestForFigures(t *testing.T) {
	g, err := ForFigures(context.Background(), demo(t, "clear-cover", "zone.oven.length=0.3 m..5 m:9:log", "zone.oven.temperature=90 °C..120 °C:2"))
	require.NoError(t, err)
	require.True(t, g.Quick)
	known := 0
	for _, row := range g.Rows {
		if row.Ratio.High > 0 {
			known++
		}
	}
	require.Equal(t, 14, known)
}

// The scenario's own numerics hold; without them coarser ones, whose error is told.
func TestSettings(t *testing.T) {
	s := demo(t, "clear-cover", "zone.oven.temperature=90 °C..120 °C:3")
	g := grid(t, Sweep{Scenario: s, Quick: true})
	require.Equal(t, diffusion.CoarseSettings(), g.Rows[0].Settings)
	require.Equal(t, 3, g.Checked)
	fine, err := s.With(scenarios.Setting{Key: "numerics.resolution", Value: "12"}, scenarios.Setting{Key: "numerics.tolerance", Value: "1e-5"})
	require.NoError(t, err)
	f := grid(t, Sweep{Scenario: fine, Quick: true})
	require.InDelta(t, 12, f.Rows[0].Settings.Resolution, 0)
	for i := range g.Rows {
		require.InDelta(t, f.Rows[i].Mean, g.Rows[i].Mean, g.NumericalError)
	}
	require.Less(t, f.NumericalError, g.NumericalError/2)
	// Its three rows are its ends and its middle: the worst of their own errors.
	most, share := 0.0, 0.0
	for i := range g.Rows {
		alone, err := s.With(g.Axes[0].Setting(i))
		require.NoError(t, err)
		a, err := diffusion.NewMarch().Assess(&alone.Design, diffusion.CoarseSettings())
		require.NoError(t, err)
		most, share = max(most, a.NumericalError), max(share, a.NumericalError/a.Nozzle.Mean)
	}
	require.InEpsilon(t, most, g.NumericalError, 1e-12)
	require.InEpsilon(t, share, g.RelativeError, 1e-12)
}

// A combination that is no scenario, and one without an answer, say so in their rows;
// the others stand.
func TestRowsWithoutAnAnswer(t *testing.T) {
	s := rough(t, demo(t, "winch-drum", "room.temperature=12 °C,20 °C", "room.humidity=50 %,95 %", "zone.guide.temperature=15 °C,20 °C"))
	g := grid(t, Sweep{Scenario: s, Workers: 2, Quick: samples.Of(1, 2, 2) == 1})
	require.Equal(t, 7, g.Answered())
	at := index(g.Axes, []int{1, 1, 0})
	require.Contains(t, g.Rows[at].Failed, "above saturation")
	require.Zero(t, g.Rows[at].Mean)

	// Lengths that share a task: some of them have air enough.
	s = rough(t, demo(t, "winch-drum", "zone.drum.air.flow=0.1 L/min,5 L/min", "zone.drum.length=0.1 m,0.2 m,12 m"))
	g = grid(t, Sweep{Scenario: s, Workers: 2, Quick: true})
	require.Contains(t, g.Rows[2].Failed, "so little air that water would condense")
	for _, i := range []int{0, 1, 3, 4, 5} {
		require.Empty(t, g.Rows[i].Failed)
		require.Positive(t, g.Rows[i].Mean)
	}
}

func TestRefused(t *testing.T) {
	s, err := scenarios.Demo("winch-drum")
	require.NoError(t, err)
	bare := *s
	bare.Vary = nil
	_, err = (&Sweep{Scenario: &bare}).Run(context.Background())
	require.ErrorIs(t, err, ErrNoAxis)
	require.ErrorContains(t, err, "[[vary]]\nkey =")
	large := demo(t, "winch-drum", "feed.speed=1 mm/s..2 mm/s:9000", "zone.drum.length=1 m..2 m:9000")
	_, err = (&Sweep{Scenario: large}).Run(context.Background())
	require.ErrorContains(t, err, "9000 x 9000 is 81000000 rows; up to 1000000")
}

// A million rows can be swept, and not one more row of axes than that.
func TestLargestGrid(t *testing.T) {
	for lengths, fits := range map[int]bool{1000: true, 1001: false} {
		s := demo(t, "winch-drum", "feed.speed=1 mm/s..2 mm/s:1000", fmt.Sprintf("zone.drum.length=1 m..2 m:%d", lengths))
		rows, err := (&Sweep{Scenario: s}).Rows()
		require.Equal(t, fits, err == nil, "%d", lengths)
		if fits {
			require.Equal(t, 1_000_000, rows)
		}
	}
}

// The example in the error for a missing axis is one that reads.
func TestExampleOfAnAxisReads(t *testing.T) {
	text, err := scenarios.DemoText("winch-drum")
	require.NoError(t, err)
	_, example, _ := strings.Cut(ErrNoAxis.Error(), "\n\n")
	s, err := scenarios.Read("drum.toml", []byte(string(text)+"\n"+example))
	require.NoError(t, err)
	require.Equal(t, "feed.speed", s.Vary[1].Key.Name)
}

// A sweep holds its rows and little else, so that a million of them fit in some 200 MB.
func TestMemoryIsThatOfTheRows(t *testing.T) {
	s := rough(t, demo(t, "clear-cover", "zone.oven.length=0.1 m..20 m:80:log", "feed.speed=0.5 mm/s..5 mm/s:50"))
	alive := func() uint64 {
		var m runtime.MemStats
		runtime.GC()
		runtime.ReadMemStats(&m)
		return m.HeapAlloc
	}
	before := alive()
	g := grid(t, Sweep{Scenario: s, Quick: true, Workers: 2})
	after := alive()
	require.Equal(t, 4000, g.Answered())
	row := uint64(unsafe.Sizeof(g.Rows[0]))
	require.Less(t, after, before+4000*row+1<<18)
	require.Less(t, mostRows*row, uint64(200<<20))
}

// BenchmarkMap times the trade-off map of the demonstration: 60 lengths by 60 speeds.
func BenchmarkMap(b *testing.B) {
	s := demo(b, "winch-drum", "zone.drum.length=0.5 m..200 m:60:log", "feed.speed=0.5 mm/s..5 mm/s:60")
	for b.Loop() {
		g := grid(b, Sweep{Scenario: s, Workers: 2})
		require.Equal(b, 3600, g.Answered())
		b.ReportMetric(100*g.RelativeError, "%error")
	}
}

// A row that softens does not fit, however dry it is.
func TestSoftRowsDoNotFit(t *testing.T) {
	row := Row{Mean: 0.001, Limit: 0.002, Excess: diffusion.Excess{Yield: -15, Bear: -1}}
	require.True(t, row.Fits())
	require.Equal(t, diffusion.Holds, row.Survives())
	row.Excess = diffusion.Excess{Yield: -5, Bear: 10}
	require.True(t, row.Fits())
	require.Equal(t, diffusion.Doubtful, row.Survives())
	row.Excess.Yield = 1
	require.False(t, row.Fits())
	row = Row{Mean: 0.003, Limit: 0.002}
	require.False(t, row.Fits())
}

// A scenario with keys in doubt is swept too, and another doubt makes another sweep.
func TestSweepOfUncertainKeys(t *testing.T) {
	origin := func(deviation string) Origin {
		text, err := scenarios.DemoText("clear-cover")
		require.NoError(t, err)
		s, err := scenarios.Read("doubted.toml", []byte(string(text)+"\n[[uncertain]]\nkey = \"feed.speed\"\ndeviation = \""+deviation+"\"\n"))
		require.NoError(t, err)
		s, err = s.Varied("zone.oven.length=1 m, 2 m")
		require.NoError(t, err)
		work := Sweep{Scenario: s, Workers: 1}
		o, err := work.Origin("9.9.9")
		require.NoError(t, err)
		return o
	}
	require.Equal(t, origin("0.1 mm/s"), origin("0.1 mm/s"))
	a, b := origin("0.1 mm/s"), origin("0.2 mm/s")
	require.NotEqual(t, a.Model, b.Model)
}

// An interrupt is heard within a second, though a single row takes longer, and what
// Done refuses ends the sweep.
func TestInterrupted(t *testing.T) {
	s := demo(t, "winch-drum", "zone.drum.temperature=60 °C..90 °C:400")
	// A march of some seconds, which goes on behind: this test is the last, so that it ends with it.
	slow, err := s.With(scenarios.Setting{Key: "numerics.resolution", Value: "20"}, scenarios.Setting{Key: "numerics.tolerance", Value: "1e-6"})
	require.NoError(t, err)
	ctx, cancel := context.WithTimeout(context.Background(), 50*time.Millisecond)
	defer cancel()
	began := time.Now()
	_, err = (&Sweep{Scenario: slow, Workers: 2}).Run(ctx)
	require.ErrorIs(t, err, context.DeadlineExceeded)
	require.Less(t, time.Since(began), time.Second)

	full := errors.New("no room")
	count := 0
	_, err = (&Sweep{Scenario: s, Workers: 2, Done: func(int, Row) error { count++; return full }}).Run(context.Background())
	require.ErrorIs(t, err, full)
	require.Equal(t, 1, count)
}

// A sweep over what a drum is wound with: each row is a run of its own, whose length its turns hold.
func TestSweepOverAShape(t *testing.T) {
	text, err := scenarios.DemoText("winch-drum")
	require.NoError(t, err)
	drum := strings.Replace(strings.Replace(string(text), "length = \"12 m\"\n", "", 1), `pitch = "3 mm"`, `pitch = "3 mm", turns = 25`, 1)
	drum, _, _ = strings.Cut(drum, "[[vary]]")
	s, err := scenarios.Read("turns.toml", []byte(drum))
	require.NoError(t, err)
	s, err = rough(t, s).Varied("zone.drum.shape.turns=5, 10, 40", "zone.drum.shape.diameter=100 mm, 200 mm")
	require.NoError(t, err)
	g := grid(t, Sweep{Scenario: s, Workers: 1})
	require.Len(t, g.Rows, 6)
	for i, row := range g.Rows {
		require.Empty(t, row.Failed)
		at, err := s.With(s.Vary[0].Setting(i/2), s.Vary[1].Setting(i%2))
		require.NoError(t, err)
		var alone diffusion.Result
		require.NoError(t, diffusion.NewMarch().Run(&at.Model, at.Settings, &alone))
		require.InEpsilon(t, alone.Nozzle.Mean, row.Mean, 0.02, i)
		if i >= 2 {
			require.Less(t, row.Mean, g.Rows[i-2].Mean, "more turns hold more strand")
		}
	}
}
