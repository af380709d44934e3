package quantity

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

func all() []Dimension {
	return []Dimension{Length(), Temperature(), TemperatureDifference(), Duration(), Speed(), VolumeFlow(), Pressure(),
		Fraction(), Humidity(), Diffusivity(), HeatTransfer(), Density(), Mass(), MassRate(), SpecificHeat(), Conductivity(), MolarEnergy(), Power(), Force(), Angle()}
}

// Factors: SI Brochure, 9th edition, tables 7 and 8; NIST SP 811 (2008), B.8, for
// the calorie, the degree Fahrenheit, inch, foot, ounce (avoirdupois), atmosphere and pound per square inch. They are exact, so the tolerance is that
// of a few roundings of a float64.
func TestParse(t *testing.T) {
	for _, c := range []struct {
		d    Dimension
		text string
		want float64
	}{
		{Length(), "12 m", 12}, {Length(), "12m", 12}, {Length(), "1.75 mm", 0.00175}, {Length(), " 5e3  µm ", 5e-3},
		{Length(), "5 um", 5e-6}, {Length(), "+.5 km", 500}, {Length(), "−3. cm", -0.03},
		{Temperature(), "110 °C", 383.15}, {Temperature(), "-20degC", 253.15}, {Temperature(), "300 K", 300},
		{Temperature(), "212 °F", 373.15}, {Temperature(), "-459.67 °F", 0}, {Temperature(), "25 ℃", 298.15},
		{TemperatureDifference(), "3 °C", 3}, {TemperatureDifference(), "-3 K", -3},
		{Duration(), "1.5 h", 5400}, {Duration(), "2 d", 172800}, {Duration(), "10 min", 600},
		{Speed(), "2 mm/s", 0.002}, {Speed(), "120 mm/min", 0.002}, {Speed(), "6 m min-1", 0.1},
		{VolumeFlow(), "4.8 mm3/s", 4.8e-9}, {VolumeFlow(), "2 l/min", 2.0 / 60000}, {VolumeFlow(), "3.6 m³/h", 1e-3},
		{VolumeFlow(), "60 mL/min", 1e-6}, {VolumeFlow(), "3600 L/h", 1e-3},
		{Pressure(), "1013.25 hPa", 101325}, {Pressure(), "2.4 GPa", 2.4e9}, {Pressure(), "1 bar", 1e5}, {Pressure(), "1 mbar", 100},
		{Fraction(), "2.5 %", 0.025}, {Fraction(), "50 ppm", 5e-5}, {Fraction(), "2 g/kg", 2e-3}, {Fraction(), "0.1 kg/kg", 0.1},
		{Fraction(), "0.2wt%", 0.002}, {Fraction(), "20 mg/kg", 2e-5},
		{Diffusivity(), "8.7e-11 m²/s", 8.7e-11}, {Diffusivity(), "1e-8 cm^2/s", 1e-12}, {Diffusivity(), "1e-6 mm2/s", 1e-12},
		{HeatTransfer(), "10 W/(m2 K)", 10}, {HeatTransfer(), "10 W/m²·K", 10}, {HeatTransfer(), "10 W m⁻² K⁻¹", 10},
		{Density(), "1.24 g/cm3", 1240}, {Density(), "0.9 g/m3", 9e-4}, {Mass(), "2 kg", 2}, {Mass(), "20 grams", 0.02}, {Mass(), "5 mg", 5e-6},
		{Mass(), "2 oz", 0.0566990462500}, {Mass(), "3 ounces", 0.085048569375}, {MassRate(), "3.6 g/h", 1e-6}, {MassRate(), "36 mg/h", 1e-8}, {MassRate(), "0.5 kg/s", 0.5},
		{MassRate(), "6 g/min", 1e-4}, {MassRate(), "6 mg/min", 1e-7}, {MassRate(), "86.4 g/day", 1e-6}, {MassRate(), "86.4 mg/d", 1e-9}, {SpecificHeat(), "1.55 kJ/(kg·K)", 1550}, {SpecificHeat(), "1.2 J/g/K", 1200},
		{Conductivity(), "0.25 W/(K m)", 0.25}, {Power(), "0.06 kW", 60}, {Force(), "1 kgf", 9.80665}, {Angle(), "180 °", 3.14159265358979}, {Angle(), "1 turn", 6.28318530717959}, {MolarEnergy(), "11 kcal/mol", 46024}, {MolarEnergy(), "-10 kJ/mol", -1e4},
	} {
		got, err := c.d.Parse(c.text)
		require.NoError(t, err, c.text)
		require.InDelta(t, c.want, got, 1e-15*math.Max(300, math.Abs(c.want)), c.text)
		if c.want != 0 {
			require.InEpsilon(t, c.want, got, 1e-15, c.text)
		}
	}
}

