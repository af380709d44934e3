package shape_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion/machine/shape"
)

// The limits that are stated are the limits: each is taken, and a thousandth beyond it is not.
func TestLimitsAreThoseStated(t *testing.T) {
	of := func(w shape.Way) error { _, err := w.Lead(d); return err }
	big := passes
	big.Spacing = 100
	for name, c := range map[string]struct {
		least, most float64
		ask         func(x float64) error
	}{
		"tube: length":     {1e-6, 1e4, func(x float64) error { v := tube; v.Length = x; return of(v) }},
		"tube: bore":       {d * (1 + 1e-6), 1e4, func(x float64) error { v := tube; v.Bore = x; return of(v) }},
		"tube: wall":       {0, 1, func(x float64) error { v := tube; v.Wall = x; return of(v) }},
		"passes: span":     {1e-6, 1e4, func(x float64) error { v := passes; v.Span = x; return of(v) }},
		"passes: roller":   {1e-6, 9999.9, func(x float64) error { v := passes; v.Roller = x; return of(v) }},
		"passes: gap":      {1e-6, 1e4, func(x float64) error { v := passes; v.Gap = x; return of(v) }},
		"passes: wall":     {0, 1, func(x float64) error { v := passes; v.Wall = x; return of(v) }},
		"passes: spacing":  {2*passes.Roller + d, 1e4, func(x float64) error { v := passes; v.Spacing = x; return of(v) }},
		"winding: drum":    {1e-6, 1e4, func(x float64) error { v := winding; v.Drum = x; return of(v) }},
		"winding: pitch":   {d, 1e4, func(x float64) error { v := winding; v.Pitch = x; return of(v) }},
		"winding: turns":   {0.01, 1e6, func(x float64) error { v := winding; v.Turns = x; return of(v) }},
		"winding: gap":     {1e-6, 1e4, func(x float64) error { v := winding; v.Gap = x; return of(v) }},
		"winding: wall":    {0, 1, func(x float64) error { v := winding; v.Wall = x; return of(v) }},
		"strand":           {1e-5, 0.1, func(x float64) error { _, err := shape.Tube{Length: 1, Bore: 1}.Lead(x); return err }},
		"length":           {1e-6, 1e4, func(x float64) error { _, err := tube.ForLength(x, d); return err }},
		"length of passes": {1e-6, 1e4, func(x float64) error { _, err := big.ForLength(x, d); return err }},
		"length wound": {0.01 * 2.4, 1e4, func(x float64) error {
			_, err := shape.Winding{Drum: 0.762, Pitch: d, Layers: 1, Gap: 1}.ForLength(x, d)
			return err
		}},
		"box": {1e-6, 1e4, func(x float64) error { _, _, err := tube.Most(shape.Box{A: x, B: 1, C: 1}, d); return err }},
		"housing": {1e-6, 1e4, func(x float64) error {
			_, err := shape.Fits(shape.Box{A: 1, B: 1, C: 1}, shape.Housing{Length: x, Width: 1, Height: 1})
			return err
		}},
	} {
		require.NoError(t, c.ask(c.least), name)
		require.NoError(t, c.ask(c.most), name)
		require.Error(t, c.ask(c.most*1.001), name)
		if name == "length wound" {
			continue // its least is told by a tenth of a turn in a hundred
		}
		require.Error(t, c.ask(c.least*0.999-1e-13), name)
	}
	for count, ok := range map[int]bool{2: true, 1_000_000: true, 1: false, 1_000_001: false} {
		v := passes
		v.Count = count
		require.Equal(t, ok, of(v) == nil, count)
	}
	for layers, ok := range map[int]bool{1: true, 5: true, 0: false, 6: false} {
		v := winding
		v.Layers = layers
		require.Equal(t, ok, of(v) == nil, layers)
	}
	just := passes
	just.Spacing = passes.Roller + d
	require.Equal(t, lead(t, passes), lead(t, just), "zero stands for that")
	just.Spacing *= 1 - 1e-9
	require.Error(t, of(just))
	crowded := shape.Passes{Span: 1, Roller: 0.02, Spacing: 0.03, Count: 2, Gap: 0.01}
	require.EqualError(t, of(crowded), "shape: spacing of the passes = 0.03 m: two rollers of 0.02 m do not find room in one turn; must be 0.02175 m, for one, or at least 0.04175 m")
	crowded.Spacing = 0.04175
	require.NoError(t, of(crowded))
}

// What fits by a hair is told to fit, and what is a tenth of a micrometre too large is not.
func TestFitsByAHair(t *testing.T) {
	for room, want := range map[float64]bool{0.3: true, 0.3 - 0.9e-9: true, 0.3 - 1e-7: false} {
		ok, err := shape.Fits(shape.Box{A: 0.3, B: room, C: 0.3}, shape.Housing{Length: 0.3, Width: 0.3, Height: 0.3})
		require.NoError(t, err)
		require.Equal(t, want, ok, room)
	}
}
