package desiccant_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion/machine/desiccant"
	"strandry/materials/humidair"
)

// What heated room air of 1405 Pa leaves on silica gel, interpolated between points of Nastaj and Aleksandrzak: 0.0098 at 100 °C, 0.0045 at 120 °C.
func TestResidue(t *testing.T) {
	gel := of(t, desiccant.SilicaGel)
	for hot, want := range map[float64]float64{100: 0.0098, 120: 0.0045} {
		left, err := gel.Residue(roomVapour, hot+celsius)
		require.NoError(t, err)
		near(t, want, left, 0.24*want)
	}
}

// Heated room air does not regenerate a sieve at drying temperatures: the points say so, and the laws.
func TestRoomAirDoesNotRegenerateASieve(t *testing.T) {
	for _, m := range []struct {
		kind  desiccant.Kind
		point // as measured near 1405 Pa
	}{
		{desiccant.MolecularSieve4A, point{60, 1402, 0.180}}, // Pera-Titus et al. 2008, between points
		{desiccant.MolecularSieve4A, point{90, 1405, 0.133}},
		{desiccant.MolecularSieve5A, point{100, 1264.9, 7.3846 * humidair.MolarMass}}, // Wang and LeVan 2009
		{desiccant.MolecularSieve13X, point{75, 1027.2, 10.1295 * humidair.MolarMass}},
	} {
		i := of(t, m.kind)
		full := uptake(t, i, roomVapour, 296.15)
		require.Greater(t, m.w, 0.5*full, "%v at %g °C: more than half stays", m.kind, m.celsius)
		left, err := i.Residue(m.p, m.celsius+celsius)
		require.NoError(t, err)
		near(t, m.w, left, 0.12*m.w, "%v", m.kind)
		left, err = i.Residue(roomVapour, 150+celsius)
		require.NoError(t, err)
		require.Greater(t, left, 0.04, "%v", m.kind)
	}
	gel := of(t, desiccant.SilicaGel)
	left, err := gel.Residue(roomVapour, 75+celsius)
	require.NoError(t, err)
	require.Less(t, left, 0.15*uptake(t, gel, roomVapour, 296.15), "while silica gel gives off most of its water")
}

func oven(t *testing.T) desiccant.Regeneration {
	return desiccant.Regeneration{
		Isotherm: of(t, desiccant.SilicaGel), DryMass: 0.5, From: 0.15, To: 0.01, Cold: 293.15, Hot: 393.15, Efficiency: 0.4,
	}
}

func TestEnergy(t *testing.T) {
	r := oven(t)
	e, err := r.Energy()
	require.NoError(t, err)
	near(t, 0.5*924*100, e.Desiccant, 1e-6)
	near(t, 0.5*0.15*4190*100, e.Warming, 1e-6)
	sum, n := 0.0, 20000 // the midpoint rule, which the package does not use
	for k := range n {
		w := 0.01 + 0.14*(float64(k)+0.5)/float64(n)
		h, err := r.Isotherm.IsostericHeat(w, 393.15)
		require.NoError(t, err)
		sum += h * 0.14 / float64(n)
	}
	near(t, 0.5*sum, e.Desorbing, 1e-6*e.Desorbing)
	useful := e.Desiccant + e.Warming + e.Desorbing
	near(t, useful/0.4, e.Total, 1e-6)
	near(t, 0.183, e.Total/3.6e6, 0.02) // by hand: (46 + 31 + 70 g of 2.66 MJ/kg, 186) kJ over 0.4
	r.To = r.From
	e, err = r.Energy()
	require.NoError(t, err)
	require.Zero(t, e.Desorbing)
	r.To = 0
	e, err = r.Energy()
	require.NoError(t, err)
	require.True(t, e.Desorbing > 0.5*0.15*2.4e6 && e.Desorbing < 0.5*0.15*3.2e6, "finite down to dry")
}

func TestRegenerationRefusals(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	for name, spoil := range map[string]func(*desiccant.Regeneration){
		"mass": func(r *desiccant.Regeneration) { r.DryMass = -1 }, "mass NaN": func(r *desiccant.Regeneration) { r.DryMass = nan }, "mass endless": func(r *desiccant.Regeneration) { r.DryMass = inf },
		"efficiency": func(r *desiccant.Regeneration) { r.Efficiency = 0 }, "efficiency 2": func(r *desiccant.Regeneration) { r.Efficiency = 2 }, "efficiency NaN": func(r *desiccant.Regeneration) { r.Efficiency = nan },
		"wetter": func(r *desiccant.Regeneration) { r.To = 0.2 }, "colder": func(r *desiccant.Regeneration) { r.Hot = 280 }, "from NaN": func(r *desiccant.Regeneration) { r.From = nan },
		"to": func(r *desiccant.Regeneration) { r.To = -0.1 }, "cold": func(r *desiccant.Regeneration) { r.Cold = 200 }, "overfull": func(r *desiccant.Regeneration) { r.From = 0.7 },
		"too hot": func(r *desiccant.Regeneration) { r.Hot = 440 }, "hot NaN": func(r *desiccant.Regeneration) { r.Hot = nan },
		"salt": func(r *desiccant.Regeneration) { r.Isotherm, _ = desiccant.Of(desiccant.CalciumChloride) }, "none": func(r *desiccant.Regeneration) { r.Isotherm = desiccant.Isotherm{} },
	} {
		r := oven(t)
		spoil(&r)
		_, err := r.Energy()
		require.Error(t, err, name)
	}
	salt := of(t, desiccant.CalciumChloride)
	_, err := salt.Residue(100, 300)
	require.ErrorContains(t, err, "melt")
	var none desiccant.Isotherm
	_, err = none.Residue(100, 300)
	require.Error(t, err)
}
