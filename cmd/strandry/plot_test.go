package main

import (
	"bytes"
	"context"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion"
	"strandry/diffusion/samples"
	"strandry/plots/figure"
	"strandry/plots/folder"
	"strandry/scenarios"
)

// The lamp shade can never be dry: the figures say so, each in three formats, and nothing else is left
// in the folder. Where it lies on the floor of its box the section is drawn too.
func TestPlot(t *testing.T) {
	for _, covered := range samples.Each(2, []bool{true, false}) {
		t.Run(fmt.Sprint(covered), func(t *testing.T) {
			t.Parallel()
			plotOfTheLampShade(t, covered)
		})
	}
}

func plotOfTheLampShade(t *testing.T, covered bool) {
	path := filepath.Join(t.TempDir(), "new", "figures")
	args, figures := []string{"plot", "--demo", "lamp-shade", "-o", path}, []string{"heatmap", "line", "map", "needed", "path", "profiles"}
	if covered {
		open, err := scenarios.DemoText("lamp-shade")
		require.NoError(t, err)
		text := bytes.Replace(open, []byte("length = \"3 m\""), []byte("length = \"3 m\"\nexposed = \"70 %\""), 1)
		if samples.Of(1, 2, 2) == 1 {
			text = append(text, "\n[numerics]\nresolution = 2.5\ntolerance = 0.05\n"...)
		}
		args, figures = []string{"plot", scenarioFile(t, string(text)), "-o", path}, append(figures, "section")
	}
	var out, errOut bytes.Buffer
	require.Equal(t, answered, run(context.Background(), args, &out, &errOut), errOut.String())
	require.Empty(t, errOut.String())
	var want []string
	for _, name := range figures {
		for _, format := range []string{"pdf", "png", "svg"} {
			want = append(want, name+"."+format)
		}
		require.Regexp(t, regexp.MustCompile(name+`\.png, `+name+`\.svg, `+name+`\.pdf: [^:]*[0-9][^:]*\.`), unwrapped(out.String()))
	}
	entries, err := os.ReadDir(path)
	require.NoError(t, err)
	var got []string
	for _, e := range entries {
		if e.Name() == folder.Marker {
			continue
		}
		got = append(got, e.Name())
		info, err := e.Info()
		require.NoError(t, err)
		require.Greater(t, info.Size(), int64(1000), e.Name())
	}
	require.Equal(t, want, got)
	require.Contains(t, unwrapped(out.String()), "No length of warm box brings PLA within its limit")
	require.Contains(t, unwrapped(out.String()), "drawing: not drawn: no zone says how the strand is led: its shape")
	if covered {
		require.Regexp(t, `section\.png, section\.svg, section\.pdf: Behind the cover the skin of PLA still holds 0\.[0-9]+ % as it leaves warm box; where the air reaches it, 0\.[0-9]+ %\. `, unwrapped(out.String()))
	}
	narrow(t, out.String())
}

func TestPlotRefuses(t *testing.T) {
	var out, errOut bytes.Buffer
	require.Equal(t, misused, run(context.Background(), []string{"plot"}, &out, &errOut))
	require.Contains(t, errOut.String(), "-o DIR")
	require.Equal(t, misused, run(context.Background(), []string{"plot", "x.toml", "--demo", "lamp-shade", "-o", "x"}, &out, &errOut))
	file := filepath.Join(t.TempDir(), "file")
	require.NoError(t, os.WriteFile(file, nil, 0o600))
	errOut.Reset()
	require.Equal(t, failed, run(context.Background(), []string{"plot", "--demo", "lamp-shade", "-o", file}, &out, &errOut))
	require.Contains(t, errOut.String(), "this is a file")
	stopped, stop := context.WithCancel(context.Background())
	stop()
	errOut.Reset()
	require.Equal(t, failed, run(stopped, []string{"plot", "--demo", "lamp-shade", "-o", t.TempDir()}, &out, &errOut))
	require.Contains(t, errOut.String(), "interrupted")
}

// Where a shape and a desiccant are stated, the chambers are drawn to scale, and how the bed fills; where the bed lasts for good, or never, the reason is told.
func TestPlotOfTheMachine(t *testing.T) {
	t.Parallel()
	const built = `[strand]
material = "pla"
moisture = "0.3 %"
[feed]
speed = "2 mm/s"
[[zone]]
name = "box"
length = "3 m"
temperature = "45 °C"
air = { dew_point = "-20 °C", flow = "5 L/min", source = "once" }
exposed = "100 %"
shape = { kind = "drum", diameter = "100 mm", pitch = "3 mm" }
[desiccant]
kind = "silica gel"
mass = "500 g"
[numerics]
resolution = 2.4
tolerance = 0.1
`
	drawn := func(text string) (sheets []string, undrawn string) {
		s, err := scenarios.Read("built.toml", []byte(text))
		require.NoError(t, err)
		trace, err := diffusion.NewMarch().Trace(&s.Model, s.Settings)
		require.NoError(t, err)
		all, missing, err := machineFigures(s, trace, figure.FrameOf(s, "0"))
		require.NoError(t, err)
		for _, one := range all {
			sheets = append(sheets, one.Name)
		}
		return sheets, strings.Join(missing, "; ")
	}
	sheets, undrawn := drawn(built)
	require.Equal(t, []string{"drawing", "desiccant"}, sheets)
	require.Empty(t, undrawn)
	sheets, undrawn = drawn(strings.Replace(built, "dew_point = \"-20", "dew_point = \"-58", 1))
	require.Equal(t, []string{"drawing"}, sheets)
	require.Equal(t, "desiccant: not drawn: the bed never holds the dew point that is wanted", undrawn)
	sheets, undrawn = drawn(strings.Replace(built, "shape =", "# shape =", 1))
	require.Equal(t, []string{"desiccant"}, sheets)
	require.Contains(t, undrawn, "drawing: not drawn: ")
}
