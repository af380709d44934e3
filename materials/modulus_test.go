package materials

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
)

func celsius(t float64) float64 { return t + 273.15 }

// requireModulus refuses NaN, and says what is off.
func requireModulus(t *testing.T, value, low, high float64, v Value, known bool) {
	t.Helper()
	require.True(t, known)
	for i, pair := range [][2]float64{{value, v.Value}, {low, v.Low}, {high, v.High}} {
		require.False(t, math.IsNaN(pair[1]))
		require.InEpsilon(t, pair[0], pair[1], 1e-4, "number %d", i)
	}
}

// By hand: a quarter of the way from 2 to 0.5 GPa is 2 × (1/4)^(1/4) = 1.41421; halfway, the geometric mean.
func TestModulusBetweenPoints(t *testing.T) {
	p := Polymer{Moduli: []ModulusAt{
		{celsius(20), Value{2e9, 1.6e9, 2.5e9, PublishedWeak, "one"}},
		{celsius(60), Value{0.5e9, 0.1e9, 1.6e9, Memory, "two"}},
		{celsius(80), Value{0.02e9, 0.005e9, 0.08e9, Published, "two"}},
	}}
	v, known := p.Modulus(celsius(30))
	requireModulus(t, 1.41421e9, 0.8e9, 2.5e9*0.894427, v, known) // (0.1/1.6)^¼ = ½, (1.6/2.5)^¼ = √0.8
	require.Equal(t, Memory, v.Kind)
	require.Equal(t, "one; two", v.Source)
	v, known = p.Modulus(celsius(70))
	requireModulus(t, 0.1e9, 0.0223607e9, 0.357771e9, v, known) // √(0.5 × 0.02), √(0.1 × 0.005), √(1.6 × 0.08)
	require.Equal(t, "two", v.Source)
	for _, m := range p.Moduli {
		v, known = p.Modulus(m.Temperature)
		require.True(t, known)
		require.Equal(t, m.Modulus, v)
	}
	v, known = p.Modulus(celsius(-40))
	require.True(t, known)
	require.Equal(t, p.Moduli[0].Modulus, v)
	for _, T := range []float64{math.Nextafter(celsius(80), 1e3), celsius(200), 0, -1, math.NaN(), math.Inf(1), math.Inf(-1)} {
		v, known = p.Modulus(T)
		require.False(t, known, T)
		require.Zero(t, v)
	}
	_, known = (&Polymer{}).Modulus(celsius(20))
	require.False(t, known)
}

// What a file states takes the place of what its base does: the cold point alone, the points above it, or all.
func TestModulusStated(t *testing.T) {
	base, err := Lookup("pa6")
	require.NoError(t, err)
	require.Greater(t, len(base.Moduli), 3)
	hot := "[[modulus]]\ntemperature = \"60 °C\"\nvalue = \"900 MPa\"\nlow = \"700 MPa\"\nhigh = \"1.1 GPa\"\n[[modulus]]\ntemperature = \"90 °C\"\nvalue = \"0.4 GPa\"\nkind = \"fitted\"\nsource = \"own\"\n"
	stated := []ModulusAt{{celsius(60), Value{9e8, 7e8, 1.1e9, Given, "mine.toml"}}, {celsius(90), Value{4e8, 4e8, 4e8, Fitted, "own"}}}
	cold := ModulusAt{ColdModulus, Value{1e9, 1e9, 1e9, Given, "mine.toml"}}
	room := ModulusAt{celsius(23), Value{2e9, 2e9, 2e9, Given, "mine.toml"}}
	for text, want := range map[string][]ModulusAt{
		"":                                   base.Moduli,
		"youngs_modulus = \"1 GPa\"\n":       slices.Concat([]ModulusAt{cold}, base.Moduli[1:]),
		hot:                                  slices.Concat(base.Moduli[:1], stated),
		"youngs_modulus = \"1 GPa\"\n" + hot: slices.Concat([]ModulusAt{cold}, stated),
		"[[modulus]]\ntemperature = \"23 °C\"\nvalue = \"2 GPa\"\n" + hot: slices.Concat([]ModulusAt{room}, stated),
	} {
		p, err := Read("mine.toml", []byte("base = \"pa6\"\n"+text), func(string) (Polymer, error) { return base, nil })
		require.NoError(t, err, text)
		require.Equal(t, want, p.Moduli, text)
	}
	again, err := Lookup("pa6")
	require.NoError(t, err)
	require.Equal(t, base.Moduli, again.Moduli) // a base is not written to
	require.Equal(t, celsius(23), ColdModulus)
}

