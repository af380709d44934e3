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
	near(t, 12.0285+273.15, s.DewPoint(atm), 1e-5)
	near(t, 0.5, s.Humidity(atm), 1e-9)
	near(t, 1405.462, s.Vapour(atm), 1e-6)
	near(t, 1.95903404e-4*0.00874824, s.Water(), 1e-6)
	hot, err := s.Heated(9.412526)
	require.NoError(t, err)
	near(t, 343.15, hot.Temperature, 1e-7)
	near(t, 0.0450459, hot.Humidity(atm), 1e-3)
	require.Equal(t, s.Ratio, hot.Ratio)
	near(t, 9.412526, hot.Enthalpy()-s.Enthalpy(), 1e-6)
	again, err := airstream.OfMass(s.Dry+s.Water(), s.Temperature, s.Ratio)
	require.NoError(t, err)
	near(t, s.Dry, again.Dry, 1e-14)
	require.Zero(t, airstream.Stream{Dry: 1, Temperature: 300}.DewPoint(atm))
}

func TestMixOfHandbook(t *testing.T) {
	// ASHRAE Fundamentals, ch. 1: 2 m3/s of 4 °C, wet bulb 2 °C, with 6.25 m3/s of 25 °C, 50 %: 2.535 and
	// 7.284 kg/s of dry air, 19.5 °C from the chart (from memory); 19.67 °C and 58 % by a program for the real gas, which finds 71 %
	// for the first, and takes the volumes of dry air: 0.04 K.
	outdoor, back := stream(t, 2, 4, 0.71), stream(t, 6.25, 25, 0.5)
	near(t, 2.535, outdoor.Dry, 1e-2)
	near(t, 7.284, back.Dry, 1e-2)
	mixed, err := airstream.Mix(outdoor, back)
	require.NoError(t, err)
	near(t, 19.67, mixed.Temperature-273.15, 3e-3)
	near(t, 0.0083, mixed.Ratio, 1e-2)
	near(t, 0.58, mixed.Humidity(atm), 1e-2)
}

func TestMixClosesToRoundOff(t *testing.T) {
	streams := []airstream.Stream{
		{Dry: 1e-4, Ratio: 0.008, Temperature: 296.15}, {Dry: 3e-6, Ratio: 0.3, Temperature: 393.15}, {Dry: 0.2, Ratio: 0, Temperature: 253.15}, {},
	}
	out, err := airstream.Mix(streams...)
	require.NoError(t, err)
	dry, water, enthalpy := airstream.Closure(out, streams...)
	for _, rest := range []float64{dry, water, enthalpy} {
		require.Less(t, math.Abs(rest), 1e-14)
	}
	back, err := airstream.Mix(streams[2], streams[0], streams[1])
	require.NoError(t, err)
	near(t, out.Temperature, back.Temperature, 1e-14)
	near(t, out.Ratio, back.Ratio, 1e-14)
	// What does not close is seen.
	for _, wrong := range []airstream.Stream{
		{Dry: out.Dry * 1.01, Ratio: out.Ratio, Temperature: out.Temperature}, {Dry: out.Dry, Ratio: out.Ratio * 1.01, Temperature: out.Temperature},
		{Dry: out.Dry, Ratio: out.Ratio, Temperature: out.Temperature + 1},
	} {
		dry, water, enthalpy := airstream.Closure(wrong, streams...)
		require.Greater(t, math.Abs(dry)+math.Abs(water)+math.Abs(enthalpy), 1e-3)
	}
	dry, water, enthalpy = airstream.Closure(airstream.Stream{Temperature: 273.15})
	require.Zero(t, dry)
	require.Zero(t, water)
	require.Zero(t, enthalpy)
}

func TestMixKeepsWhatIsAlike(t *testing.T) {
	s := airstream.Stream{Dry: 0.3, Ratio: 0.01, Temperature: 310}
	out, err := airstream.Mix(s, s, s)
	require.NoError(t, err)
	near(t, 0.9, out.Dry, 1e-14)
	near(t, 0.01, out.Ratio, 1e-14)
	near(t, 310, out.Temperature, 1e-14)
	// Vapour carries heat: a moist stream pulls the mean to its side.
	out, err = airstream.Mix(airstream.Stream{Dry: 1, Ratio: 0.2, Temperature: 350}, airstream.Stream{Dry: 1, Ratio: 0, Temperature: 300})
	require.NoError(t, err)
	near(t, 300+50*(1006+372.0)/(2*1006+372), out.Temperature, 1e-12)
}

