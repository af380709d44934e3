package table

import (
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"math"
	"slices"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/require"

	"strandry/diffusion"
	"strandry/diffusion/advice"
	"strandry/materials"
)

func textOf(t *testing.T, a *Answer) string {
	t.Helper()
	var b strings.Builder
	require.NoError(t, WriteText(&b, Full{a}))
	return b.String()
}

// screenOf is the answer on one screen, which it must not leave; its first line is the verdict with its odds.
func screenOf(t *testing.T, a *Answer) string {
	t.Helper()
	var b strings.Builder
	require.NoError(t, WriteText(&b, a))
	narrow(t, b.String())
	require.LessOrEqual(t, strings.Count(b.String(), "\n"), 24, b.String())
	first, _, _ := strings.Cut(b.String(), "\n")
	require.Contains(t, strings.ToUpper(first), strings.ToUpper(a.Assessment.Verdict.String()))
	require.True(t, a.Assessment.Verdict == diffusion.TooHot || strings.Contains(first, " in 100"), first)
	require.Contains(t, b.String(), "sources: run --full.")
	return b.String()
}

// narrow requires that no line is wider than the text, none ends in a space, and
// no verb of a format was left without its value.
func narrow(t *testing.T, text string) {
	t.Helper()
	require.True(t, utf8.ValidString(text))
	for line := range strings.Lines(text) {
		line = strings.TrimSuffix(line, "\n")
		require.LessOrEqual(t, utf8.RuneCountInString(line), width, line)
		require.Equal(t, strings.TrimRight(line, " "), line)
	}
	for _, bad := range []string{"NaN", "Inf", "%!", "  \n"} {
		require.NotContains(t, text, bad)
	}
}

func TestGoldenAnswer(t *testing.T) {
	text := textOf(t, answer())
	narrow(t, text)
	golden(t, "answer.txt", text)
	golden(t, "screen.txt", screenOf(t, answer()))
	var b strings.Builder
	require.NoError(t, WriteJSON(&b, answer()))
	require.True(t, json.Valid([]byte(b.String())))
	golden(t, "answer.json", b.String())
}

func TestGoldenMaterial(t *testing.T) {
	var b strings.Builder
	require.NoError(t, WriteText(&b, Polymer{polymer()}))
	narrow(t, b.String())
	golden(t, "material.txt", b.String())
	b.Reset()
	require.NoError(t, WriteJSON(&b, Polymer{polymer()}))
	golden(t, "material.json", b.String())

	long := polymer()
	long.ID = "a-name-that-somebody-thought-up-on-a-long-evening"
	long.Diffusivity.ReferenceValue.Kind = materials.Published
	b.Reset()
	require.NoError(t, WriteText(&b, Polymers([]materials.Polymer{polymer(), long})))
	narrow(t, b.String())
	golden(t, "materials.txt", b.String())
}

// The whole library keeps to the width, and its JSON holds what was put in.
func TestLibraryPages(t *testing.T) {
	library, err := materials.Library()
	require.NoError(t, err)
	var b strings.Builder
	require.NoError(t, WriteText(&b, Polymers(library)))
	narrow(t, b.String())
	for _, p := range library {
		require.Contains(t, b.String(), "\n"+p.ID+" ")
		var page strings.Builder
		require.NoError(t, WriteText(&page, Polymer{p}))
		narrow(t, page.String())
	}
	b.Reset()
	require.NoError(t, WriteJSON(&b, Polymers(library)))
	var back []struct {
		ID         string
		Properties []struct {
			Name, Unit       string
			Value, Low, High float64
		}
	}
	require.NoError(t, json.Unmarshal([]byte(b.String()), &back))
	require.Len(t, back, len(library))
	for i, d := range back {
		require.Equal(t, library[i].ID, d.ID)
		for _, p := range d.Properties {
			require.NotEmpty(t, p.Unit, p.Name)
			require.LessOrEqual(t, p.Low, p.Value, p.Name)
			require.LessOrEqual(t, p.Value, p.High, p.Name)
		}
	}
}

