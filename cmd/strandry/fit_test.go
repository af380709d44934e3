package main

import (
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion/samples"
	"strandry/plots/page"
	"strandry/plots/table"
	"strandry/scenarios"
	"strandry/scenarios/studies/fit"
)

// aPlan is one whose strand is heavy for its scale, so that little is to be weighed, and whose fit takes few marches: fewer yet by default, where its start is stated.
func aPlan() string {
	start := ""
	if samples.Of(1, 2, 2) == 1 {
		start = "moisture = \"3 %\"\n"
	}
	return `title = "My nylon"
[strand]
material = "pa6"
[scale]
resolution = "0.001 g"
[[run]]
file = "dry-80.csv"
temperature = "80 °C"
air = { dew_point = "-10 °C" }
` + start + `[fit]
beta = "fixed"
[plan]
strand = "20 g"
weighings = 9
`
}

// weighedOut writes the plan's folder and fills its table in: a strand of 20 g dry that loses nearly all of 3 % by the root of time, then more slowly.
func weighedOut(t *testing.T) (folder, file string) {
	t.Helper()
	plan := filepath.Join(t.TempDir(), "my-nylon.toml")
	require.NoError(t, os.WriteFile(plan, []byte(aPlan()), 0o600))
	folder = filepath.Join(filepath.Dir(plan), "out")
	said := oneLine(mustAnswer(t, "fit", "--plan", plan, "-o", folder))
	require.Contains(t, said, "Answer yes: a scale that shows 0.001 g")
	require.Contains(t, said, page.WeighingSheet+", dry-80.csv, my-nylon.toml")
	require.Contains(t, said, "strandry fit "+filepath.Join(folder, "my-nylon.toml"))
	fill(t, filepath.Join(folder, "dry-80.csv"))
	return folder, filepath.Join(folder, "my-nylon.toml")
}

// fill gives each line of an empty table a mass.
func fill(t *testing.T, table string) {
	t.Helper()
	text, err := os.ReadFile(table)
	require.NoError(t, err)
	lines := strings.Split(strings.TrimSpace(string(text)), "\n")
	require.Equal(t, "time [h],mass [g]", lines[0])
	require.Len(t, lines, 1+9)
	for i, line := range lines[1:] {
		var hours float64
		require.True(t, strings.HasSuffix(line, ","), line)
		_, err := fmt.Sscanf(line, "%f,", &hours)
		require.NoError(t, err)
		// A cylinder (Crank 1975, eq. 5.23) with D/R² of 0.012 per hour, to some per cent.
		left := 0.692*math.Exp(-5.783*0.012*hours) + 0.131*math.Exp(-30.47*0.012*hours) + 0.053*math.Exp(-74.9*0.012*hours) + 0.124*math.Exp(-250*0.012*hours)
		lines[1+i] = fmt.Sprintf("%s%.3f", line, 20*(1.001+0.029*left))
	}
	require.NoError(t, os.WriteFile(table, []byte(strings.Join(lines, "\n")+"\n"), 0o600))
}

// What a plan writes is read by fit once it is filled in, and says what is missing before.
func TestPlanToFit(t *testing.T) {
	folder, file := weighedOut(t)
	require.ElementsMatch(t, []string{".strandry", page.WeighingSheet, "dry-80.csv", "my-nylon.toml"}, names(t, folder))
	require.Equal(t, aPlan(), content(t, folder, "my-nylon.toml"))
	figures := filepath.Join(folder, "figures")
	d := decoded(t, "fit", file, "--json", "--figures", figures)
	require.Equal(t, true, d["told"])
	between, _ := d["diffusivity"].(map[string]any)
	// D/R² of 0.012 per hour of a strand of 1.75 mm, less what its growth with the content makes.
	value, _ := between["value"].(float64)
	require.InDelta(t, math.Log(0.012/3600*0.875e-3*0.875e-3), math.Log(value), 1)
	require.ElementsMatch(t, []string{".strandry", "masses.png", "masses.svg", "masses.pdf", "residuals.png", "residuals.svg", "residuals.pdf"}, names(t, figures))

	said := oneLine(mustAnswer(t, "fit", file, "--figures", figures))
	require.Contains(t, said, "masses.png, masses.svg, masses.pdf: How fast water moves in this strand is known within")
	require.Contains(t, said, "residuals.png, residuals.svg, residuals.pdf: ")
	require.Contains(t, content(t, figures, "masses.svg"), "PA6, 1.75\u00a0mm")
	require.NoError(t, os.WriteFile(filepath.Join(figures, "masses.svg"), []byte("mine"), 0o600))
	status, _, complaint := call("fit", file, "--figures", figures)
	require.Equal(t, failed, status)
	require.Contains(t, complaint, "masses.svg was changed since strandry wrote it")
	mustAnswer(t, "fit", file, "--figures", figures, "--force")
	require.NotEqual(t, "mine", content(t, figures, "masses.svg"))
	replacesNoMasses(t, folder, file)
}

