package scenarios

import (
	"math"
	"os"
	"path/filepath"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion"
	"strandry/materials/text/strict"
)

// Whatever the text: no panic, and either faults or a model whose every number is
// finite and in its range.
func FuzzRead(f *testing.F) {
	for _, name := range Demos() {
		text, err := DemoText(name)
		require.NoError(f, err)
		f.Add(text)
	}
	f.Add(Template())
	f.Add([]byte(withPasses))
	files, err := filepath.Glob(filepath.Join(malformed, "*.toml"))
	require.NoError(f, err)
	transit, err := filepath.Glob("../testdata/transit/*.toml")
	require.NoError(f, err)
	checked, err := filepath.Glob("../testdata/checks/*.toml")
	require.NoError(f, err)
	for _, file := range slices.Concat(files, transit, checked) {
		text, err := os.ReadFile(file)
		require.NoError(f, err)
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text []byte) {
		s, err := Read("fuzz.toml", text)
		if err != nil {
			var faults strict.Faults
			require.ErrorAs(t, err, &faults)
			require.NotEmpty(t, faults)
			return
		}
		sound(t, s)
	})
}

// Whatever the setting: no panic, and either faults or a sound model.
func FuzzSetting(f *testing.F) {
	f.Add("zone.drum.length", "12 m")
	f.Add("strand.properties.diffusivity.beta", "20")
	f.Add("numerics.tolerance", "1e-3")
	f.Add("zone.guide.vertical", "true")
	f.Add("build.slowest", "0.5 mm/s")
	f.Add("build.driest", "-60 °C")
	f.Add("strand.properties.\"", "\\\n'")
	f.Fuzz(func(t *testing.T, key, value string) {
		s, err := Demo("winch-drum")
		require.NoError(t, err)
		s, err = s.With(Setting{key, value})
		if err != nil {
			var faults strict.Faults
			require.ErrorAs(t, err, &faults)
			return
		}
		sound(t, s)
	})
}

func within(t *testing.T, x, low, high float64, what string) {
	t.Helper()
	require.True(t, x >= low && x <= high, "%s = %v, not in %v to %v", what, x, low, high)
}

// sound checks the ranges that the format promises.
func sound(t *testing.T, s *Scenario) {
	t.Helper()
	const slack = 1 + 1e-9
	m := &s.Design
	within(t, m.Radius, 5e-5/slack, 5e-3*slack, "radius")
	within(t, m.Speed, slowest/slack, fastest*slack, "speed")
	within(t, m.Start, 0, maxContent, "start")
	within(t, m.StartTemperature, 233, 574, "start temperature")
	within(t, m.Limit, math.SmallestNonzeroFloat64, 1, "limit")
	within(t, m.NozzleTemperature, 323, 774, "nozzle")
	within(t, m.Pressure, 5e4/slack, 1.2e5*slack, "pressure")
	within(t, m.Material.Density.Value, 100/slack, 5000*slack, "density")
	within(t, m.Material.HeatCapacity.Value, 100/slack, 1e4*slack, "heat capacity")
	within(t, m.Material.Conductivity.Value, 0.01/slack, 10*slack, "conductivity")
	within(t, s.Settings.Resolution, 2.4, 60, "resolution")
	within(t, s.Settings.Tolerance, 1e-8/slack, 0.1*slack, "tolerance")
	require.NotEmpty(t, m.Path)
	for _, z := range append(m.Path, m.Storage...) {
		zoneSound(t, &m.Model, &z)
	}
	for _, axis := range s.Vary {
		require.Positive(t, axis.Len())
		for _, x := range axis.Values {
			require.False(t, math.IsNaN(x) || math.IsInf(x, 0))
		}
	}
	for _, k := range s.Keys() {
		require.False(t, math.IsNaN(k.Value) || math.IsInf(k.Value, 0), k.Name)
	}
}

func zoneSound(t *testing.T, m *diffusion.Model, z *diffusion.Zone) {
	t.Helper()
	within(t, z.Residence(m.Speed), 1e-3/fastest/2, 1e4/slowest*2, "residence")
	within(t, z.Contact.Exposed(), 0.0099, 1.0001, "exposed")
	within(t, z.Air.Temperature, 233, 574, "air temperature")
	within(t, z.Air.VapourPressure, 0, diffusion.MostVapour*m.Pressure, "vapour pressure")
	within(t, m.DryFlow(z), 0, 200, "dry flow")
	within(t, z.Film.Heat, 0, 1001, "h")
	within(t, z.Film.Mass, 0, 1.001, "k_m")
	within(t, m.AirSpeed(z), 0, fastestAir*1.001, "air speed")
	within(t, z.Film.Emissivity, 0, 1, "emissivity")
	if z.Film.Bore != 0 {
		within(t, z.Film.Bore, 2*m.Radius, 1.001, "bore")
	}
	d := m.Material.Diffusivity.At(z.Air.Temperature, m.Start)
	require.False(t, math.IsNaN(d) || math.IsInf(d, 0) || d < 0, "diffusivity %v", d)
}
