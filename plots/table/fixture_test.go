package table

import (
	"flag"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion"
	"strandry/diffusion/advice"
	"strandry/diffusion/film"
	"strandry/materials"
)

var update = flag.Bool("update", false, "rewrite the golden files")

// golden compares a text with a file of testdata/golden. The files show layout
// and words only; no figure in them comes from a solve.
func golden(t *testing.T, name, got string) {
	t.Helper()
	path := filepath.Join("..", "..", "testdata", "golden", name)
	if *update {
		require.NoError(t, os.MkdirAll(filepath.Dir(path), 0o755))
		require.NoError(t, os.WriteFile(path, []byte(got), 0o644))
	}
	want, err := os.ReadFile(path)
	require.NoError(t, err)
	require.Equal(t, string(want), got)
}

func stated(v, low, high float64, k materials.Kind, source string) materials.Value {
	return materials.Value{Value: v, Low: low, High: high, Kind: k, Source: source}
}

// polymer is made up: no figure is that of a material.
func polymer() materials.Polymer {
	memory := func(v float64) materials.Value { return stated(v, v, v, materials.Memory, "made up") }
	melting := memory(450.15)
	return materials.Polymer{
		ID: "reedon", Origin: "own/reedon.toml", Name: "Reedon", Family: "a polymer that does not exist, unfilled", Summary: "Serves to show the layout of a page.",
		Density: stated(1000, 990, 1010, materials.Published, "A. Author, J. Made Up 1 (1990) 2"), HeatCapacity: memory(1500), Conductivity: memory(0.25),
		GlassTransition: memory(323.15), Melting: &melting, Structure: materials.Semicrystalline, Softening: stated(368.15, 358.15, 373.15, materials.Memory, "made up"),
		DryingTemperature: stated(353.15, 343.15, 358.15, materials.Practice, "common practice, no source"), NozzleTemperature: memory(523.15),
		PrintingLimit: stated(0.002, 0.001, 0.004, materials.Practice, "common practice, no source"),
		MouldingLimit: stated(0.0015, 0.001, 0.002, materials.PublishedWeak, "a table on a wall"), Hydrolyses: true,
		Moduli: []materials.ModulusAt{{Temperature: 296.15, Modulus: memory(1.5e9)}, {Temperature: 333.15, Modulus: memory(1e9)}, {Temperature: 373.15, Modulus: stated(2e8, 5e7, 5e8, materials.Memory, "made up")}},
		Diffusivity: materials.Diffusivity{
			Reference: 298.15, ReferenceValue: stated(1e-13, 5e-14, 2e-13, materials.Memory, "made up"),
			Pieces: []materials.Arrhenius{{Activation: memory(50e3)}, {From: 373.15, Activation: memory(40e3)}},
			Beta:   memory(20), Scatter: memory(3), Temperature: materials.Range{Min: 273.15, Max: 373.15},
		},
		Sorption: materials.Sorption{
			Form: materials.TwoTerm, Linear: memory(0.05), Power: memory(0.04), Exponent: memory(6),
			MixingEnthalpy: memory(-5000), Reference: 296.15,
			ActivityRange: materials.Range{Max: 0.95}, Temperature: materials.Range{Min: 273.15, Max: 353.15},
		},
		Doubts: []materials.Note{
			{Text: "All of it is made up, and the sentence that says so is long enough to need a second line.", Kind: materials.Memory, Source: "made up"},
			{Text: "So is this.", Kind: materials.Published, Source: "A. Author, J. Made Up 1 (1990) 3"},
		},
		Cautions: []materials.Note{{Text: "Do not melt it.", Kind: materials.Practice, Source: "common practice, no source"}},
	}
}

