package airstream_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion/machine/airstream"
	"strandry/materials/humidair"
)

const atm = humidair.StandardPressure

// near is within a relative tolerance, and fails on NaN.
func near(t *testing.T, want, got, within float64, what ...any) {
	t.Helper()
	require.LessOrEqual(t, math.Abs(got-want), within*max(math.Abs(want), 1e-300), what...)
}

func stream(t *testing.T, flow, celsius, rh float64) airstream.Stream {
	t.Helper()
	T := celsius + 273.15
	s, err := airstream.OfVolume(flow, T, humidair.VapourPressureAt(rh, T), atm)
	require.NoError(t, err)
	return s
}

func TestRoomAirOfTenLitresAMinute(t *testing.T) {
	// 10 L/min of 23 °C and 50 %: 1.95903404e-4 kg/s of dry air, ratio 0.00874824, 9.412526 W to 70 °C
	// (independent code on IAPWS R7-97 and ASHRAE Fundamentals).
	s := stream(t, 10e-3/60, 23, 0.5)
	near(t, 1.95903404e-4, s.Dry, 1e-6)
	near(t, 0.00874824, s.Ratio, 1e-6)
	near(t, 9.412526, s.PowerTo(343.15), 1e-6)
	near(t, 1405.462, s.Vapour(atm), 1e-6)
	near(t, 1.95903404e-4*0.00874824, s.Water(), 1e-6)
}

func TestRefused(t *testing.T) {
	nan := math.NaN()
	fail := func(err error, words string) {
		t.Helper()
		require.ErrorContains(t, err, words)
	}
	_, err := airstream.OfVolume(-1, 300, 0, atm)
	fail(err, "volume flow")
	_, err = airstream.OfVolume(1, nan, 0, atm)
	fail(err, "temperature")
	_, err = airstream.OfVolume(1, 300, atm, atm)
	fail(err, "vapour pressure")
	_, err = airstream.OfVolume(1, 300, 0, 10)
	fail(err, "pressure")
	for _, wrong := range []airstream.Stream{
		{Dry: nan, Temperature: 300}, {Dry: -1, Temperature: 300}, {Dry: 1, Ratio: math.Inf(1), Temperature: 300}, {Dry: 1, Temperature: 20},
	} {
		fail(wrong.Check("supply"), "of the supply")
	}
	require.NoError(t, airstream.Stream{}.Check("supply"))
}