// What people write and can mean one thing only is that thing; the values are those of the plain spelling.
func TestParseUnderstands(t *testing.T) {
	for _, c := range []struct {
		d           Dimension
		given, same string
	}{
		{Temperature(), "65 C", "65 °C"}, {Temperature(), "65C", "65 °C"}, {Temperature(), "65 ° C", "65 °C"}, {Temperature(), "65 deg C", "65 °C"},
		{Temperature(), "65 degrees Celsius", "65 °C"}, {Temperature(), "149 F", "149 °F"}, {Temperature(), "149 degrees F", "149 °F"},
		{Temperature(), "338 kelvin", "338 K"}, {TemperatureDifference(), "3 C", "3 K"}, {TemperatureDifference(), "9 °F", "5 K"},
		{VolumeFlow(), "5 lpm", "5 L/min"}, {VolumeFlow(), "5 LPM", "5 L/min"}, {VolumeFlow(), "5 litres per minute", "5 L/min"},
		{VolumeFlow(), "80 cc/min", "80 mL/min"}, {VolumeFlow(), "2 m³/hr", "2 m3/h"}, {VolumeFlow(), "2 CFM", "2 ft3/min"},
		{Humidity(), "50 %RH", "50 %"}, {Humidity(), "50% RH", "50 %"}, {Humidity(), "50 % r.h.", "50 %"}, {Humidity(), "50 percent", "50 %"}, {Humidity(), "50 %rh", "50 %"},
		{Fraction(), "0.2 wt %", "0.2 %"}, {Fraction(), "0.2 pct", "0.2 %"}, {Fraction(), "0.2 % w/w", "0.2 %"}, {Fraction(), "0.002 g/g", "0.2 %"},
		{Speed(), "2 mm/sec", "2 mm/s"}, {Speed(), "2 mm per second", "2 mm/s"}, {Speed(), "0.1 m/Min", "0.1 m/min"},
		{Duration(), "6 hours", "6 h"}, {Duration(), "6 hrs", "6 h"}, {Duration(), "90 sec", "90 s"}, {Duration(), "20 mins", "20 min"}, {Duration(), "2 weeks", "14 d"},
		{Length(), "2,5 mm", "2.5 mm"}, {Length(), "-,5 mm", "-0.5 mm"}, {Length(), "0,175 cm", "0.175 cm"}, {Length(), "1,7500 mm", "1.75 mm"}, {Length(), "1000,250 mm", "1000.25 mm"},
		{Length(), "2,5e3 mm", "2500 mm"}, {Length(), "12 metres", "12 m"}, {Length(), "5 microns", "5 µm"}, {Length(), "3 inches", "3 in"},
		{Diffusivity(), "1.5×10^-13 m2/s", "1.5e-13 m2/s"}, {Diffusivity(), "1.5 x 10⁻¹³ m²/s", "1.5e-13 m2/s"}, {Diffusivity(), "1,5·10^−13 m²/s", "1.5e-13 m2/s"},
		{HeatTransfer(), "25 W/(m² °C)", "25 W/m2/K"}, {SpecificHeat(), "1550 J/(kg C)", "1550 J/kg/K"},
	} {
		want, err := c.d.Parse(c.same)
		require.NoError(t, err, c.same)
		got, err := c.d.Parse(c.given)
		require.NoError(t, err, c.given)
		require.InEpsilon(t, want, got, 1e-15, c.given)
	}
	for given, want := range map[string]string{"2,5 mm/sec": "mm/s", "2 m min-1": "m/min", "12": "", "2 h": ""} {
		require.Equal(t, want, Speed().Unit(given), given)
	}
}

