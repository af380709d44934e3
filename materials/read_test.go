package materials

import (
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/materials/text/strict"
)

const malformed = "../testdata/malformed/materials"

// Each malformed file tells in its first line what the message must say.
func TestMalformed(t *testing.T) {
	files, err := filepath.Glob(malformed + "/*.toml")
	require.NoError(t, err)
	require.GreaterOrEqual(t, len(files), 20)
	for _, file := range files {
		t.Run(filepath.Base(file), func(t *testing.T) {
			text, err := os.ReadFile(file)
			require.NoError(t, err)
			first, _, _ := strings.Cut(string(text), "\n")
			expect, ok := strings.CutPrefix(first, "# expect: ")
			require.True(t, ok && expect != "")
			_, err = Resolve(file, os.ReadFile)
			var faults strict.Faults
			require.ErrorAs(t, err, &faults)
			require.ErrorContains(t, err, expect)
			require.NotContains(t, err.Error(), "NaN")
			for _, fault := range faults {
				require.Equal(t, file, fault.File)
			}
		})
	}
}

// files is a folder in memory.
func files(all map[string]string) func(string) ([]byte, error) {
	return func(name string) ([]byte, error) {
		text, ok := all[filepath.ToSlash(name)]
		if !ok {
			return nil, fmt.Errorf("no file %s", name)
		}
		return []byte(text), nil
	}
}

func TestBase(t *testing.T) {
	open := files(map[string]string{
		"rigs/mine.toml": "base = \"more/wet.toml\"\nname = \"Mine\"\ndensity = \"1.2 g/cm3\"\n",
		"rigs/more/wet.toml": `base = "pa6"
[diffusivity]
scatter = { value = 2, source = "twelve weighings" }
[[doubt]]
text = "one batch only"
`})
	p, err := Resolve("rigs/mine.toml", open)
	require.NoError(t, err)
	parent, err := Resolve("pa6", open)
	require.NoError(t, err)
	require.Equal(t, "mine", p.ID)
	require.Equal(t, "Mine", p.Name)
	require.Equal(t, Value{Value: 1200, Low: 1200, High: 1200, Kind: Given, Source: filepath.Join("rigs", "mine.toml")}, p.Density)
	require.Equal(t, Value{Value: 2, Low: 2, High: 2, Kind: Given, Source: "twelve weighings"}, p.Diffusivity.Scatter)
	require.Equal(t, parent.Sorption, p.Sorption)
	require.Equal(t, parent.Diffusivity.Pieces, p.Diffusivity.Pieces)
	require.Len(t, p.Doubts, len(parent.Doubts)+1)
	require.Equal(t, parent.Family, p.Family)
}

// A library file under another name reads the same; so does one that only names its base.
func TestReadEqualsLookup(t *testing.T) {
	for _, name := range Names() {
		want, err := Lookup(name)
		require.NoError(t, err)
		text, err := library.ReadFile("library/" + name + ".toml")
		require.NoError(t, err)
		whole, err := Read("elsewhere/"+name+".toml", text, nil)
		require.NoError(t, err)
		require.Equal(t, "elsewhere/"+name+".toml", whole.Origin)
		whole.Origin = want.Origin
		require.Equal(t, want, whole)
		short, err := Read(name+".toml", []byte("base = \""+name+"\""), nil)
		require.NoError(t, err)
		require.False(t, short.Same(&want))
		short.Origin = want.Origin
		require.Equal(t, want, short)
	}
}

func TestChangedForm(t *testing.T) {
	p, err := Read("x.toml", []byte("base = \"pa6\"\n[sorption]\nform = \"gab\"\nmonolayer = \"2 %\"\nc = 8\nk = 0.75\n"), nil)
	require.NoError(t, err)
	require.Equal(t, GAB, p.Sorption.Form)
	require.Zero(t, p.Sorption.Linear)
	require.NotZero(t, p.Sorption.MixingEnthalpy)
	require.InDelta(t, 0.0264827586, p.Sorption.Content(0.5, p.Sorption.Reference), 1e-10) // as in TestGABValues
}

func TestReadTable(t *testing.T) {
	root, collector, err := strict.Parse("drum.toml", []byte("[strand.properties]\nsoftening = \"70 °C\"\ndiffusivity = { scatter = 2 }\nbase = \"pa6\"\n"))
	require.NoError(t, err)
	parent, err := Lookup("pa6")
	require.NoError(t, err)
	p := ReadTable(root.Table("strand").Table("properties"), parent)
	require.Equal(t, 343.15, p.Softening.Value)
	require.Equal(t, 2.0, p.Diffusivity.Scatter.Value)
	require.Equal(t, "drum.toml", p.Softening.Source)
	require.Equal(t, "pa6", p.ID)
	require.NotEqual(t, 343.15, parent.Softening.Value)
	require.ErrorContains(t, collector.Finish(), "drum.toml:4: strand.properties.base = \"pa6\": unknown key")
}

