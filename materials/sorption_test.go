package materials

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

const room = 296.15 // [K]

func exact(x float64) Value { return Value{Value: x, Low: x, High: x} }

func gab(monolayer, c, k float64) Sorption {
	return Sorption{Form: GAB, Monolayer: exact(monolayer), C: exact(c), K: exact(k), Reference: room}
}

func twoTerm(linear, power, exponent float64) Sorption {
	return Sorption{Form: TwoTerm, Linear: exact(linear), Power: exact(power), Exponent: exact(exponent), Reference: room}
}

func henry(saturation, enthalpy float64) Sorption {
	return Sorption{Form: Henry, Saturation: exact(saturation), MixingEnthalpy: exact(enthalpy), Reference: room}
}

// Computed from the GAB equation (van den Berg & Bruin 1981) by independent code,
// printed to ten decimals: half a unit of the last is 5e-11, the tolerance 1e-10.
func TestGABValues(t *testing.T) {
	s := gab(0.02, 8, 0.75)
	for a, want := range map[float64]float64{0.05: 0.0049376366, 0.1: 0.0085068675, 0.3: 0.0180394613,
		0.5: 0.0264827586, 0.7: 0.0378271883, 0.9: 0.0580450118} {
		require.InDelta(t, want, s.Content(a, room), 1e-10, "a = %g", a)
		require.InDelta(t, a, s.Activity(want, room), 1e-10/0.02, "C = %g", want)
	}
	// The initial slope is w_m C K.
	require.InEpsilon(t, 1/(0.02*8*0.75), s.ActivitySlope(0, room), 1e-14)
	// With K = 1 the equation is that of Brunauer, Emmett & Teller (1938).
	bet := gab(0.02, 8, 1)
	require.InDelta(t, 0.0104575163, bet.Content(0.1, room), 1e-10)
	require.InDelta(t, 0.0221198157, bet.Content(0.3, room), 1e-10)
}

// By hand: 0.052/2 + 0.046/64.
func TestTwoTermValue(t *testing.T) {
	nylon := twoTerm(0.052, 0.046, 6)
	require.InDelta(t, 0.02671875, nylon.Content(0.5, room), 1e-16)
	// A broken exponent against the same curve written out: 0.01*0.25 + 0.02*0.25^1.5.
	broken := twoTerm(0.01, 0.02, 1.5)
	require.InDelta(t, 0.01*0.25+0.02*0.125, broken.Content(0.25, room), 1e-16)
}

// Polyetherimide, J. Appl. Polym. Sci. 77:1439-1444 (2000): 1.39 wt% at 20 °C,
// 1.50 wt% at 100 °C, heat of sorption -42 to -43 kJ/mol. The enthalpy of mixing from
// the two contents is 0.9 kJ/mol, rounded to 0.1: 0.4 % of the content; the contents
// are rounded to 0.005 of 1.5, 0.4 % each.
func TestTemperatureOfSorption(t *testing.T) {
	s := henry(0.0139, 900)
	s.Reference = 293.15
	require.InEpsilon(t, 0.0150, s.Content(1, 373.15), 0.012)
	require.InEpsilon(t, 0.0139, s.Content(1, 293.15), 1e-14)
	// Heat set free (negative): less water when hot. Doubling: dH = R ln2 / (1/T1 - 1/T2).
	s = henry(0.01, GasConstant*math.Ln2/(1/room-1/350.0))
	require.InEpsilon(t, 0.02, s.Content(1, 350), 1e-13)
	exothermic := henry(0.01, -1e4)
	require.Less(t, exothermic.Content(1, 350), 0.01)
}

// isotherms returns every polymer of the library and every form at awkward values.
func isotherms(t *testing.T) map[string]Sorption {
	all := map[string]Sorption{
		"henry": henry(0.003, 6000), "gab": gab(0.02, 8, 0.75), "gab, c below 1": gab(0.05, 0.3, 0.9),
		"gab, c of 1": gab(0.05, 1, 0.5), "gab, c of 2": gab(0.05, 2, 0.5), "gab, c small": gab(0.05, 0.01, 0.999), "gab, steep": gab(0.06, 200, 0.98),
		"gab, flat": gab(0.06, 5000, 0.05), "two-term": twoTerm(0.052, 0.046, 6), "two-term, straight": twoTerm(0.05, 0, 4),
		"two-term, exponent 1": twoTerm(0.05, 0.02, 1), "two-term, broken": twoTerm(0.01, 0.05, 2.5),
		"two-term, wall": twoTerm(1e-4, 0.3, 50), "two-term, wall, broken": twoTerm(1e-4, 0.3, 49.5),
	}
	polymers, err := Library()
	require.NoError(t, err)
	require.NotEmpty(t, polymers)
	for _, p := range polymers {
		all["library "+p.ID] = p.Sorption
	}
	return all
}

