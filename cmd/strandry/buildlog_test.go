package main

import (
	"bytes"
	"context"
	"encoding/json"
	"encoding/xml"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion/samples"
	"strandry/plots/page"
	"strandry/plots/table"
)

// strange is a scenario whose words are markup; its coarse numerics keep the test short. A cover that stays in its place, whose marches take longer, comes with
// more samples.
func strange() string {
	if samples.Of(1, 2, 2) == 1 {
		return strings.Replace(strangest, cover, "exposed = \"100 %\"\n", 1)
	}
	return strangest
}

const cover = "exposed = \"80 %\"\n"

const strangest = `
title = "<script>alert(1)</script> & ![x](http://example.org/a.png)"
[strand]
material = "pla"
[feed]
speed = "2 mm/s"
[[zone]]
name = "a<img src>|b"
length = "3 m"
temperature = "45 °C"
air = { dew_point = "-20 °C", flow = "5 L/min", source = "once" }
shape = { kind = "drum", diameter = "100 mm", pitch = "3 mm", gap = "20 mm" }
` + cover + `[desiccant]
kind = "molecular sieve 4A"
mass = "500 g"
[[part]]
name = "<u>tube</u> | & [x](y)"
price = 3
[[check]]
title = "<b>weighed</b> & |"
before = "30.06 g"
after = "30.02 g"
[numerics]
resolution = 2.4
tolerance = 0.1
`

// logIn makes the build log of the strange scenario in a folder.
func logIn(t *testing.T, folder string) map[string][]byte {
	t.Helper()
	mustAnswer(t, "buildlog", scenarioFile(t, strange()), "-o", folder)
	files := map[string][]byte{}
	for _, name := range page.Names(nil) {
		if strings.Contains(name, "section") && !strings.Contains(strange(), cover) {
			continue
		}
		content, err := os.ReadFile(filepath.Join(folder, filepath.FromSlash(name)))
		require.NoError(t, err)
		files[name] = content
	}
	return files
}

// The figures of the answer are those of run --json, and nothing on the page loads or runs.
func TestBuildlog(t *testing.T) {
	t.Parallel()
	folder := filepath.Join(t.TempDir(), "log")
	files := logIn(t, folder)
	var d struct {
		Moisture struct {
			Mean           float64
			Low            float64
			High           float64
			NumericalError float64 `json:"numerical_error"`
			Limit          float64
		}
		Conclusion string
		Sources    []string
		Cautions   []string
	}
	require.NoError(t, json.Unmarshal([]byte(mustAnswer(t, "run", scenarioFile(t, strange()), "--json")), &d))
	words := wordsOf(t, files[page.HTML])
	require.Contains(t, words, table.Bounded(d.Moisture.Mean, d.Moisture.NumericalError)+" (numerical error)")
	require.Contains(t, words, table.Spanned(d.Moisture.Low, d.Moisture.High)+", eight times in ten")
	require.Contains(t, words, "limit of "+table.Limit(d.Moisture.Limit))
	require.Equal(t, strings.Contains(strange(), cover), strings.Contains(words, "covered by one arc that stays in its place"))
	require.Contains(t, words, d.Conclusion)
	require.NotEmpty(t, d.Sources)
	for _, text := range append(d.Sources, d.Cautions...) {
		require.Contains(t, words, text)
	}
	require.Contains(t, words, strange()[1:], "the scenario in full")
	require.Contains(t, words, "strandry buildlog strand.toml -o DIR")
	require.NotContains(t, words, t.TempDir())
	require.Contains(t, words, "licensed electrician")
	require.Less(t, len(files[page.HTML]), 1_500_000, "a page that can be sent")

	markdown := string(files[page.Markdown])
	require.Contains(t, markdown, table.Bounded(d.Moisture.Mean, d.Moisture.NumericalError)+" (numerical error)")
	for name := range files {
		if strings.HasSuffix(name, ".png") {
			require.Contains(t, markdown, "]("+name+")")
		}
	}
	for _, study := range []string{"Keeping it dry", "Checked on the machine", "lost between", "What it lost", "Printing filament takes up water from the air",
		"## The machine", "The machine to scale", "How the desiccant fills", "Do not breathe the dust of zeolite", "3 m on a drum", "What to look at"} {
		require.Contains(t, markdown, study)
	}
	require.NotContains(t, markdown, "NaN")
	head, _, _ := strings.Cut(markdown, "```")
	require.NotContains(t, head, "<")
	require.NotContains(t, strings.ReplaceAll(head, "`![x](http://example.org/a.png)`", ""), "![x]", "but as code")

	if samples.Of(1, 2, 2) == 1 {
		return
	}
	again := logIn(t, filepath.Join(t.TempDir(), "again"))
	require.Equal(t, files, again, "the same bytes")
}

// wordsOf reads the page with a strict parser, refuses what loads or runs, and returns its text.
func wordsOf(t *testing.T, content []byte) string {
	t.Helper()
	d := xml.NewDecoder(bytes.NewReader(content))
	var words strings.Builder
	images := 0
	for {
		token, err := d.Token()
		if err == io.EOF {
			break
		}
		require.NoError(t, err)
		switch v := token.(type) {
		case xml.StartElement:
			require.NotContains(t, []string{"script", "iframe", "object", "embed"}, v.Name.Local)
			attributes := map[string]string{}
			for _, a := range v.Attr {
				attributes[a.Name.Local] = a.Value
				if a.Name.Local == "src" || a.Name.Local == "href" {
					require.True(t, strings.HasPrefix(a.Value, "data:") || strings.HasPrefix(a.Value, "#"), a.Value)
				}
			}
			if v.Name.Local == "img" {
				images++
				require.NotEmpty(t, attributes["alt"])
			}
		case xml.CharData:
			words.Write(v)
		}
	}
	require.Equal(t, samples.Of(8, 9, 9), images)
	return strings.ReplaceAll(words.String(), "\u00a0", " ")
}

func TestBuildlogKeepsWhatIsThere(t *testing.T) {
	t.Parallel()
	if testing.Short() {
		t.Skip("slow, and its code is run by others")
	}
	folder := t.TempDir()
	old := filepath.Join(folder, page.HTML)
	require.NoError(t, os.WriteFile(old, []byte("mine"), 0o600))
	file := scenarioFile(t, strange())
	status, _, errOut := call("buildlog", file, "-o", folder)
	require.Equal(t, failed, status)
	require.Contains(t, errOut, "buildlog.html exists already, and strandry did not write it: move it away")

	status, _, errOut = call("buildlog", file, "-o", folder, "--force")
	require.Equal(t, failed, status)
	require.Contains(t, errOut, "strandry did not write it")
	require.Equal(t, "mine", content(t, old))

	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	var out, said strings.Builder
	empty := filepath.Join(t.TempDir(), "empty")
	require.Equal(t, failed, run(ctx, []string{"buildlog", file, "-o", empty}, &out, &said))
	require.Contains(t, said.String(), "interrupted")
	require.NoDirExists(t, empty)

	// A file where the folder should be.
	blocked := filepath.Join(t.TempDir(), "file")
	require.NoError(t, os.WriteFile(blocked, nil, 0o600))
	status, _, errOut = call("buildlog", file, "-o", blocked)
	require.Equal(t, failed, status)
	require.Contains(t, errOut, "the name of a folder is needed")
}
