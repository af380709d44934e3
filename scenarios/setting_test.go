package scenarios

import (
	"math"
	"reflect"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion/machine"

	"strandry/materials"
	"strandry/materials/text/quantity"
	"strandry/materials/text/strict"
)

// another gives a value near the one in force that passes every check: a hundredth
// less, or a tenth for what is zero.
func another(k Key) float64 {
	if k.Value == 0 {
		return 0.1
	}
	return k.Value * 0.99
}

func usual(k Key, x float64) string { return k.write(x, k.Dimension.Usual()) }

// Every number of every demonstration can be replaced: by itself, which changes
// nothing but rounding, and by another, which reaches model or settings.
func TestEveryNumberCanBeReplaced(t *testing.T) {
	for _, name := range Demos() {
		t.Run(name, func(t *testing.T) {
			s := demo(t, name)
			replaced := 0
			for _, k := range s.Keys() {
				if !k.Known {
					continue
				}
				replaced++
				same, err := s.With(Setting{k.Name, usual(k, k.Value)})
				require.NoError(t, err)
				require.InDelta(t, k.Value, valueOf(t, same, k.Name), 1e-10*math.Abs(k.Value), k.Name)

				other, err := s.With(Setting{k.Name, usual(k, another(k))})
				require.NoError(t, err, k.Name)
				require.InDelta(t, another(k), valueOf(t, other, k.Name), 1e-10*math.Abs(another(k)), k.Name)
				require.False(t, equal(s, other), "%s acts on nothing", k.Name)
			}
			require.Greater(t, replaced, 25)
			require.True(t, equal(s, demo(t, name)), "the scenario itself has changed")
		})
	}
}

func equal(a, b *Scenario) bool {
	return reflect.DeepEqual(a.Design, b.Design) && a.Settings == b.Settings &&
		reflect.DeepEqual(bounds(a), bounds(b)) && reflect.DeepEqual(a.Store, b.Store) && reflect.DeepEqual(asBuilt(a), asBuilt(b)) && reflect.DeepEqual(a.Opening, b.Opening)
}

// asBuilt is the machine without notes.
func asBuilt(s *Scenario) machine.Machine {
	m := s.Machine
	m.Assumed = nil
	return m
}

// bounds are what can be built, in numbers.
func bounds(s *Scenario) [5]float64 {
	b := &s.Build
	return [...]float64{b.Longest, b.Hottest, b.Driest, b.Slowest, b.Fastest}
}

func valueOf(t *testing.T, s *Scenario, name string) float64 {
	t.Helper()
	for _, k := range s.Keys() {
		if k.Name == name {
			require.True(t, k.Known)
			return k.Value
		}
	}
	require.Fail(t, "no such key", name)
	return math.NaN()
}

func TestSettingsReachKeysThatTheFileLeavesOut(t *testing.T) {
	s := demo(t, "winch-drum")
	s, err := s.With(Setting{"zone.guide.air.dew_point", "-10 °C"}, Setting{"room.pressure", "90 kPa"},
		Setting{"strand.material", "pa12"}, Setting{"numerics.heat", "lumped"}, Setting{"zone.guide.vertical", "true"},
		Setting{"strand.properties.diffusivity.beta", "7"}, Setting{"strand.properties.density", "1.3 g/cm3"})
	require.NoError(t, err)
	// Over ice at -10 °C: 259.9 Pa (Goff & Gratch, Smithsonian tables, from memory, to the last digit).
	require.InDelta(t, 259.9, s.Model.Path[1].Air.VapourPressure, 0.1)
	require.InDelta(t, 9e4, s.Model.Pressure, 1e-9)
	require.Equal(t, "pa12", s.Model.Material.ID)
	require.True(t, s.Model.Path[1].Film.Vertical)
	require.InDelta(t, 7, s.Model.Material.Diffusivity.Beta.Value, 1e-12)
	require.InDelta(t, 1300, s.Model.Material.Density.Value, 1e-9)

	// The last setting of a key holds, also over those of an earlier With.
	s, err = s.With(Setting{"room.pressure", "80 kPa"}, Setting{"room.pressure", "70 kPa"})
	require.NoError(t, err)
	require.InDelta(t, 7e4, s.Model.Pressure, 1e-9)
	require.InDelta(t, 1300, s.Model.Material.Density.Value, 1e-9)
}

