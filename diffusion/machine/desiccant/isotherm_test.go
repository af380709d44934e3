package desiccant_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion/machine/desiccant"
	"strandry/materials/humidair"
)

const (
	gas        = 8.314462618 / humidair.MolarMass // of water vapour [J/(kg K)]
	roomVapour = 1405.0                           // of 23 °C and 50 % [Pa]
)

// porous are the kinds with a smooth isotherm.
func porous() []desiccant.Kind {
	return []desiccant.Kind{desiccant.SilicaGel, desiccant.MolecularSieve4A, desiccant.MolecularSieve5A, desiccant.MolecularSieve13X}
}

func uptake(t *testing.T, i desiccant.Isotherm, p, T float64) float64 {
	t.Helper()
	w, err := i.Uptake(p, T)
	require.NoError(t, err)
	return w
}

func pressure(t *testing.T, i desiccant.Isotherm, w, T float64) float64 {
	t.Helper()
	p, err := i.VapourPressure(w, T)
	require.NoError(t, err)
	return p
}

// Wetter air loads more, heat drives out, and the inverse comes back.
func TestMonotoneAndInverse(t *testing.T) {
	for _, k := range porous() {
		i := of(t, k)
		hottest := 623.15
		if k == desiccant.SilicaGel {
			hottest = 180 + celsius
		}
		for _, T := range []float64{275, 293.15, 313.15, 373.15, 413.15, hottest - 1} {
			last := 0.0
			for _, share := range []float64{1e-6, 1e-4, 0.01, 0.1, 0.5, 0.95} {
				p := share * humidair.SaturationPressure(T)
				w := uptake(t, i, p, T)
				require.Greater(t, w, last, "%v at %g K, %g Pa", k, T, p)
				require.Less(t, uptake(t, i, p, T+0.5), w, "%v at %g K, %g Pa", k, T, p)
				near(t, p, pressure(t, i, w, T), 1e-10*p, "%v at %g K, %g Pa", k, T, p)
				last = w
			}
			require.Zero(t, uptake(t, i, 0, T))
			require.Zero(t, pressure(t, i, 0, T))
		}
	}
}

// The heat of sorption is what Clausius and Clapeyron say of the vapour pressure at constant load, by differences that the package does not use.
func TestHeatIsConsistent(t *testing.T) {
	for _, k := range porous() {
		i := of(t, k)
		for _, T := range []float64{283, 298.15, 333, 373, 423} {
			for _, w := range []float64{0.003, 0.02, 0.08, 0.15, 0.2} {
				slope := func(h float64) float64 {
					return math.Log(pressure(t, i, w, T+h)/pressure(t, i, w, T-h)) / (1/(T+h) - 1/(T-h))
				}
				want := -gas * (4*slope(0.5) - slope(1)) / 3
				got, err := i.IsostericHeat(w, T)
				require.NoError(t, err)
				near(t, want, got, 1e-6*want, "%v at %g K and %g", k, T, w)
			}
		}
	}
}

// The heat lies above that of boiling, and falls with load. Of silica gel it is 2.6 to 2.9 MJ/kg by the points of Nastaj and Aleksandrzak, of 5A and 13X 2.5 to 3.2
// by those of Wang and LeVan, from 0 to 100 °C and 0.10 to 0.20 kg/kg.
func TestHeatIsPlausible(t *testing.T) {
	for _, c := range []struct {
		kind      desiccant.Kind
		w         float64
		low, high float64
	}{
		{desiccant.SilicaGel, 0.02, 2.6e6, 3.03e6}, {desiccant.SilicaGel, 0.1, 2.55e6, 2.9e6}, {desiccant.SilicaGel, 0.25, 2.44e6, 2.7e6},
		{desiccant.MolecularSieve5A, 0.1, 2.9e6, 3.4e6}, {desiccant.MolecularSieve5A, 0.2, 2.5e6, 3e6},
		{desiccant.MolecularSieve13X, 0.1, 2.9e6, 3.3e6}, {desiccant.MolecularSieve13X, 0.2, 2.5e6, 3.3e6},
		{desiccant.MolecularSieve4A, 0.1, 2.9e6, 3.4e6},
	} {
		i := of(t, c.kind)
		h, err := i.IsostericHeat(c.w, 303.15)
		require.NoError(t, err)
		require.True(t, h >= c.low && h <= c.high, "%v at %g: %g J/kg", c.kind, c.w, h)
		require.Greater(t, h, humidair.LatentHeat(303.15))
		less, err := i.IsostericHeat(c.w*1.1, 303.15)
		require.NoError(t, err)
		require.Less(t, less, h, "%v", c.kind)
	}
}