// What can be read in two ways is not guessed, and what to write instead is said.
func TestParseHints(t *testing.T) {
	for _, c := range []struct {
		d           Dimension
		given, says string
	}{
		{Length(), "1,750 mm", `write "1.750" or "1750"`}, {Length(), "12,000 mm", `write "12.000" or "12000"`}, {Length(), "1,234.5 mm", "nothing between thousands"},
		{Length(), "1.234,5 mm", "nothing between thousands"}, {Length(), "1,234,567 mm", "nothing between thousands"}, {Length(), "12", `did you mean "12 mm"?`},
		{Temperature(), "65°", "write °C or °F"}, {Temperature(), "65 deg", "write °C or °F"}, {TemperatureDifference(), "3 degrees", "write K or °F"},
		{Temperature(), "65", `did you mean "65 °C"?`}, {Duration(), "10 m", "write min"}, {Duration(), "1 h 30 min", "write it as one"}, {Length(), "5 ft 3 in", "write it as one"},
		{VolumeFlow(), "5 slpm", "the volume at the temperature of the room"}, {VolumeFlow(), "5 SCFM", "the volume at the temperature of the room"}, {VolumeFlow(), "5 L/m", "write L/min"},
		{Fraction(), "2 %RH", "write the fraction in %"}, {Humidity(), "50 RH", "write %"}, {Humidity(), "8 g/kg", "write % of saturation"}, {Humidity(), "9 g/m³", "write % of saturation"},
		{Length(), "1.5×10-3 m", "not a unit"}, {Length(), "2e3×10^3 m", "not a unit"},
	} {
		_, err := c.d.Parse(c.given)
		require.ErrorContains(t, err, c.says, c.given)
	}
}

func TestParseRefuses(t *testing.T) {
	for _, c := range []struct {
		d          Dimension
		text, says string
	}{
		{Length(), "12", "needs its unit"}, {Length(), "", "no number"}, {Length(), "m", "no number"},
		{Length(), "NaN m", "no number"}, {Length(), "Inf m", "no number"}, {Length(), "+Inf m", "no number"},
		{Length(), "1e400 m", "too large"}, {Length(), "1e308 km", "too large"}, {Length(), "1,500 m", `write "1.500" or "1500"`},
		{Length(), "12 MM", `did you mean "mm"?`}, {Length(), "12 K", `"K" is not a unit of length`}, {Length(), "0x10 m", "not a unit"},
		{Length(), "1_000 m", "not a unit"}, {Length(), "5 m m", "not a unit"}, {Length(), "5 m2", "not a unit"},
		{Temperature(), "-300 °C", "below absolute zero"}, {Temperature(), "-1 K", "below absolute zero"},
		{Temperature(), "110", "°C, degC, K, °F"}, {Speed(), "2 mm//s", "not a unit"}, {Speed(), "2 mm/(s", "not a unit"},
		{Speed(), "2 mm/s)", "not a unit"}, {Speed(), "2 mm/", "not a unit"}, {Speed(), "2 ()", "not a unit"},
		{Density(), "1 kg/m33", "not a unit"}, {Pressure(), "3 Gpa", `did you mean "GPa"?`}, {Dimension{}, "1 m", "not a unit"},
	} {
		_, err := c.d.Parse(c.text)
		require.ErrorContains(t, err, c.says, c.text)
		var detail *Error
		require.ErrorAs(t, err, &detail)
		require.Equal(t, c.text, detail.Text)
	}
}

