package scenarios

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion"
	"strandry/materials/text/strict"
	"strandry/scenarios/masses"
)

// oneRun is the shortest text of weighings; keys of the run may follow.
const oneRun = "[strand]\nmaterial = \"pa6\"\n[[run]]\nfile = \"dry-80.csv\"\n"

const (
	runKeys   = "; allowed: file, temperature, air, h, k_m, emissivity, vertical, moisture, dry_mass"
	airKeys   = "; allowed: dew_point, humidity, vapour_pressure, speed, past"
	rootKeys  = "; allowed: run, title, room, strand, machine, scale, fit, plan"
	massUnits = "; allowed: a number with one of kg, g, mg, oz"
	noStrand  = "mine.toml: strand: missing; allowed: a table [strand] with at least a material"
	noRun     = "no run; allowed: one or more [[run]], each with the file of its masses"
	onlyGiven = "; allowed: h and k_m both, or a strand that lies and air across it"
)

// wrongWeighings are texts with all that is told of each, one line for each fault.
func wrongWeighings() map[string]string {
	return map[string]string{
		"":                               noStrand + "\nmine.toml: run: " + noRun,
		"[strand]\nmaterial = \"pa6\"\n": "mine.toml: run: " + noRun,
		"run = []\n[strand]\nmaterial = \"pa6\"\n":            "mine.toml:1: run = […]: " + noRun,
		"[strand]\nmaterial = \"pa6\"\n[run]\nfile = \"x\"\n": "mine.toml:3: run = {…}: a table where an array of tables ([[run]]) belongs",
		"[[run]]\nfile = \"dry-80.csv\"\n":                    noStrand,
		"[strand]\n[[run]]\nfile = \"dry-80.csv\"\n": "mine.toml:1: strand.material: missing; allowed: " + library +
			", or the path of a material file that ends in .toml",
		"[strand]\nmaterial = \"pa6\"\n[[run]]\n":                           `mine.toml:3: run[1].file: missing; allowed: the table of the masses, such as "dry-80.csv"`,
		"[strand]\nmaterial = \"pa6\"\n[[run]]\nfile = 80\n":                `mine.toml:4: run[1].file = 80: a whole number where a text belongs`,
		"[strand]\nmaterial = \"pa6\"\n[[run]]\nfile = \"none.csv\"\n":      `mine.toml:4: run[1].file = "none.csv": there is no such file`,
		"[strand]\nmaterial = \"pa6\"\n[[run]]\nfile = \"a\\u202eb.csv\"\n": `mine.toml:4: run[1].file = "a\u202eb.csv": the text holds a character that turns the direction of writing (U+202E); allowed: one line of characters that can be printed`,
		strings.Replace(oneRun, "dry-80", "bad", 1) + "moisture = \"80 %\"\n": `bad.csv:2: mass [g] = "abc": no number` + "\n" +
			`bad.csv:4: time [h] = "0": earlier than the row before, 1 h; allowed: times that rise; one that is repeated is two weighings` + "\n" +
			`mine.toml:5: run[1].moisture = "80 %": outside the limits; allowed: 0 % to 50 %`,
		strings.Replace(oneRun, "dry-80", "wild", 1): `mine.toml:4: run[1].file = "wild.csv": masses from 20 g in line 2 of wild.csv to 33 g in line 3 of wild.csv; ` +
			`allowed: the masses of one strand, which takes up half its dry mass in water at the most`,
		strings.Replace(oneRun, "dry-80", "still", 1):                             `mine.toml: scale.resolution: all masses are the same; allowed: the resolution of the scale, and masses that change`,
		oneRun + "[[run]]\nfile = \"dry-80.csv\"\n":                               `mine.toml:6: run[2].file = "dry-80.csv": the same masses as in run 1, dry-80.csv; allowed: each run once`,
		oneRun + "[[run]]\nfile = \"dry-81.csv\"\n[[run]]\nfile = \"same.csv\"\n": `mine.toml:8: run[3].file = "same.csv": the same masses as in run 1, dry-80.csv; allowed: each run once`,

		oneRun + "temprature = \"80 °C\"\n":                                  `mine.toml:5: run[1].temprature = "80 °C": unknown key` + runKeys + `; did you mean "temperature"?`,
		oneRun + "length = \"1 m\"\n":                                        `mine.toml:5: run[1].length = "1 m": unknown key` + runKeys,
		oneRun + "air = { flow = \"1 L/min\" }\n":                            `mine.toml:5: run[1].air.flow = "1 L/min": unknown key` + airKeys,
		oneRun + "[feed]\nspeed = \"1 mm/s\"\n":                              `mine.toml:5: feed = {…}: unknown key` + rootKeys,
		oneRun + "[rooms]\n":                                                 `mine.toml:5: rooms = {…}: unknown key` + rootKeys + `; did you mean "room"?`,
		strings.Replace(oneRun, "[[run]]", "moisture = \"1 %\"\n[[run]]", 1): `mine.toml:3: strand.moisture = "1 %": unknown key; allowed: diameter, material, properties, storage`,

		oneRun + "temperature = \"250 °C\"\n":                                                             `mine.toml:5: run[1].temperature = "250 °C": the strand would melt; allowed: up to 220 °C, where PA6 melts`,
		oneRun + "temperature = \"350 °C\"\n":                                                             `mine.toml:5: run[1].temperature = "350 °C": outside the limits; allowed: -40 °C to 300 °C`,
		strings.Replace(oneRun, "pa6", "petg", 1) + "temperature = \"245 °C\"\n":                          `mine.toml:5: run[1].temperature = "245 °C": the strand would melt; allowed: up to 240 °C, the temperature of the nozzle`,
		oneRun + "[[strand.storage]]\nduration = \"1 h\"\ntemperature = \"230 °C\"\nhumidity = \"1 %\"\n": `mine.toml:7: strand.storage[1].temperature = "230 °C": the strand would melt; allowed: up to 220 °C, where PA6 melts`,
		oneRun + "temperature = 80\n":                                                                     `mine.toml:5: run[1].temperature = 80: a whole number where a temperature with its unit belongs; allowed: a text, a number with one of °C, degC, K, °F`,
		oneRun + "air = { dew_point = \"90 °C\" }\n":                                                      `mine.toml:5: run[1].air.dew_point = "90 °C": air above saturation: its vapour pressure is 70180 Pa; allowed: up to 2811 Pa at 23 °C, a dew point no higher than the air's temperature`,
		oneRun + "air = { past = \"along\" }\n":                                                           `mine.toml:5: run[1].air.past = "along": still air passes in no direction; allowed: past together with speed`,
		oneRun + "vertical = true\nh = \"9 W/m2/K\"\n":                                                    `mine.toml:5: run[1].vertical = true: the film on a strand that hangs rests on a length, which is not known here` + onlyGiven,
		oneRun + "k_m = \"0.02 m/s\"\nair = { speed = \"1 m/s\", past = \"along\" }\n":                    `mine.toml:6: run[1].air.past = "along": the film of air along a strand rests on a length, which is not known here` + onlyGiven,

		oneRun + "moisture = \"51 %\"\n":   `mine.toml:5: run[1].moisture = "51 %": outside the limits; allowed: 0 % to 50 %`,
		oneRun + "moisture = \"-1 %\"\n":   `mine.toml:5: run[1].moisture = "-1 %": outside the limits; allowed: 0 % to 50 %`,
		oneRun + "dry_mass = \"0 g\"\n":    `mine.toml:5: run[1].dry_mass = "0 g": outside the limits; allowed: 0 g to 100000 g, 0 g excluded`,
		oneRun + "dry_mass = \"20 ml\"\n":  `mine.toml:5: run[1].dry_mass = "20 ml": "ml" is not a unit of mass` + massUnits + `; did you mean "mg"?`,
		oneRun + "dry_mass = \"21 g\"\n":   `mine.toml:5: run[1].dry_mass = "21 g": the strand weighed less: 20.31 g in line 5 of dry-80.csv; allowed: up to that mass, and 1 % more for the scale`,
		oneRun + "dry_mass = \"20.6 g\"\n": `mine.toml:5: run[1].dry_mass = "20.6 g": the strand weighed less: 20.31 g in line 5 of dry-80.csv; allowed: up to that mass, and 1 % more for the scale`,
		oneRun + "dry_mass = \"13 g\"\n": `mine.toml:5: run[1].dry_mass = "13 g": the strand would have held more than half as much water: it weighed 20.51 g in line 2 of dry-80.csv; ` +
			`allowed: at least two thirds of that mass`,

		oneRun + "[scale]\nresolution = \"0 g\"\n":    `mine.toml:6: scale.resolution = "0 g": outside the limits; allowed: 0 g to 100 g, 0 g excluded`,
		oneRun + "[scale]\nresolution = 0.01\n":       `mine.toml:6: scale.resolution = 0.01: a number where a mass with its unit belongs; allowed: a text, a number with one of kg, g, mg, oz`,
		oneRun + "[scale]\ndrift = \"-0.1 g/h\"\n":    `mine.toml:6: scale.drift = "-0.1 g/h": outside the limits; allowed: 0 g/h to 100 g/h`,
		oneRun + "[scale]\ndrift = \"fited\"\n":       `mine.toml:6: scale.drift = "fited": neither a mass per time nor a word that is known here; allowed: fitted, or a number with one of kg/s, g/h, mg/h, g/min, mg/min, g/d, mg/d; did you mean "fitted"?`,
		oneRun + "[scale]\nrezolution = \"0.01 g\"\n": `mine.toml:6: scale.rezolution = "0.01 g": unknown key; allowed: resolution, drift; did you mean "resolution"?`,
		oneRun + "[fit]\nbeta = \"free\"\n":           `mine.toml:6: fit.beta = "free": not one of the choices; allowed: fitted, fixed`,
		oneRun + "[fit]\nbetta = \"fixed\"\n":         `mine.toml:6: fit.betta = "fixed": unknown key; allowed: beta; did you mean "beta"?`,
		"fit = 3\nscale = 3\n" + oneRun:               "mine.toml:1: fit = 3: a whole number where a table belongs\nmine.toml:2: scale = 3: a whole number where a table belongs",
		"run = [3]\n":                                 "",
		"a = ":                                        "",
	}
}

