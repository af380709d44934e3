package main

import (
	"encoding/csv"
	"encoding/json"
	"encoding/xml"
	"errors"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion/samples"
	"strandry/materials/text/inert"
)

// oddName is the beginning of a file's name that a terminal would obey, a reader misread and no text hold.
const oddName = "odd\x1b[2J\u202e\n\t\xff"

// shownName is how it is shown: the control sequence and the bytes by the escapes of Go.
const shownName = `odd\u001b[2J\u202e\n\t\xff`

// quick is a scenario that takes little time; without a title it is called after its file.
const quick = `
[strand]
material = "pp"
[feed]
speed = "4 mm/s"
[[zone]]
name = "=oven"
length = "1 m"
temperature = "60 °C"
air = { dew_point = "-20 °C" }
[numerics]
resolution = 2.4
tolerance = 0.01
`

// printable requires a text to hold nothing but lines of what can be printed.
func printable(t *testing.T, text, what string) {
	t.Helper()
	require.Equal(t, inert.EscapedLines(text), text, what)
}

// TestOddNamesAreShownEscaped names a scenario, a material file and folders oddly, and looks at whatever comes out.
func TestOddNamesAreShownEscaped(t *testing.T) {
	if runtime.GOOS == "windows" || runtime.GOOS == "darwin" {
		t.Skip("no file can be called so there")
	}
	t.Chdir(t.TempDir())
	file, material := oddName+".toml", oddName+"-pp.toml"
	require.NoError(t, os.WriteFile(file, []byte("# \u202e a comment\n"+quick), 0o600))
	require.NoError(t, os.WriteFile(material, []byte("base = \"pp\"\n[density]\nvalue = \"905 kg/m3\"\n"), 0o600))
	missing := oddName + "-none.toml"
	for _, c := range []struct {
		status int
		shows  bool
		args   []string
	}{
		{answered, true, []string{"run", file}},
		{answered, true, []string{"run", file, "--json"}},
		{answered, true, []string{"size", file, "--for", "zone.=oven.length"}},
		{answered, true, []string{"suits", file, "--material", material}},
		{answered, true, []string{"keeps", file, "--material", material}},
		{answered, true, []string{"keeps", file, "--material", material, "--json"}},
		{answered, true, []string{"materials", material}},
		{answered, true, []string{"materials", material, "--json"}},
		{answered, true, []string{"new", oddName + "-new.toml"}},
		{answered, true, []string{"sweep", file, "-o", oddName + "-sweep", "--vary", "zone.=oven.length=1 m, 2 m"}},
		{failed, true, []string{"sweep", file, "-o", oddName + "-sweep", "--vary", "zone.=oven.length=1 m, 3 m"}},
		{answered, false, []string{"plot", file, "-o", "plots"}},
		{answered, true, []string{"buildlog", file, "-o", oddName + "-log"}},
		{failed, true, []string{"run", missing}},
		{failed, true, []string{"materials", missing}},
		{failed, true, []string{"new", oddName + "-new.toml"}},
		{failed, true, []string{"sweep", file, "-o", filepath.Join(file, "below"), "--vary", "zone.=oven.length=1 m, 2 m"}},
		{misused, true, []string{"run", "--demo", oddName}},
		{misused, true, []string{oddName}},
	} {
		if c.args[0] == "buildlog" && samples.Of(1, 2, 2) == 1 {
			continue // the odds of the whole library
		}
		status, out, errOut := call(c.args...)
		require.Equal(t, c.status, status, "%q: %s", c.args, errOut)
		printable(t, out+errOut, c.args[0])
		if c.shows {
			require.Contains(t, out+errOut, "[2J", c.args)
		}
		if c.args[len(c.args)-1] == "--json" {
			require.True(t, json.Valid([]byte(out)), c.args)
			require.Contains(t, out, strings.ReplaceAll(shownName, `\`, `\\`))
		}
	}
	printableFiles(t)
	if samples.Of(1, 2, 2) == 2 {
		require.Contains(t, content(t, oddName+"-log", "buildlog.md"), `strandry buildlog $'odd\x1b[2J\xe2\x80\xae\x0a\x09\xff.toml' -o DIR`)
	}
	said, err := exec.Command("bash", "-c", `ls $'odd\x1b[2J\xe2\x80\xae\x0a\x09\xff.toml'`).CombinedOutput()
	if !errors.Is(err, exec.ErrNotFound) {
		require.NoError(t, err, string(said))
	}
}

// printableFiles looks through the texts that were written below the working folder; the copy of a scenario is the user's own.
func printableFiles(t *testing.T) {
	t.Helper()
	looked := 0
	require.NoError(t, filepath.WalkDir(".", func(path string, entry os.DirEntry, err error) error {
		require.NoError(t, err)
		kind := filepath.Ext(path)
		if entry.IsDir() || kind == ".toml" || kind == ".png" || kind == ".pdf" || entry.Name() == "sweep.partial" {
			return nil
		}
		looked++
		text := content(t, path)
		printable(t, text, path)
		switch kind {
		case ".svg", ".html":
			d := xml.NewDecoder(strings.NewReader(text))
			for err == nil {
				_, err = d.Token()
			}
			require.ErrorIs(t, err, io.EOF, path)
		case ".json":
			require.True(t, json.Valid([]byte(text)), path)
		}
		return nil
	}))
	require.Greater(t, looked, samples.Of(9, 10, 10)) // two more with a build log
}

// TestTableRunsNothing: a spreadsheet computes what begins with = + - @ (advice on CSV injection of the Open Worldwide
// Application Security Project). Names of that kind get an apostrophe in the table, and nowhere else; numbers stay numbers.
func TestTableRunsNothing(t *testing.T) {
	folder := t.TempDir()
	materials := []string{"=1+1.toml", "+a.toml", "-b.toml", "@c.toml", "d.toml"}
	for _, name := range materials {
		require.NoError(t, os.WriteFile(filepath.Join(folder, name), []byte("base = \"pp\"\n"), 0o600))
	}
	file := filepath.Join(folder, "strand.toml")
	require.NoError(t, os.WriteFile(file, []byte(quick), 0o600))
	out := filepath.Join(folder, "out")
	sweep := []string{"sweep", file, "-o", out, "--vary", "strand.material=" + strings.Join(materials, ", "), "--vary", "zone.=oven.air.dew_point=-30 °C, -20 °C"}
	mustAnswer(t, sweep...)
	rows, err := csv.NewReader(strings.NewReader(content(t, out, tableFile))).ReadAll()
	require.NoError(t, err)
	require.Equal(t, []string{"strand.material", "zone.=oven.air.dew_point [°C]"}, rows[0][:2])
	for i, name := range []string{"'=1+1.toml", "'+a.toml", "'-b.toml", "'@c.toml", "d.toml"} {
		require.Equal(t, []string{name, "-30"}, rows[1+2*i][:2])
		require.Equal(t, []string{name, "-20"}, rows[2+2*i][:2])
	}
	var d any
	require.NoError(t, json.Unmarshal([]byte(content(t, out, dataFile)), &d))
	require.Equal(t, "=1+1.toml", at(t, d, "axes", 0, "names", 0))

	whole := content(t, out, tableFile)
	require.Contains(t, mustAnswer(t, append(sweep, "--continue")...), "nothing to do")
	mustAnswer(t, append(sweep, "--force")...)
	require.Equal(t, whole, content(t, out, tableFile))
}
