package page

import (
	"bytes"
	"encoding/xml"
	"flag"
	"io"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion"
	"strandry/materials"
	"strandry/plots/palette"
	"strandry/plots/table"
)

var update = flag.Bool("update", false, "rewrite the golden files")

// golden compares a text with a file of testdata/golden. The files show layout only; no
// figure in them comes from a solve.
func golden(t *testing.T, name string, got []byte) {
	t.Helper()
	path := filepath.Join("..", "..", "testdata", "golden", name)
	if *update {
		require.NoError(t, os.WriteFile(path, got, 0o644))
	}
	want, err := os.ReadFile(path)
	require.NoError(t, err)
	require.Equal(t, string(want), string(got))
}

const hostile = "<script>alert(1)</script> \"'&| [x](javascript:1) `b` *c*"

// made is a page made by hand, with every kind of block and a hostile text in each place.
func made() *document {
	g := &grid{Heads: []string{"Zone", "Mean, %", hostile}}
	g.Rows = append(g.Rows, line{Group: "warm " + hostile})
	g.add("drum", "1.14", hostile)
	g.add("guide", "-", "wet")
	return &document{
		Kind: "Build log", Skip: "two", Title: "A made-up strand " + hostile, Lead: "It keeps 1.2 % of 3 mm.", Foot: "foot " + hostile,
		Sections: []section{
			{"one", "First", []block{
				text("2 mm/s, not 3 m. " + hostile), head("Below " + hostile), {List: []string{"a", hostile}},
				{Facts: []fact{{"At the nozzle", "1.202 ± 0.001 %"}, {hostile, hostile}}},
				{Banner: &banner{Word: "WET", Text: "above", Kind: palette.Wet}}, {Grid: g},
			}},
			{"two", "Second", []block{
				{Picture: &picture{Number: 1, Name: "path", Head: "Path " + hostile, Caption: "It falls. " + hostile, Alt: "A line. " + hostile, PNG: []byte("png"), Width: 800, Height: 600}},
				{Code: "title = \"```\" # " + hostile + "\n"},
			}},
		},
	}
}

func madeHTML(t *testing.T) []byte {
	page, err := htmlOf(made())
	require.NoError(t, err)
	return page
}

func TestGoldenPages(t *testing.T) {
	golden(t, "buildlog.md", markdown(t, made()))
	before, rest, found := bytes.Cut(madeHTML(t), []byte("<style>"))
	require.True(t, found)
	_, after, found := bytes.Cut(rest, []byte("</style>"))
	require.True(t, found)
	golden(t, "buildlog.html", append(append(before, "<style></style>"...), after...))
}

// element is a tag of a page with its attributes.
type element struct {
	name       string
	attributes map[string]string
}

// elements reads a page with the XML parser of the standard library, which refuses what is not
// well formed.
func elements(t *testing.T, page []byte) (all []element, text string) {
	t.Helper()
	d := xml.NewDecoder(bytes.NewReader(page))
	var words strings.Builder
	for {
		token, err := d.Token()
		if err == io.EOF {
			return all, words.String()
		}
		require.NoError(t, err)
		switch v := token.(type) {
		case xml.StartElement:
			e := element{v.Name.Local, map[string]string{}}
			for _, a := range v.Attr {
				e.attributes[a.Name.Local] = a.Value
			}
			all = append(all, e)
		case xml.CharData:
			words.Write(v)
		}
	}
}

func TestPageIsWellFormedAndLoadsNothing(t *testing.T) {
	all, words := elements(t, madeHTML(t))
	ids, targets, images := map[string]bool{}, 0, 0
	for _, e := range all {
		ids[e.attributes["id"]] = true
	}
	for _, e := range all {
		require.NotContains(t, []string{"script", "iframe", "object", "embed", "form", "base"}, e.name)
		for name, value := range e.attributes {
			require.False(t, strings.HasPrefix(name, "on"), "%s has %s", e.name, name)
			if name == "src" || name == "href" {
				local := strings.HasPrefix(value, "#") || strings.HasPrefix(value, "data:")
				require.True(t, local, "%s loads %q", e.name, value)
			}
		}
		if target, ok := strings.CutPrefix(e.attributes["href"], "#"); ok {
			require.True(t, ids[target], target)
			targets++
		}
		if e.name == "img" {
			images++
			require.NotEmpty(t, e.attributes["alt"])
			require.Equal(t, "data:image/png;base64,cG5n", e.attributes["src"]) // base64 of "png", RFC 4648
		}
	}
	require.Equal(t, 3, targets)
	require.Equal(t, 1, images)
	require.Contains(t, words, hostile[:len("<script>alert(1)</script>")])
}

