package diffusion_test

import (
	"encoding/csv"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion"
	"strandry/materials"
	"strandry/materials/humidair"
)

// forty are the transits of testdata/bench, drawn at random, with their converged answers [kg/kg]. The environment may name another folder of the same
// files.
func forty(t testing.TB) (models []*diffusion.Model, answers []float64) {
	folder := os.Getenv("STRANDRY_FORTY")
	if folder == "" {
		folder = filepath.Join("..", "testdata", "bench")
	}
	for _, row := range columns(t, filepath.Join(folder, "forty.csv")) {
		models = append(models, randomTransit(t, row))
	}
	for _, row := range columns(t, filepath.Join(folder, "forty-answers.csv")) {
		answers = append(answers, row["mean"])
	}
	require.Len(t, answers, len(models))
	require.GreaterOrEqual(t, len(models), 20, "a share of 95 in 100 has to mean something")
	return models, answers
}

// columns are the rows of a table of numbers by the names in its head.
func columns(t testing.TB, name string) (rows []map[string]float64) {
	file, err := os.Open(name)
	require.NoError(t, err)
	defer func() { require.NoError(t, file.Close()) }()
	table, err := csv.NewReader(file).ReadAll()
	require.NoError(t, err)
	for _, line := range table[1:] {
		row := map[string]float64{}
		for i, name := range table[0] {
			row[name], err = strconv.ParseFloat(line[i], 64)
			require.NoError(t, err)
		}
		rows = append(rows, row)
	}
	return rows
}

// randomTransit is the model of one row.
func randomTransit(t testing.TB, row map[string]float64) *diffusion.Model {
	m := transit(t, row["beta"])
	given := func(v float64) materials.Value {
		return materials.Value{Value: v, Low: v, High: v, Kind: materials.Given}
	}
	p := &m.Material
	p.Density, p.HeatCapacity = given(row["density"]), given(row["heat_capacity"])
	p.Diffusivity.ReferenceValue = given(row["D_ref"])
	p.Diffusivity.Pieces = []materials.Arrhenius{{Activation: given(row["activation"])}}
	p.Sorption.Saturation = given(row["saturation"])
	m.Radius, m.Speed, m.Start, m.Pressure = row["radius"], row["speed"], row["start"], humidair.StandardPressure
	for i := range m.Path {
		z, n := &m.Path[i], strconv.Itoa(i+1)
		z.Length = row["l"+n]
		z.Air = diffusion.Air{Temperature: row["T"+n], VapourPressure: row["pv"+n]}
		z.Film = diffusion.Film{Heat: row["h"], Mass: row["k_m"]}
	}
	return &m.Model
}

// asTransit are settings for the equations of the transits: one temperature for the section, and no heat of evaporation.
func asTransit(s diffusion.Settings) diffusion.Settings {
	s.Heat, s.WithoutEvaporation = diffusion.Lumped, true
	return s
}

// perMille is the fastest setting with which 38 of the forty transits, 95 in 100, end within 0.1 % of the converged answer.
func perMille() diffusion.Settings {
	return asTransit(diffusion.Settings{Resolution: 2.3, Tolerance: 5e-2})
}

// fortySettings are what the verbs march with.
func fortySettings() []struct {
	name     string
	settings diffusion.Settings
} {
	return []struct {
		name     string
		settings diffusion.Settings
	}{
		{"per mille", perMille()},
		{"odds", asTransit(diffusion.DrawSettings())},
		{"rough", asTransit(diffusion.RoughSettings())},
		{"sweep", asTransit(diffusion.CoarseSettings())},
		{"run", asTransit(diffusion.DefaultSettings())},
	}
}

// offs are the relative errors of marches, rising, and the steps tried and not taken among all.
func offs(t testing.TB, w *diffusion.March, models []*diffusion.Model, answers []float64, s diffusion.Settings) (errors []float64, steps, rejected int) {
	var r diffusion.Result
	for i, m := range models {
		require.NoError(t, w.Run(m, s, &r))
		errors = append(errors, math.Abs(r.Nozzle.Mean/answers[i]-1))
		steps, rejected = steps+r.Steps, rejected+r.Rejected
	}
	slices.Sort(errors)
	require.False(t, math.IsNaN(errors[0]))
	return errors, steps, rejected
}

// inNinetyFive is the error that 95 in 100 do not pass.
func inNinetyFive(errors []float64) float64 { return errors[len(errors)*95/100-1] }

// The error of a march with each setting, over forty transits: what 20, 38 and 39 of them keep to.
func TestFortyTransits(t *testing.T) {
	models, answers := forty(t)
	w := diffusion.NewMarch()
	bounds := map[string][3]float64{
		"per mille": {3e-4, 9e-4, 3e-3}, "odds": {2.2e-4, 7e-4, 2.5e-3}, "rough": {1.2e-4, 4e-4, 1.5e-3}, "sweep": {6e-5, 1.7e-4, 5e-4}, "run": {2.2e-5, 6.5e-5, 1.6e-4},
	}
	for _, c := range fortySettings() {
		t.Run(c.name, func(t *testing.T) {
			errors, steps, rejected := offs(t, w, models, answers, c.settings)
			n := len(errors)
			t.Logf("20th %.2g, 38th %.2g, 39th %.2g, last %.2g; %d steps, %d rejected", errors[n/2-1], inNinetyFive(errors), errors[n-2], errors[n-1], steps, rejected)
			require.Less(t, 50*rejected, steps, "the first step of a zone is as long as it may be")
			for i, e := range []float64{errors[n/2-1], inNinetyFive(errors), errors[n-2]} {
				require.LessOrEqual(t, e, bounds[c.name][i])
			}
		})
	}
}

// BenchmarkForty times a march of the forty transits, averaged over all, with the fastest setting that keeps 38 of them within 0.1 % of the
// converged answers, and with those of the verbs; it reports the 38th error. A set of two or three transits would be met by luck of the grid.
func BenchmarkForty(b *testing.B) {
	models, answers := forty(b)
	for _, c := range fortySettings() {
		b.Run(c.name, func(b *testing.B) {
			w := diffusion.NewMarch()
			errors, steps, _ := offs(b, w, models, answers, c.settings)
			off := inNinetyFive(errors)
			if !(off <= 1e-3) {
				b.Fatalf("the 38th error is %.2g", off)
			}
			var r diffusion.Result
			b.ReportAllocs()
			for b.Loop() {
				for _, m := range models {
					if err := w.Run(m, c.settings, &r); err != nil {
						b.Fatal(err)
					}
				}
			}
			each := float64(len(models))
			b.ReportMetric(float64(b.Elapsed().Microseconds())/float64(b.N)/each, "us/march")
			b.ReportMetric(off*1e3, "‰38th")
			b.ReportMetric(float64(steps)/each, "steps")
		})
	}
}