// As the pressure falls to nothing the law of Toth becomes that of Henry, w = ws b p; that of Dubinin and Astakhov has no such slope: it rises without end.
func TestSlopeOfLowLoads(t *testing.T) {
	sieve := of(t, desiccant.MolecularSieve5A)
	T := 373.15
	henry := 0.422675 * 4.714e-13 * math.Exp(9955/T)
	near(t, 1, uptake(t, sieve, 1e-200, T)/(henry*1e-200), 1e-9)
	near(t, 0.855, uptake(t, of(t, desiccant.MolecularSieve4A), 1e-200, T)/(henry*1e-200), 1e-9)
	gel := of(t, desiccant.SilicaGel)
	require.Greater(t, uptake(t, gel, 1e-9, T)/1e-9, 10*uptake(t, gel, 1e-6, T)/1e-6)
}

// The scale of 4A as a share of 5A, the least squares over its points.
func TestShareOfFourA(t *testing.T) {
	above, below := 0.0, 0.0
	for _, m := range sodium() {
		five := uptake(t, of(t, desiccant.MolecularSieve5A), m.p, m.celsius+celsius)
		if m.w < 0.15 { // of two runs at this pressure the other has 0.164
			continue
		}
		above, below = above+m.w*five, below+five*five
	}
	near(t, 0.855, above/below, 0.0005)
}

func TestSilicaIsTheBestCurve(t *testing.T) {
	points := join(nastaj(), wangLevan(desiccant.SilicaGel))
	off := func(limit, energy, exponent float64) (sum float64) {
		for _, m := range points {
			T := m.celsius + celsius
			work := 8.314462618 * T * math.Log(humidair.SaturationPressure(T)/m.p)
			by := (limit*math.Exp(-math.Pow(work/energy, exponent)) - m.w) / (m.w + 0.003)
			sum += by * by
		}
		return math.Sqrt(sum / float64(len(points)))
	}
	ours := off(0.56, 2100, 0.756)
	near(t, 0.134, ours, 0.001)
	for _, by := range []float64{0.95, 1.05} {
		require.Greater(t, off(0.56*by, 2100, 0.756), ours)
		require.Greater(t, off(0.56, 2100*by, 0.756), ours)
		require.Greater(t, off(0.56, 2100, 0.756*by), ours)
	}
	near(t, 0.233, off(0.38, 3962.2, 1.1), 0.001) // Sapienza et al. 2017
	gel := of(t, desiccant.SilicaGel)
	work := 8.314462618 * 298.15 * math.Log(2)
	near(t, 0.56*math.Exp(-math.Pow(work/2100, 0.756)), uptake(t, gel, humidair.SaturationPressure(298.15)/2, 298.15), 1e-12)
}

func TestHydrates(t *testing.T) {
	salt := of(t, desiccant.CalciumChloride)
	for molecules, want := range map[int]float64{1: 0.162, 2: 0.325, 4: 0.649, 6: 0.974} {
		w, err := desiccant.HydrateLoad(molecules)
		require.NoError(t, err)
		near(t, want, w, 6e-4)
	}
	_, err := desiccant.HydrateLoad(3)
	require.Error(t, err)

	T := 293.15
	sat := humidair.SaturationPressure(T)
	for _, c := range []struct {
		pair desiccant.Pair
		rh   float64
		heat float64 // [J/mol]
	}{
		{desiccant.AnhydrousMonohydrate, 0, 71.6e3}, {desiccant.MonohydrateDihydrate, 0.06, 51.9e3}, {desiccant.DihydrateTetrahydrate, 0.09, 61.5e3}, {desiccant.TetrahydrateHexahydrate, 0.185, 57.3e3},
	} {
		p, err := c.pair.VapourPressure(T)
		require.NoError(t, err)
		if c.rh > 0 {
			near(t, c.rh*sat, p, 1e-9)
		}
		warm, err := c.pair.VapourPressure(T + 5)
		require.NoError(t, err)
		near(t, c.heat, -8.314462618*math.Log(warm/p)/(1/(T+5)-1/T), 1, "%v", c.pair)
		require.Greater(t, humidair.RelativeHumidity(warm, T+5), c.rh, "dearer than boiling, so the humidity rises")
	}
	for _, bad := range []struct {
		pair desiccant.Pair
		T    float64
	}{{desiccant.TetrahydrateHexahydrate, 305}, {desiccant.MonohydrateDihydrate, 319}, {desiccant.MonohydrateDihydrate, 270}, {desiccant.MonohydrateDihydrate, math.NaN()}, {9, T}, {-1, T}} {
		_, err := bad.pair.VapourPressure(bad.T)
		require.Error(t, err)
	}

	// The stair: at each pressure of a pair the wetter of both, and back to what the load stands on.
	for _, c := range []struct{ rh, w float64 }{{0.05, 0.16233}, {0.061, 0.32465}, {0.089, 0.32465}, {0.091, 0.64930}, {0.5, 0.64930}} {
		near(t, c.w, uptake(t, salt, c.rh*sat, T), 2e-5, "%g", c.rh)
	}
	two, err := desiccant.HydrateLoad(2)
	require.NoError(t, err)
	near(t, 0.06*sat, pressure(t, salt, two, T), 1e-9, "all of it dihydrate: the pair that it came from")
	near(t, 0.06*sat, pressure(t, salt, 0.2, T), 1e-9)
	near(t, 0.09*sat, pressure(t, salt, 0.6, T), 1e-9)
	near(t, 19.3, pressure(t, salt, 0.1, 298.15), 1e-9)
	for _, w := range []float64{0.05, 0.16, 0.3, 0.5, 0.649} {
		require.GreaterOrEqual(t, uptake(t, salt, pressure(t, salt, w, T), T), w)
	}
	heat, err := salt.IsostericHeat(0.5, T)
	require.NoError(t, err)
	near(t, 61.5e3/0.018015268, heat, 1)
	require.True(t, salt.TurnsLiquid(0.19*sat, T))
	require.False(t, salt.TurnsLiquid(0.18*sat, T))
	silica := of(t, desiccant.SilicaGel)
	require.False(t, silica.TurnsLiquid(0.9*sat, T))
	_, err = salt.VapourPressure(0.7, T)
	require.ErrorContains(t, err, "0.6493")
}