// Of the library each begins at 23 °C, falls with the temperature, all three numbers, and ends; between its points as well.
func TestLibraryModulusFalls(t *testing.T) {
	all, err := Library()
	require.NoError(t, err)
	for i := range all {
		p := &all[i]
		require.NotEmpty(t, p.Moduli, p.ID)
		require.Equal(t, ColdModulus, p.Moduli[0].Temperature, p.ID)
		before := Value{Value: math.Inf(1), Low: math.Inf(1), High: math.Inf(1)}
		for _, m := range p.Moduli {
			v := m.Modulus
			require.True(t, 0 < v.Low && v.Low < v.Value && v.Value < v.High, "%s at %g", p.ID, m.Temperature)
			require.True(t, v.Low < before.Low && v.Value < before.Value && v.High < before.High, "%s at %g", p.ID, m.Temperature)
			before = v
		}
		end := p.Moduli[len(p.Moduli)-1].Temperature
		for T := ColdModulus; T < end; T += 0.7 {
			a, known := p.Modulus(T)
			require.True(t, known)
			b, known := p.Modulus(min(T+0.7, end))
			require.True(t, known)
			require.True(t, b.Value < a.Value && b.Low < a.Low && b.High < a.High && a.Low < a.Value && a.Value < a.High, "%s at %g", p.ID, T)
		}
		require.Less(t, end, p.NozzleTemperature.Value, p.ID)
		_, known := p.Modulus(end + 0.1)
		require.False(t, known)
		_, known = p.Modulus(p.DryingTemperature.Value)
		require.Equal(t, p.ID != "pva" && p.ID != "bvoh", known, "%s where it is dried", p.ID) // the modulus of these two goes with their water
	}
}

// What is printed of short-time moduli lies in the range, or within a factor of the value: that by which grades and methods differ.
func TestModulusAgainstPublished(t *testing.T) {
	for _, r := range []struct {
		id          string
		celsius     float64
		gigapascals float64
		factor      float64
		source      string
	}{
		{"pc", 23, 2.3, 1.05, "in tension, handbook compilation of 1999"},
		{"pp", 23, 1.17, 1.3, "in bending, the same, least"},
		{"pp", 23, 1.72, 1.3, "in bending, the same, most"},
		{"pp", 93.3, 0.345, 1.05, "200 °F, in bending, the same"},
		{"pp", 121, 0.241, 1.05, "250 °F, in bending, the same"},
		{"pla", 23, 1.86, 1.7, "extruded, Polymers 9:406 (2017), Table 3"},
		{"pla", 23, 3.5, 1.3, "a supplier's value, Processes 13:2733 (2025), section 2.1"},
		{"pla-cryst", 23, 3.85, 1.05, "ACS Omega 5:20890 (2020), Table 3"},
		{"abs", 23, 2.1, 1.1, "a supplier's value, Processes 13:2733 (2025), section 2.1"},
		{"petg", 23, 2.0, 1.1, "a supplier's value, Processes 13:2733 (2025), section 2.1"},
		{"pa6", 20, 2.6, 1.15, "database of materials, least"},
		{"pa6", 20, 3.0, 1.15, "database of materials, most"},
		{"peek", 23, 3.6, 1.05, "encyclopaedia"},
	} {
		p, err := Lookup(r.id)
		require.NoError(t, err)
		v, known := p.Modulus(celsius(r.celsius))
		require.True(t, known)
		ratio := v.Value / (1e9 * r.gigapascals)
		require.True(t, ratio < r.factor && ratio > 1/r.factor, "%s at %g °C: %g of %s", r.id, r.celsius, ratio, r.source)
	}
}

// Temperatures of deflection under load, as tables and makers' sheets print them: a bar bent to 0.2 % by 1.8 or 0.45 MPa has a modulus of 0.9 or 0.225 GPa there, which is in the range of the curve.
// The load lies on it for minutes, so that the median of the curve, of seconds, may be larger.
func TestModulusAgainstDeflectionTemperatures(t *testing.T) {
	const heavy, light, strain = 1.8e6, 0.45e6, 0.002
	for _, r := range []struct {
		id      string
		celsius float64
		stress  float64
	}{
		{"pla", 52, heavy},
		{"pla", 57.8, light},
		{"petg", 72.5, light},
		{"abs", 90, heavy},
		{"abs", 94, light},
		{"asa", 94, light},
		{"pc", 133, heavy},
		{"pc", 140, light},
		{"pa6", 65, heavy},
		{"pa6", 150, light},
		{"pa12", 145, light},
		{"pa66", 190, light},
		{"pp", 93, light},
	} {
		p, err := Lookup(r.id)
		require.NoError(t, err)
		v, known := p.Modulus(celsius(r.celsius))
		require.True(t, known)
		e := r.stress / strain
		require.True(t, v.Low <= e && e <= v.High, "%s at %g °C: %.3g in %.3g to %.3g", r.id, r.celsius, e, v.Low, v.High)
	}
}