// Every unit of every dimension has its factor stated here, from the same sources.
func TestEveryFactor(t *testing.T) {
	want := map[string]float64{
		"length m": 1, "length mm": 1e-3, "length cm": 1e-2, "length km": 1e3, "length µm": 1e-6, "length in": 0.0254, "length ft": 0.3048,
		"temperature difference K": 1, "temperature difference °C": 1, "temperature difference degC": 1, "temperature difference °F": 1 / 1.8,
		"duration s": 1, "duration min": 60, "duration h": 3600, "duration d": 86400, "duration week": 604800,
		"speed m/s": 1, "speed mm/s": 1e-3, "speed cm/s": 1e-2, "speed mm/min": 1e-3 / 60, "speed m/min": 1.0 / 60,
		"speed m/h": 1.0 / 3600, "speed ft/min": 0.00508,
		"volume flow m3/s": 1, "volume flow mm3/s": 1e-9, "volume flow L/min": 1e-3 / 60, "volume flow mL/min": 1e-6 / 60,
		"volume flow L/h": 1e-3 / 3600, "volume flow m3/h": 1.0 / 3600, "volume flow L/s": 1e-3, "volume flow mL/s": 1e-6, "volume flow ft3/min": 0.028316846592 / 60,
		"pressure Pa": 1, "pressure hPa": 1e2, "pressure kPa": 1e3, "pressure mbar": 1e2, "pressure bar": 1e5, "pressure MPa": 1e6, "pressure GPa": 1e9, "pressure atm": 101325, "pressure psi": 6894.757293168361,
		"fraction %": 1e-2, "fraction wt%": 1e-2, "fraction ppm": 1e-6, "fraction g/kg": 1e-3, "fraction kg/kg": 1, "fraction mg/kg": 1e-6,
		"relative humidity %": 1e-2, "relative humidity %RH": 1e-2,
		"diffusivity m2/s": 1, "diffusivity cm2/s": 1e-4, "diffusivity mm2/s": 1e-6,
		"heat transfer coefficient W/m2/K": 1, "heat transfer coefficient kW/m2/K": 1e3,
		"density kg/m3": 1, "density g/cm3": 1e3, "density g/m3": 1e-3,
		"specific heat J/kg/K": 1, "specific heat kJ/kg/K": 1e3, "specific heat J/g/K": 1e3,
		"thermal conductivity W/m/K": 1, "thermal conductivity mW/m/K": 1e-3,
		"molar energy J/mol": 1, "molar energy kJ/mol": 1e3, "molar energy kcal/mol": 4184,
		"power W": 1, "power kW": 1e3, "power mW": 1e-3,
		"force N": 1, "force mN": 1e-3, "force kN": 1e3, "force kgf": 9.80665, "force lbf": 4.4482216152605,
		"angle rad": 1, "angle °": 0.017453292519943295, "angle turn": 6.283185307179586,
		"mass kg": 1, "mass g": 1e-3, "mass mg": 1e-6, "mass oz": 0.028349523125,
		"mass per time kg/s": 1, "mass per time g/h": 1e-3 / 3600, "mass per time mg/h": 1e-6 / 3600, "mass per time g/min": 1e-3 / 60, "mass per time mg/min": 1e-6 / 60,
		"mass per time g/d": 1e-3 / 86400, "mass per time mg/d": 1e-6 / 86400,
	}
	for _, d := range all() {
		for _, u := range d.Units() {
			if d.Name() == "temperature" { // offsets: TestParse
				continue
			}
			require.Contains(t, want, d.Name()+" "+u)
			got, err := d.Parse("1 " + u)
			require.NoError(t, err)
			require.InEpsilon(t, want[d.Name()+" "+u], got, 1e-15, d.Name()+" "+u)
		}
	}
}

