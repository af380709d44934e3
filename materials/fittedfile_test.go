package materials

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/BurntSushi/toml"
	"github.com/stretchr/testify/require"
)

const sum = "0f343b0931126a20f133d67c2b018a3b5d6a5d1c6cbc1a5c0e5f1b1f2d3c4b5a"

// weighed is a fit at two temperatures above the break of PA6.
func weighed() Fit {
	return Fit{
		Base: "pa6", Name: "PA6, my spool", Reference: 343.15, Diffusivity: Value{Value: 1.2345678901234567e-12, Low: 1.1e-12, High: 1.4e-12},
		Activation: &Value{Value: 61234.5, Low: 50000.1, High: 73333.333333333}, Beta: &Value{Value: 22.25, Low: -1.5, High: 31},
		Correlation: Correlation{Activation: -0.31, Beta: -0.92, ActivationBeta: 0.1}, Temperature: Range{Min: 333.15, Max: 353.15},
		Source: "three weighings of 2 m each, least squares.", Data: []DataFile{{"weights 60.csv", sum}, {"weights 80.csv", sum}},
	}
}

func written(t *testing.T, f Fit, base func(string) (Polymer, error)) (string, Polymer) {
	t.Helper()
	text, err := FittedFile(f, base)
	require.NoError(t, err)
	p, err := Read("mine.toml", []byte(text), base)
	require.NoError(t, err, text)
	return text, p
}

func sameNumbers(t *testing.T, want, got Value) {
	t.Helper()
	for _, x := range [...][2]float64{{want.Value, got.Value}, {want.Low, got.Low}, {want.High, got.High}} {
		near(t, x[0], x[1], 1e-12*math.Abs(x[0]))
	}
	require.Equal(t, Fitted, got.Kind)
}

// What is written reads back: the same numbers, all else that of the base, and no key that was not fitted.
func TestFittedFile(t *testing.T) {
	f := weighed()
	text, p := written(t, f, nil)
	pa6, err := Lookup("pa6")
	require.NoError(t, err)
	d := &p.Diffusivity
	sameNumbers(t, f.Diffusivity, d.ReferenceValue)
	sameNumbers(t, *f.Activation, d.Pieces[1].Activation)
	sameNumbers(t, *f.Beta, d.Beta)
	near(t, f.Reference, d.Reference, 0)
	require.Equal(t, f.Temperature, d.Temperature)
	require.Equal(t, f.Correlation, d.Correlation)
	require.InEpsilon(t, f.Diffusivity.High/f.Diffusivity.Value, d.Factor(EndDeviate), 1e-12)
	require.InEpsilon(t, f.Diffusivity.Low/f.Diffusivity.Value, d.Factor(-EndDeviate), 1e-12)
	require.Equal(t, pa6.Diffusivity.Pieces[0], d.Pieces[0])
	require.Equal(t, pa6.Sorption, p.Sorption)
	require.Equal(t, pa6.Density, p.Density)
	require.Equal(t, "PA6, my spool", p.Name)
	require.Equal(t, "three weighings of 2 m each, least squares; data: weights 60.csv (SHA-256 "+sum+"), weights 80.csv (SHA-256 "+sum+")", d.ReferenceValue.Source)
	last := p.Doubts[len(p.Doubts)-1]
	require.Contains(t, last.Text, "one scale")
	require.Equal(t, Fitted, last.Kind)
	for _, n := range p.Doubts {
		require.NotContains(t, n.Text, "correlation")
	}
	var raw map[string]any
	_, err = toml.Decode(text, &raw)
	require.NoError(t, err)
	require.ElementsMatch(t, []string{"base", "name", "diffusivity", "doubt"}, keysOf(raw))
	inner, _ := raw["diffusivity"].(map[string]any)
	require.ElementsMatch(t, []string{"reference", "value", "activation", "beta", "correlation", "temperature"}, keysOf(inner))
	head, _, _ := strings.Cut(text, "base = ")
	require.Equal(t, strings.Count(head, "\n"), strings.Count(head, "# "), "every line before is a comment")
	require.Contains(t, head, "#     weights 60.csv, SHA-256 "+sum+"\n")
}

func keysOf(m map[string]any) []string {
	var all []string
	for key := range m {
		all = append(all, key)
	}
	return all
}

// Where no activation energy was fitted the whole law of the base goes through the new value, its break included; the range is a kelvin about the temperature.
func TestFitAtOneTemperature(t *testing.T) {
	f := weighed()
	f.Activation, f.Beta, f.Correlation, f.Name = nil, nil, Correlation{}, ""
	f.Reference, f.Temperature = 343.15, Range{Min: 343.15, Max: 343.15}
	text, p := written(t, f, nil)
	require.NotContains(t, text, "correlation = ")
	pa6, err := Lookup("pa6")
	require.NoError(t, err)
	for _, T := range []float64{280, 300, 323.15, 330, 343.15, 400} {
		require.InEpsilon(t, f.Diffusivity.Value/pa6.Diffusivity.Dry(343.15), p.Diffusivity.Dry(T)/pa6.Diffusivity.Dry(T), 1e-12)
	}
	require.Equal(t, pa6.Name, p.Name)
	require.Equal(t, pa6.Diffusivity.Pieces, p.Diffusivity.Pieces)
	require.Equal(t, pa6.Diffusivity.Beta, p.Diffusivity.Beta)
	near(t, 342.15, p.Diffusivity.Temperature.Min, 1e-9)
	near(t, 344.15, p.Diffusivity.Temperature.Max, 1e-9)
	// There the activation energy is in no doubt that acts.
	drawn := p.Drawn(Deviates{Activation: 2})
	require.InEpsilon(t, f.Diffusivity.Value, drawn.Diffusivity.Dry(343.15), 1e-12)
}