func TestIsothermRefusals(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	for _, k := range desiccant.Kinds() {
		i := of(t, k)
		require.NotEmpty(t, i.Source)
		require.NotEmpty(t, i.Choice)
		require.NotEmpty(t, i.Uncertainty.Of)
		require.Equal(t, k, i.Kind)
		for _, bad := range [][2]float64{{-1, 298}, {nan, 298}, {inf, 298}, {1e5, 298}, {100, 200}, {100, 700}, {100, nan}, {100, inf}, {100, -3}} {
			_, err := i.Uptake(bad[0], bad[1])
			require.Error(t, err, "%v %v", k, bad)
		}
		for _, bad := range [][2]float64{{-1, 298}, {nan, 298}, {inf, 298}, {2, 298}, {0.1, nan}, {0.1, 1000}} {
			_, err := i.VapourPressure(bad[0], bad[1])
			require.Error(t, err, "%v %v", k, bad)
			_, err = i.IsostericHeat(bad[0], bad[1])
			require.Error(t, err, "%v %v", k, bad)
		}
		_, err := i.IsostericHeat(0, 298)
		require.Error(t, err)
		require.False(t, i.Range.Holds(nan, 298))
		require.False(t, i.Range.Holds(100, nan))
		require.False(t, i.Range.Holds(1e6, 298))
		require.True(t, i.Range.Holds(300, 298.15))
	}
	_, err := desiccant.Of(17)
	require.Error(t, err)
	var none desiccant.Isotherm
	_, err = none.Uptake(100, 298)
	require.Error(t, err)
	gel := of(t, desiccant.SilicaGel)
	require.False(t, gel.Range.Holds(2400, 293.16), "above 80 % at 20 °C")
	require.False(t, of(t, desiccant.MolecularSieve5A).Range.Holds(1000, 430), "extrapolated")
}

func TestKinds(t *testing.T) {
	require.Len(t, desiccant.Kinds(), 5)
	for _, k := range desiccant.Kinds() {
		require.NotContains(t, k.String(), "Kind")
		c, err := k.HeatCapacity()
		require.NoError(t, err)
		near(t, map[bool]float64{true: 72.6 / 0.110984, false: 935}[k == desiccant.CalciumChloride], c, 20)
		require.GreaterOrEqual(t, len(k.Cautions()), 4)
		h, err := k.Heating()
		if k == desiccant.CalciumChloride {
			require.ErrorContains(t, err, "melt")
			continue
		}
		require.NoError(t, err)
		require.Less(t, h.Least, h.Most)
		require.NotEmpty(t, h.Source)
		require.NotEmpty(t, h.Why)
		require.Contains(t, k.Cautions()[0], "dust")
	}
	require.Contains(t, desiccant.SilicaGel.Cautions()[2], "cobalt")
	require.Contains(t, desiccant.CalciumChloride.Cautions()[1], "conducts")
	sieve, err := desiccant.MolecularSieve4A.Heating()
	require.NoError(t, err)
	near(t, 200+celsius, sieve.Least, 1e-9)
	bad := desiccant.Kind(-1)
	require.Contains(t, bad.String(), "Kind(-1)")
	require.Empty(t, bad.Cautions())
	_, err = bad.HeatCapacity()
	require.Error(t, err)
	_, err = bad.Heating()
	require.Error(t, err)
}
