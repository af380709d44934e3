package diffusion_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion"
	"strandry/diffusion/film"
	"strandry/materials/humidair"
)

// What a controller holds is the humidity, what a dryer supplies the vapour. Saturation pressures: 2339 Pa at 20 °C,
// 70.18 kPa at 90 °C, 143.4 kPa at 110 °C (steam tables, IAPWS IF97, to the last digit).
func TestAirAtAnotherTemperature(t *testing.T) {
	const room, warm, hot = 293.15, 363.15, 383.15
	held := diffusion.HeldAt(0.03, warm)
	within(t, 0.03*70180, held.VapourPressure, 2)
	within(t, 0.03*143400, held.At(hot).VapourPressure, 10)
	require.Equal(t, held, held.At(hot).At(warm))
	require.Equal(t, diffusion.HeldAt(0.03, room), held.At(room))

	supplied := diffusion.Air{Temperature: warm, VapourPressure: 3000, VolumeFlow: 1e-4, MeteredAt: room}
	require.InDelta(t, 3000, supplied.At(hot).VapourPressure, 0)
	within(t, 2339, supplied.At(room).VapourPressure, 1)
	require.InDelta(t, supplied.VolumeFlow, supplied.At(hot).VolumeFlow, 0)
}

// By continuity: a volume metered in the room runs the faster through a bore the hotter it is, and a speed
// carries the less air the hotter it is; what vapour there is takes its share.
func TestFlowsFollowTheState(t *testing.T) {
	m := transit(t, 20)
	z := &m.Path[1]
	z.Film.Flow, z.Film.Bore, z.Film.AirSpeed, z.Film.Heat, z.Film.Mass = film.Annulus, 0.01, 0, 0, 0
	ring := math.Pi / 4 * (1e-4 - 4*m.Radius*m.Radius)
	z.Air = diffusion.HeldAt(0.05, 363.15)
	z.Air.VolumeFlow, z.Air.MeteredAt, z.Air.Direction = 1e-4, 293.15, diffusion.With
	require.NoError(t, m.Check())
	for _, kelvin := range []float64{333.15, 383.15} {
		z.Air = z.Air.At(kelvin)
		dry := m.Pressure - humidair.VapourPressureAt(0.05, kelvin)
		require.InEpsilon(t, 1e-4*dry/(287.042*293.15), m.DryFlow(z), 1e-12)
		require.InEpsilon(t, 1e-4/ring*kelvin/293.15, m.AirSpeed(z), 1e-12)
	}
	z.Air.VolumeFlow, z.Air.MeteredAt, z.Air.Blown, z.Film.AirSpeed = 0, 0, true, 3
	for _, kelvin := range []float64{333.15, 383.15} {
		z.Air = z.Air.At(kelvin)
		dry := m.Pressure - humidair.VapourPressureAt(0.05, kelvin)
		require.InEpsilon(t, 3*ring*dry/(287.042*kelvin), m.DryFlow(z), 1e-12)
	}
	z.Air = z.Air.WithoutLimit()
	require.Zero(t, m.DryFlow(z))
	require.False(t, z.Air.Limited())
	z.Air.DryFlow = 1e-5
	require.True(t, z.Air.Limited())
}

// A temperature that was set past the rule is no sound model.
func TestHeldAirThatCannotBe(t *testing.T) {
	for name, spoil := range map[string]func(z *diffusion.Zone){
		"held at 400 K": func(z *diffusion.Zone) { z.Air.Temperature = 400 },
		"allowed 0 to 1": func(z *diffusion.Zone) {
			z.Air.Held *= 100
		},
		"leaves no air": func(z *diffusion.Zone) { z.Air = diffusion.HeldAt(0.8, 383.15) },
		"given twice":   func(z *diffusion.Zone) { z.Air.DryFlow, z.Air.VolumeFlow = 1e-5, 1e-5 },
		"wider than the strand": func(z *diffusion.Zone) {
			z.Air.Blown = true
		},
		"NaN": func(z *diffusion.Zone) { z.Air.Held = math.NaN() },
	} {
		m := transit(t, 20)
		m.Path[1].Air = diffusion.HeldAt(0.05, 363.15)
		require.NoError(t, m.Check())
		spoil(&m.Path[1])
		require.ErrorContains(t, m.Check(), name)
	}
}
