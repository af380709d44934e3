package reliability_test

import (
	"errors"
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/stat/distuv"

	"strandry/diffusion"
	"strandry/scenarios/studies/reliability"
)

// counted is a probability that counts its calls.
func counted(calls *int, p func(u float64) float64) func(u float64) (float64, error) {
	return func(u float64) (float64, error) { *calls++; return p(u), nil }
}

// A probability whose deviate is a straight line reaches nine in ten where that is 1.281552 (the 90 % point of the
// standard normal distribution, any table of it), whichever way the line goes and whatever the first step.
func TestStraightLine(t *testing.T) {
	const ninety = 1.281552
	for _, sign := range []float64{1, -1} {
		for _, width := range []float64{0.2, 0.7, 2} {
			calls := 0
			s := reliability.Search{
				At:   counted(&calls, func(u float64) float64 { return distuv.UnitNormal.CDF(sign * (u - 3) / width) }),
				From: 3, To: 3 + sign*20, Crossing: true, Step: 0.8,
			}
			f, err := s.Find()
			require.NoError(t, err)
			require.Equal(t, reliability.Met, f.Outcome)
			require.InDelta(t, 3+sign*ninety*width, f.Place, 0.025*width)
			require.GreaterOrEqual(t, f.Probability, diffusion.NineInTen)
			require.Less(t, f.Probability, diffusion.NineInTen+0.005)
			require.LessOrEqual(t, calls, 9)
		}
	}
}

func TestOutcomes(t *testing.T) {
	flat := func(p float64) func(u float64) (float64, error) {
		return func(float64) (float64, error) { return p, nil }
	}
	for _, c := range []struct {
		p    float64
		want reliability.Outcome
	}{{0.95, reliability.Already}, {0.7, reliability.Nowhere}} {
		s := reliability.Search{At: flat(c.p), From: 0, To: 10, Step: 1}
		f, err := s.Find()
		require.NoError(t, err)
		require.Equal(t, c.want, f.Outcome)
		require.InDelta(t, c.p, f.Probability, 0)
	}
	// A hill: too low, and high enough between two steps.
	hill := func(top float64) reliability.Search {
		return reliability.Search{
			At:   func(u float64) (float64, error) { return 0.4 + (top-0.4)*math.Exp(-(u-4.2)*(u-4.2)/2), nil },
			From: 0, To: 40, Step: 1.5,
		}
	}
	s := hill(0.85)
	f, err := s.Find()
	require.NoError(t, err)
	require.Equal(t, reliability.Nowhere, f.Outcome)
	require.InDelta(t, 4.2, f.Place, 0.3)
	require.InDelta(t, 0.85, f.Probability, 0.005)
	s = hill(0.93)
	f, err = s.Find()
	require.NoError(t, err)
	require.Equal(t, reliability.Met, f.Outcome)
	require.Less(t, f.Place, 4.2, "the near side of the hill")
	require.InDelta(t, diffusion.NineInTen, f.Probability, 0.005)
}

// Places without an answer are passed by where others have one.
func TestPlacesWithoutAnAnswer(t *testing.T) {
	errBad := errors.New("bad")
	at := func(from float64) func(u float64) (float64, error) {
		return func(u float64) (float64, error) {
			if u > from {
				return 0, errBad
			}
			return distuv.UnitNormal.CDF(u), nil
		}
	}
	s := reliability.Search{At: at(1.5), From: 0, To: 10, Crossing: true, Step: 2}
	f, err := s.Find()
	require.NoError(t, err)
	require.Equal(t, reliability.Met, f.Outcome)
	s.At = at(0.9)
	f, err = s.Find()
	require.NoError(t, err)
	require.Equal(t, reliability.Nowhere, f.Outcome)
	require.Less(t, f.Probability, diffusion.NineInTen)
	s.At = at(-1)
	_, err = s.Find()
	require.ErrorIs(t, err, errBad)
}
