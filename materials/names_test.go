package materials

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// The letters are those of ISO 1043-1 (plastics, symbols and abbreviated terms), whose full names these are.
func TestUnderstood(t *testing.T) {
	for given, want := range map[string]string{
		"pa6": "pa6", "PETG": "petg", "PET-G": "petg", "Pla": "pla", "PA 12": "pa12", "PA-6": "pa6", "PA 6.6": "pa66", "PA6/6": "pa66", "PA6/66": "pa6-66",
		"pa6_cf20": "pa6-cf20", "PA6-CF20": "pa6-cf20", "TPU (ester)": "tpu-ester", "TPU Ether": "tpu-ether", "Nylon 12": "pa12", "nylon-6": "pa6", "Nylon 6,6": "pa66",
		"Polycarbonate": "pc", "polylactic acid": "pla", "PVOH": "pva", "acetal": "pom", "own/My-PETG.toml": "own/My-PETG.toml",
	} {
		name, taken, err := Understood(given)
		require.NoError(t, err, given)
		require.Equal(t, want, name, given)
		require.Empty(t, taken, given)
	}
	for given, says := range map[string]string{
		"Nylon": `"Nylon" taken as pa6; others: pa66, pa6-66, pa12, pa6-cf20`, "polyamide": `"polyamide" taken as pa6; others: pa66, pa6-66, pa12, pa6-cf20`,
		"acrylic": `"acrylic" taken as pmma`, "PA6-CF": `"PA6-CF" taken as pa6-cf20`,
	} {
		_, taken, err := Understood(given)
		require.NoError(t, err, given)
		require.Equal(t, says, taken)
	}
	for given, says := range map[string]string{
		"tpu": "allowed: tpu-ester, tpu-ether, or a material file of your own with base = \"tpu-ester\"", "PA12-CF": "allowed: pa12, pa6-cf20, or", "PETG-GF30": "allowed: petg, or",
		"PLA+": "allowed: pla, or", "polyester": "allowed: petg, pet, or", "ppa6": `did you mean "pa6"?`, "xyzzy": "allowed: abs, asa, ", "+": "allowed: abs", "cf": "allowed: abs", "": "allowed: abs",
	} {
		_, _, err := Understood(given)
		require.ErrorContains(t, err, says, given)
	}
}

// No two polymers of the library have one spelling, no word means one where another has that name, and what is offered is there.
func TestWordsAreUnambiguous(t *testing.T) {
	seen := map[string]string{}
	for _, name := range Names() {
		word := letters(name)
		require.NotContains(t, seen, word)
		seen[word] = name
		require.Empty(t, fullName(word), name)
		require.Empty(t, familyOf(word).commonest, name)
		p, err := Lookup(name)
		require.NoError(t, err)
		understood, taken, err := Understood(p.Name)
		if err == nil {
			require.Equal(t, name, understood)
			require.Empty(t, taken)
		}
	}
	for _, word := range []string{"nylon", "acrylic", "htpla", "pacf", "tpu", "polyester", "ps", "pa12cf", "abs+"} {
		f := familyOf(word)
		if f.commonest != "" {
			require.Contains(t, Names(), f.commonest)
		}
		for _, name := range f.candidates {
			require.Contains(t, Names(), name, word)
		}
	}
}

// A base has to be a definite one, however it is spelt.
func TestBaseIsDefinite(t *testing.T) {
	files := map[string]string{"a.toml": "base = \"PETG\"\n", "b.toml": "base = \"nylon\"\n", "c.toml": "base = \"tpu\"\nprinting_limit = \"0.5\"\n"}
	open := func(file string) ([]byte, error) { return []byte(files[file]), nil }
	p, err := Resolve("a.toml", open)
	require.NoError(t, err)
	require.Equal(t, "PETG", p.Name)
	_, err = Resolve("b.toml", open)
	require.ErrorContains(t, err, `b.toml:1: base = "nylon": unknown material; allowed: pa6, pa66, pa6-66, pa12, pa6-cf20, or`)
	_, err = Resolve("c.toml", open)
	require.ErrorContains(t, err, "allowed: tpu-ester, tpu-ether, or")
	require.ErrorContains(t, err, "c.toml:2: printing_limit")
}