// The identities of an isotherm over its whole range and a little beyond, 0 to
// 150 °C. The inverse is exact, so the round trip is held to 1e-12.
func TestIsothermIdentities(t *testing.T) {
	for name, s := range isotherms(t) {
		t.Run(name, func(t *testing.T) {
			for celsius := 0.0; celsius <= 150; celsius += 12.5 {
				i := s.At(celsius + 273.15)
				before := math.Inf(-1)
				for k := -10; k <= 110; k++ {
					a := float64(k) / 100
					content := i.Content(a)
					back, slope := i.Activity(content)
					// Written so that NaN fails.
					sound := content > before && !math.IsInf(content, 0) && math.Abs(back-a) <= 1e-12 && slope > 0
					if !sound {
						require.Fail(t, "identity broken", "a = %g at %g °C: C = %g after %g, back to %g, slope %g",
							a, celsius, content, before, back, slope)
					}
					before = content
				}
			}
		})
	}
}

// da/dC against a central difference. Its own error is of order (n h/C)^2, with n up
// to 50 and h/C of 1e-6, plus 1e-16 C/h of rounding: below 1e-8 in all.
func TestSlope(t *testing.T) {
	for name, s := range isotherms(t) {
		for _, T := range []float64{273.15, room, 423.15} {
			for k := 1; k < 20; k++ {
				C := s.Content(float64(k)/20, T)
				h := 1e-6 * C
				want := (s.Activity(C+h, T) - s.Activity(C-h, T)) / (2 * h)
				require.InEpsilon(t, want, s.ActivitySlope(C, T), 1e-6, "%s at C = %g", name, C)
			}
		}
	}
}

// At both ends of 0 to 1 the value and the slope go over without a step; beyond them
// the curve is straight. A step of 1e-7 into the range
// bends the slope by 2 c k 1e-7 at 0 (5e-5 for the largest c) and by about
// 2 k/(1-k) 1e-7 at 1 (2e-4 for the largest k).
func TestEndsAreSmooth(t *testing.T) {
	for name, s := range isotherms(t) {
		i := s.At(333.15)
		for _, end := range []float64{0, 1} {
			at := i.Content(end)
			_, slope := i.Activity(at)
			for _, step := range []float64{-1e-7, 1e-7} {
				_, near := i.Activity(i.Content(end + step))
				require.InEpsilon(t, slope, near, 3e-4, "%s at %g", name, end)
			}
			out := 2*end - 1 // away from the range
			require.InEpsilon(t, out/slope, i.Content(end+out)-at, 1e-12, name)
		}
	}
}

func TestIsothermAllocatesNothing(t *testing.T) {
	s := twoTerm(0.052, 0.046, 6.5)
	sum := 0.0
	require.Zero(t, testing.AllocsPerRun(100, func() {
		i := s.At(333)
		a, slope := i.Activity(0.03)
		sum += a + slope + i.Content(a)
	}))
	require.Greater(t, sum, 0.0)
}

func TestWords(t *testing.T) {
	require.Equal(t, "two-term", TwoTerm.String())
	require.Equal(t, "unknown", Form(9).String())
	require.Equal(t, "published-weak", PublishedWeak.String())
	require.Equal(t, "given", Given.String())
	require.Equal(t, "unknown", Kind(-1).String())
	require.True(t, Range{Min: 1, Max: 2}.Holds(2))
	require.False(t, Range{Min: 1, Max: 2}.Holds(math.NaN()))
}

func BenchmarkActivity(b *testing.B) {
	for name, s := range map[string]Sorption{"gab": gab(0.02, 8, 0.75), "two-term": twoTerm(0.052, 0.046, 6)} {
		b.Run(fmt.Sprintf("form=%s", name), func(b *testing.B) {
			i := s.At(333)
			for b.Loop() {
				i.Activity(0.031)
			}
		})
	}
}

// In the two-term form the temperature acts on the linear term alone, as Broudin et al.
// (2015) found for polyamide 66: L/2 at the temperature where the factor is one half.
func TestTemperatureOfTheTwoTermForm(t *testing.T) {
	s := twoTerm(0.052, 0.046, 6)
	s.MixingEnthalpy.Value = -GasConstant * math.Ln2 / (1/room - 1/350.0)
	require.InEpsilon(t, 0.026*0.01, s.Content(0.01, 350), 1e-9)
	require.InEpsilon(t, 0.026+0.046, s.Content(1, 350), 1e-12)
	require.InEpsilon(t, 0.052+0.046, s.Content(1, room), 1e-12)
}