// answer is made up: a wet strand, a hot zone and a guide in damp air.
func answer() *Answer {
	path := []diffusion.Zone{
		{Name: "hot drum of the long kind", Length: 12, Air: diffusion.Air{Temperature: 363.15, VapourPressure: 100}},
		{Name: "guide", Length: 0.06, Air: diffusion.Air{Temperature: 293.15, VapourPressure: 1200}},
	}
	m := &diffusion.Design{Target: diffusion.Target{Limit: 0.002, NozzleTemperature: 523.15}, Model: diffusion.Model{
		Radius: 0.875e-3, Material: polymer(), Speed: 2e-3, Start: 0.025, StartTemperature: 293.15, Path: path,
		Pressure: 101325,
	}}
	r := diffusion.Result{
		Start: diffusion.State{Mean: 0.025, Centre: 0.025, Skin: 0.025, Temperature: 293.15},
		Zones: []diffusion.ZoneResult{
			{
				Name: path[0].Name, Length: 12, Residence: 6000, Exit: diffusion.State{Mean: 0.0114, Centre: 0.0217, Skin: 3.73e-5, Temperature: 363.12},
				AirTemperature: 363.15, VapourPressure: 120, AirActivity: 0.0017, Equilibrium: 7.8e-5, Biot: 0.11, Resolved: true, Fourier: 0.092, Cooling: 1.6,
				Contact: diffusion.Contact{Covered: 0.1, Arcs: 2}, Behind: 0.0123,
				Film: film.Coefficients{Heat: 25, Mass: 0.02, Correlation: "made up", Source: "A. Author, J. Made Up 1 (1990) 4"},
			},
			{
				Name: "guide", Length: 0.06, Residence: 30, Exit: diffusion.State{Mean: 0.012034, Centre: 0.0217, Skin: 0.0346, Temperature: 293.4},
				AirTemperature: 293.15, VapourPressure: 1200, AirActivity: 0.51, Equilibrium: 0.0346, Biot: 0.09, Fourier: 0.00018,
				Contact: diffusion.Contact{Covered: 0.25, Arcs: 1, Moves: true}, Behind: 0.0346,
				Film: film.Coefficients{Heat: 25, Mass: 0.02, Correlation: "made up", Source: "A. Author, J. Made Up 1 (1990) 4"},
			},
		},
		Nozzle: diffusion.State{Mean: 0.012034, Centre: 0.0217, Skin: 0.0346, Temperature: 293.4},
		Radius: []float64{1e-4, 5e-4, 8.75e-4}, Profile: []float64{0.0217, 0.012, 0.0346},
		Removed: 0.51864, Balance: -3e-16, Steps: 89, Nodes: 3,
	}
	return &Answer{
		Title: "Reedon for a winch drum: twelve metres at 90 °C", File: "drum.toml", Version: "0.0.0", Design: m,
		Assessment: &diffusion.Assessment{
			Result: r, Odds: diffusion.Odds{Probability: 0.004, Low: 0.00587, High: 0.0169, ByDiffusivity: diffusion.Between{Low: 0.0061, High: 0.015}, Fit: 0.01, Unknowns: []string{diffusion.UnknownDiffusivity}},
			NumericalError: 8.7e-7, Verdict: diffusion.Wet, Steam: 33.4,
			Errors:     diffusion.StateError{Mean: 8.7e-7, Centre: 1.1e-6, Skin: 4e-5, Profile: 6e-5},
			ZoneErrors: []diffusion.StateError{{Mean: 9e-7, Centre: 1.1e-6, Skin: 3e-6}, {Mean: 8.7e-7, Centre: 1.1e-6, Skin: 4e-5}},
			Endurance:  diffusion.Endurance{Zone: "drum", Strand: 353.15, Air: 353.15, Bears: 358.15, Yields: 373.15}, Settings: diffusion.DefaultSettings(),
			Warnings: []diffusion.Warning{
				{Concern: diffusion.IsothermTemperature, Zone: path[0].Name, Value: 363.12, Limit: 353.15},
				{Concern: diffusion.UnmeasuredDiffusivity},
			},
		},
		Diagnosis: advice.Diagnosis{
			Cause: advice.Time, Floor: 7.8e-5, FloorZone: path[0].Name, Lowest: 0.0114, LowestZone: path[0].Name,
		},
		Advice: advice.Advice{Sets: []advice.Set{
			{
				Changes: []advice.Change{
					{Kind: advice.Longer, Parts: []advice.Part{{From: 12, To: 18, Bound: 20, Key: "zone.hot drum of the long kind.length", Was: "12 m", Is: "18 m"}}},
					{Kind: advice.DrierAfter, Parts: []advice.Part{{Zone: 1, From: 1200, To: 103, Bound: 13, Key: "zone.guide.air.dew_point", Was: "9.8 °C", Is: "-20 °C"}}},
				},
				Probability: 0.93, Mean: 0.0007, Verdict: diffusion.Dry,
			},
			{
				Changes:     []advice.Change{{Kind: advice.Slower, Parts: []advice.Part{{Zone: -1, From: 0.002, To: 0.0012, Bound: 0.001, Key: "feed.speed", Was: "2 mm/s", Is: "1.2 mm/s"}}}},
				Probability: 0.91, Mean: 0.0008, Verdict: diffusion.Dry, Endurance: diffusion.Endurance{Survival: diffusion.Doubtful},
			},
		}},
		Assumed: []string{"room.pressure: 101.325 kPa", "strand.limit: 0.2 %"}, Unused: []string{"zone.hot drum of the long kind.shape"},
	}
}
