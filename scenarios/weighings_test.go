package scenarios

import (
	"errors"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion"
	"strandry/diffusion/film"
	"strandry/materials/text/strict"
	"strandry/scenarios/masses"
)

// someMasses are those of a strand that dries.
const someMasses = "time [h],mass [g]\n0,20.51\n0.5,20.43\n1,20.38\n2,20.31\n"

// allWeighings uses the whole format.
const allWeighings = `
title = "Nylon, dried at 80 °C"
[strand]
material = "pa6"
diameter = "2 mm"
[[strand.storage]]
duration = "6 h"
temperature = "30 °C"
humidity = "40 %"
[strand.properties]
density = "1150 kg/m3"
[scale]
resolution = "0.02 g"
drift = "3.6 g/h"
[[run]]
file = "dry-80.csv"
temperature = "80 °C"
air = { vapour_pressure = "300 Pa", speed = "1 m/s", past = "across" }
moisture = "2.5 %"
dry_mass = "20 g"
emissivity = 0.8
h = "25 W/m2/K"
k_m = "0.02 m/s"
vertical = false
[[run]]
file = "wet/air.csv"
[room]
temperature = "25 °C"
humidity = "60 %"
pressure = "95 kPa"
[fit]
beta = "fixed"
`

// tables opens those of a test.
func tables(name string) ([]byte, error) {
	switch name {
	case "dry-80.csv":
		return []byte(someMasses), nil
	case "wet/air.csv", "wet/dry-80.csv":
		return []byte("clock;mass [g];by\n23:00;20,31;me\n0:00;20,33;\n0:00;20,34;\n9:00;20,37;\n"), nil
	case "my-dryer.toml":
		return machineOf("pa6", "[[check]]\nafter = \"12.4 g\"\ndried = \"12.3 g\"\n"), nil
	case "idle.toml":
		return machineOf("pa6", ""), nil
	case "other.toml":
		return machineOf("petg", "[[check]]\nafter = \"12.4 g\"\ndried = \"12.3 g\"\n"), nil
	case "broken.toml":
		return machineOf("pa6", "[room]\nhumidity = \"1\"\n"), nil
	case "dry-81.csv":
		return []byte(strings.Replace(someMasses, "20.51", "20.52", 1)), nil
	case "same.csv":
		return []byte(someMasses), nil
	case "kilograms.csv": // a mass of someMasses among them, whose float is another
		return []byte("time [h],mass [kg]\n0,0.02031\n1,0.0204\n2,0.02045\n3,0.02049\n"), nil
	case "late.csv":
		return []byte("time [min];mass [kg]\n30;5\n40;5,01\n50;5,02\n60;5,03\n"), nil
	case "wild.csv":
		return []byte("time [h],mass [g]\n0,20\n1,33\n2,20\n3,20\n"), nil
	case "still.csv":
		return []byte("time [h],mass [g]\n0,20\n1,20\n2,20\n3,20\n"), nil
	case "bad.csv":
		return []byte("time [h],mass [g]\n0,abc\n1,20\n0,20\n"), nil
	}
	return nil, errors.New("there is no such file")
}

func weighed(t *testing.T, text string) *Weighings {
	t.Helper()
	w, err := ReadWeighings("mine.toml", []byte(text), tables)
	require.NoError(t, err)
	return w
}

// same is InDelta that a NaN on both sides fails, relative to the value wanted.
func same(t *testing.T, want, got float64) {
	t.Helper()
	require.False(t, math.IsNaN(want) || math.IsNaN(got))
	require.InDelta(t, want, got, 1e-12*math.Abs(want))
}

