package scenarios

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion"
)

const copiedScenario = "\ufeff# material = \"../own/pa6.toml\" stands here too\r\n" + `title = "../own/pa6.toml"
strand = { material = "../own/pa6.toml", 'diameter' = "1.75 mm" }
feed.speed = "1 mm/s"
[[zone]]
name = "../own/pa6.toml"
length = "3 m" # not "../own/pa6.toml"
temperature = "80 °C"
air = { dew_point = "-20 °C" }
[[vary]]
key = "strand.material"
"values" = [
  "pa12", '../own/pa6.toml', # "pa6.toml"
  "..\u002fown/../own/ODD name é.toml", "pa6.toml",
]
`

// put writes a file below a folder, which is made.
func put(t *testing.T, content string, path ...string) string {
	t.Helper()
	name := filepath.Join(path...)
	require.NoError(t, os.MkdirAll(filepath.Dir(name), 0o700))
	require.NoError(t, os.WriteFile(name, []byte(content), 0o600))
	return name
}

// limited is a material file on a base whose limit tells it from others.
func limited(base, limit string) string {
	return "base = \"" + base + "\"\nname = \"Mine\"\nprinting_limit = { value = \"" + limit + "\", source = \"a label\", kind = \"published\" }\n"
}

// A copy runs from an empty folder, means the same to the bit, and is a copy of itself from then on.
func TestCopyRunsElsewhere(t *testing.T) {
	folder := t.TempDir()
	file := put(t, copiedScenario, folder, "designs", "drum.toml")
	put(t, limited("deeper/base.toml", "0.11 %"), folder, "own", "pa6.toml")
	put(t, "\ufeff"+limited("pa12", "0.12 %"), folder, "own", "deeper", "base.toml")
	put(t, limited("pa6", "0.13 %"), folder, "own", "ODD name é.toml")
	put(t, limited("../own/pa6.toml", "0.14 %"), folder, "designs", "pa6.toml")
	s, err := Load(file)
	require.NoError(t, err)
	require.Len(t, s.Inputs(), 1+2+2+1+3, "the scenario, and each material with its bases")
	c, err := s.Copy()
	require.NoError(t, err)
	require.Len(t, c.Materials, 4)
	require.NoError(t, os.RemoveAll(folder))

	elsewhere := t.TempDir()
	lay := func(c *Copy) string {
		for _, m := range c.Materials {
			require.Regexp(t, `^materials/[0-9a-f]{12}/[A-Za-z0-9._-]+\.toml$`, m.Name)
			put(t, string(m.Text), elsewhere, filepath.FromSlash(m.Name))
		}
		return put(t, string(c.Text), elsewhere, "scenario.toml")
	}
	again, err := Load(lay(c))
	require.NoError(t, err)
	alike := func(want, got diffusion.Design) {
		t.Helper()
		got.Material.Origin = want.Material.Origin // where its file lies is what differs
		require.Equal(t, want, got)
	}
	alike(s.Design, again.Design)
	require.InDelta(t, 0.0011, again.Limit, 1e-15)
	require.Equal(t, s.Title, again.Title)
	for i := range s.Vary[0].Names {
		one, err := s.With(s.Vary[0].Setting(i))
		if i > 1 { // the files of the first are gone, but not what was read of them before
			require.Error(t, err)
		}
		other, otherErr := again.With(again.Vary[0].Setting(i))
		require.NoError(t, otherErr)
		if i <= 1 {
			alike(one.Design, other.Design)
		} else {
			require.InDelta(t, []float64{0, 0.0011, 0.0013, 0.0014}[i], other.Limit, 1e-15)
		}
	}
	require.True(t, strings.HasPrefix(string(c.Text), "# the material file "))
	require.NotContains(t, string(c.Text), "\ufeff")
	require.Contains(t, string(c.Text), "# material = \"../own/pa6.toml\" stands here too\r\ntitle = \"../own/pa6.toml\"")
	require.Contains(t, string(c.Text), `name = "../own/pa6.toml"`)
	require.Contains(t, string(c.Text), `not "../own/pa6.toml"`)

	second, err := again.Copy()
	require.NoError(t, err)
	require.Equal(t, c.Materials, second.Materials)
}

// Axes in place of the file's are told, with the names that the materials have beside the copy.
func TestCopyTellsAxes(t *testing.T) {
	folder := t.TempDir()
	text, err := DemoText("winch-drum")
	require.NoError(t, err)
	file := put(t, string(text), folder, "a", "drum.toml")
	put(t, limited("pa12", "0.12 %"), folder, "mine.toml")
	s, err := Load(file)
	require.NoError(t, err)
	axes := []string{"feed.speed=1 mm/s, 2 mm/s", "strand.material=pa6, ../mine.toml"}
	s, err = s.Varied(axes...)
	require.NoError(t, err)
	c, err := s.Copy(axes...)
	require.NoError(t, err)
	require.Len(t, c.Materials, 1)
	require.Equal(t, "# swept with --vary \"feed.speed=1 mm/s, 2 mm/s\"\n# swept with --vary \"strand.material=pa6, "+c.Materials[0].Name+"\"\n"+
		"# the material file \"../mine.toml\" was brought along as \""+c.Materials[0].Name+"\"\n"+string(text), string(c.Text))

	plain, err := Demo("winch-drum")
	require.NoError(t, err)
	c, err = plain.Copy()
	require.NoError(t, err)
	require.Equal(t, string(text), string(c.Text), "without files a copy is the text")
	require.Empty(t, c.Materials)
	require.Empty(t, plain.Inputs())
}

// A material that is gone is told before anything is done with the copy; one is renamed however it is written.
func TestCopyRefuses(t *testing.T) {
	folder := t.TempDir()
	text, err := DemoText("winch-drum")
	require.NoError(t, err)
	mine := put(t, limited("pa12", "0.12 %"), folder, "mine.toml")
	file := put(t, strings.Replace(string(text), `"pa6"`, "\"\"\"\nmine.toml\"\"\"", 1), folder, "drum.toml")
	s, err := Load(file)
	require.NoError(t, err)
	c, err := s.Copy()
	require.NoError(t, err)
	require.Contains(t, string(c.Text), "material = \""+c.Materials[0].Name+"\"\n")
	require.NoError(t, os.Remove(mine))
	_, err = s.Copy()
	require.ErrorContains(t, err, "no such file")
}
