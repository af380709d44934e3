package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion/samples"
)

// ownNylon writes a material of the library's name and a scenario of it, and returns their paths.
func ownNylon(t *testing.T, properties string) (material, scenario string) {
	t.Helper()
	folder := t.TempDir()
	require.NoError(t, os.Mkdir(filepath.Join(folder, "own"), 0o700))
	material = filepath.Join(folder, "own", "pa6.toml")
	require.NoError(t, os.WriteFile(material, []byte("base = \"pa6\"\nname = \"PA6\"\nprinting_limit = \"0.05 %\"\n"), 0o600))
	scenario = filepath.Join(folder, "dryer.toml")
	require.NoError(t, os.WriteFile(scenario, []byte(`[strand]
material = "own/pa6.toml"
[feed]
speed = "2 mm/s"
[[zone]]
name = "drum"
length = "12 m"
temperature = "75 °C"
air = { dew_point = "-30 °C" }
[numerics]
resolution = 2.5
tolerance = 0.01
`+properties), 0o600))
	return material, scenario
}

// rowsOf are the limits of the rows of one material in a view, by where it comes from.
func rowsOf(t *testing.T, d any, list, material string) map[string]float64 {
	t.Helper()
	found := map[string]float64{}
	rows, ok := at(t, d, list).([]any)
	require.True(t, ok)
	for i, row := range rows {
		if at(t, row, "material") == material {
			origin, ok := at(t, row, "origin").(string)
			require.True(t, ok)
			found[origin] = number(t, d, list, i, "limit")
		}
	}
	require.NotEmpty(t, found)
	return found
}

// A file is that file, whatever it is called.
func TestMaterialOfAFileIsThatFile(t *testing.T) {
	if testing.Short() {
		t.Skip("long; others meet the same goroutines")
	}
	material, _ := ownNylon(t, "")
	for verb, list := range map[string]string{"suits": "soaked", "keeps": "materials"} {
		d := decoded(t, verb, "--demo", "opened-yesterday", "--material", material, "--json")
		require.Equal(t, map[string]float64{material: 0.0005}, rowsOf(t, d, list, "pa6"), verb)
		d = decoded(t, verb, "--demo", "opened-yesterday", "--material", "pa6", "--json")
		require.Equal(t, map[string]float64{"library": 0.003}, rowsOf(t, d, list, "pa6"), verb)
	}
}

// Two of one name are both shown, and told apart.
func TestTwoMaterialsOfOneName(t *testing.T) {
	t.Parallel()
	if testing.Short() {
		t.Skip("long; others meet the same goroutines")
	}
	material, scenario := ownNylon(t, "")
	both := map[string]float64{"library": 0.003, "own/pa6.toml": 0.0005}
	for verb, list := range map[string]string{"suits": "soaked", "keeps": "materials"} {
		if verb == "suits" && samples.Of(1, 2, 2) == 1 {
			continue // the odds of the whole library
		}
		if samples.Of(1, 2, 2) == 2 { // the whole library once is enough for its text
			require.Equal(t, both, rowsOf(t, decoded(t, verb, scenario, "--json"), list, "pa6"), verb)
		}
		require.Equal(t, map[string]float64{"library": 0.003}, rowsOf(t, decoded(t, verb, scenario, "--material", "pa6", "--json"), list, "pa6"), verb)
		d := decoded(t, verb, scenario, "--material", material, "--json") // by another way to the file
		require.Equal(t, map[string]float64{"own/pa6.toml": 0.0005}, rowsOf(t, d, list, "pa6"), verb)
		args := []string{verb, scenario}
		if samples.Of(1, 2, 2) == 1 { // these two of the whole library
			args = append(args, "--material", "pa6", "--material", "own/pa6.toml")
		}
		text := mustAnswer(t, args...)
		require.Contains(t, text, "\npa6 ")
		require.Contains(t, text, "\npa6 (own")
		require.Contains(t, text, "…: pa6 (own/pa6.toml)\n")
		if verb == "keeps" {
			for _, line := range strings.Split(text, "\n") {
				require.LessOrEqual(t, len([]rune(line)), 80)
			}
		}
	}
	d := decoded(t, "run", scenario, "--json")
	require.Equal(t, "own/pa6.toml", at(t, d, "origin"))
	require.NotContains(t, mustAnswer(t, "run", scenario), "strandry materials pa6")
}

// What a scenario lays over a material of the library makes another one of it, also by its name.
func TestPropertiesMakeAnotherMaterial(t *testing.T) {
	t.Parallel()
	if testing.Short() {
		t.Skip("long; others meet the same goroutines")
	}
	_, scenario := ownNylon(t, "[strand.properties]\nprinting_limit = \"0.1 %\"\n")
	both := map[string]float64{"own/pa6.toml": 0.0005, scenario: 0.001}
	d := decoded(t, "suits", scenario, "--material", "own/pa6.toml", "--json")
	require.Equal(t, both, rowsOf(t, d, "soaked", "pa6"))
	if samples.Of(1, 2, 2) == 1 {
		return
	}
	both["library"] = 0.003
	delete(both, "own/pa6.toml")
	require.Equal(t, both, rowsOf(t, decoded(t, "suits", scenario, "--json"), "soaked", "pa6"))
}
