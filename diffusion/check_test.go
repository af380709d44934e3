package diffusion_test

import (
	"errors"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion"
)

func TestUnsoundModelsAreRefused(t *testing.T) {
	require.NoError(t, transit(t, 20).Check())
	for name, spoil := range map[string]func(m *diffusion.Design){
		"radius":              func(m *diffusion.Design) { m.Radius = 0 },
		"speed":               func(m *diffusion.Design) { m.Speed = math.NaN() },
		"content":             func(m *diffusion.Design) { m.Start = -0.01 },
		"limit":               func(m *diffusion.Design) { m.Limit = math.Inf(1) },
		"no zone":             func(m *diffusion.Design) { m.Path = nil },
		"length":              func(m *diffusion.Design) { m.Path[0].Length = -1 },
		"temperature":         func(m *diffusion.Design) { m.Path[0].Air.Temperature = 1000 },
		"vapour":              func(m *diffusion.Design) { m.Path[0].Air.VapourPressure = 2e5 },
		"covered share":       func(m *diffusion.Design) { m.Path[0].Contact = diffusion.Contact{Covered: 1, Arcs: 1} },
		"covered share = -":   func(m *diffusion.Design) { m.Path[0].Contact = diffusion.Contact{Covered: -0.1, Arcs: 1} },
		"covered share = NaN": func(m *diffusion.Design) { m.Path[0].Contact = diffusion.Contact{Covered: math.NaN(), Arcs: 1} },
		"covered arcs = 0":    func(m *diffusion.Design) { m.Path[0].Contact.Covered = 0.1 },
		"covered arcs = 9":    func(m *diffusion.Design) { m.Path[0].Contact = diffusion.Contact{Covered: 0.1, Arcs: 9} },
		"covered arcs = -1":   func(m *diffusion.Design) { m.Path[0].Contact.Arcs = -1 },
		"duration": func(m *diffusion.Design) {
			m.Storage = append(m.Storage, m.Path[0])
		},
	} {
		m := transit(t, 20)
		spoil(m)
		err := m.Check()
		require.ErrorContains(t, err, name)
		_, assessed := diffusion.NewMarch().Assess(m, diffusion.DefaultSettings())
		require.EqualError(t, assessed, err.Error())
		var outside *diffusion.RangeError
		require.Equal(t, errors.As(err, &outside), !strings.Contains(err.Error(), "allowed is") && !strings.Contains(err.Error(), "allowed are"))
	}
}

// Air that is far too little either has an answer or says that it has none; a little
// more of it that would give its water back to the cold strand is warned of.
func TestTooLittleAir(t *testing.T) {
	for _, flow := range []float64{1e-12, 1e-9, 1e-7, 1e-6, 1e-5, 1e-3} {
		for _, direction := range []diffusion.Direction{diffusion.With, diffusion.Against, diffusion.Mixed} {
			m := transit(t, 20)
			m.Path[1].Air.Direction, m.Path[1].Air.DryFlow = direction, flow
			a, err := diffusion.NewMarch().Assess(m, diffusion.DefaultSettings())
			t.Logf("%g kg/s %v: %v", flow, direction, err)
			if err != nil {
				require.ErrorContains(t, err, "several times as much")
				require.Less(t, flow, 1e-6)
				continue
			}
			require.GreaterOrEqual(t, a.Nozzle.Mean, 0.0)
			require.LessOrEqual(t, a.Nozzle.Mean, 0.026)
		}
	}
}