func TestWeighings(t *testing.T) {
	w := weighed(t, allWeighings)
	require.Equal(t, "mine.toml", w.File)
	require.Equal(t, "Nylon, dried at 80 °C", w.Title)
	same(t, 1e-3, w.Model.Radius)
	same(t, 298.15, w.Model.StartTemperature)
	same(t, 298.15, w.Room.Temperature)
	same(t, 95000, w.Model.Pressure)
	require.Equal(t, "pa6", w.Model.Material.ID)
	same(t, 1150, w.Model.Material.Density.Value)
	require.Len(t, w.Model.Storage, 1)
	same(t, 21600, w.Model.Storage[0].Duration)
	same(t, 0.4, w.Model.Storage[0].Air.Held)
	require.Empty(t, w.Model.Path)
	require.Equal(t, Scale{Resolution: 2e-5, Stated: true, Drift: 1e-6}, w.Scale)
	require.Equal(t, Fixed, w.Beta)
	require.Len(t, w.Runs, 2)
	run := w.Runs[0]
	require.Equal(t, "dry-80.csv", run.File)
	require.Equal(t, "dry-80", run.Zone.Name)
	same(t, 7200, run.Zone.Duration)
	require.Zero(t, run.Zone.Length)
	same(t, 353.15, run.Zone.Air.Temperature)
	same(t, 300, run.Zone.Air.VapourPressure)
	require.Equal(t, film.Across, run.Zone.Film.Flow)
	same(t, 1, run.Zone.Film.AirSpeed)
	same(t, 0.8, run.Zone.Film.Emissivity)
	same(t, 25, run.Zone.Film.Heat)
	same(t, 0.02, run.Zone.Film.Mass)
	require.True(t, run.StartKnown && run.DryMassKnown)
	same(t, 0.025, run.Start)
	same(t, 0.02, run.DryMass)
	require.Len(t, run.Points, 4)
	for i, want := range []Weighing{{0, 0.02051, 2}, {1800, 0.02043, 3}, {3600, 0.02038, 4}, {7200, 0.02031, 5}} {
		same(t, want.Time, run.Points[i].Time)
		same(t, want.Mass, run.Points[i].Mass)
		require.Equal(t, want.Line, run.Points[i].Line)
	}
	other := w.Runs[1]
	require.Equal(t, "air", other.Zone.Name)
	require.False(t, other.StartKnown || other.DryMassKnown)
	same(t, 36000, other.Zone.Duration)
	same(t, w.Room.VapourPressure, other.Zone.Air.VapourPressure)
	same(t, w.Room.Temperature, other.Zone.Air.Temperature)
	require.Equal(t, film.Natural, other.Zone.Film.Flow)
	require.Equal(t, []string{"run.2.temperature: 25 °C", "run.2.air: room air, at the temperature of the zone"}, w.Assumed)
	require.Equal(t, []string{
		"run.2.file: columns that are not read: by",
		"run.2.file: times are counted from the first weighing, 23:00",
		"run.2.file: midnight has passed before line 3",
		"scale.resolution: the masses show steps of 0.01 g, finer than that",
	}, w.Noted)
}

// The sum is that of the program sha256sum.
func TestSumOfTheTable(t *testing.T) {
	w := weighed(t, "strand.material = \"pa6\"\nrun = [{ file = \"dry-80.csv\" }]")
	require.Equal(t, "b8e51a6a575bc76cc03b82d21c3b1e2fa3e21062f0b61c32e76a2783ecd8b492", w.Runs[0].Sum)
}

func TestRunNames(t *testing.T) {
	var runs []Run
	for _, c := range [][2]string{
		{"x.csv.csv", "x.csv"}, {"a/x.csv", "x"}, {"x.csv", "x.csv (run 3)"}, {"b/x.csv", "b/x.csv"}, {".csv", ".csv"}, {"c/d.e/plain", "plain"}, {"dry-80.5.txt", "dry-80.5"},
	} {
		require.Equal(t, c[1], runName(c[0], runs))
		runs = append(runs, Run{Zone: diffusion.Zone{Name: c[1]}})
	}
}

