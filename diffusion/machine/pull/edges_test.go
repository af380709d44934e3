package pull_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion/machine/pull"
)

// The limits that are stated are the limits: each is taken, and a thousandth beyond it is not.
func TestLimitsAreThoseStated(t *testing.T) {
	one := pull.Exactly
	plain := pull.Roller{Radius: 1, Bearing: one(1e-6), Bore: 0.1}
	along := func(e pull.Element) error {
		_, err := pull.Along(strand, []pull.Stage{at(e)})
		return err
	}
	with := func(s pull.Strand, stage pull.Stage) error {
		_, err := pull.Along(s, []pull.Stage{stage})
		return err
	}
	for name, c := range map[string]struct {
		least, most float64
		ask         func(x float64) error
	}{
		"drag":               {0, 1e5, func(x float64) error { return along(pull.Drag{Force: one(x)}) }},
		"guide: friction":    {0, 2, func(x float64) error { return along(pull.Guide{Friction: one(x)}) }},
		"guide: angle":       {0, 200, func(x float64) error { return along(pull.Guide{Angle: x}) }},
		"guide: radius":      {strand.Diameter / 2, 1e4, func(x float64) error { return along(pull.Guide{Radius: x}) }},
		"guide: lost":        {0, 2, func(x float64) error { return along(pull.Guide{Radius: 1, Lost: one(x)}) }},
		"roller: angle":      {0, 1e5, func(x float64) error { v := plain; v.Angle = x; return along(v) }},
		"roller: radius":     {0.05, 1e4, func(x float64) error { v := plain; v.Radius = x; return along(v) }},
		"roller: bore":       {1e-6, 2, func(x float64) error { v := plain; v.Bore = x; return along(v) }},
		"roller: bearing":    {0, 2, func(x float64) error { v := plain; v.Bearing = one(x); return along(v) }},
		"roller: weight":     {0, 1e5, func(x float64) error { v := plain; v.Weight = x; return along(v) }},
		"roller: lever":      {0, 0.9, func(x float64) error { v := plain; v.Bore, v.Bearing = 1.5, one(x/0.75); return along(v) }},
		"driven: friction":   {0, 2, func(x float64) error { return along(pull.Driven{Friction: one(x)}) }},
		"driven: angle":      {0, 1e5, func(x float64) error { return along(pull.Driven{Angle: x}) }},
		"driven: left":       {0, 1e5, func(x float64) error { return along(pull.Driven{Left: one(x)}) }},
		"floor: friction":    {0, 2, func(x float64) error { return along(pull.Floor{Friction: one(x)}) }},
		"floor: length":      {0, 1e4, func(x float64) error { return along(pull.Floor{Length: x}) }},
		"stage: temperature": {0, 1000, func(x float64) error { return with(strand, pull.Stage{Element: pull.Drag{}, Temperature: x}) }},
		"stage: modulus":     {1e3, 1e12, func(x float64) error { return with(strand, pull.Stage{Element: pull.Drag{}, Modulus: one(x)}) }},
		"strand: diameter":   {1e-5, 0.1, func(x float64) error { return with(pull.Strand{Diameter: x, Density: 1e3}, at(pull.Drag{})) }},
		"strand: density":    {1, 3e4, func(x float64) error { return with(pull.Strand{Diameter: 1e-3, Density: x}, at(pull.Drag{})) }},
		"against: asked":     {0, 1e12, func(x float64) error { _, _, err := pull.Against(one(x), one(1)); return err }},
		"against: borne":     {0, 1e12, func(x float64) error { _, _, err := pull.Against(one(1), one(x)); return err }},
		"tension": {0, 1e5, func(x float64) error {
			_, err := pull.Along(strand, []pull.Stage{at(pull.Drag{Force: one(x / 2)}), at(pull.Drag{Force: one(x / 2)})})
			return err
		}},
	} {
		require.NoError(t, c.ask(c.least), name)
		require.NoError(t, c.ask(c.most), name)
		require.Error(t, c.ask(c.most*1.001), name)
		require.Error(t, c.ask(c.least*0.999-1e-9), name)
	}
}

// The place that stands out may be the first.
func TestFirstStandsOut(t *testing.T) {
	r := along(t, pull.Stage{Name: "oven", Element: one, Temperature: 350, Modulus: pull.Exactly(1e7)}, pull.Stage{Name: "out", Element: pull.Drag{}, Temperature: 300, Modulus: glass},
		pull.Stage{Name: "end", Element: pull.Driven{}, Temperature: 300, Modulus: glass})
	require.Equal(t, []int{0, 0, 0}, []int{r.Highest, r.Longest, r.Hottest})
}

func TestAgainstUnknown(t *testing.T) {
	for _, c := range [][2]pull.Range{{{}, one.Force}, {one.Force, {}}, {{}, {}}} {
		v, share, err := pull.Against(c[0], c[1])
		require.NoError(t, err)
		require.Equal(t, pull.Unknown, v)
		require.Zero(t, share)
	}
	bad := pull.Range{Low: 2, Value: 1, High: 3}
	v, share, err := pull.Against(bad, one.Force)
	require.ErrorContains(t, err, "must be in order")
	require.Equal(t, pull.Unknown, v)
	require.Zero(t, share)
	r, err := pull.Along(strand, make([]pull.Stage, 100_001))
	require.ErrorContains(t, err, "100001 stages: must be 1 to 100000")
	require.Zero(t, r)
}
