package scenarios

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// planned is a plan with all keys of [plan].
const planned = `[strand]
material = "pa6"
[[run]]
file = "dry-80.csv"
temperature = "80 °C"
[plan]
factor = 1.2
strand = "30 g"
longest = "24 h"
weighings = 9
`

// changesOfPlans are values of the keys of [plan], and others that say something else.
func changesOfPlans() [][2]string {
	return [][2]string{{`factor = 1.2`, `factor = 1.25`}, {`strand = "30 g"`, `strand = "31 g"`}, {`longest = "24 h"`, `longest = "25 h"`}, {`weighings = 9`, `weighings = 10`}}
}

func plan(t *testing.T, text string) *Weighings {
	t.Helper()
	w, err := ReadPlan("mine.toml", []byte(text), tables)
	require.NoError(t, err)
	return w
}

// [plan] acts in a plan, and in weighings that were made it is read, checked and kept out of the answer.
func TestPlanOfWeighings(t *testing.T) {
	w := plan(t, planned)
	same(t, 1.2, w.Plan.Factor)
	same(t, 0.03, w.Plan.Strand)
	same(t, 86400, w.Plan.Longest)
	require.Equal(t, 9, w.Plan.Count)
	for _, c := range changesOfPlans() {
		require.NotEqual(t, w.Plan, plan(t, strings.Replace(planned, c[0], c[1], 1)).Plan, c[1])
	}
	before, _, _ := strings.Cut(planned, "[plan]")
	require.Equal(t, Planned{Factor: 1.3, Longest: 172800, Count: 12}, plan(t, before).Plan)
	require.Contains(t, plan(t, before).Assumed, "plan.longest: 48 h")
	require.NotContains(t, strings.Join(w.Assumed, " "), "plan.")

	require.Equal(t, weighed(t, before), weighed(t, planned))
	require.Zero(t, weighed(t, planned).Plan)
	for _, wrong := range []string{"factor = 1", "longest = \"24 g\"", "strand = 3", "weighings = 200", "wishes = 1"} {
		text := before + "[plan]\n" + wrong + "\n"
		_, err := ReadWeighings("mine.toml", []byte(text), tables)
		_, planErr := ReadPlan("mine.toml", []byte(text), tables)
		require.ErrorContains(t, err, "plan."+wrong[:4])
		require.EqualError(t, planErr, err.Error())
	}
}

// A copy of a plan is read from any folder, as the same plan; with the tables it is read as weighings.
func TestCopyOfPlan(t *testing.T) {
	folder, other := t.TempDir(), t.TempDir()
	put(t, "base = \"base.toml\"\n", folder, "own", "mine.toml")
	put(t, "base = \"pa6\"\n", folder, "own", "base.toml")
	file := put(t, strings.Replace(planned, `"pa6"`, `"own/mine.toml" # my spool`, 1), folder, "plan.toml")
	w, err := OpenPlan(file)
	require.NoError(t, err)
	require.Equal(t, []string{file, filepath.Join(folder, "own", "mine.toml"), filepath.Join(folder, "own", "base.toml")}, w.Inputs())
	c, err := w.Copy()
	require.NoError(t, err)
	require.Len(t, c.Materials, 2)
	for _, m := range c.Materials {
		put(t, string(m.Text), other, m.Name)
	}
	copied := put(t, string(c.Text), other, "plan.toml")
	again, err := OpenPlan(copied)
	require.NoError(t, err)
	require.Equal(t, w.Plan, again.Plan)
	require.Equal(t, w.Model.Material.Diffusivity, again.Model.Material.Diffusivity)
	require.Contains(t, string(c.Text), "# the material file \"own/mine.toml\" was brought along as \"materials/")
	require.Contains(t, string(c.Text), "# my spool")
	put(t, someMasses, other, "dry-80.csv")
	done, err := OpenWeighings(copied)
	require.NoError(t, err)
	require.Len(t, done.Runs, 1)
	require.Equal(t, filepath.Join(other, "dry-80.csv"), done.Inputs()[1])

	require.NoError(t, os.Remove(file))
	_, err = w.Copy()
	require.ErrorContains(t, err, "there is no such file")
	require.Equal(t, planned, copyOf(t, planned), "a plan that names no files is copied as it is")
}

// copyOf is the text of the copy of a plan.
func copyOf(t *testing.T, of string) string {
	t.Helper()
	w, err := OpenPlan(put(t, of, t.TempDir(), "mine.toml"))
	require.NoError(t, err)
	c, err := w.Copy()
	require.NoError(t, err)
	require.Empty(t, c.Materials)
	return string(c.Text)
}

// The tables of a copy lie beside it, one for each run.
func TestCopyOfPlanRefuses(t *testing.T) {
	const missing = `run[1].file: missing; allowed: the table that is to be filled in, such as "dry-80.csv"`
	const elsewhere = `lies in another folder; allowed: the name of a table beside the file, such as "dry-80.csv"`
	for change, want := range map[[2]string]string{
		{"file = \"dry-80.csv\"\n", ""}:                        missing,
		{`"dry-80.csv"`, `"../dry-80.csv"`}:                    `run[1].file = "../dry-80.csv": ` + elsewhere,
		{`"dry-80.csv"`, `"/tmp/dry-80.csv"`}:                  `run[1].file = "/tmp/dry-80.csv": ` + elsewhere,
		{"[plan]", "[[run]]\nfile = \"./dry-80.csv\"\n[plan]"}: `run[2].file = "./dry-80.csv": the table of another run; allowed: one for each run`,
	} {
		require.Equal(t, 1, strings.Count(planned, change[0]))
		file := put(t, strings.Replace(planned, change[0], change[1], 1), t.TempDir(), "mine.toml")
		w, err := OpenPlan(file)
		require.NoError(t, err, "a plan alone does not ask for it")
		_, err = w.Copy()
		require.EqualError(t, err, file+": "+want)
	}
}

// Whatever the text of a plan: no panic, and either faults or a plan whose runs have names and a start.
func FuzzReadPlan(f *testing.F) {
	f.Add([]byte(planned))
	f.Add(WeighingsTemplate())
	f.Add([]byte(oneRun + "[plan]\nstrand = \"20 g\"\nlongest = \"10 min\"\n"))
	f.Fuzz(func(t *testing.T, text []byte) {
		w, err := ReadPlan("fuzz.toml", text, tables)
		if err != nil {
			return
		}
		require.True(t, w.Plan.Factor >= 1.02 && w.Plan.Longest >= 600 && w.Plan.Count >= 5 && w.Plan.Strand >= 0)
		for _, run := range w.Runs {
			require.NotEmpty(t, run.File)
			require.NotEmpty(t, run.Zone.Name)
			require.True(t, run.Start >= 0 && run.Start <= maxContent)
		}
	})
}