// replacesNoMasses: tables that were filled in are never replaced, and neither is the plan that is read.
func replacesNoMasses(t *testing.T, folder, file string) {
	t.Helper()
	masses := content(t, folder, "dry-80.csv")
	status, said, complaint := call("fit", "--plan", filepath.Join(filepath.Dir(folder), "my-nylon.toml"), "-o", folder)
	require.Equal(t, failed, status)
	require.Empty(t, said)
	require.Contains(t, complaint, "dry-80.csv was changed since strandry wrote it: move it away, or name another folder")
	require.Equal(t, masses, content(t, folder, "dry-80.csv"))
	again := filepath.Join(t.TempDir(), "again")
	mustAnswer(t, "fit", "--plan", file, "-o", again)
	for _, name := range []string{"my-nylon.toml", page.WeighingSheet} {
		require.Equal(t, content(t, folder, name), content(t, again, name), "the copy of a plan is that plan")
	}
	status, _, complaint = call("fit", filepath.Join(again, "my-nylon.toml"))
	require.Equal(t, failed, status)
	require.Contains(t, complaint, `dry-80.csv:2: mass [g] = "": not weighed yet, nor are 8 further lines`)
}

// Flags that do not go together, and names that are taken twice, are refused before any work.
func TestFitMisused(t *testing.T) {
	folder := t.TempDir()
	file := filepath.Join(folder, "plan.toml")
	write := func(text string) { require.NoError(t, os.WriteFile(file, []byte(text), 0o600)) }
	write(aPlan())
	out := filepath.Join(folder, "out")
	refused := func(want string, args ...string) {
		t.Helper()
		status, said, complaint := call(append([]string{"fit", file}, args...)...)
		require.NotEqual(t, answered, status)
		require.Empty(t, said)
		require.Contains(t, complaint, want)
		require.NoDirExists(t, out)
	}
	refused("goes without --figures and --prior", "--plan", "--prior")
	refused("goes without --figures and --prior", "--plan", "--figures", out)
	refused("it goes with --plan", "--for", file)
	refused("need a name", "--plan", "-o", "")
	refused("need a name", "--figures", "")
	refused("it goes with --figures", "--force")
	refused("it goes with --figures", "--plan", "-o", out, "--force")
	refused("a material file ends in .toml", "-o", "mine.csv")
	refused("there is no such file", "--figures", out)
	refused("is read by this command, which would replace it", "--plan", "-o", folder)
	other := t.TempDir()
	require.NoError(t, os.WriteFile(filepath.Join(other, "dry-80.csv"), nil, 0o600))
	refused("dry-80.csv exists already, and strandry did not write it", "--plan", "-o", other)
	for _, name := range []string{page.WeighingSheet, "PLAN.toml"} {
		write(strings.Replace(aPlan(), "dry-80.csv", name, 1))
		refused("two files of the folder would be called", "--plan", "-o", out)
	}
	write(strings.Replace(aPlan(), `file = "dry-80.csv"`, "", 1))
	refused("run[1].file: missing", "--plan", "-o", out)
}

// The plan of a material that stands in a file of its own brings that along.
func TestPlanWithMaterial(t *testing.T) {
	folder := t.TempDir()
	file, out := filepath.Join(folder, "plan.toml"), filepath.Join(folder, "out")
	require.NoError(t, os.WriteFile(filepath.Join(folder, "mine.toml"), []byte("base = \"pa6\"\n"), 0o600))
	require.NoError(t, os.WriteFile(file, []byte(strings.Replace(aPlan(), `"pa6"`, `"mine.toml"`, 1)), 0o600))
	d := decoded(t, "fit", "--plan", file, "-o", out, "--json")
	require.Equal(t, true, d["enough"])
	require.NoError(t, os.Remove(filepath.Join(folder, "mine.toml")))
	copied := filepath.Join(out, "plan.toml")
	require.Equal(t, d["runs"], decoded(t, "fit", "--plan", copied, "--json")["runs"])
	fill(t, filepath.Join(out, "dry-80.csv"))
	require.Contains(t, oneLine(mustAnswer(t, "fit", copied)), "Answer")
}

// Each run has its own table, named as the plan names it, whatever the order in which they are found.
func TestTablesOfPlan(t *testing.T) {
	file := filepath.Join(t.TempDir(), "plan.toml")
	require.NoError(t, os.WriteFile(file, []byte(strings.Replace(aPlan(), "[plan]", "[[run]]\nfile = \"./cold/dry-60.csv\"\n[plan]", 1)), 0o600))
	w, err := scenarios.OpenPlan(file)
	require.NoError(t, err)
	files, err := planFiles(w)
	require.NoError(t, err)
	require.Equal(t, []string{page.WeighingSheet, "dry-80.csv", "cold/dry-60.csv", "plan.toml"}, fileNames(files))
	p := &fit.Plan{Weighings: w, Enough: true, Chosen: fit.Option{Strand: 0.02, Factor: 1.2}, Runs: []fit.PlannedRun{{Times: []float64{0, 3600}}, {Times: []float64{0, 7200}}}}
	files, err = filled(files, &table.FitPlan{Version: version, Plan: p})
	require.NoError(t, err)
	for i, want := range []string{"<h1>My nylon</h1>", "\n1,\n", "\n2,\n", aPlan()[:10]} {
		var out strings.Builder
		require.NoError(t, files[i].Write(&out))
		require.Contains(t, out.String(), want)
	}
}