// What is not said of a strand, its scale and its runs gets a default that is told, or is not known.
func TestWeighingsOfFewWords(t *testing.T) {
	w := weighed(t, "[strand]\nmaterial = \"nylon\"\n[[run]]\nfile = \"late.csv\"\nair.speed = \"1 m/s\"\n[[run]]\nfile = \"dry-80.csv\"\n[[run]]\nfile = \"wet/dry-80.csv\"\n")
	require.Equal(t, "mine", w.Title)
	require.Equal(t, WhereTold, w.Beta)
	require.Equal(t, Scale{Resolution: 1e-5}, w.Scale)
	require.Len(t, w.Taken, 1)
	require.Equal(t, film.Across, w.Runs[0].Zone.Film.Flow)
	require.Equal(t, []string{"late", "dry-80", "wet/dry-80.csv"}, []string{w.Runs[0].Zone.Name, w.Runs[1].Zone.Name, w.Runs[2].Zone.Name})
	for _, said := range []string{
		"strand.diameter: 1.75 mm", "scale.resolution: 0.01 g, the smallest step seen in the masses", "run.1.air.past: across",
		"run.1.file: the strand came into this air at time 0, 30 min before the first weighing", "run.1.air: room air, at the temperature of the zone",
	} {
		require.Contains(t, w.Assumed, said)
	}
	require.Contains(t, w.Noted, "run.1.file: 5.03 kg is much for a strand; is the unit the scale's?")
	w = weighed(t, oneRun+"[[run]]\nfile = \"kilograms.csv\"\n")
	require.NotEqual(t, w.Runs[0].Points[3].Mass, w.Runs[1].Points[0].Mass)
	same(t, 2e-5, w.Scale.Resolution)
	for beta, want := range map[string]BetaChoice{"fitted": Fitted, "fixed": Fixed} {
		require.Equal(t, want, weighed(t, "strand.material = \"pa6\"\nfit.beta = \""+beta+"\"\nrun = [{ file = \"dry-80.csv\" }]").Beta)
	}
	require.Equal(t, []string{"where the masses tell it", "fitted", "fixed"}, []string{WhereTold.String(), Fitted.String(), Fixed.String()})
	w = weighed(t, "strand.material = \"pa6\"\nscale.drift = \"fitted\"\nrun = [{ file = \"dry-80.csv\" }]")
	require.True(t, math.IsInf(w.Scale.Drift, 1))
	same(t, 5e-5, w.Scale.Resolution)
}

// changes are another value for each key of allWeighings.
func changes() [][2]string {
	return [][2]string{
		{`title = "Nylon`, `title = "PA6`}, {`"pa6"`, `"pa12"`}, {`diameter = "2 mm"`, `diameter = "1.75 mm"`},
		{`duration = "6 h"`, `duration = "7 h"`}, {`temperature = "30 °C"`, `temperature = "31 °C"`}, {`humidity = "40 %"`, `humidity = "41 %"`},
		{`density = "1150 kg/m3"`, `density = "1151 kg/m3"`}, {`resolution = "0.02 g"`, `resolution = "0.01 g"`}, {`drift = "3.6 g/h"`, `drift = "fitted"`},
		{`file = "dry-80.csv"`, `file = "dry-81.csv"`}, {`temperature = "80 °C"`, `temperature = "81 °C"`}, {`vapour_pressure = "300 Pa"`, `vapour_pressure = "301 Pa"`},
		{`vapour_pressure = "300 Pa"`, `dew_point = "-10 °C"`}, {`vapour_pressure = "300 Pa"`, `humidity = "2 %"`},
		{`speed = "1 m/s"`, `speed = "2 m/s"`}, {`past = "across"`, `past = "along"`}, {`moisture = "2.5 %"`, `moisture = "2.6 %"`},
		{`dry_mass = "20 g"`, `dry_mass = "20.1 g"`}, {`emissivity = 0.8`, `emissivity = 0.7`}, {`h = "25 W/m2/K"`, `h = "26 W/m2/K"`},
		{`k_m = "0.02 m/s"`, `k_m = "0.03 m/s"`}, {`vertical = false`, `vertical = true`}, {`temperature = "25 °C"`, `temperature = "26 °C"`},
		{`humidity = "60 %"`, `humidity = "61 %"`}, {`pressure = "95 kPa"`, `pressure = "96 kPa"`}, {`beta = "fixed"`, `beta = "fitted"`},
	}
}