// Every figure of an answer made NaN or infinite in turn is refused, named, and
// leaves the paper blank.
func TestNothingShownThatIsNotFinite(t *testing.T) {
	figures := map[string]func(*Answer) *float64{
		"the result.Nozzle.Mean":         func(a *Answer) *float64 { return &a.Assessment.Nozzle.Mean },
		"the result.NumericalError":      func(a *Answer) *float64 { return &a.Assessment.NumericalError },
		"the result.Low":                 func(a *Answer) *float64 { return &a.Assessment.Odds.Low },
		"the result.Steam":               func(a *Answer) *float64 { return &a.Assessment.Steam },
		"the result.Profile[2]":          func(a *Answer) *float64 { return &a.Assessment.Profile[1] },
		"the result.Zones[2].Biot":       func(a *Answer) *float64 { return &a.Assessment.Zones[1].Biot },
		"the result.Zones[1].Exit.Skin":  func(a *Answer) *float64 { return &a.Assessment.Zones[0].Exit.Skin },
		"the result.Zones[1].Film.Mass":  func(a *Answer) *float64 { return &a.Assessment.Zones[0].Film.Mass },
		"the result.Warnings[1].Value":   func(a *Answer) *float64 { return &a.Assessment.Warnings[0].Value },
		"the result.Settings.Tolerance":  func(a *Answer) *float64 { return &a.Assessment.Settings.Tolerance },
		"the diagnosis.Floor":            func(a *Answer) *float64 { return &a.Diagnosis.Floor },
		"the advice.Sets[2].Mean":        func(a *Answer) *float64 { return &a.Advice.Sets[1].Mean },
		"the advice.Length":              func(a *Answer) *float64 { return &a.Advice.Length },
		"the model.Material.Melting.Low": func(a *Answer) *float64 { return &a.Design.Material.Melting.Low },
		"the model.Path[1].Air.DryFlow":  func(a *Answer) *float64 { return &a.Design.Path[0].Air.DryFlow },
	}
	for name, figure := range figures {
		for _, bad := range []float64{math.NaN(), math.Inf(1), math.Inf(-1)} {
			a := answer()
			*figure(a) = bad
			var b strings.Builder
			require.ErrorContains(t, WriteText(&b, a), name)
			require.ErrorContains(t, WriteText(&b, Full{a}), name)
			require.ErrorContains(t, WriteJSON(&b, a), name)
			require.Empty(t, b.String())
		}
	}
	p := polymer()
	p.Diffusivity.Pieces[1].Activation.Value = math.NaN()
	require.ErrorContains(t, WriteText(io.Discard, Polymer{p}), "Pieces[2].Activation.Value")
	require.ErrorContains(t, WriteText(io.Discard, Polymers([]materials.Polymer{p})), "the materials[1]")
}

type broken struct{}

var errBroken = errors.New("no more paper")

func (broken) Write([]byte) (int, error) { return 0, errBroken }

func TestErrorsOfTheWriterComeBack(t *testing.T) {
	require.ErrorIs(t, WriteText(broken{}, answer()), errBroken)
	require.ErrorIs(t, WriteText(broken{}, Full{answer()}), errBroken)
	require.ErrorIs(t, WriteJSON(broken{}, answer()), errBroken)
	require.ErrorIs(t, WriteText(broken{}, Polymer{polymer()}), errBroken)
	require.ErrorIs(t, WriteText(broken{}, Polymers(nil)), errBroken)
	require.ErrorIs(t, WriteJSON(broken{}, Polymers(nil)), errBroken)
}

// near makes the first set one that comes near.
func near(a *Answer) *advice.Advice {
	s := &a.Advice.Sets[0]
	s.Probability, s.Verdict = 0.3, diffusion.Unsure
	a.Advice = advice.Advice{Nearest: s, LengthZone: "drum"}
	return &a.Advice
}

// Odd answers keep to the width and say something sensible.
func TestOddAnswers(t *testing.T) {
	for _, c := range []struct {
		change func(*Answer)
		says   string
		not    string
	}{
		{func(a *Answer) { a.Assessment.Start = diffusion.State{Temperature: 293.15}; a.Assessment.Removed = 0 }, "nothing: it set off dry", "water at the start"},
		{func(a *Answer) { a.Assessment.Removed = -0.25 }, "nothing: it gained 25.0 % on its start", "-25"},
		{func(a *Answer) { a.Assessment.Verdict = diffusion.Dry; a.Diagnosis.Cause = advice.Nothing }, "Nothing holds this design back", "would do"},
		{func(a *Answer) { a.Assessment.Verdict = diffusion.Unsure; a.Diagnosis.Cause = advice.Nothing }, "UNSURE", "Nothing holds"},
		{func(a *Answer) {}, `Two changes together would do (dry 93 times in 100): 18 m of hot drum of the long kind instead of 12 m (zone.hot drum of the long kind.length = "18 m") and dry air through guide (zone.guide.air.dew_point = "-20 °C"). Or (dry 91 times in 100, if it bears the heat): a slower feed, 1.2 mm/s instead of 2 mm/s (feed.speed = "1.2 mm/s").`, "strandry suits"},
		{func(a *Answer) { a.Advice.Sets = a.Advice.Sets[1:] }, "One change would do (dry 91 times in 100, if it bears the heat): a slower feed", "Or (dry"},
		{func(a *Answer) { a.Advice = advice.Advice{} }, "No change to the path was found within what can be built that brings it noticeably nearer. Which materials this dryer is for", "would do"},
		{func(a *Answer) {
			a.Advice, a.Assessment.Endurance.Survival = advice.Advice{}, diffusion.Softens
		}, "Nothing that can be changed on the path keeps it from softening.", "would do"},
		{func(a *Answer) { near(a).Length = 47.2 }, "With all else as in these, some 48 m of drum would be needed.", "driest air"},
		{func(a *Answer) { v := near(a); v.Floor, v.FloorZone = 0.004, "drum" }, "Even then the driest air (drum) would leave 0.400 %, 2.0 times the limit, however long", "would be needed"},
		{func(a *Answer) { near(a) }, "The nearest would be dry 30 times in 100: 18 m of hot drum", "would be needed"},
		{func(a *Answer) { a.Diagnosis.Cause = advice.Rewetting }, "takes up water again", "Time holds"},
		{func(a *Answer) {
			a.Assessment.Zones[0].Contact, a.Assessment.Zones[1].Contact = diffusion.Contact{}, diffusion.Contact{}
			a.Design.Material.Doubts = nil
			a.Assessment.Warnings, a.Assumed, a.Unused = nil, nil, nil
		}, "Sources", "\nNotes"},
		{func(a *Answer) { a.Design.Material.Doubts = a.Design.Material.Doubts[:1] }, "Doubtful in the data", "(And"},
		{func(a *Answer) { a.Design.Material.ID, a.Design.Material.Origin = "pa6", materials.FromLibrary }, "strandry materials pa6", ""},
		{func(a *Answer) { a.Design.Material.ID, a.Design.Material.Origin = "pa6", "own/pa6.toml" }, "(And 1 more.)", "strandry materials pa6"},
		{func(a *Answer) {
			a.Diagnosis.Cause = advice.Air
			a.Assessment.Warnings = []diffusion.Warning{{Concern: diffusion.AirSetsFloor, Value: 0.01, Limit: 0.002}}
		}, "The air is too moist for more time alone to do", "The air is moist"},
		{func(a *Answer) {
			z := &a.Assessment.Zones[0]
			z.Length, z.Residence, z.Fourier, z.Exit.Mean = 10000, 8.6e9, 3e4, 0.4999
		}, "10000 m", ""},
	} {
		a := answer()
		c.change(a)
		text := textOf(t, a)
		narrow(t, text)
		screenOf(t, a)
		joined := strings.Join(strings.Fields(text), " ")
		require.Contains(t, joined, c.says)
		if c.not != "" {
			require.NotContains(t, text, c.not)
		}
	}
}

