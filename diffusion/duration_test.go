package diffusion_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion"
	"strandry/diffusion/film"
)

// timed is the transit with each zone told by the time in it, where the strand needs no speed.
func timed(t testing.TB, beta float64) *diffusion.Design {
	d := transit(t, beta)
	for i := range d.Path {
		d.Path[i].Duration, d.Path[i].Length = d.Path[i].Length/d.Speed, 0
	}
	d.Speed = 0
	return d
}

// A zone told by its time is the zone that is told by its length, to the bit.
func TestDurationIsLengthOverSpeed(t *testing.T) {
	long, short := run(t, transit(t, 20)), run(t, timed(t, 20))
	require.Equal(t, long.Nozzle, short.Nozzle)
	require.Equal(t, long.Profile, short.Profile)
	for i := range short.Zones {
		require.Zero(t, short.Zones[i].Length)
		require.InDelta(t, long.Zones[i].Residence, short.Zones[i].Residence, 0)
		short.Zones[i].Length = long.Zones[i].Length
	}
	require.Equal(t, long.Zones, short.Zones)
	require.InDelta(t, assess(t, transit(t, 20)).Probability, assess(t, timed(t, 20)).Probability, 0)
}

// Rising durations share a march as rising lengths do, and so do the odds over them.
func TestRisingDurations(t *testing.T) {
	long, short := transit(t, 20), timed(t, 20)
	lengths, durations := []float64{1, 3, 8, 20}, []float64{500, 1500, 4000, 1e4}
	w, s := diffusion.NewMarch(), diffusion.DefaultSettings()
	var all []diffusion.State
	require.NoError(t, w.RunLengths(&short.Model, 1, durations, s, func(i int, r *diffusion.Result) error {
		all = append(all, r.Nozzle)
		require.InDelta(t, durations[i], r.Zones[1].Residence, 0)
		return nil
	}))
	for i, duration := range durations {
		one := timed(t, 20)
		one.Path[1].Duration = duration
		require.Equal(t, run(t, one).Nozzle, all[i])
	}
	var byLength, byDuration []float64
	keep := func(into *[]float64) func(int, diffusion.Odds, error) error {
		return func(_ int, o diffusion.Odds, err error) error {
			*into = append(*into, o.Probability, o.Low, o.High)
			return err
		}
	}
	require.NoError(t, w.OddsLengths(long, 1, lengths, s, keep(&byLength)))
	require.NoError(t, w.OddsLengths(short, 1, durations, s, keep(&byDuration)))
	require.Equal(t, byLength, byDuration)
	long.Limit, short.Limit = 0.008, 0.008
	a, err := w.LengthOdds(long, 1, nil, s)
	require.NoError(t, err)
	b, err := w.LengthOdds(short, 1, nil, s)
	require.NoError(t, err)
	for _, length := range []float64{6, 4, 9, 40} {
		p, err := a.Probability(length, 0.5)
		require.NoError(t, err)
		q, err := b.Probability(500*length, 0.5)
		require.NoError(t, err)
		require.InDelta(t, p, q, 1e-6)
	}
	short.Limit = 0.002
	require.Equal(t, timed(t, 20), short, "the design itself has changed")
}

// While the strand stands still it is where it was, and its time goes on.
func TestTraceOfDurations(t *testing.T) {
	d := transit(t, 0)
	d.Path[1].Length, d.Path[1].Duration = 0, 600
	trace, err := diffusion.NewMarch().Trace(&d.Model, diffusion.DefaultSettings())
	require.NoError(t, err)
	for i, p := range trace.Points {
		require.InDelta(t, [...]float64{0, 0.5, 0.5}[p.Zone], p.Position, [...]float64{0.5, 0, 0.6}[p.Zone]+1e-12)
		if i > 0 {
			require.GreaterOrEqual(t, p.Time, trace.Points[i-1].Time)
		}
	}
	last := trace.Points[len(trace.Points)-1]
	require.InDelta(t, 1.1, last.Position, 1e-9)
	require.InDelta(t, 250+600+300, last.Time, 1e-6)
}

// What rests on a length is refused where there is none, with what would do.
func TestWhatADurationCannotHave(t *testing.T) {
	for name, spoil := range map[string]func(d *diffusion.Design, z *diffusion.Zone){
		"needs a speed":       nil,
		"allowed is one of":   func(_ *diffusion.Design, z *diffusion.Zone) { z.Length = 1 },
		"path with either":    func(_ *diffusion.Design, z *diffusion.Zone) { z.Duration = 0 },
		"a limited flow":      func(_ *diffusion.Design, z *diffusion.Zone) { z.Air.DryFlow = 1e-5 },
		"both coefficients":   func(_ *diffusion.Design, z *diffusion.Zone) { z.Film = diffusion.Film{Flow: film.Along, AirSpeed: 1} },
		"one that hangs":      func(_ *diffusion.Design, z *diffusion.Zone) { z.Film = diffusion.Film{Vertical: true, Heat: 20} },
		"duration [s] = -1":   func(_ *diffusion.Design, z *diffusion.Zone) { z.Duration = -1 },
		"duration [s] = 1e+1": func(_ *diffusion.Design, z *diffusion.Zone) { z.Duration = 1e13 },
	} {
		d := timed(t, 0)
		if spoil == nil {
			require.NoError(t, d.Check())
			d.Path[0].Length, d.Path[0].Duration = 1, 0
			require.ErrorContains(t, d.Check(), "speed [m/s] = 0: allowed 1e-09 to 10")
			continue
		}
		d.Speed = 1e-3
		spoil(d, &d.Path[1])
		require.ErrorContains(t, d.Check(), name)
		require.ErrorContains(t, d.Check(), `zone "drum"`)
	}
	d := timed(t, 0)
	d.Speed = math.NaN()
	require.ErrorContains(t, d.Check(), "speed")
	// Given coefficients rest on nothing, and a level strand in still air on no length.
	d = timed(t, 0)
	d.Path[1].Film.Vertical = true
	require.NoError(t, d.Check())
	d.Path[1].Film = diffusion.Film{Emissivity: 0.9}
	run(t, d)
	// In storage too.
	d.Storage = []diffusion.Zone{{Name: "bag", Duration: 60, Air: d.Path[0].Air, Film: diffusion.Film{Flow: film.Along}}}
	require.ErrorContains(t, d.Check(), `zone "bag": the film of air along`)
	d.Storage[0].Film.Flow, d.Storage[0].Length = film.Natural, 1
	require.ErrorContains(t, d.Check(), `zone "bag": length`)
}
