package page_test

import (
	"context"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion"
	"strandry/diffusion/samples"
	"strandry/plots/page"
	"strandry/plots/table"
	"strandry/scenarios"
	"strandry/scenarios/studies/advised"
	"strandry/scenarios/studies/buildlog"
)

// logOf makes the build log of a demonstration, by coarse marches and with few values of what it varies.
func logOf(t *testing.T, demo string) map[string]string {
	t.Helper()
	s, err := scenarios.Demo(demo)
	require.NoError(t, err)
	s, err = s.Varied("zone.oven.temperature=90 °C..115 °C:4")
	require.NoError(t, err)
	s.Settings = diffusion.Settings{Resolution: 2.5, Tolerance: 0.05}
	w := diffusion.NewMarch()
	a, err := w.Assess(&s.Design, s.Settings)
	require.NoError(t, err)
	d, would := advised.Find(w, s, a)
	v, err := buildlog.Of(context.Background(), s, a, func() {})
	require.NoError(t, err)
	l := page.Log{
		Scenario: s, Survey: v, Command: "strandry buildlog --demo " + demo + " -o DIR",
		Answer: &table.Answer{Title: s.Title, File: s.File, Version: "0", Design: &s.Design, Assessment: a, Diagnosis: d, Advice: would, Assumed: s.Assumed, Unused: s.Unused},
	}
	files, err := l.Files()
	require.NoError(t, err)
	out := map[string]string{}
	for _, f := range files {
		out[f.Name] = string(f.Content)
	}
	return out
}

// The build log of a demonstration has every section, each figure it speaks of, the
// verdict and the numbers of the answer, the sources, the cautions and the way to make it again.
func TestLogOfADemonstration(t *testing.T) {
	t.Parallel()
	if samples.Of(1, 2, 2) == 1 {
		t.Skip("the odds of the whole library; the build log of cmd/strandry is held to the same")
	}
	for demo, says := range map[string][]string{
		"clear-cover": {"DRY", "Golovoy", "Nothing holds this design back"},
	} {
		files := logOf(t, demo)
		html, markdown := files[page.HTML], files[page.Markdown]
		for _, text := range append(says, "licensed electrician", "strandry buildlog --demo "+demo, "swelling") {
			require.Contains(t, markdown, text, demo)
			require.Contains(t, strings.Join(strings.Fields(html), " "), text, demo)
		}
		require.Less(t, len(html), 1_500_000, "a page that can be sent")
		for _, study := range []string{"What the scenario varies", "Keeping it dry", "Printing filament takes up water from the air"} {
			require.Contains(t, markdown, study)
		}
		for name := range files {
			if strings.HasPrefix(name, page.Figures) && strings.HasSuffix(name, ".png") {
				require.Contains(t, markdown, name)
			}
		}
		require.NotContains(t, markdown, "NaN") // in the page the letters may stand in a picture
		require.NotContains(t, html, "<script")
	}
}