func TestMarkdownIsInert(t *testing.T) {
	outside, fenced := "", false
	for _, l := range strings.Split(string(markdown(t, made())), "\n") {
		if strings.HasPrefix(l, "````") { // longer than the run inside
			fenced = !fenced
			continue
		}
		if !fenced {
			outside += l + "\n"
		}
	}
	require.False(t, fenced)
	require.NotContains(t, outside, "<")
	require.NotContains(t, outside, "[x](")
	require.Equal(t, strings.Count(outside, "`"), strings.Count(outside, "\\`"))
	require.Contains(t, outside, "](figures/path.png)")
}

func TestTight(t *testing.T) {
	require.Equal(t, "at 20\u00a0°C, 3\u00a0mm. In 5 days", tight("at 20 °C, 3 mm. In 5 days"))
	require.Equal(t, "1.2\u00a0± 0.1\u00a0%?", tight("1.2 ± 0.1 %?"))
	require.Empty(t, tight(""))
}

func TestMeasure(t *testing.T) {
	require.Equal(t, "\u00a0%", measure("Mean, %", "1.14"))
	require.Empty(t, measure("Length needed, m", "any"))
	require.Empty(t, measure("Zone", "1"))
	require.Equal(t, "Mean", name("Mean, %"))
}

// Every pair of text and ground has the contrast that WCAG 2.2, criterion 1.4.3, asks of text at
// level AA: 4.5 to 1, by its formula for relative luminance.
func TestContrast(t *testing.T) {
	light, rest, _ := strings.Cut(style, "prefers-color-scheme:dark")
	for name, scheme := range map[string]string{"light": light, "dark": rest, "print": style[strings.Index(style, "@media print"):]} {
		colours := map[string]string{}
		for _, part := range strings.FieldsFunc(scheme, func(r rune) bool { return strings.ContainsRune("{};\n", r) }) {
			key, value, ok := strings.Cut(part, ":#")
			if _, seen := colours[key]; ok && !seen && strings.HasPrefix(key, "--") {
				colours[key] = value
			}
		}
		for _, pair := range [][2]string{
			{"--ink", "--paper"}, {"--soft", "--paper"}, {"--accent", "--paper"}, {"--ink", "--band"}, {"--soft", "--band"},
		} {
			a, b := luminance(t, colours[pair[0]]), luminance(t, colours[pair[1]])
			require.GreaterOrEqual(t, (math.Max(a, b)+0.05)/(math.Min(a, b)+0.05), 4.5, "%s: %v", name, pair)
		}
	}
}

func luminance(t *testing.T, hex string) float64 {
	t.Helper()
	if len(hex) == 3 {
		hex = string([]byte{hex[0], hex[0], hex[1], hex[1], hex[2], hex[2]})
	}
	require.Len(t, hex, 6)
	sum := 0.0
	for i, weight := range []float64{0.2126, 0.7152, 0.0722} {
		v, err := strconv.ParseUint(hex[2*i:2*i+2], 16, 8)
		require.NoError(t, err)
		c := float64(v) / 255
		if c <= 0.04045 {
			c /= 12.92
		} else {
			c = math.Pow((c+0.055)/1.055, 2.4)
		}
		sum += weight * c
	}
	return sum
}

func TestOpenToAir(t *testing.T) {
	for want, c := range map[string]diffusion.Contact{
		"100 %":                       {},
		"90 %, 1 arc covered":         {Covered: 0.1, Arcs: 1},
		"75 %, 4 arcs covered":        {Covered: 0.25, Arcs: 4},
		"75 %, the cover moves round": {Covered: 0.25, Arcs: 2, Moves: true},
	} {
		require.Equal(t, want, openToAir(c))
	}
}

// The line below the title never says that what lies outside the odds reaches the nozzle, nor that a soft strand is dry.
func TestLead(t *testing.T) {
	a := &diffusion.Assessment{}
	a.Nozzle.Mean, a.Low, a.High, a.Probability = 1e-5, 2e-5, 3e-4, 0.96
	m := &diffusion.Design{Model: diffusion.Model{Material: materials.Polymer{Name: "PC"}}, Target: diffusion.Target{Limit: 5e-4}}
	l := &Log{Answer: &table.Answer{Design: m, Assessment: a}}
	require.Equal(t, "PC reaches the nozzle with 0.00100 % of water (0.0020 to 0.030 %, eight times in ten), within the limit of 0.05 %.", l.lead())
	a.Mouths = 1e-3
	require.Equal(t, "PC reaches the nozzle with 0.0020 to 0.030 % of water, eight times in ten; the limit is 0.05 %, met 96 times in 100.", l.lead())
	a.Endurance = diffusion.Endurance{Survival: diffusion.Doubtful}
	require.Contains(t, l.lead(), "whether it bears the heat is doubtful")
	a.Endurance = diffusion.Endurance{Survival: diffusion.Softens, Strand: 473.15, Zone: "oven"}
	require.Contains(t, l.lead(), "PC softens on its way, at 200 °C in oven.")
}

func markdown(t *testing.T, d *document) []byte {
	t.Helper()
	text, err := markdownOf(d)
	require.NoError(t, err)
	return text
}
