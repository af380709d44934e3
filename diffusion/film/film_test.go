package film_test

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion/film"
	"strandry/materials/humidair"
)

// warm is a 1.75 mm strand at 60 °C in room air heated to 70 °C.
func warm() film.Conditions {
	return film.Conditions{
		Diameter: 1.75e-3, StrandTemperature: 333.15, AirTemperature: 343.15, VapourPressure: 1405,
		Pressure: 101325, Bore: 20e-3, HeatedLength: 0.5, Emissivity: 0.9,
	}
}

func flows() []film.Flow { return []film.Flow{film.Natural, film.Across, film.Along, film.Annulus} }

func TestCoefficientsHangTogether(t *testing.T) {
	for _, flow := range flows() {
		for _, vertical := range []bool{false, true} {
			for _, speed := range []float64{0, 0.01, 0.3, 5} {
				c := warm()
				c.Flow, c.Vertical, c.AirSpeed = flow, vertical, speed
				got, err := film.At(c)
				require.NoError(t, err)
				T := (c.StrandTemperature + c.AirTemperature) / 2
				// Nu = h d/k by its definition.
				require.InEpsilon(t, got.Heat*c.Diameter/humidair.Conductivity(T), got.Nusselt, 1e-12)
				// h/k_m = ρ cp Le^⅔ by Chilton & Colburn; Sh = Nu, so Le, where the flow is developed.
				power := 2.0 / 3
				if flow == film.Annulus {
					power = 1
					D := humidair.VapourDiffusivity(T, c.Pressure)
					require.InEpsilon(t, got.Nusselt, got.Mass*c.Diameter/D, 1e-12)
				}
				rho := humidair.Density(T, c.VapourPressure, c.Pressure)
				cp := humidair.Conductivity(T) / (rho * humidair.ThermalDiffusivity(T, c.VapourPressure, c.Pressure))
				require.InEpsilon(t, rho*cp*math.Pow(got.Lewis, power), got.Heat/got.Mass, 1e-12)
				require.InDelta(t, 0.86, got.Lewis, 0.04) // 0.82 to 0.90, common practice
				require.NotEmpty(t, got.Correlation)
				require.NotEmpty(t, got.Source)
				require.Greater(t, got.Uncertainty, 0.05)
				require.InEpsilon(t, math.Hypot(got.Uncertainty, power*humidair.VapourDiffusivityUncertainty(T)), got.MassUncertainty, 1e-12)
			}
		}
	}
}

func TestCoefficientRisesSmoothlyWithSpeed(t *testing.T) {
	for _, flow := range []film.Flow{film.Across, film.Along} {
		for _, vertical := range []bool{false, true} {
			c := warm()
			c.Flow, c.Vertical = flow, vertical
			still, err := film.At(c)
			require.NoError(t, err)
			previous := still.Heat
			for speed := 1e-6; speed < 100; speed *= 1.05 {
				c.AirSpeed = speed
				got, err := film.At(c)
				require.NoError(t, err)
				require.GreaterOrEqual(t, got.Heat, previous, "%v at %g m/s", flow, speed)
				// No law rises faster than the speed itself.
				require.Less(t, got.Heat, previous*1.05, "%v at %g m/s", flow, speed)
				previous = got.Heat
			}
			// Still air is natural convection; 0.3 is what Churchill & Bernstein
			// leave at rest.
			c.Flow, c.AirSpeed = film.Natural, 0
			natural, err := film.At(c)
			require.NoError(t, err)
			require.InEpsilon(t, natural.Heat, still.Heat, 0.01)
		}
	}
}

func TestRegimesAreNamed(t *testing.T) {
	for _, r := range []struct {
		flow              film.Flow
		speed             float64
		correlation, note string
	}{
		{film.Across, 0, "Morgan 1975", "counts for little"},
		{film.Across, 0.03, "Churchill-Bernstein 1977 with Morgan 1975", "both count"},
		{film.Across, 1, "Churchill-Bernstein 1977", ""},
		{film.Along, 1, "laminar axial layer", ""},
		{film.Along, 40, "laminar axial layer", "above 5e5"},
		{film.Annulus, 0, "laminar annulus", "no air speed"},
		{film.Annulus, 0.3, "laminar annulus", ""},
		{film.Annulus, 10, "laminar annulus", "above 2300"},
		{film.Natural, 0, "Morgan 1975", ""},
		{film.Natural, 1, "Morgan 1975", "is not used"},
	} {
		c := warm()
		c.Flow, c.AirSpeed = r.flow, r.speed
		got, err := film.At(c)
		require.NoError(t, err)
		require.Equal(t, r.correlation, got.Correlation, "%v at %g", r.flow, r.speed)
		if r.note == "" {
			require.Empty(t, got.Notes, "%v at %g", r.flow, r.speed)
		} else {
			require.Contains(t, strings.Join(got.Notes, "; "), r.note)
		}
	}
}

