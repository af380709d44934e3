package main

import (
	"encoding/json"
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion/samples"
	"strandry/materials/humidair"
	"strandry/scenarios"
)

// TestAttackDesigns runs random designs. What is answered is finite, within what start and air allow, in order and in keeping with its
// verdict; text and JSON, one core and two, coarse and fine steps agree. What is not says in which file and key.
func TestAttackDesigns(t *testing.T) {
	t.Parallel()
	count, made, answers := samples.Of(2, 8, 1010), 0, 0
	for i := range count {
		dice := attackDice(t, 1, i)
		d := drafted(dice)
		t.Run(strconv.Itoa(i), func(t *testing.T) {
			defer tellDraft(t, d)
			made++
			if attackDesign(t, d, i%8, dice.Float64()) {
				answers++
			}
		})
	}
	require.GreaterOrEqual(t, answers, made/2)
}

// tellDraft shows the design of an attack that found something.
func tellDraft(t *testing.T, d draft) {
	if t.Failed() {
		t.Log(d.text())
	}
}

// attackDesign tells whether the design has an answer. turn is what is done besides, where is where the limit is put.
func attackDesign(t *testing.T, d draft, turn int, where float64) bool {
	file := d.file(t)
	text := fired(t, 1, "run", "--full", file)
	data := fired(t, 2, "run", "--json", file)
	require.Equal(t, text.status, data.status, text.errOut+data.errOut)
	if text.status != answered {
		require.Equal(t, failed, text.status)
		require.Equal(t, text.errOut, data.errOut)
		namesFileAndKey(t, file, d, text.errOut)
		return false
	}
	a := answerOf(t, data.out)
	a.ordered(t)
	a.within(t, file)
	a.told(t, text.out)
	switch turn {
	case 0:
		require.Equal(t, text, fired(t, 2, "run", "--full", file))
		require.Equal(t, data, fired(t, 1, "run", "--json", file))
	case 1:
		a.refined(t, d)
	case 2, 3:
		a.limited(t, d, where)
	}
	return true
}

// namesFileAndKey requires a refusal to tell where to look: the file, and one of its keys or zones.
func namesFileAndKey(t *testing.T, file string, d draft, errOut string) {
	t.Helper()
	require.Contains(t, errOut, file)
	rest := strings.ReplaceAll(errOut, file, "")
	for _, p := range d.parts {
		name := strings.TrimPrefix(p.path, "zone.")
		if name != p.path && strings.Contains(rest, name) {
			return
		}
		for _, k := range p.keys {
			if strings.Contains(rest, k.key) {
				return
			}
		}
	}
	t.Fatalf("no key and no zone is named: %s", errOut)
}

// jsonAnswer is of an answer what is judged here.
type jsonAnswer struct {
	Verdict, Survives string
	Moisture          struct {
		Start, Mean, Low, High, Centre, Skin, Limit, Removed float64
		NumericalError                                       float64 `json:"numerical_error"`
		CentreError                                          float64 `json:"centre_error"`
		SkinError                                            float64 `json:"skin_error"`
		ProfileError                                         float64 `json:"profile_error"`
		Probability                                          float64
		Surrogate                                            float64 `json:"surrogate_error"`
	}
	Zones []struct {
		Mean, Centre, Skin float64
		BehindCover        float64 `json:"behind_cover"`
		StrandTemperature  float64 `json:"strand_temperature"`
		AirTemperature     float64 `json:"air_temperature"`
		Equilibrium        float64
		MeanError          float64 `json:"mean_error"`
		CentreError        float64 `json:"centre_error"`
		SkinError          float64 `json:"skin_error"`
	}
	Profile  struct{ Radius, Moisture []float64 }
	Settings struct {
		Resolution, Tolerance, Balance float64
		Heat                           string
	}
}

func answerOf(t *testing.T, text string) jsonAnswer {
	t.Helper()
	var a jsonAnswer
	require.NoError(t, json.Unmarshal([]byte(text), &a))
	require.NotEmpty(t, a.Zones)
	require.Positive(t, a.Moisture.Limit)
	return a
}

// ordered requires low and high to be in order, the errors to be such, and the verdict to follow from the probability, but for what the
// numerical error may make of it.
func (a jsonAnswer) ordered(t *testing.T) {
	t.Helper()
	m := a.Moisture
	require.LessOrEqual(t, m.Low, m.High)
	require.True(t, m.Probability >= 0 && m.Probability <= 1)
	for _, off := range []float64{m.NumericalError, m.CentreError, m.SkinError, m.ProfileError, m.Surrogate} {
		require.GreaterOrEqual(t, off, 0.0)
	}
	require.LessOrEqual(t, m.Removed, 1.0)
	switch p := m.Probability; {
	case a.Verdict == "dry":
		require.GreaterOrEqual(t, p, 0.9)
		require.NotEqual(t, "softens", a.Survives)
	case a.Verdict == "wet":
		require.LessOrEqual(t, p, 0.1)
	case a.Survives == "softens":
		require.Equal(t, "softens", a.Verdict)
	default:
		require.Equal(t, "unsure", a.Verdict)
		far := 0.9 + min(0.1, 100*m.NumericalError/m.Mean) // beyond, no numerical error leaves a doubt
		require.False(t, p > far || p < 1-far, "unsure at %v", p)
	}
	require.InDelta(t, 0, a.Settings.Balance, 1e-6)
	last := a.Zones[len(a.Zones)-1]
	require.Equal(t, []float64{m.Mean, m.Centre, m.Skin}, []float64{last.Mean, last.Centre, last.Skin})
}