// On one side of a break the energy is that of its side; from both sides it is one for all.
func TestFitBesideABreak(t *testing.T) {
	pa6, err := Lookup("pa6")
	require.NoError(t, err)
	f := weighed()
	f.Reference, f.Temperature = 303.15, Range{Min: 296.15, Max: 313.15}
	_, p := written(t, f, nil)
	sameNumbers(t, *f.Activation, p.Diffusivity.Pieces[0].Activation)
	require.Equal(t, pa6.Diffusivity.Pieces[1], p.Diffusivity.Pieces[1])
	f.Reference, f.Temperature = 323.15, Range{Min: 296.15, Max: 353.15}
	_, p = written(t, f, nil)
	require.Len(t, p.Diffusivity.Pieces, 1)
	sameNumbers(t, *f.Activation, p.Diffusivity.Pieces[0].Activation)
	require.InEpsilon(t, f.Activation.Value/GasConstant*(1/296.15-1/353.15), math.Log(p.Diffusivity.Dry(353.15)/p.Diffusivity.Dry(296.15)), 1e-10)
}

// Any numbers read back, on any base.
func TestFittedFileOfAnything(t *testing.T) {
	r := rand.New(rand.NewPCG(11, 1))
	spread := func(x float64) Value {
		return Value{Value: x, Low: x * (0.2 + 0.7*r.Float64()), High: x * (1.1 + r.Float64())}
	}
	for i := range 2 * len(Names()) {
		f := weighed()
		f.Base = Names()[i%len(Names())]
		f.Diffusivity = spread(math.Exp(math.Log(1e-16) + r.Float64()*math.Log(1e8)))
		energy, beta := spread(1e3+9e4*r.Float64()), Value{Value: 100*r.Float64() - 50}
		beta.Low, beta.High = beta.Value-r.Float64()*50, beta.Value+r.Float64()*50
		f.Activation, f.Beta = &energy, &beta
		from := 280 + 60*r.Float64()
		f.Temperature = Range{Min: from, Max: from + 60*r.Float64()}
		f.Reference = (f.Temperature.Min + f.Temperature.Max) / 2
		_, p := written(t, f, nil)
		sameNumbers(t, f.Diffusivity, p.Diffusivity.ReferenceValue)
		sameNumbers(t, energy, p.Diffusivity.atReference().Activation)
		sameNumbers(t, beta, p.Diffusivity.Beta)
		near(t, f.Reference, p.Diffusivity.Reference, 1e-12*f.Reference)
	}
}

// Texts that a terminal, or the file itself, would obey are escaped for good.
func TestFittedFileOfOddNames(t *testing.T) {
	f := weighed()
	f.Name = "my \"PA6\" \\ spool"
	f.Source = "by hand\nbase = \"pc\"\n# \u202e"
	f.Data = []DataFile{{"a\nb\x1b[31m.csv", sum}, {"c\xff\u2028'\"\"\".csv", sum}}
	text, p := written(t, f, nil)
	require.Equal(t, f.Name, p.Name)
	require.Equal(t, 1, strings.Count(text, "\nbase = "))
	for _, odd := range []string{"\x1b", "\u202e", "\xff", "\u2028", "a\nb"} {
		require.NotContains(t, text, odd)
	}
	require.Contains(t, p.Diffusivity.ReferenceValue.Source, `a\nb\u001b[31m.csv`)
}

// A fit on a fit states how its own numbers go together, which is not at all.
func TestFitOnAFit(t *testing.T) {
	base := func(string) (Polymer, error) { return Read("fit.toml", []byte(fit+correlated), nil) }
	f := weighed()
	f.Base, f.Correlation = "fit.toml", Correlation{}
	_, p := written(t, f, base)
	require.False(t, p.Diffusivity.Correlated())
	for _, n := range p.Doubts {
		require.NotContains(t, n.Text, "independent")
	}
}

func TestFitsThatAreNone(t *testing.T) {
	for name, spoil := range map[string]func(f *Fit){
		"no range":       func(f *Fit) { f.Diffusivity.Low = f.Diffusivity.Value },
		"at zero":        func(f *Fit) { f.Activation.Low = 0 },
		"not a number":   func(f *Fit) { f.Diffusivity.Value = math.NaN() },
		"infinite":       func(f *Fit) { f.Diffusivity.High = math.Inf(1) },
		"beta":           func(f *Fit) { f.Beta.High = f.Beta.Value },
		"elsewhere":      func(f *Fit) { f.Reference = 296.15 },
		"upside down":    func(f *Fit) { f.Temperature.Min = 400 },
		"no data":        func(f *Fit) { f.Data = nil },
		"no source":      func(f *Fit) { f.Source = " " },
		"no such base":   func(f *Fit) { f.Base = "pa7" },
		"impossible":     func(f *Fit) { f.Correlation = Correlation{0.9, 0.9, -0.9} },
		"absurd":         func(f *Fit) { f.Diffusivity = Value{Value: 1e-3, Low: 1e-4, High: 1e-2} },
		"not correlated": func(f *Fit) { f.Correlation.Beta = math.NaN() },
	} {
		f := weighed()
		spoil(&f)
		text, err := FittedFile(f, nil)
		require.Error(t, err, name)
		require.Empty(t, text)
		require.NotContains(t, err.Error(), "\n\n")
	}
}
