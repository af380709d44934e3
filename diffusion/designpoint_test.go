package diffusion_test

import (
	"math"
	"runtime"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion"
	"strandry/materials"
)

// A limit alone in doubt, log-normal: the design point is its 10 % point, by the normal distribution.
func TestDesignPointOfAnUncertainLimit(t *testing.T) {
	m := certain(transit(t, 0))
	mean := odds(t, m).Low
	m.Limit = 1.3 * mean
	m.LimitRange = materials.Range{Min: m.Limit / 1.5, Max: m.Limit * 2.5}
	c := odds(t, m).DesignPoint
	require.Empty(t, c.Deviates)
	strict := m.Limit * math.Exp(-deviateOf90*math.Log(1.5)/deviateOf95)
	require.InEpsilon(t, strict, c.Limit, 1e-6)
	ratio := diffusion.NewMarch().AtDesignPoint([]*diffusion.Design{m}, &c, diffusion.DefaultSettings())
	require.InDelta(t, math.Log(mean/strict), ratio[0], 1e-6)
}

// Over a certain limit the design point leaves what is exceeded one time in ten, which the odds have from two thousand draws; at that limit it is just met.
func TestDesignPointIsTheTenthWorst(t *testing.T) {
	for _, name := range []string{"pa12", "petg", "abs"} {
		m := transit(t, 0)
		p, err := materials.Lookup(name)
		require.NoError(t, err)
		m.Material, m.LimitStated = p, true
		w, s := diffusion.NewMarch(), diffusion.DefaultSettings()
		o, err := w.Odds(m, s)
		require.NoError(t, err)
		require.Greater(t, o.High, 1.1*o.Low, "there is doubt")
		m.Limit = o.High
		c, err := w.DesignPoint(m, s)
		require.NoError(t, err)
		require.InDelta(t, 0, w.AtDesignPoint([]*diffusion.Design{m}, &c, s)[0], 0.05*math.Log(o.High/o.Low), name)
		o, err = w.Odds(m, s)
		require.NoError(t, err)
		require.Equal(t, o.DesignPoint, c, "it is that of the odds")
	}
}

// To the bit on one core and on two; what has no answer has no number, and what is not sound no design point.
func TestAtDesignPointOnAnyCores(t *testing.T) {
	m := transit(t, 20)
	w, s := diffusion.NewMarch(), diffusion.DefaultSettings()
	c, err := w.DesignPoint(m, s)
	require.NoError(t, err)
	broken := *m
	broken.Speed = math.NaN()
	longer := *m
	longer.Path = append([]diffusion.Zone(nil), m.Path...)
	longer.Path[0].Length *= 2
	models := []*diffusion.Design{m, &broken, &longer}
	on := func(cores int) []float64 {
		defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(cores))
		return w.AtDesignPoint(models, &c, s)
	}
	one, two := on(1), on(2)
	require.True(t, math.IsNaN(one[1]) && math.IsNaN(two[1]))
	require.Equal(t, [...]float64{one[0], one[2]}, [...]float64{two[0], two[2]})
	require.False(t, math.IsNaN(one[0]) || math.IsNaN(one[2]))
	_, err = w.DesignPoint(&broken, s)
	require.Error(t, err)
}