// Every fault of a file in one go, in the order of its lines.
func TestAllFaults(t *testing.T) {
	_, err := Read("bad.toml", []byte("base = \"pa-66\"\ndensity = 3\n[sorption]\nexponent = \"6\"\nlinar = \"5 %\"\n"), nil)
	var faults strict.Faults
	require.ErrorAs(t, err, &faults)
	require.Len(t, faults, 4)
	for i, near := range []string{"pa66", "", "", "linear"} {
		require.Equal(t, near, faults[i].Nearest)
		require.Equal(t, []int{1, 2, 4, 5}[i], faults[i].Line)
	}
	_, err = Read("bad.toml", []byte("base = 3\ndensity = 3\n"), nil)
	require.EqualError(t, err, "bad.toml:1: base = 3: a whole number where a text belongs")
}

func FuzzRead(f *testing.F) {
	seeds, err := filepath.Glob(malformed + "/*.toml")
	require.NoError(f, err)
	for _, file := range seeds {
		text, err := os.ReadFile(file)
		require.NoError(f, err)
		f.Add(string(text))
	}
	f.Add("base = \"pa6\"\n[[modulus]]\ntemperature = \"60 °C\"\nvalue = \"1 GPa\"\nlow = \"0.5 GPa\"\n")
	f.Add("base = \"pa6\"\n[sorption]\nform = \"gab\"\nmonolayer = \"2 %\"\nc = 8\nk = 0.75\n")
	for _, name := range Names() {
		text, err := library.ReadFile("library/" + name + ".toml")
		require.NoError(f, err)
		f.Add(string(text))
	}
	f.Fuzz(func(t *testing.T, text string) {
		p, err := Read("f.toml", []byte(text), nil)
		if err != nil {
			require.NotEmpty(t, err.Error())
			return
		}
		require.NotEmpty(t, p.Name)
		for _, T := range []float64{173.15, room, 773.15} {
			d := p.Diffusivity.At(T, 0.1)
			require.False(t, math.IsNaN(d) || math.IsInf(d, 0) || d < 0)
			for _, a := range []float64{-0.1, 0, 0.37, 1, 1.1} {
				i := p.Sorption.At(T)
				back, slope := i.Activity(i.Content(a))
				require.InDelta(t, a, back, 1e-9)
				require.False(t, math.IsNaN(slope) || math.IsInf(slope, 0) || slope <= 0)
			}
		}
		for _, v := range []Value{p.Density, p.HeatCapacity, p.Conductivity, p.PrintingLimit, p.Softening} {
			require.True(t, Range{Min: v.Low, Max: v.High}.Holds(v.Value))
			require.Positive(t, v.Value)
		}
		for T := 173.15; T < 773.15; T += 30 {
			if v, known := p.Modulus(T); known {
				require.True(t, v.Low >= 0.99e4 && v.Low <= v.Value && v.Value <= v.High && v.High <= 1.01e12)
			}
		}
	})
}

// A property that the user states himself is believed: what the base says against its own goes, and so does the scatter of its own; a range
// of the user's takes its place.
func TestStatedPropertiesAreBelieved(t *testing.T) {
	about := func(p Polymer, subject Subject) int {
		n := 0
		for _, d := range p.Doubts {
			if d.About == subject {
				n++
			}
		}
		return n
	}
	base, err := Lookup("pa6")
	require.NoError(t, err)
	require.Positive(t, about(base, AboutDiffusivity))
	require.Positive(t, about(base, AboutSorption))
	require.Positive(t, about(base, AboutLimit))
	require.Greater(t, base.Diffusivity.Scatter.Value, 1.0)
	for _, r := range []struct {
		text                      string
		scatter                   float64
		diffusivity, sorpt, limit bool // their notes stay
	}{
		{"", base.Diffusivity.Scatter.Value, true, true, true},
		{"[diffusivity]\nvalue = \"2e-13 m2/s\"\n", 1, false, true, true},
		{"[diffusivity]\nvalue = { value = \"2e-13 m2/s\", low = \"1e-13 m2/s\", high = \"4e-13 m2/s\" }\n", 2, false, true, true},
		{"[diffusivity]\nvalue = \"2e-13 m2/s\"\nscatter = 1.5\n", 1.5, false, true, true},
		{"[diffusivity]\nbeta = 20\n", base.Diffusivity.Scatter.Value, true, true, true},
		{"[sorption]\nlinear = \"5 %\"\n", base.Diffusivity.Scatter.Value, true, false, true},
		{"printing_limit = \"0.3 %\"\n", base.Diffusivity.Scatter.Value, true, true, false},
	} {
		p, err := Read("mine.toml", []byte("base = \"pa6\"\n"+r.text), nil)
		require.NoError(t, err)
		require.InDelta(t, r.scatter, p.Diffusivity.Scatter.Value, 1e-12, r.text)
		require.Equal(t, r.diffusivity, about(p, AboutDiffusivity) > 0, r.text)
		require.Equal(t, r.sorpt, about(p, AboutSorption) > 0, r.text)
		require.Equal(t, r.limit, about(p, AboutLimit) > 0, r.text)
	}
}