// Every unit of every dimension: written and read again gives the same value.
func TestRoundTrip(t *testing.T) {
	for _, d := range all() {
		require.Contains(t, d.Units(), d.Usual(), d.Name())
		for _, u := range d.Units() {
			for _, si := range []float64{1e-13, 0.037, 1, 321.5, 7.25e8} {
				got, err := d.Parse(d.Format(si, u, 17))
				require.NoError(t, err, d.Name()+" "+u)
				if d.Name() == "temperature" { // the offset costs digits
					require.InDelta(t, si, got, 1e-12*math.Max(1000, si), u)
					continue
				}
				require.InEpsilon(t, si, got, 1e-14, u)
			}
		}
	}
}

// The step of the last digit, as a scale that shows it would have, and 0 for what is no quantity.
func TestStep(t *testing.T) {
	for text, want := range map[string]float64{
		"12.430 g": 1e-6, "12.4 g": 1e-4, "12 g": 1e-3, "120 g": 1e-3, "1.24e1 g": 1e-4, "1.2e+3 mg": 1e-4, "124.0e-4 kg": 1e-5, "12,43 g": 1e-5, "12. g": 1e-3,
		"1.2 oz": 0.0028349523125, "12": 0, "g": 0, "": 0, "12.4 m": 0, "1e400 g": 0, "1e9999999999999999999 g": 0,
	} {
		got := Mass().Step(text)
		require.True(t, math.Abs(got-want) <= 1e-12*want, "%s: %g", text, got)
	}
}

func TestFormat(t *testing.T) {
	require.Equal(t, "1140 kg/m3", Density().Format(1135, "kg/m3", 3))
	require.Equal(t, "1.5e-13 m2/s", Diffusivity().Format(1.5e-13, "m2/s", 2))
	require.Equal(t, "110 °C", Temperature().Format(383.15, "°C", 4))
	require.Equal(t, "1.75 mm", Length().Format(0.00175, "parsec", 5))
	require.Equal(t, "0 mm", Length().Format(0, "mm", 5))
	require.Equal(t, "3", Dimension{}.Format(3, "m", 5))
	require.Equal(t, "1e-7", Number(1e-7, 3))
	require.Equal(t, "2.5e8", Number(2.5e8, 3))
	require.Equal(t, "1e12", Number(1e12, 3))
	require.Equal(t, "NaN", Number(math.NaN(), 3))
}

func FuzzParse(f *testing.F) {
	for _, text := range []string{"12 m", "-20 °C", "1e-13 m²/s", "W/(m2 K)", "NaN %", "1e999 K", "5 ((m", "3 m⁻¹", "\xff", "1,5 mm", "1,750 mm",
		"1.5×10^-13 m²/s", "2 x 10⁻", "3*10^", "65 C", "5 lpm", "50 % r.h.", "2 mm per sec", "1 h 30 min", "-,5,5"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		for _, d := range all() {
			value, err := d.Parse(text)
			if err != nil {
				require.NotEmpty(t, err.Error())
				continue
			}
			require.False(t, math.IsNaN(value) || math.IsInf(value, 0), text)
			require.False(t, d.Name() == "temperature" && value < 0, text)
			require.Contains(t, d.Units(), d.Unit(text), text)
		}
	})
}

func TestOutward(t *testing.T) {
	for _, c := range []struct {
		x        float64
		digits   int
		up, down float64
	}{
		{1.042, 2, 1.1, 1}, {75.23, 3, 75.3, 75.2}, {75.26, 3, 75.3, 75.2}, {218.13, 3, 219, 218}, {0.0009999, 2, 0.001, 0.00099}, {9.96, 2, 10, 9.9},
		{12, 3, 12, 12}, {12 * (1 + 1e-12), 3, 12, 12}, {-1.26, 2, -1.2, -1.3}, {0, 3, 0, 0}, {1e300, 3, 1e300, 1e300},
	} {
		require.Equal(t, c.up, Outward(c.x, c.digits, true), "%g", c.x)
		require.Equal(t, c.down, Outward(c.x, c.digits, false), "%g", c.x)
	}
	require.True(t, math.IsNaN(Outward(math.NaN(), 3, true)))
}