// The thermal entry length of a tube, 0.05 Re Pr Dh (Incropera & DeWitt, eq. 8.23): by hand for 0.3 m/s through the gap between
// 1.75 mm and the bore, at the film of 65 °C with ν 1.95e-5 m²/s and Pr 0.70 (dry air, ib., Table A.4).
func TestEntryOfTheAnnulusIsTold(t *testing.T) {
	c := warm()
	c.Flow, c.AirSpeed, c.VapourPressure = film.Annulus, 0.3, 0
	width := c.Bore - c.Diameter
	entry := 0.05 * 0.3 * width / 1.95e-5 * 0.70 * width
	for share, told := range map[float64]bool{0.9: true, 1.1: false} {
		c.HeatedLength = share * entry
		got, err := film.At(c)
		require.NoError(t, err)
		require.Equal(t, told, strings.Contains(strings.Join(got.Notes, "; "), "entry length"), "%g of it", share)
	}
}

func TestDraggedAirHasItsOwnProfile(t *testing.T) {
	// 1.75 mm in 3 mm, ratio 0.5833: testdata/film/annulus.csv.
	c := warm()
	c.Flow, c.Dragged, c.Bore, c.AirSpeed = film.Annulus, true, 1.75e-3/0.5833, 1e-3
	got, err := film.At(c)
	require.NoError(t, err)
	require.InEpsilon(t, 8.46818193*c.Diameter/(c.Bore-c.Diameter), got.Nusselt, 1e-6)
	require.Equal(t, "dragged annulus", got.Correlation)
	require.Contains(t, strings.Join(got.Notes, "; "), "drags along, at 1 mm/s")
}

func TestAnnulusHasItsOwnReynoldsNumber(t *testing.T) {
	// 0.3 m/s past a strand in a 20 mm tube: on the hydraulic diameter of 18.25
	// mm, against the definition.
	c := warm()
	c.Flow, c.AirSpeed = film.Annulus, 0.3
	got, err := film.At(c)
	require.NoError(t, err)
	T := 338.15
	require.InEpsilon(t, 0.3*18.25e-3/humidair.KinematicViscosity(T, 1405, 101325), got.Reynolds, 1e-9)
	// h = Nu k/Dh with 12.46185 from the eigenvalue solution.
	require.InEpsilon(t, 12.46185*humidair.Conductivity(T)/18.25e-3, got.Heat, 1e-6)
}

// The uncertainty of k_m is that of h and that of the diffusivity of vapour to the power 2/3, by which k_m follows it
// (Chilton & Colburn). At a film of 110 °C three published formulas give 4.21291e-5, 4.01855e-5 and 3.79055e-5 m2/s
// (by hand; named at humidair.VapourDiffusivityUncertainty): 11.142 % apart.
func TestUncertaintyOfMassTransfer(t *testing.T) {
	c := warm()
	c.Flow, c.AirSpeed, c.StrandTemperature, c.AirTemperature = film.Across, 1, 373.15, 393.15
	got, err := film.At(c)
	require.NoError(t, err)
	ofVapour := math.Sqrt(got.MassUncertainty*got.MassUncertainty - got.Uncertainty*got.Uncertainty)
	require.InEpsilon(t, 0.11142*2/3, ofVapour, 1e-4)
}

func TestNoDifferenceOfTemperature(t *testing.T) {
	for _, flow := range flows() {
		c := warm()
		c.Flow, c.StrandTemperature = flow, c.AirTemperature
		got, err := film.At(c)
		require.NoError(t, err)
		require.Positive(t, got.Heat)
		// g ΔT/T d³ Pr/ν² with the draught's 2 K, by hand.
		T, nu := c.AirTemperature, humidair.KinematicViscosity(c.AirTemperature, c.VapourPressure, c.Pressure)
		want := 9.80665 * 2 / T * math.Pow(c.Diameter, 3) * humidair.PrandtlNumber(T, c.VapourPressure, c.Pressure) / (nu * nu)
		require.InEpsilon(t, want, got.Rayleigh, 1e-12)
	}
}

