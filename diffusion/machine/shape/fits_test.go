package shape_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion/machine/shape"
)

func fits(t *testing.T, b shape.Box, w shape.Way) bool {
	t.Helper()
	ok, err := shape.Fits(b, lead(t, w).Housing)
	require.NoError(t, err)
	return ok
}

func TestFitsWhicheverWayItLies(t *testing.T) {
	h := shape.Housing{Length: 0.3, Width: 0.2, Height: 0.1}
	for b, want := range map[shape.Box]bool{
		{0.1, 0.2, 0.3}: true, {0.3, 0.1, 0.2}: true, {0.2, 0.3, 0.1}: true, {0.1, 0.2, 0.29}: false, {0.3, 0.3, 0.09}: false, {0.19, 0.19, 1}: false,
	} {
		ok, err := shape.Fits(b, h)
		require.NoError(t, err)
		require.Equal(t, want, ok, b)
	}
	for _, bad := range []float64{math.NaN(), math.Inf(1), 0, -1} {
		for _, b := range []shape.Box{{bad, 1, 1}, {1, bad, 1}, {1, 1, bad}} {
			_, err := shape.Fits(b, h)
			require.ErrorContains(t, err, "side of the box")
			for _, w := range []shape.Way{tube, passes, winding} {
				_, _, err = w.Most(b, d)
				require.ErrorContains(t, err, "side of the box")
			}
		}
		for name, h := range map[string]shape.Housing{"length": {bad, 1, 1, 0}, "width": {1, bad, 1, 0}, "height": {1, 1, bad, 0}} {
			_, err := shape.Fits(shape.Box{A: 1, B: 1, C: 1}, h)
			require.ErrorContains(t, err, name+" of the housing")
		}
	}
}

// What Most gives fits, holds no less than a search over all its kind by steps, and does not depend on the order of the sides.
func TestMostIsTheMost(t *testing.T) {
	for _, b := range []shape.Box{{0.3, 0.2, 0.05}, {0.25, 0.25, 0.25}, {0.5, 0.15, 0.16}, {0.18, 0.4, 0.02}} {
		for _, kind := range []shape.Way{tube, passes, wide, winding} {
			w, any, err := kind.Most(b, d)
			require.NoError(t, err)
			searched := searched(t, b, kind)
			if !any {
				require.Zero(t, searched)
				continue
			}
			require.True(t, fits(t, b, w), "%+v", w)
			held := lead(t, w).Length
			require.GreaterOrEqual(t, held, searched*(1-1e-9), "%+v in %v", w, b)
			require.Less(t, held, searched*1.5, "the search, in steps, comes near it")
			for _, turned := range []shape.Box{{b.B, b.C, b.A}, {b.C, b.B, b.A}} {
				again, _, err := kind.Most(turned, d)
				require.NoError(t, err)
				near(t, held, lead(t, again).Length, 1e-12*held)
			}
		}
	}
	for _, kind := range []shape.Way{tube, passes, winding} {
		_, any, err := kind.Most(shape.Box{A: 0.005, B: 0.005, C: 0.005}, d)
		require.NoError(t, err)
		require.False(t, any, "%+v", kind)
	}
}

// searched is the longest strand of a kind that fits a box, by trying sizes.
func searched(t *testing.T, b shape.Box, kind shape.Way) (held float64) {
	t.Helper()
	try := func(w shape.Way) {
		if l, err := w.Lead(d); err == nil && l.Length > held {
			if ok, _ := shape.Fits(b, l.Housing); ok {
				held = l.Length
			}
		}
	}
	for i := range 250 {
		size := 2e-3 * float64(i+1)
		switch w := kind.(type) {
		case shape.Tube:
			w.Length = size
			try(w)
		case shape.Passes:
			for w.Count = 2; w.Count < 20; w.Count++ {
				w.Span = size
				try(w)
			}
		case shape.Winding:
			for w.Turns = 1; w.Turns < 200; w.Turns += 3 {
				w.Drum = size
				try(w)
			}
		}
	}
	return held
}