// A path of a hundred zones, long names, keys that fill a line and every warning that there is keep to the screen.
func TestMuchOnOneScreen(t *testing.T) {
	a := answer()
	for len(a.Assessment.Zones) < 100 {
		a.Assessment.Zones = append(a.Assessment.Zones, a.Assessment.Zones[0])
		a.Design.Path = append(a.Design.Path, a.Design.Path[0])
	}
	a.Title = strings.Repeat("a long title ", 20)
	a.Design.Material.Name = "a polymer with quite a long name of its own"
	for c := diffusion.DiffusivityRange; c <= diffusion.FilmNote; c++ {
		a.Assessment.Warnings = append(a.Assessment.Warnings, diffusion.Warning{Concern: c, Zone: "hot drum of the long kind", Value: 400, Limit: 350})
	}
	a.Assumed = make([]string, 40)
	set := &a.Advice.Sets[0]
	set.Changes = append(set.Changes, set.Changes[0])
	for i := range set.Changes {
		set.Changes[i].Parts = slices.Clone(set.Changes[i].Parts)
		set.Changes[i].Parts[0].Key = "zone.a name that fills all of a line, or nearly, when it is written.length"
	}
	for _, near := range []bool{false, true} {
		if near {
			a.Advice = advice.Advice{Nearest: set, Length: 47, LengthZone: "hot drum of the long kind"}
		}
		require.Contains(t, screenOf(t, a), "more: --full)")
	}
	// The zones that are shown are those in which most happens.
	a = answer()
	before := a.Assessment.Start.Mean
	for i := range 8 {
		z := a.Assessment.Zones[0]
		z.Name, z.Exit.Mean = fmt.Sprint("zone", i), before
		if i == 6 {
			z.Exit.Mean = 10 * before
		}
		before = z.Exit.Mean
		a.Assessment.Zones = append(a.Assessment.Zones, z)
	}
	require.Contains(t, screenOf(t, a), "\nzone6 ")
}

// Notes that could change the verdict go before others, and none is said twice.
func TestWeightyNotes(t *testing.T) {
	a := answer()
	a.Assessment.Warnings = []diffusion.Warning{{Concern: diffusion.UnmeasuredDiffusivity}, {Concern: diffusion.Evaporation, Zone: "drum", Value: 2}, {Concern: diffusion.NumericalDoubt, Value: 1e-4},
		{Concern: diffusion.IsothermTemperature, Zone: "drum", Value: 363.15, Limit: 353.15}, {Concern: diffusion.DiffusivityRange, Zone: "drum", Value: 363.15, Limit: 353.15}}
	a.Assumed, a.Contradicting = []string{"a", "b"}, nil
	notes := a.weighty()
	require.Len(t, notes, 4)
	require.Contains(t, notes[0], "numerical error")
	require.Contains(t, notes[1], "drum: at 90 °C the data of Reedon are extrapolated; they end at 80 °C.")
	require.Contains(t, notes[2], "take the eight in ten")
	require.Contains(t, notes[3], "2 values were not given")
}
