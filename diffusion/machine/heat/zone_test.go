package heat_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion/machine/airstream"
	"strandry/diffusion/machine/heat"
	"strandry/materials/humidair"
)

// room is air of 23 °C and 50 % in litres a minute.
func room(t *testing.T, litres float64) airstream.Stream {
	t.Helper()
	s, err := airstream.OfVolume(litres*1e-3/60, 296.15, humidair.VapourPressureAt(0.5, 296.15), 101325)
	require.NoError(t, err)
	return s
}

func zone(t *testing.T) heat.Zone {
	return heat.Zone{
		Temperature: 343.15,
		Strands: []heat.Strand{
			{Flow: 2.147436e-2 / 3600, Capacity: 1700, From: 296.15, To: 343.15, Water: 0.10737178e-3 / 3600},
			{Flow: 1e-5, Capacity: 1500, From: 296.15, To: 333.15, Water: 3e-8},
		},
		Air:  []airstream.Stream{room(t, 10), {Dry: 1e-3, Ratio: 0.001, Temperature: 318.15}},
		Leak: room(t, 1), Wall: 14,
	}
}

func TestSteady(t *testing.T) {
	z := zone(t)
	s, err := z.Steady()
	require.NoError(t, err)
	// One strand: 0.476611 W of warmth (independent code); its water by 2.333 MJ/kg at 70 °C (steam tables).
	one := heat.Zone{Temperature: 343.15, Strands: z.Strands[:1], Air: z.Air[:1]}
	alone, err := one.Steady()
	require.NoError(t, err)
	near(t, 0.476611, alone.Strand, 1e-5)
	near(t, 0.10737178e-3/3600*2.333e6, alone.Water, 1e-3)
	near(t, 9.412526, alone.Air, 1e-6)
	near(t, alone.Strand+alone.Water+alone.Air, alone.Heater, 1e-14)
	// Both: the second by hand, L(60 °C) = 2.3577 MJ/kg (steam tables), vapour warmed 10 K more.
	near(t, 1e-5*1500*37, s.Strand-alone.Strand, 1e-12)
	near(t, 3e-8*(2.3577e6+18600), s.Water-alone.Water, 1e-3)
	near(t, 9.412526+1e-3*(1006+1.86)*25, s.Air, 1e-6)
	near(t, 0.9412526, s.Leak, 1e-6)
	near(t, s.Strand+s.Water+s.Air+s.Leak+14, s.Heater, 1e-14)
	near(t, 14, s.Wall, 1e-15)
	near(t, 11*1.95903404e-4/10+1e-3, s.Out.Dry, 1e-6)
	near(t, (1.1*1.95903404e-4*0.00874824+1e-6+0.10737178e-3/3600+3e-8)/s.Out.Dry, s.Out.Ratio, 1e-6)
	size, err := s.Size(1.5)
	require.NoError(t, err)
	near(t, 1.5*s.Heater, size, 1e-14)
}