func TestFaultsAreTold(t *testing.T) {
	for _, r := range []struct {
		change func(*film.Conditions)
		say    string
	}{
		{func(c *film.Conditions) { c.Diameter = 0 }, "strand diameter = 0 m: must lie from 1e-06 to 1 m"},
		{func(c *film.Conditions) { c.Diameter = math.NaN() }, "strand diameter"},
		{func(c *film.Conditions) { c.AirTemperature = 70 }, "must lie from -60 to 350 °C"},
		{func(c *film.Conditions) { c.StrandTemperature = math.Inf(1) }, "strand temperature"},
		{func(c *film.Conditions) { c.VapourPressure = 101325 }, "vapour pressure"},
		{func(c *film.Conditions) { c.VapourPressure = -1 }, "vapour pressure"},
		{func(c *film.Conditions) { c.Pressure = 1 }, "pressure"},
		{func(c *film.Conditions) { c.AirSpeed = -1 }, "air speed"},
		{func(c *film.Conditions) { c.Emissivity = 1.2 }, "emissivity"},
		{func(c *film.Conditions) { c.Flow = 9 }, "unknown flow Flow(9): allowed are natural, across, along, annulus"},
		{func(c *film.Conditions) { c.Flow, c.Bore = film.Annulus, 1e-3 }, "bore"},
		{func(c *film.Conditions) { c.Flow, c.HeatedLength = film.Along, 0 }, "heated length"},
		{func(c *film.Conditions) { c.Vertical, c.HeatedLength = true, 0 }, "heated length"},
	} {
		c := warm()
		r.change(&c)
		_, err := film.At(c)
		require.ErrorContains(t, err, r.say)
	}
}

func FuzzAt(f *testing.F) {
	c := warm()
	for flow := range 4 {
		f.Add(flow, c.Diameter, c.StrandTemperature, c.AirTemperature, c.VapourPressure, c.Pressure, 0.3, c.Bore, 0.5, true, 0.9)
	}
	f.Add(1, 1.0, 213.15, 623.15, 0.99e7, 1e7, 340.0, 10.0, 1e6, false, 1.0)
	f.Add(3, 1e-6, 300.0, 300.0, 0.0, 1e3, 0.0, 10.0, 0.0, false, 0.0)
	f.Fuzz(func(t *testing.T, flow int, d, ts, ta, pv, p, speed, bore, length float64, vertical bool, emissivity float64) {
		got, err := film.At(film.Conditions{
			Flow: film.Flow(flow), Diameter: d, StrandTemperature: ts, AirTemperature: ta,
			VapourPressure: pv, Pressure: p, AirSpeed: speed, Bore: bore, HeatedLength: length, Vertical: vertical, Emissivity: emissivity,
		})
		if err != nil {
			return
		}
		for name, value := range map[string]float64{
			"heat": got.Heat, "mass": got.Mass, "Nusselt": got.Nusselt, "Lewis": got.Lewis,
			"uncertainty": got.Uncertainty, "mass uncertainty": got.MassUncertainty,
		} {
			require.Greater(t, value, 0.0, name)
			require.Less(t, value, math.MaxFloat64, name)
		}
		for name, value := range map[string]float64{
			"radiation": got.Radiation, "Reynolds": got.Reynolds, "Rayleigh": got.Rayleigh,
		} {
			require.GreaterOrEqual(t, value, 0.0, name)
			require.Less(t, value, math.MaxFloat64, name)
		}
		for _, note := range got.Notes {
			require.NotContains(t, note, "NaN")
		}
	})
}

func BenchmarkAt(b *testing.B) {
	for _, flow := range flows() {
		b.Run("flow="+flow.String(), func(b *testing.B) {
			c := warm()
			c.Flow, c.AirSpeed = flow, 0.3
			for b.Loop() {
				if _, err := film.At(c); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// Where strand and air are equally warm nothing jumps, in any flow: of ln h and ln k_m
// the step over 0.01 K and the curvature are bounded. Natural convection goes with
// (ΔT² + 4)^(n/2), n up to 1/4, whose curvature at equality is n/4, 1/16 at most.
func TestSmoothWhereStrandAndAirAreEquallyWarm(t *testing.T) {
	const step = 0.01 // [K]
	for _, flow := range flows() {
		for _, vertical := range []bool{false, true} {
			for _, speed := range []float64{0, 0.01, 0.3} {
				c := warm()
				c.Flow, c.Vertical, c.AirSpeed = flow, vertical, speed
				var logs [2][3]float64 // of h and k_m at three temperatures
				for i := -1000; i <= 1000; i++ {
					c.StrandTemperature = c.AirTemperature + float64(i)*step
					got, err := film.At(c)
					require.NoError(t, err)
					for k, value := range [2]float64{got.Heat + got.Radiation, got.Mass} {
						l := &logs[k]
						l[0], l[1], l[2] = l[1], l[2], math.Log(value)
						if i < -998 {
							continue
						}
						require.InDelta(t, l[1], l[2], 0.07*step, "%v, %v, %g m/s, %+d", flow, vertical, speed, i)
						require.InDelta(t, 0, l[2]-2*l[1]+l[0], 0.07*step*step, "%v, %v, %g m/s, %+d", flow, vertical, speed, i)
					}
				}
			}
		}
	}
}