func chamber() airstream.Chamber {
	return airstream.Chamber{
		Supply:  airstream.Stream{Dry: 2e-4, Ratio: 0.002, Temperature: 333},
		Leak:    airstream.Stream{Dry: 5e-5, Ratio: 0.009, Temperature: 296},
		Strands: []float64{3e-8, 4e-8, -1e-8},
		Loop:    airstream.Loop{Dry: 1e-3, Ratio: 0.0005, Share: 0.6},
	}
}

func TestChamber(t *testing.T) {
	c := chamber()
	s, err := c.Balance()
	require.NoError(t, err)
	// By hand: (4e-7 + 4.5e-7 + 6e-4·5e-4 + 6e-8)/(2.5e-4 + 6e-4) = 1.21e-6/8.5e-4.
	near(t, 1.21e-6/8.5e-4, s.Ratio, 1e-13)
	near(t, 2.5e-4, s.Dry, 1e-13)
	near(t, 2.5e-4*s.Ratio, s.Leaving, 1e-13)
	near(t, 6e-4*(s.Ratio-5e-4), s.Taken, 1e-13)
	near(t, s.Ratio-0.6*(s.Ratio-5e-4), s.Dried, 1e-13)
	require.Less(t, math.Abs(c.Residual(s)), 1e-14)
	near(t, 4e-7+4.5e-7+6e-8, s.Leaving+s.Taken, 1e-13)
	s.Ratio *= 1.001
	require.Greater(t, math.Abs(c.Residual(s)), 1e-5)

	c.Loop = airstream.Loop{}
	s, err = c.Balance()
	require.NoError(t, err)
	near(t, 9.1e-7/2.5e-4, s.Ratio, 1e-13)
	require.Equal(t, s.Ratio, s.Dried)
	require.Zero(t, s.Taken)
	require.Less(t, math.Abs(c.Residual(s)), 1e-14)

	// Closed but for the dryer: it takes what the strands give.
	c = airstream.Chamber{Strands: []float64{3e-8}, Loop: airstream.Loop{Dry: 1e-3, Ratio: 0.0005, Share: 1}}
	s, err = c.Balance()
	require.NoError(t, err)
	near(t, 3e-8, s.Taken, 1e-12)
	near(t, 0.0005+3e-5, s.Ratio, 1e-13)
	// As much through the dryer as through the chamber.
	s, err = airstream.Chamber{Supply: airstream.Stream{Dry: 1e-3, Ratio: 0.01, Temperature: 300}, Loop: airstream.Loop{Dry: 1e-3, Ratio: 0.002, Share: 1}}.Balance()
	require.NoError(t, err)
	near(t, 0.006, s.Ratio, 1e-13)
	require.Zero(t, airstream.Chamber{Supply: airstream.Stream{Dry: 1, Temperature: 300}}.Residual(airstream.State{}))
}

func TestRefused(t *testing.T) {
	nan := math.NaN()
	good := airstream.Stream{Dry: 1e-4, Ratio: 0.01, Temperature: 300}
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
	_, err = airstream.OfMass(1, 300, -0.1)
	fail(err, "humidity ratio of the stream")
	for _, wrong := range []airstream.Stream{
		{Dry: nan, Temperature: 300}, {Dry: -1, Temperature: 300}, {Dry: 1, Ratio: math.Inf(1), Temperature: 300}, {Dry: 1, Temperature: 20},
	} {
		_, err = airstream.Mix(good, wrong)
		fail(err, "of the stream 2")
		_, err = wrong.Heated(1)
		fail(err, "of the stream")
		c := chamber()
		c.Supply = wrong
		_, err = c.Balance()
		fail(err, "of the supply")
		c = chamber()
		c.Leak = wrong
		_, err = c.Balance()
		fail(err, "of the leak")
	}
	_, err = airstream.Mix()
	fail(err, "none of the streams")
	_, err = airstream.Stream{Temperature: 300}.Heated(1)
	fail(err, "no air flows")
	_, err = good.Heated(nan)
	fail(err, "power")
	_, err = good.Heated(1000)
	fail(err, "heated stream")
	for _, l := range []airstream.Loop{{Dry: -1}, {Dry: 1, Ratio: -1}, {Dry: 1, Share: 1.1}} {
		c := chamber()
		c.Loop = l
		_, err = c.Balance()
		require.Error(t, err)
	}
	c := chamber()
	c.Strands = []float64{0, nan}
	_, err = c.Balance()
	fail(err, "water from strand 2")
	c.Strands = []float64{-1e-5}
	_, err = c.Balance()
	fail(err, "humidity ratio of the chamber")
	_, err = airstream.Chamber{Strands: []float64{1e-8}, Loop: airstream.Loop{Dry: 1, Ratio: 0.001}}.Balance()
	fail(err, "no air carries water")
}