// What goes in is what comes out, told by the enthalpies of the streams; each term that is wrong is seen.
func TestZoneCloses(t *testing.T) {
	z := zone(t)
	s, err := z.Steady()
	require.NoError(t, err)
	require.Less(t, math.Abs(z.Residual(s)), 1e-12)
	for name, wrong := range map[string]func(*heat.Steady){
		"heater": func(s *heat.Steady) { s.Heater *= 1.001 }, "ratio": func(s *heat.Steady) { s.Out.Ratio *= 1.0001 }, "dry": func(s *heat.Steady) { s.Out.Dry *= 1.0001 },
	} {
		w := s
		wrong(&w)
		require.Greater(t, math.Abs(z.Residual(w)), 1e-7, name)
	}
	for name, change := range map[string]func(*heat.Zone){
		"wall": func(z *heat.Zone) { z.Wall++ }, "leak": func(z *heat.Zone) { z.Leak.Dry *= 2 },
		"strand": func(z *heat.Zone) { z.Strands[1].Capacity *= 2 }, "water": func(z *heat.Zone) { z.Strands[1].Water *= 2 },
		"air": func(z *heat.Zone) { z.Air[1].Temperature += 5 },
		"to":  func(z *heat.Zone) { z.Strands[1].To += 5 }, "from": func(z *heat.Zone) { z.Strands[1].From += 5 },
	} {
		w := zone(t)
		change(&w)
		require.Greater(t, math.Abs(w.Residual(s)), 1e-6, name)
		again, err := w.Steady()
		require.NoError(t, err)
		require.Less(t, math.Abs(w.Residual(again)), 1e-12, name)
	}
	// A hotter supply than the chamber gives heat: the heater is not needed.
	hot := heat.Zone{Temperature: 320, Air: []airstream.Stream{{Dry: 1e-2, Ratio: 0.01, Temperature: 350}}, Wall: 5}
	over, err := hot.Steady()
	require.NoError(t, err)
	require.Less(t, over.Heater, -290.0)
	require.Less(t, math.Abs(hot.Residual(over)), 1e-12)
	size, err := over.Size(1.5)
	require.NoError(t, err)
	require.Zero(t, size)
	// Shut, and dry: the wall alone.
	shut := heat.Zone{Temperature: 320, Wall: 5}
	still, err := shut.Steady()
	require.NoError(t, err)
	require.Equal(t, 5.0, still.Heater)
	require.Zero(t, shut.Residual(still))
	require.Zero(t, heat.Zone{Temperature: 320}.Residual(heat.Steady{}))
}

func TestZoneRefused(t *testing.T) {
	nan := math.NaN()
	for words, change := range map[string]func(*heat.Zone){
		"chamber temperature":                  func(z *heat.Zone) { z.Temperature = nan },
		"loss of the wall":                     func(z *heat.Zone) { z.Wall = nan },
		"flow of strand 1":                     func(z *heat.Zone) { z.Strands[0].Flow = -1 },
		"heat capacity of strand 2":            func(z *heat.Zone) { z.Strands[1].Capacity = nan },
		"temperature at the start of strand 1": func(z *heat.Zone) { z.Strands[0].From = 20 },
		"temperature at the end of strand 1":   func(z *heat.Zone) { z.Strands[0].To = 2000 },
		"water of strand 1":                    func(z *heat.Zone) { z.Strands[0].Water = 1 },
		"dry flow of the air 2":                func(z *heat.Zone) { z.Air[1].Dry = nan },
		"of the leak":                          func(z *heat.Zone) { z.Leak.Ratio = nan },
		"no air takes up":                      func(z *heat.Zone) { z.Air, z.Leak = nil, airstream.Stream{} },
		"air that leaves":                      func(z *heat.Zone) { z.Strands[1].Water = -1e-4 },
	} {
		z := zone(t)
		change(&z)
		_, err := z.Steady()
		require.ErrorContains(t, err, words)
	}
	for _, margin := range []float64{0.9, nan, 11} {
		_, err := heat.Steady{Heater: 1}.Size(margin)
		require.ErrorContains(t, err, "margin")
	}
}

func TestLeaks(t *testing.T) {
	// By hand: 0.6·1e-4·(2·1.2·10)^½.
	m, err := heat.Slot(heat.Opening{Area: 1e-4, Discharge: 0.6}, 10, 1.2)
	require.NoError(t, err)
	near(t, 0.6e-4*math.Sqrt(24), m, 1e-13)
	nan := math.NaN()
	o := heat.Opening{Area: 2e-4, Discharge: heat.SharpEdge}
	for _, err := range []error{
		second(heat.Slot(heat.Opening{Area: -1, Discharge: 0.6}, 1, 1)), second(heat.Slot(o, nan, 1)), second(heat.Slot(o, 1, nan)),
		second(heat.Slot(heat.Opening{Area: 1, Discharge: 2}, 1, 1)),
	} {
		require.ErrorContains(t, err, "must lie from")
	}
}

func second[T any](_ T, err error) error { return err }