// within requires each content to lie between nothing and the more of the start and saturation.
func (a jsonAnswer) within(t *testing.T, file string) {
	t.Helper()
	s, err := scenarios.Load(file)
	require.NoError(t, err)
	most := s.Model.Start
	for _, z := range append(append(s.Model.Path, s.Model.Storage...), s.Model.Path[0]) {
		for _, kelvin := range []float64{z.Air.Temperature, s.Model.StartTemperature} {
			most = max(most, s.Model.Material.Sorption.Content(1, kelvin))
		}
	}
	m := a.Moisture
	off := max(m.NumericalError, m.SkinError, m.ProfileError)
	for _, z := range a.Zones {
		off = max(off, z.MeanError, z.CentreError, z.SkinError)
	}
	most += 2*off + 1e-12
	contents := append([]float64{m.Start, m.Mean, m.Centre, m.Skin}, a.Profile.Moisture...)
	const wider = 3 // of the isotherm
	require.True(t, m.Low >= 0 && m.High <= wider*most)
	for _, z := range a.Zones {
		contents = append(contents, z.Mean, z.Centre, z.Skin, z.BehindCover)
		require.Positive(t, humidair.SaturationPressure(z.StrandTemperature))
	}
	for _, c := range contents {
		require.True(t, c >= 0 && c <= most, "%v is not within 0 and %v", c, most)
	}
}

// told requires the text to say the numbers and the verdict of the JSON.
func (a jsonAnswer) told(t *testing.T, text string) {
	t.Helper()
	m := a.Moisture
	found := regexp.MustCompile(`At the nozzle  ([0-9.]+) ± ([0-9.]+) % \(numerical error\)(?:, the bore's mouths shut)?\n +centre ([0-9.]+) ± ([0-9.]+) %, skin ([0-9.]+) ± ([0-9.]+) %`).FindStringSubmatch(text)
	require.NotNil(t, found, text)
	for i, want := range []float64{m.Mean, m.Centre, m.Skin} {
		printed, err := strconv.ParseFloat(found[1+2*i], 64)
		require.NoError(t, err)
		off, err := strconv.ParseFloat(found[2+2*i], 64)
		require.NoError(t, err)
		_, decimals, _ := strings.Cut(found[1+2*i], ".")
		require.InDelta(t, 100*want, printed, 0.5001*math.Pow10(-len(decimals)))
		require.GreaterOrEqual(t, off, 100*[]float64{m.NumericalError, m.CentreError, m.SkinError}[i])
	}
	words := map[string]string{"dry": "DRY", "wet": "WET", "unsure": "UNSURE", "softens": "SOFTENS"}
	require.Regexp(t, `(?m)^Verdict        `+words[a.Verdict]+`\b`, text)
}

// refined runs the design on a finer grid with smaller steps: both answers hold the exact one, and so are no farther apart than both errors.
func (a jsonAnswer) refined(t *testing.T, d draft) {
	t.Helper()
	resolution, tolerance := 2*a.Settings.Resolution, a.Settings.Tolerance/16
	if resolution > 20 || tolerance < 1e-6 {
		return // it would take long
	}
	fine := d.with("numerics.resolution", strconv.FormatFloat(resolution, 'g', -1, 64)).with("numerics.tolerance", tomlNumber(tolerance))
	run := fired(t, 2, "run", "--json", fine.file(t))
	require.Equal(t, answered, run.status, run.errOut)
	f := answerOf(t, run.out)
	m, n := a.Moisture, f.Moisture
	for name, of := range map[string][4]float64{
		"mean": {m.Mean, n.Mean, m.NumericalError, n.NumericalError}, "centre": {m.Centre, n.Centre, m.CentreError, n.CentreError}, "skin": {m.Skin, n.Skin, m.SkinError, n.SkinError},
	} {
		require.InDelta(t, of[0], of[1], of[2]+of[3]+1e-15, "%s: %v ± %v, refined %v ± %v", name, of[0], of[2], of[1], of[3])
	}
	// The odds are marched at steps of their own, unless coarser ones are asked for.
	require.InDelta(t, m.Probability, n.Probability, 0.05)
	require.InDelta(t, m.High, n.High, 0.05*m.High)
	if a.Verdict != "unsure" && f.Verdict != "unsure" {
		require.Equal(t, a.Verdict, f.Verdict)
	}
}

// limited puts the limit within a few per cent of the 10 or the 90 % point, where the verdict changes.
func (a jsonAnswer) limited(t *testing.T, d draft, where float64) {
	t.Helper()
	end := a.Moisture.Low
	if where > 0.5 {
		end = a.Moisture.High
	}
	off := max(a.Moisture.NumericalError, 0.03*end)
	limit := end + 1.2*off*(4*math.Abs(where-0.5)-1)
	if limit < 1e-9 || limit > 0.5 {
		return // none that may be stated, or none that weighs
	}
	s := fired(t, 2, "run", "--json", d.with("strand.limit", fmt.Sprintf(`"%.15g %%"`, 100*limit)).file(t))
	require.Equal(t, answered, s.status, s.errOut)
	answerOf(t, s.out).ordered(t)
}

// tomlNumber writes a number so that TOML takes it for one.
func tomlNumber(x float64) string { return strconv.FormatFloat(x, 'g', -1, 64) }