// No key is read without effect on what is handed on, notes aside, and each is tried.
func TestEachKeyOfWeighingsActs(t *testing.T) {
	bare := func(text string) Weighings {
		w := *weighed(t, text)
		w.Assumed, w.Taken, w.Noted = nil, nil, nil
		for i := range w.Runs {
			w.Runs[i].File, w.Runs[i].Sum, w.Runs[i].Zone.Name = "", "", ""
		}
		return w
	}
	whole := bare(allWeighings)
	var tried strings.Builder
	for _, c := range changes() {
		require.Equal(t, 1, strings.Count(allWeighings, c[0]), c[0])
		require.NotEqual(t, whole, bare(strings.Replace(allWeighings, c[0], c[1], 1)), c[1])
		tried.WriteString(c[0] + c[1])
	}
	for _, change := range changesOfPlans() { // which act in plans
		tried.WriteString("\n" + change[1])
	}
	for _, key := range keysOfWeighings(t, allWeighings) {
		require.Regexp(t, `\b`+key+` = `, tried.String()+"\nmaterial = ", key)
	}
}

// keysOfWeighings are the last parts of all keys that a text is asked for, but for properties of the material.
func keysOfWeighings(t *testing.T, text string) []string {
	t.Helper()
	d, err := Parse("mine.toml", []byte(text))
	require.NoError(t, err)
	d.open = tables
	root, reader, err := strict.Parse(d.File, d.text)
	require.NoError(t, err)
	r := &reading{document: d}
	r.weighings(section{r: r, table: root})
	require.NoError(t, r.finish(reader))
	keys := []string{"title", "file"}
	for _, name := range append(r.names(), r.words...) {
		if !strings.HasPrefix(name, propertyPath) {
			keys = append(keys, name[strings.LastIndexByte(name, '.')+1:])
		}
	}
	slices.Sort(keys)
	return slices.Compact(keys)
}

// The template reads, names every key, and what it has commented out works when it is not.
func TestWeighingsTemplate(t *testing.T) {
	text := string(WeighingsTemplate())
	w := weighed(t, text)
	require.True(t, w.Scale.Stated)
	same(t, 1e-5, w.Scale.Resolution)
	for _, key := range keysOfWeighings(t, allWeighings) {
		require.Regexp(t, regexp.MustCompile(`\b`+key+` = `), text, key)
	}
	uncommented(t, text, 12, func(text []byte) error {
		_, err := ReadWeighings("template.toml", text, tables)
		return err
	})
	var sample strings.Builder
	for line := range strings.Lines(text) {
		if row, ok := strings.CutPrefix(line, "#     "); ok {
			sample.WriteString(row)
		}
	}
	table, err := masses.Read("sample.csv", []byte(sample.String()))
	require.NoError(t, err)
	same(t, 900, table.Rows[1].Time)
	for _, word := range []string{"burn", "fumes", "unattended", "makers of oven, scale and material"} {
		require.Contains(t, text, word)
	}
}

