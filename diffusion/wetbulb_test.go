package diffusion_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion"
	"strandry/diffusion/film"
	"strandry/materials"
	"strandry/materials/humidair"
)

// sponge is a strand whose water moves at once and of which it holds so much that its surface stays wet: activity
// 0.998 with nine tenths of its content left.
func sponge(t testing.TB) *diffusion.Design {
	m := transit(t, 0)
	given := func(v float64) materials.Value {
		return materials.Value{Value: v, Low: v, High: v, Kind: materials.Given}
	}
	m.Material.Diffusivity.ReferenceValue = given(1e-7)
	m.Material.Diffusivity.Pieces = []materials.Arrhenius{{Activation: given(0)}}
	m.Material.Sorption = materials.Sorption{
		Form: materials.TwoTerm, Linear: given(1e-3), Power: given(9), Exponent: given(50), MixingEnthalpy: given(0), Reference: 296.15,
		ActivityRange: materials.Range{Min: 0, Max: 1}, Temperature: materials.Range{Min: 200, Max: 600},
	}
	m.Start = m.Material.Sorption.Content(1, 296.15)
	return m
}

// A strand whose diffusion does not limit stands at the wet-bulb temperature of its film, h (T_air - T) = L k_m Δρ_v: testdata/heat/psychrometric.csv
// (independent code). The adiabatic wet bulb of ASHRAE Fundamentals (2017), ch. 1, eq. 33, lies within two kelvin
// of it, the more the hotter the air, since h/(ρ c_p k_m) is Le^(2/3) and not one; the psychrometer of
// WMO-No. 8 in the air of the weather within one.
func TestWetStrandStandsAtTheWetBulb(t *testing.T) {
	rows := table(t, "heat", "psychrometric.csv")
	require.Greater(t, len(rows), 8)
	for _, row := range rows {
		for _, heat := range []diffusion.Heat{diffusion.Lumped, diffusion.Resolved} {
			m := sponge(t)
			m.Path = []diffusion.Zone{{
				Name: "tunnel", Length: 0.3, Film: diffusion.Film{Flow: film.Across, AirSpeed: 3},
				Air: diffusion.Air{Temperature: row["dry"] + 273.15, VapourPressure: row["vapour"]},
			}}
			s := diffusion.DefaultSettings()
			s.Heat = heat
			var r diffusion.Result
			require.NoError(t, diffusion.NewMarch().Run(&m.Model, s, &r))
			require.Greater(t, r.Nozzle.Mean, 0.85*m.Start, "the strand stays wet")
			within(t, row["film"], r.Nozzle.Temperature-273.15, 0.05)
			within(t, row["adiabatic"], r.Nozzle.Temperature-273.15, 2.1)
			if row["dry"] <= 50 {
				within(t, row["psychrometer"], r.Nozzle.Temperature-273.15, 1.2)
			}

			s.WithoutEvaporation = true
			require.NoError(t, diffusion.NewMarch().Run(&m.Model, s, &r))
			within(t, row["dry"], r.Nozzle.Temperature-273.15, 0.01)
		}
	}
}

// Dry, it stands at the air's temperature, and so does a strand in equilibrium with its air.
func TestDryStrandStandsAtTheAir(t *testing.T) {
	m := transit(t, 0)
	m.Start = 0
	air := diffusion.Air{Temperature: 363.15}
	m.Path = []diffusion.Zone{{Name: "oven", Length: 1, Film: diffusion.Film{Emissivity: 0.9}, Air: air}}
	within(t, 363.15, run(t, m).Nozzle.Temperature, 1e-3)
	m.Path[0].Air.VapourPressure = humidair.VapourPressureAt(0.3, 363.15)
	m.Path[0].Length = 100
	m.Start = m.Material.Sorption.Content(0.3, 363.15)
	within(t, 363.15, run(t, m).Nozzle.Temperature, 1e-2)
}
