package diffusion_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion"
	"strandry/materials"
)

// evaporating is the model of a row of testdata/heat/evaporation.csv.
func evaporating(t testing.TB, row map[string]float64) (*diffusion.Design, diffusion.Settings) {
	given := func(v float64) materials.Value {
		return materials.Value{Value: v, Low: v, High: v, Kind: materials.Given}
	}
	m := transit(t, row["beta"])
	p := &m.Material
	p.Density, p.HeatCapacity, p.Conductivity = given(row["rho"]), given(row["c"]), given(row["k"])
	p.Diffusivity.Reference, p.Diffusivity.ReferenceValue = row["Tref"], given(row["D0"])
	p.Diffusivity.Pieces = []materials.Arrhenius{{Activation: given(row["E"])}}
	p.Sorption.Saturation, p.Sorption.MixingEnthalpy, p.Sorption.Reference = given(row["Csat0"]), given(row["dH"]), row["Tref"]
	m.Radius, m.Start, m.StartTemperature, m.Speed = row["R"], row["C0"], row["T0"], 1e-3
	m.Path = []diffusion.Zone{{
		Name: "zone", Length: row["t"] * m.Speed, Film: diffusion.Film{Heat: row["h"], Mass: row["km"]},
		Air: diffusion.Air{Temperature: row["Tair"], VapourPressure: row["pv"]},
	}}
	s := diffusion.DefaultSettings()
	s.Heat = diffusion.Lumped
	if row["resolved"] == 1 {
		s.Heat = diffusion.Resolved
	}
	return m, s
}

// Content and temperature of strands that evaporation cools, or that water taken up warms, against finite volumes in
// another language, with the temperature of one section lumped and along the radius. Resolved, the model takes what
// evaporation adds as a parabola that stands at once: where it cools a strand by ten kelvins within seconds, this costs up to
// 0.15 % of the content, and a thirtieth of that for a nylon in blown air.
func TestEvaporationAgainstFiniteVolumes(t *testing.T) {
	rows := table(t, "heat", "evaporation.csv")
	require.Len(t, rows, 40)
	matters, largest := 0, map[float64]float64{} // by the conditions of the case
	for _, row := range rows {
		largest[row["rho"]*row["D0"]*row["h"]*row["pv"]] = max(row["C0"], row["meanC"])
	}
	for _, row := range rows {
		m, s := evaporating(t, row)
		var r diffusion.Result
		require.NoError(t, diffusion.NewMarch().Run(&m.Model, s, &r))
		scale := largest[row["rho"]*row["D0"]*row["h"]*row["pv"]]
		content, kelvin := 2e-4, 0.02
		if row["resolved"] == 1 {
			content, kelvin = 1.6e-3, 0.16
		}
		t.Logf("resolved %g beta %g T %g t %g: content %+.1e of %.2g (%+.1e), temperature %+.3f of %+.2f K", row["resolved"], row["beta"], row["Tair"], row["t"],
			(r.Nozzle.Mean-row["meanC"])/scale, row["meanC"], (row["plainC"]-row["meanC"])/scale, r.Nozzle.Temperature-row["meanT"], row["plainT"]-row["meanT"])
		within(t, row["meanC"], r.Nozzle.Mean, content*scale)
		within(t, row["meanT"], r.Nozzle.Temperature, kelvin)
		if math.Abs(row["plainC"]-row["meanC"]) > 10*content*scale {
			matters++
		}
	}
	require.Greater(t, matters, 10, "rows in which the heat of evaporation matters")
}