func TestOpenWeighings(t *testing.T) {
	folder := t.TempDir()
	file := put(t, "\ufeff"+strings.ReplaceAll(allWeighings, "\n", "\r\n"), folder, "mine.toml")
	put(t, someMasses, folder, "dry-80.csv")
	_, err := OpenWeighings(file)
	require.EqualError(t, err, file+`:26: run[2].file = "wet/air.csv": there is no such file`)
	wet, err := tables("wet/air.csv")
	require.NoError(t, err)
	put(t, string(wet), folder, "wet", "air.csv")
	w, err := OpenWeighings(file)
	require.NoError(t, err)
	want, err := ReadWeighings(file, []byte(allWeighings), tables)
	require.NoError(t, err)
	require.Equal(t, want, w)

	opened := func(text string) error {
		_, err := OpenWeighings(put(t, text, folder, "other.toml"))
		return err
	}
	other := filepath.Join(folder, "other.toml")
	run := "strand.material = \"pa6\"\nrun = [{ file = \"%\" }]\n"
	require.NoError(t, opened(strings.Replace(run, "%", filepath.ToSlash(filepath.Join(folder, "dry-80.csv")), 1)))
	put(t, "base = \"pa6\"\n", folder, "own.toml")
	require.NoError(t, opened(strings.Replace(strings.Replace(run, "%", "dry-80.csv", 1), "pa6", "own.toml", 1)))
	require.EqualError(t, opened(strings.Replace(run, "%", "dry80.csv", 1)),
		other+`:2: run[1].file = "dry80.csv": there is no such file; did you mean "`+filepath.Join(folder, "dry-80.csv")+`"?`)
	require.EqualError(t, opened(strings.Replace(run, "%", "wet", 1)), other+`:2: run[1].file = "wet": this is a folder; a file is needed`)
	put(t, "time [h]\x00", folder, "binary.csv")
	require.EqualError(t, opened(strings.Replace(run, "%", "binary.csv", 1)),
		filepath.Join(folder, "binary.csv")+": this is no text file: it holds zero bytes; allowed: text in UTF-8, as spreadsheets save it under the name CSV UTF-8")
	put(t, strings.Repeat("#", masses.MaxSize+1), folder, "long.csv")
	require.EqualError(t, opened(strings.Replace(run, "%", "long.csv", 1)), other+`:2: run[1].file = "long.csv": the file is too long; up to 4096 KiB is read`)
	put(t, "time [h],mass [g]\n0,20\n", folder, "wet", "short.csv")
	require.EqualError(t, opened(strings.Replace(run, "%", "wet/short.csv", 1)), filepath.Join(folder, "wet", "short.csv")+": too few weighings; allowed: 4 to 10000")
	_, err = OpenWeighings(filepath.Join(folder, "min.toml"))
	require.EqualError(t, err, filepath.Join(folder, "min.toml")+`: there is no such file; did you mean "`+file+`"?`)
	_, err = OpenWeighings(os.DevNull)
	require.ErrorContains(t, err, "no ordinary file")
	_, err = ReadWeighings("mine.toml", []byte(strings.Replace(run, "%", "dry-80.csv", 1)), nil)
	require.EqualError(t, err, `mine.toml:2: run[1].file = "dry-80.csv": a text without a folder cannot name files`)
}

// machineOf is a scenario with a strand, and what else is given.
func machineOf(material, more string) []byte {
	return []byte("[strand]\nmaterial = \"" + material + "\"\nmoisture = \"2 %\"\n[[zone]]\nname = \"tube\"\nlength = \"2 m\"\n[feed]\nspeed = \"1 mm/s\"\n" + more)
}

// The checks of a machine come with the scenario that they are of.
func TestMachineOfWeighings(t *testing.T) {
	w := weighed(t, "machine = \"my-dryer.toml\"\n"+allWeighings)
	require.Len(t, w.Machine.Checks, 1)
	require.Nil(t, weighed(t, allWeighings).Machine)
	for name, says := range map[string]string{
		"none.toml":   "machine = \"none.toml\": there is no such file",
		"idle.toml":   "machine = \"idle.toml\": no strand was weighed at this machine; allowed: a scenario with a [[check]] that has after",
		"other.toml":  "machine = \"other.toml\": its strand is petg, not pa6; allowed: a scenario with the material that is weighed",
		"broken.toml": "machine = \"broken.toml\": the scenario has faults",
	} {
		_, err := ReadWeighings("mine.toml", []byte("machine = \""+name+"\"\n"+allWeighings), tables)
		require.ErrorContains(t, err, says)
	}
}
