package diffusion_test

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion"
)

// undecided is doubtful with a limit that is in doubt too.
func undecided(t *testing.T) *diffusion.Design {
	d := doubtful(t)
	d.Limit, d.LimitStated = d.Material.Limit(d.Purpose).Value, false
	limit := d.LimitInDoubt()
	require.Greater(t, limit.High, 1.5*limit.Low)
	return d
}

// The probability over lengths is that of the odds in full at each, whatever the lengths began with, where they were marched and, less nearly, half as far again from there.
func TestLengthOddsAreThoseOfEach(t *testing.T) {
	w, s := diffusion.NewMarch(), diffusion.DefaultSettings()
	for name, d := range map[string]*diffusion.Design{"sure of the limit": doubtful(t), "not sure of it": undecided(t)} {
		t.Run(name, func(t *testing.T) { overLengths(t, w, d, s) })
	}
}

func overLengths(t *testing.T, w *diffusion.March, d *diffusion.Design, s diffusion.Settings) {
	full := func(length float64) diffusion.Odds {
		varied := *d
		varied.Path = slices.Clone(d.Path)
		varied.Path[1].Length = length
		return odds(t, &varied)
	}
	far := full(40)
	for name, base := range map[string]*diffusion.Odds{"none": nil, "twenty times as long": &far} {
		l, err := w.LengthOdds(d, 1, base, s)
		require.NoError(t, err)
		require.Equal(t, base == nil, l.Base() == nil)
		var all []float64
		for _, length := range []float64{2, 3, 6, 20} {
			const marched, reach = 0, 0.5
			want := full(length).Probability
			if length != 3 {
				p, err := l.Probability(length, marched)
				require.NoError(t, err)
				require.InDelta(t, want, p, 0.01, "%s, %g m", name, length)
				all = append(all, p)
				continue
			}
			p, err := l.Probability(length, reach)
			require.NoError(t, err)
			require.InDelta(t, want, p, 0.01, "%s, %g m", name, length)
		}
		require.IsIncreasing(t, all)
		require.NotNil(t, l.Base())
		again, err := w.LengthOdds(d, 1, l.Base(), s)
		require.NoError(t, err)
		p, err := again.Probability(6, 0)
		require.NoError(t, err)
		require.InDelta(t, all[1], p, 0.01, name)
	}
}

// Where the estimate has the limit met at the design point it is met nine times in ten, about.
func TestLengthOddsAtDesignPoint(t *testing.T) {
	w, d := diffusion.NewMarch(), undecided(t)
	l, err := w.LengthOdds(d, 1, nil, diffusion.Settings{})
	require.NoError(t, err)
	at := func(length float64) float64 {
		over, err := l.AtDesignPoint(length)
		require.NoError(t, err)
		return over
	}
	low, high := 2.0, 2000.0
	require.Positive(t, at(low))
	require.Negative(t, at(high))
	for range 30 {
		if middle := math.Sqrt(low * high); at(middle) > 0 {
			low = middle
		} else {
			high = middle
		}
	}
	p, err := l.Probability(low, 0)
	require.NoError(t, err)
	require.InDelta(t, diffusion.NineInTen, p, 0.06)
}

// A design that cannot be marched has no odds over its lengths, and says why.
func TestLengthOddsWithoutAnAnswer(t *testing.T) {
	d := doubtful(t)
	l, err := diffusion.NewMarch().LengthOdds(d, 1, nil, diffusion.Settings{})
	require.NoError(t, err)
	_, err = l.Probability(-1, 0)
	require.Error(t, err)
	_, err = l.AtDesignPoint(math.Inf(1))
	require.Error(t, err)
	require.Nil(t, l.Base())
}

// What is assessed with odds like others' is what is assessed, but for the odds, and those are near.
func TestAssessLike(t *testing.T) {
	w, s, d := diffusion.NewMarch(), diffusion.Settings{}, doubtful(t)
	o := odds(t, d)
	wetter := *d
	wetter.Start *= 1.3
	wetter.Path = slices.Clone(d.Path)
	wetter.Path[1].Length = 20
	own, err := w.Assess(&wetter, s)
	require.NoError(t, err)
	like, err := w.AssessLike(&o, &wetter, s)
	require.NoError(t, err)
	require.Equal(t, own.Result, like.Result)
	require.Equal(t, own.NumericalError, like.NumericalError)
	require.InDelta(t, own.Probability, like.Probability, 0.005)
	require.InDelta(t, 0.5, own.Probability, 0.3, "where it tells")
	require.NotEqual(t, own.High, like.High, "by fewer marches")
	require.InEpsilon(t, own.ByDiffusivity.Low, like.ByDiffusivity.Low, 0.05)
	require.InEpsilon(t, own.ByDiffusivity.High, like.ByDiffusivity.High, 0.05)
	require.InDeltaSlice(t, own.DesignPoint.Deviates, like.DesignPoint.Deviates, 0.1)
	require.Equal(t, own.FastIsWetter, like.FastIsWetter)
}