// library are the names of the library as messages list them.
const library = "abs, asa, bvoh, hips, pa12, pa6, pa6-66, pa6-cf20, pa66, pc, pcl, peek, pei, pet, petg, pla, pla-cryst, pmma, pom, pp, pps, pva, tpu-ester, tpu-ether"

func TestWrongWeighings(t *testing.T) {
	for text, says := range wrongWeighings() {
		_, err := ReadWeighings("mine.toml", []byte(text), tables)
		var faults strict.Faults
		require.ErrorAs(t, err, &faults, text)
		if says != "" {
			require.Equal(t, says, err.Error(), text)
		}
	}
}

// What is just within its limits is taken.
func TestWeighingsAtTheirLimits(t *testing.T) {
	for _, more := range []string{
		"dry_mass = \"20.5 g\"\n", "dry_mass = \"13.6 g\"\n", "moisture = \"50 %\"\n", "moisture = \"0 %\"\n", "temperature = \"220 °C\"\n",
		"[scale]\nresolution = \"0.2 g\"\ndrift = \"0 g/h\"\n", "[scale]\ndrift = \"100 g/h\"\n",
		"h = \"9 W/m2/K\"\nk_m = \"0.02 m/s\"\nvertical = true\nair = { speed = \"1 m/s\", past = \"along\" }\n",
	} {
		marchable(t, weighed(t, oneRun+more))
	}
	w := weighed(t, oneRun+"temperature = \"80 °C\"\nair.speed = \"1 m/s\"\n")
	require.NotContains(t, w.Assumed, "run.1.temperature: 23 °C")
}