func TestAbsurdLengthsAreRefused(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	with := func(w shape.Way) shape.Way { return w }
	for name, of := range map[string]func(x float64) shape.Way{
		"length of the tube":      func(x float64) shape.Way { v := tube; v.Length = x; return with(v) },
		"bore of the tube":        func(x float64) shape.Way { v := tube; v.Bore = x; return with(v) },
		"span of a pass":          func(x float64) shape.Way { v := passes; v.Span = x; return with(v) },
		"diameter of the rollers": func(x float64) shape.Way { v := passes; v.Roller = x; return with(v) },
		"diameter of the drum":    func(x float64) shape.Way { v := winding; v.Drum = x; return with(v) },
		"pitch of the winding":    func(x float64) shape.Way { v := winding; v.Pitch = x; return with(v) },
		"turns in a layer":        func(x float64) shape.Way { v := winding; v.Turns = x; return with(v) },
		"gap to the housing":      func(x float64) shape.Way { v := winding; v.Gap = x; return with(v) },
		"gap to the housing ":     func(x float64) shape.Way { v := passes; v.Gap = x; return with(v) },
	} {
		for _, x := range []float64{nan, inf, -inf, -1, 0, 1e9} {
			refused(t, of(x), name)
		}
	}
	for name, of := range map[string]func(x float64) shape.Way{
		"wall of the housing":   func(x float64) shape.Way { v := tube; v.Wall = x; return with(v) },
		"wall of the housing ":  func(x float64) shape.Way { v := passes; v.Wall = x; return with(v) },
		"wall of the housing  ": func(x float64) shape.Way { v := winding; v.Wall = x; return with(v) },
		"spacing of the passes": func(x float64) shape.Way { v := passes; v.Spacing = x; return with(v) },
	} {
		for _, x := range []float64{nan, inf, -1, 1e9} {
			refused(t, of(x), name)
		}
	}
	for _, n := range []int{-1, 0, 1, 1_000_001} {
		v := passes
		v.Count = n
		refused(t, v, "number of passes")
	}
	for _, n := range []int{-1, 0, 6} {
		v := winding
		v.Layers = n
		refused(t, v, "layers of the winding")
	}
	narrow, tight, crowded := tube, winding, passes
	narrow.Bore, tight.Pitch, crowded.Spacing = d, 0.99*d, 60e-3
	refused(t, narrow, "bore of the tube")
	refused(t, tight, "pitch of the winding")
	refused(t, crowded, "two rollers")
	for _, w := range []shape.Way{tube, passes, winding} {
		for _, bad := range []float64{nan, inf, 0, -d, 1} {
			_, err := w.Lead(bad)
			require.ErrorContains(t, err, "strand diameter")
		}
	}
}

func refused(t *testing.T, w shape.Way, words string) {
	t.Helper()
	for len(words) > 0 && words[len(words)-1] == ' ' {
		words = words[:len(words)-1]
	}
	_, err := w.Lead(d)
	require.ErrorContains(t, err, words, "%+v", w)
	_, err = w.Outline(d, false)
	require.ErrorContains(t, err, words, "%+v", w)
}

func TestAbsurdStrandsAreRefused(t *testing.T) {
	for _, bad := range []float64{math.NaN(), math.Inf(1), 0, -1} {
		_, err := tube.Lead(bad)
		require.ErrorContains(t, err, "strand diameter")
	}
}

// One side that is too small is enough to fit nothing, and an absurd question finds nothing.
func TestNothingFits(t *testing.T) {
	for _, c := range []struct {
		inside shape.Box
		kind   shape.Way
	}{
		{shape.Box{A: 1, B: 0.0079, C: 0.0079}, tube},
		{shape.Box{A: 0.04, B: 1, C: 0.02}, passes},      // as deep as the rollers alone
		{shape.Box{A: 1, B: 1, C: 0.015}, passes},        // thinner than the strand and its gaps
		{shape.Box{A: 1, B: 0.055, C: 0.02}, passes},     // room for one pass
		{shape.Box{A: 1, B: 0.025, C: 0.025}, winding},   // the layers and the gaps alone
		{shape.Box{A: 0.0167, B: 0.5, C: 0.02}, winding}, // no turn beside the gaps
	} {
		w, any, err := c.kind.Most(c.inside, d)
		require.NoError(t, err)
		require.False(t, any, "%+v in %v", w, c.inside)
	}
	w, any, err := tube.Most(shape.Box{A: 1, B: 0.005, C: 0.009}, d)
	require.NoError(t, err)
	require.True(t, any)
	near(t, 0.005, w.(shape.Tube).Length, 0, "across, since both other sides have to take it")
	for _, kind := range []shape.Way{tube, passes, winding} {
		w, any, err := kind.Most(shape.Box{A: 1, B: 1, C: -1}, d)
		require.Error(t, err)
		require.False(t, any)
		require.Nil(t, w)
		_, any, err = kind.Most(shape.Box{A: 1, B: 1, C: 1}, math.NaN())
		require.ErrorContains(t, err, "strand diameter")
		require.False(t, any)
	}
	ok, err := shape.Fits(shape.Box{A: 1, B: 1, C: -1}, shape.Housing{Length: 0.1, Width: 0.1, Height: 0.1})
	require.Error(t, err)
	require.False(t, ok)
}

// Most keeps to the number of passes and of turns that are allowed, and so does ForLength.
func TestMostKeepsToItsLimits(t *testing.T) {
	hall := shape.Box{A: 5000, B: 5000, C: 5000}
	thin := shape.Passes{Span: 0.5, Roller: 1e-3, Count: 2, Gap: 0.01}
	w, any, err := thin.Most(hall, d)
	require.NoError(t, err)
	require.True(t, any)
	require.Equal(t, 1_000_000, w.(shape.Passes).Count)
	w, any, err = winding.Most(hall, d)
	require.NoError(t, err)
	require.True(t, any)
	near(t, 1_000_000, w.(shape.Winding).Turns, 0)
	short := shape.Passes{Span: 1e-3, Roller: 1e-3, Count: 2, Gap: 0.01}
	short.Count = 1_000_000
	all := lead(t, short).Length
	w, err = short.ForLength(all, d)
	require.NoError(t, err)
	require.Equal(t, 1_000_000, w.(shape.Passes).Count)
	_, err = short.ForLength(all*1.0001, d)
	require.ErrorContains(t, err, "must lie from 0 to 1e+06")
}
