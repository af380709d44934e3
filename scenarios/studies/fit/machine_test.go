package fit_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion"
	"strandry/diffusion/samples"
	"strandry/scenarios"
	"strandry/scenarios/studies/fit"
)

const machine = `[strand]
material = "pa6"
moisture = "2 %%"
[feed]
speed = "1 mm/s"
[[zone]]
name = "tube"
length = "20 m"
temperature = "85 °C"
air = { dew_point = "-10 °C", speed = "0.3 m/s", past = "across" }
[[check]]
after = "%.4f g"
dried = "%.4f g"
`

// atMachine is a scenario with a piece that a strand of the same truth left, weighed and dried out.
func atMachine(t testing.TB, s strand) *scenarios.Scenario {
	read := func(after, dried float64) *scenarios.Scenario {
		sc, err := scenarios.Read("machine.toml", fmt.Appendf(nil, machine, after, dried))
		require.NoError(t, err)
		return sc
	}
	sc := read(12.2, 12.1)
	m := sc.Model
	s.truth(&m.Material)
	var r diffusion.Result
	require.NoError(t, diffusion.NewMarch().Run(&m, diffusion.DefaultSettings(), &r))
	const dried = 12.1234
	return read(dried*(1+r.Nozzle.Mean), dried)
}

// A piece that was weighed at the machine makes surer what weighings leave in doubt, and holds the truth; with two temperatures as well.
func TestMachine(t *testing.T) {
	for _, celsius := range samples.Each(2, [][]float64{{60, 80}, {80}}) {
		s := nylon()
		s.step, s.noise, s.dry, s.count, s.celsius = 1e-4, 3e-5, 0.04, 10, celsius
		if len(celsius) > 1 {
			s.activation = 60e3
		}
		w := s.weighed(t, 21)
		alone := found(t, w, fit.Options{})
		w.Machine = atMachine(t, s)
		with := found(t, w, fit.Options{})
		require.Equal(t, 1, with.Checks)
		require.Zero(t, alone.Checks)
		t.Logf("alone %.3g (%.3f), with %.3g (%.3f), truth %.3g", alone.Diffusivity.Value, alone.Diffusivity.Factor(), with.Diffusivity.Value, with.Diffusivity.Factor(), s.diffusivity(t, with.Temperature))
		require.Less(t, math.Log(with.Diffusivity.Factor()), 0.9*math.Log(alone.Diffusivity.Factor()))
		holds(t, with.Diffusivity, s.diffusivity(t, with.Temperature))
		require.Less(t, math.Log(with.Diffusivity.Factor()), 0.1)
	}
}

// A machine whose strand was three times as slow as the weighings say is no help: both cannot be true, and the answer moves.
func TestMachineDiffers(t *testing.T) {
	s := easy()
	w := s.weighed(t, 22)
	alone := found(t, w, fit.Options{})
	slow := s
	slow.faster = s.faster / 3
	w.Machine = atMachine(t, slow)
	with := found(t, w, fit.Options{})
	require.Less(t, with.Diffusivity.Value, alone.Diffusivity.Low)
	require.Greater(t, with.Noise.Value, 2*alone.Noise.Value)
}

// What was left in a piece that was dried out is in its mass: left out, the piece would seem to have held less.
func TestMachineLeft(t *testing.T) {
	s := nylon()
	s.tables = keepsBeta
	s.step, s.noise, s.dry, s.count = 1e-4, 3e-5, 0.04, 10
	w := s.weighed(t, 21)
	w.Machine = atMachine(t, s)
	sound := found(t, w, fit.Options{})
	const left = 0.004
	check := &w.Machine.Checks[0]
	check.Left, check.Dried = left, check.Dried*(1+left)
	told := found(t, w, fit.Options{})
	require.InEpsilon(t, sound.Diffusivity.Value, told.Diffusivity.Value, 0.01)
	check.Left = 0
	require.Greater(t, math.Abs(math.Log(found(t, w, fit.Options{}).Diffusivity.Value/sound.Diffusivity.Value)), 0.02)
}

// A piece that was cut behind a zone knows nothing of those after it.
func TestMachineCut(t *testing.T) {
	s := easy()
	s.tables = keepsBeta
	s.step, s.noise, s.dry, s.count = 1e-4, 3e-5, 0.04, 10
	w := s.weighed(t, 21)
	w.Machine = atMachine(t, s)
	alone := found(t, w, fit.Options{})
	check := w.Machine.Checks[0]
	further, err := scenarios.Read("further.toml", fmt.Appendf(nil, strings.Replace(machine, "[[check]]\n",
		"[[zone]]\nname = \"kiln\"\nlength = \"40 m\"\ntemperature = \"95 °C\"\nair = { dew_point = \"-10 °C\", speed = \"0.3 m/s\", past = \"across\" }\n[[check]]\nat = \"tube\"\n", 1),
		1e3*check.After, 1e3*check.Dried))
	require.NoError(t, err)
	require.Equal(t, 0, further.Checks[0].Zone)
	w.Machine = further
	require.InEpsilon(t, alone.Diffusivity.Value, found(t, w, fit.Options{}).Diffusivity.Value, 0.01)
}
