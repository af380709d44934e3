package materials

import (
	"path"
	"slices"
	"strings"
	"testing"

	"github.com/BurntSushi/toml"
	"github.com/stretchr/testify/require"
)

// Every property of every library file is complete: value with unit (the reader sees
// to it), low <= value <= high (the reader too), kind and source.
func TestLibraryIsComplete(t *testing.T) {
	require.NotEmpty(t, Names())
	for _, name := range Names() {
		text, err := library.ReadFile(path.Join("library", name+".toml"))
		require.NoError(t, err)
		var raw map[string]any
		_, err = toml.Decode(string(text), &raw)
		require.NoError(t, err, name)
		require.Positive(t, requireStated(t, name, raw))

		p, err := Lookup(name)
		require.NoError(t, err)
		require.Equal(t, name, p.ID)
		require.NotEmpty(t, p.Doubts, "%s: nothing is beyond doubt", name)
		require.NotZero(t, p.Diffusivity.Temperature)
		require.NotZero(t, p.Sorption.Temperature)
		require.NotEqual(t, Given, p.Density.Kind)
	}
}

// requireStated walks a file and returns the number of properties seen: a property
// is a table with a plain value.
func requireStated(t *testing.T, where string, table map[string]any) int {
	seen := 0
	_, nested := table["value"].(map[string]any)
	if _, ok := table["value"]; ok && !nested {
		keys := []string{"low", "high", "kind", "source"}
		if path.Base(where) == "scatter" { // its range is the value itself
			keys = keys[2:]
		}
		for _, key := range keys {
			require.Contains(t, table, key, where)
		}
		require.NotEqual(t, "given", table["kind"], where)
		require.NotEqual(t, "fitted", table["kind"], where)
		seen++
	}
	for key, value := range table {
		require.NotEqual(t, "base", key, where)
		switch v := value.(type) {
		case map[string]any:
			seen += requireStated(t, where+"/"+key, v)
		case []map[string]any:
			for _, one := range v {
				seen += requireStated(t, where+"/"+key, one)
				if _, isNote := one["text"]; isNote {
					require.Contains(t, one, "source", where+"/"+key)
					require.Contains(t, one, "kind", where+"/"+key)
				}
			}
		}
	}
	return seen
}

// The ends of each range are the 5 and 95 % points of a law whose median is the value: it lies strictly between, and what
// is log-normal has no end at zero. The scatter says the same of the diffusivity, to the digits that are written.
func TestRangesAreLaws(t *testing.T) {
	polymers, err := Library()
	require.NoError(t, err)
	check := func(id, key string, v Value) {
		require.Less(t, v.Low, v.Value, "%s: %s", id, key)
		require.Less(t, v.Value, v.High, "%s: %s", id, key)
		if key != "beta" && key != "mixing_enthalpy" {
			require.Positive(t, v.Low, "%s: %s", id, key)
		}
	}
	for i := range polymers {
		p := &polymers[i]
		all := slices.Concat(p.properties(), p.Diffusivity.properties(), p.Sorption.parameters())
		all = append(all, property{key: "mixing_enthalpy", into: &p.Sorption.MixingEnthalpy})
		for j := range p.Diffusivity.Pieces {
			all = append(all, property{key: "activation", into: &p.Diffusivity.Pieces[j].Activation})
		}
		for _, one := range all {
			switch {
			case one.key == "scatter":
			case one.into != nil:
				check(p.ID, one.key, *one.into)
			case *one.optional != nil:
				check(p.ID, one.key, **one.optional)
			}
		}
		for j := range p.Moduli {
			check(p.ID, "modulus", p.Moduli[j].Modulus)
		}
		d, f := p.Diffusivity.ReferenceValue, p.Diffusivity.Scatter.Value
		require.InEpsilon(t, f, d.High/d.Value, 0.07, p.ID)
		require.InEpsilon(t, f, d.Value/d.Low, 0.07, p.ID)
	}
}

func TestLookup(t *testing.T) {
	_, err := Lookup("PA-6")
	var unknown *UnknownError
	require.ErrorAs(t, err, &unknown)
	require.Equal(t, "pa6", unknown.Nearest)
	require.ErrorContains(t, err, `unknown material "PA-6"; allowed: abs, `)
	_, err = Lookup("../secret")
	require.ErrorAs(t, err, &unknown)
}

// No polymer here holds over 40 % of water at saturation (poly(vinyl alcohol) dissolves
// before that), and the reference states lie in, or at most 10 K beside, the data.
func TestLibraryIsPlausible(t *testing.T) {
	polymers, err := Library()
	require.NoError(t, err)
	for _, p := range polymers {
		require.Less(t, p.Sorption.Content(1, room), 0.4, p.ID)
		beside := Range{Min: p.Sorption.Temperature.Min - 10, Max: p.Sorption.Temperature.Max + 10}
		require.True(t, beside.Holds(p.Sorption.Reference), p.ID)
		beside = Range{Min: p.Diffusivity.Temperature.Min - 10, Max: p.Diffusivity.Temperature.Max + 10}
		require.True(t, beside.Holds(p.Diffusivity.Reference), p.ID)
		require.Less(t, p.Diffusivity.ReferenceValue.Low, p.Diffusivity.ReferenceValue.High, p.ID)
	}
}

// Two of one name are told apart by what they are and where they come from.
func TestIdentity(t *testing.T) {
	library, err := Lookup("pa6")
	require.NoError(t, err)
	again, err := Lookup("pa6")
	require.NoError(t, err)
	require.True(t, library.Same(&again))
	require.Equal(t, FromLibrary, library.Origin)
	require.Equal(t, "pa6", library.Label())
	files := map[string]string{"own/pa6.toml": "base = \"pa6\"\n", "mine.toml": "base = \"pa6\"\n"}
	open := func(file string) ([]byte, error) { return []byte(files[file]), nil }
	own, err := Resolve("own/pa6.toml", open)
	require.NoError(t, err)
	require.False(t, own.Same(&library))
	require.Equal(t, "pa6 (own/pa6.toml)", own.Label())
	require.Equal(t, library.Name+" (pa6.toml)", own.Title())
	mine, err := Resolve("mine.toml", open)
	require.NoError(t, err)
	require.Equal(t, "mine", mine.Label())
	require.Equal(t, library.Name, mine.Title())
	files["own/pa6.toml"] += "printing_limit = \"0.05 %\"\n"
	changed, err := Resolve("own/pa6.toml", open)
	require.NoError(t, err)
	require.False(t, changed.Same(&own))
	own.Origin = "a/very/long/way/to/" + strings.Repeat("x", 300) + "/pa6.toml" + strings.Repeat("y", 300)
	require.Less(t, len(own.Title()), 40)
}