func TestFaultySettings(t *testing.T) {
	s := demo(t, "winch-drum")
	for _, c := range []struct{ key, value, want string }{
		{"zone.drum.lenght", "1 m", `setting: zone.drum.lenght = "1 m": unknown key; allowed: a key of the scenario, such as zone.drum.length, `},
		{"zone.drum.lenght", "1 m", `did you mean "zone.drum.length"?`},
		{"zone.drum.length", "0 m", `setting: zone.drum.length = "0 m": outside the limits; allowed: 0.001 m to 10000 m`},
		{"zone.drum.length", "12", "a length needs its unit"},
		{"zone.drum.length", "nan m", "no number at the start"},
		{"zone.drum.length", "\"\n\x00\xff", "no number at the start"},
		{"zone.drum.emissivity", "nan", "not a finite number"},
		{"zone.drum.emissivity", "-Inf", "not a finite number"},
		{"zone.drum.emissivity", "much", "a text where a plain number belongs"},
		{"zone.drum.air.humidity", "5 %", "given together with dew_point"},
		{"zone.drum.air.dew_point", "95 °C", "air above saturation"},
		{"feed.flow", "4 mm3/s", "given together with speed"},
		{"strand.room.humidity", "40 %", "given together with moisture"},
		{"strand.properties.densty", "1 g/cm3", `did you mean "density"?`},
		{"strand.properties.density", "-1 g/cm3", "setting: strand.properties.density"},
		{"strand.material", "ppa12", `did you mean "pa12"?`},
		{"", "", "unknown key"},
	} {
		_, err := s.With(Setting{c.key, c.value})
		var faults strict.Faults
		require.ErrorAs(t, err, &faults, c.key)
		require.ErrorContains(t, err, c.want)
	}
	// All of them in one go.
	_, err := s.With(Setting{"zone.drum.length", "0 m"}, Setting{"room.humidity", "101 %"}, Setting{"x", "1"})
	require.Len(t, err, 3)
}

// An axis says exactly the values that a reading of its settings finds.
func TestAxes(t *testing.T) {
	for _, name := range Demos() {
		s := demo(t, name)
		for _, axis := range s.Vary {
			for i, x := range axis.Values {
				at, err := s.With(axis.Setting(i))
				require.NoError(t, err)
				require.Equal(t, x, valueOf(t, at, axis.Key.Name))
			}
		}
	}
	axis := demo(t, "winch-drum").Vary[0]
	require.Len(t, axis.Values, 40)
	require.Equal(t, "m", axis.Unit)
	require.Equal(t, []float64{0.5, 200}, []float64{axis.Values[0], axis.Values[39]})
	for i := 1; i < 40; i++ { // a geometric series, written with 12 digits
		require.InEpsilon(t, math.Pow(400, 1.0/39), axis.Values[i]/axis.Values[i-1], 1e-10)
	}
	linear := demo(t, "clear-cover").Vary[0]
	require.InDelta(t, 353.15+5, linear.Values[1], 1e-9)
	require.InDelta(t, 393.15, linear.Values[8], 1e-9)
}

func TestListedAxesAndUncertainties(t *testing.T) {
	s, err := Read("drum.toml", []byte(strings.ReplaceAll(string(Template()), "[[vary]]", `[[vary]]
key = "zone.drum.emissivity"
values = ["0.2", "0.9"]
[[vary]]
key = "zone.drum.temperature"
values = ["60 °C", "350 K"]
[[vary]]`)))
	require.NoError(t, err)
	require.Equal(t, []float64{0.2, 0.9}, s.Vary[0].Values)
	require.InDelta(t, 350, s.Vary[1].Values[1], 1e-9)
	require.Equal(t, "zone.drum.temperature", s.Uncertain[0].Key.Name)
	require.InDelta(t, 3, (s.Uncertain[0].High-s.Uncertain[0].Value.Value)/materials.EndDeviate, 1e-9)
	require.Equal(t, quantity.Temperature().Name(), s.Uncertain[0].Key.Dimension.Name())
	require.Equal(t, "zone.drum.temperature", s.Given[0].Name)
}