// marchable requires that each run can be marched from some start, and that all numbers are in the ranges that the format promises.
func marchable(t *testing.T, w *Weighings) {
	t.Helper()
	require.True(t, w.Scale.Resolution > 0 && w.Scale.Resolution <= masses.Heaviest, "resolution %v", w.Scale.Resolution)
	require.True(t, w.Scale.Drift >= 0, "drift %v", w.Scale.Drift)
	require.NotEmpty(t, w.Runs)
	for i, run := range w.Runs {
		m := w.Model
		m.Start, m.Path = run.Start, []diffusion.Zone{run.Zone}
		require.NoError(t, m.Check(), run.File)
		within(t, run.Start, 0, maxContent, "start")
		require.GreaterOrEqual(t, len(run.Points), masses.MinRows)
		require.Equal(t, run.DryMassKnown, run.DryMass > 0)
		require.Equal(t, run.Zone.Duration, run.Points[len(run.Points)-1].Time)
		for k, p := range run.Points {
			within(t, p.Time, 0, run.Zone.Duration, "time")
			within(t, p.Mass, masses.Lightest, masses.Heaviest, "mass")
			require.True(t, k == 0 || p.Time >= run.Points[k-1].Time)
		}
		for _, other := range w.Runs[:i] {
			require.NotEqual(t, other.Sum, run.Sum)
			require.NotEqual(t, other.Zone.Name, run.Zone.Name)
		}
	}
}

// Whatever the texts of the weighings and of the table that they name: no panic, and either faults or what can be marched.
func FuzzReadWeighings(f *testing.F) {
	f.Add([]byte(allWeighings), []byte(someMasses))
	f.Add(WeighingsTemplate(), []byte(someMasses))
	f.Add([]byte(oneRun), []byte("clock;mass [mg]\n23:00;20,31\n0:00;20,33\n0:00;20,34\n9:00;20,37\n"))
	for text := range wrongWeighings() {
		f.Add([]byte(text), []byte(someMasses))
	}
	f.Fuzz(func(t *testing.T, text, table []byte) {
		w, err := ReadWeighings("fuzz.toml", text, func(name string) ([]byte, error) {
			if strings.HasSuffix(name, "dry-80.csv") {
				return table, nil
			}
			return tables(name)
		})
		if err != nil {
			var faults strict.Faults
			require.ErrorAs(t, err, &faults)
			require.NotEmpty(t, faults)
			return
		}
		marchable(t, w)
	})
}
