package scenarios

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/materials/text/strict"
)

const malformed = "../testdata/malformed/scenarios"

// Each file tells in its first lines what must be found in it: one "# expect:" for
// each fault, so that a fault missed and a fault made up both fail.
func TestMalformedFiles(t *testing.T) {
	files, err := filepath.Glob(filepath.Join(malformed, "*.toml"))
	require.NoError(t, err)
	tried := 0
	for _, file := range files {
		name := filepath.Base(file)
		if strings.HasPrefix(name, "good-") {
			continue
		}
		tried++
		t.Run(name, func(t *testing.T) {
			text, err := os.ReadFile(file)
			require.NoError(t, err)
			expected := expectations(string(text))
			require.NotEmpty(t, expected)
			_, err = Load(file)
			var faults strict.Faults
			require.ErrorAs(t, err, &faults)
			require.Len(t, faults, len(expected), "%v", err)
			for _, want := range expected {
				require.Condition(t, func() bool { return anyHolds(faults, want) }, "%q not in\n%v", want, err)
			}
		})
	}
	require.GreaterOrEqual(t, tried, 25)
}

func expectations(text string) []string {
	var all []string
	for line := range strings.Lines(text) {
		want, ok := strings.CutPrefix(strings.TrimSpace(line), "# expect: ")
		if !ok {
			break
		}
		all = append(all, want)
	}
	return all
}

func anyHolds(faults strict.Faults, want string) bool {
	for _, f := range faults {
		if strings.Contains(f.String(), want) {
			return true
		}
	}
	return false
}

// A file written on another system: byte order mark and carriage returns.
func TestGoodFilesWithOddBytes(t *testing.T) {
	files, err := filepath.Glob(filepath.Join(malformed, "good-*.toml"))
	require.NoError(t, err)
	require.NotEmpty(t, files)
	for _, file := range files {
		_, err := Load(file)
		require.NoError(t, err, file)
	}
}

func TestUnreadableFiles(t *testing.T) {
	folder := t.TempDir()
	write := func(name string, text []byte) string {
		path := filepath.Join(folder, name)
		require.NoError(t, os.WriteFile(path, text, 0o600))
		return path
	}
	long := write("long.toml", []byte(strings.Repeat("#", strict.MaxSize+1)))
	write("drum.toml", Template())
	for path, want := range map[string]string{
		long:                               "too long",
		folder:                             "this is a folder",
		filepath.Join(folder, "durm.toml"): "did you mean",
		write("none.toml", nil):            "no zone",
		write("zero.toml", []byte{0, 0}):   "zero bytes",
		os.DevNull:                         "no ordinary file",
	} {
		_, err := Load(path)
		var faults strict.Faults
		require.ErrorAs(t, err, &faults, path)
		require.ErrorContains(t, err, want)
		require.ErrorContains(t, err, filepath.Base(path))
	}
}

// A material file that cannot be read is named, however long its path is.
func TestUnreadableMaterialFiles(t *testing.T) {
	folder := t.TempDir()
	scenario := filepath.Join(folder, "drum.toml")
	named := filepath.ToSlash(filepath.Join(folder, strings.Repeat("deep/", 30), "mine.toml"))
	require.NoError(t, os.WriteFile(scenario, []byte(strings.Replace(string(Template()), `"pa6"`, `"`+named+`"`, 1)), 0o600))
	_, err := Load(scenario)
	require.ErrorContains(t, err, "there is no such file")
	require.ErrorContains(t, err, "mine.toml")
}

// A material file beside the scenario is found wherever the program runs, and its
// values come through.
func TestMaterialFileBesideTheScenario(t *testing.T) {
	folder := t.TempDir()
	write := func(name, text string) {
		require.NoError(t, os.WriteFile(filepath.Join(folder, name), []byte(text), 0o600))
	}
	write("own.toml", "base = \"pa6\"\ndensity = \"1.2 g/cm3\"\n")
	write("drum.toml", strings.Replace(string(Template()), `"pa6"`, `"own.toml"`, 1))
	s, err := Load(filepath.Join(folder, "drum.toml"))
	require.NoError(t, err)
	require.InDelta(t, 1200, s.Model.Material.Density.Value, 1e-9)

	// A text has no folder.
	_, err = Read("drum.toml", []byte(strings.Replace(string(Template()), `"pa6"`, `"own.toml"`, 1)))
	require.ErrorContains(t, err, "own.toml")
}
