package measured

import (
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/materials"
)

// near fails for NaN too, which InEpsilon lets pass when both sides are.
func near(t *testing.T, want, got, within float64) {
	t.Helper()
	require.False(t, math.IsNaN(want) || math.IsNaN(got))
	require.InEpsilon(t, want, got, within)
}

func compared(t *testing.T) *Evidence {
	t.Helper()
	e, err := Compare()
	require.NoError(t, err)
	return e
}

// find returns the only figure with these words in its source, of a material and quantity.
func find(t *testing.T, e *Evidence, material string, q Quantity, words string, at float64) *Comparison {
	t.Helper()
	var all []*Comparison
	for i := range e.Comparisons {
		c := &e.Comparisons[i]
		if c.Material == material && c.Quantity == q && strings.Contains(c.Source, words) && math.Abs(c.At.Temperature-at) < 1e-6 {
			all = append(all, c)
		}
	}
	require.Len(t, all, 1)
	return all[0]
}

func TestEveryFigureSaysWhereItIsFrom(t *testing.T) {
	figures, err := Figures()
	require.NoError(t, err)
	require.Greater(t, len(figures), 40)
	for _, f := range figures {
		require.NotEmpty(t, f.Source, f.Material)
		require.Contains(t, materials.Names(), f.Material)
		require.Contains(t, []string{"abstract", "text"}, f.Read)
		require.Contains(t, []materials.Kind{materials.Published, materials.PublishedWeak}, f.Kind)
		require.NotEqual(t, "unknown", f.Quantity.String())
		require.Greater(t, f.Low, 0.0)
		require.LessOrEqual(t, f.Low, f.High)
		require.LessOrEqual(t, f.High, sane(f.Quantity), "%s %s: a slip of the unit?", f.Material, f.Quantity)
	}
}

// The file of a material holds its figures and no other's, and no file is of none.
func TestEveryFigureStandsWithItsMaterial(t *testing.T) {
	for _, name := range materials.Names() {
		own, err := figuresOf(name)
		require.NoError(t, err)
		for _, f := range own {
			require.Equal(t, name, f.Material)
		}
	}
	files, err := data.ReadDir("data/figures")
	require.NoError(t, err)
	for _, file := range files {
		require.Contains(t, materials.Names(), strings.TrimSuffix(file.Name(), ".toml"))
	}
}

// sane is a value that no figure of water in a filament polymer reaches.
func sane(q Quantity) float64 {
	switch q {
	case Equilibrium, Uptake:
		return 0.3
	case Diffusivity:
		return 1e-9
	case ActivationEnergy:
		return 200e3
	}
	return 100
}

// What was measured over what is predicted; a second temperature beyond the data counts as much as the first.
func TestOffAndExtrapolated(t *testing.T) {
	c := Comparison{Figure: Figure{Low: 2, High: 4}, Predicted: Prediction{Value: 1.5}}
	near(t, 2, c.Off(), 1e-12)
	p, err := materials.Lookup("pc")
	require.NoError(t, err)
	for to, extrapolated := range map[float64]bool{p.Diffusivity.Temperature.Max - 1: false, p.Diffusivity.Temperature.Max + 20: true} {
		f := Figure{Material: "pc", Quantity: DiffusivityRatio, At: Conditions{Temperature: 330, To: to}}
		require.Equal(t, extrapolated, Predict(&p, &f).Extrapolated, "%g K", to)
	}
}

func TestPrintedValuesBecomeSI(t *testing.T) {
	e := compared(t)
	// 8.7e-7 cm2/s and 7.9 kcal/mol, Golovoy & Zinbo (1989), as in its abstract; 1 kcal = 4.184 kJ.
	near(t, 8.7e-11, find(t, e, "pc", Diffusivity, "Golovoy", 373.15).Low, 1e-12)
	near(t, 7.9*4184, find(t, e, "pc", ActivationEnergy, "Golovoy", 353.15).High, 1e-12)
}

// The arithmetic of the data, done again from what the sources print.
func TestReckoned(t *testing.T) {
	e := compared(t)
	const gas, molar, ideal = 8.314462618, 18.015, 22414.0
	half := 0.5e-2 // two printed digits

	pp := find(t, e, "pp", Equilibrium, "Togashi", 298.15)
	near(t, 2.9e-10*math.Exp(30e3/(gas*298.15))*3170*molar/ideal/0.905, pp.Middle(), half)
	flow := find(t, e, "pp", Diffusivity, "Togashi", 298.15)
	near(t, 1.5e-10/2.9e-10*math.Exp(-41e3/(gas*298.15))*1e-4, flow.Middle(), half)

	pla := find(t, e, "pla", Equilibrium, "polylactic", 323.15)
	near(t, 400e-6*0.9*12350*molar/ideal/1.245, pla.Low, half)
	near(t, 1000e-6*0.9*12350*molar/ideal/1.245, pla.High, half)

	carbonate := find(t, e, "pc", Equilibrium, "Ghorbel", 313.15)
	near(t, 0.04*molar/254.28, carbonate.Middle(), half)
}

// By hand, with R = 8.314462618 J/mol/K. PC at 23 °C: 1/296.15 - 1/373.15 = 6.9677e-4, times
// 33100/R = 3981.0 is 2.77385; D = 8.7e-11 exp(-2.77385) = 5.4303e-12 m2/s. The plate
// of 3.2 mm after 24 h: τ = 5.4303e-12 x 86400 / 1.024e-5 = 0.045818; e^(-π² τ) = 0.63623, e^(-9 π² τ)/9 =
// 0.00190, the next 1e-7; F = 1 - 0.810569 x 0.63813 = 0.48275; times 0.30 % = 0.14483 %.
func TestUptakeByHand(t *testing.T) {
	c := find(t, compared(t), "pc", Uptake, "encyclopaedia", 296.15)
	near(t, 0.14483e-2, c.Predicted.Value, 2e-4) // the digits carried above
	require.Equal(t, Inside, c.Verdict)
	require.False(t, c.Predicted.Extrapolated)
}

// By hand. PLA at 50 °C: 4.5e-12 exp(38000/R (1/298.15 - 1/323.15)); 1/298.15 - 1/323.15 = 2.59480e-4, times
// 4570.4 = 1.18591; D = 4.5e-12 x 3.27368 = 1.47316e-11 m2/s; scatter 2.5: 5.8926e-12 to 3.6829e-11.
func TestDiffusivityByHand(t *testing.T) {
	c := find(t, compared(t), "pla", Diffusivity, "polylactic", 323.15)
	near(t, 1.47316e-11, c.Predicted.Value, 1e-4)
	near(t, 5.8926e-12, c.Predicted.Low, 1e-4)
	near(t, 3.6829e-11, c.Predicted.High, 1e-4)
	require.Equal(t, Partly, c.Verdict) // 2e-11 to 1e-10 was measured
}

// By hand. PA6 at 21 °C in water, the heat of mixing on the linear term: 5.2 % exp(10000/R (1/294.15 - 1/296.15)) =
// 5.2 % x exp(0.027612) = 5.3456 %, and 4.6 %: 9.9456 %. Least 4.8 % exp(0.013806) + 3.8 % = 8.6667 %.
func TestEquilibriumByHand(t *testing.T) {
	c := find(t, compared(t), "pa6", Equilibrium, "Celestine", 294.15)
	near(t, 9.9456e-2, c.Predicted.Value, 1e-4)
	near(t, 8.6667e-2, c.Predicted.Low, 1e-4)
	require.Equal(t, Inside, c.Verdict)
}

// A mean over sorption, by hand: β = -15, C = 1.3 %, x = -0.195: 1 + (5/8) x + (5/11) x²/2 + (5/14) x³/6 + (5/17) x⁴/24 = 0.88634;
// 46 kJ/mol from 25 to 23 °C is exp(-5532.5 x 2.2651e-5) = 0.88220; 5e-12 x 0.88220 x 0.88634 = 3.9096e-12 m2/s.
func TestDiffusivityIsTheMeanOverSorption(t *testing.T) {
	c := find(t, compared(t), "tpu-ester", Diffusivity, "preprint", 296.15)
	near(t, 3.9096e-12, c.Predicted.Value, 1e-4)
}

// The short-time law and the series are Crank's of one problem: tabulated by him, half of the equilibrium is reached
// at D t/h² = 0.04919 (The Mathematics of Diffusion, eq. 10.8, number from memory).
func TestPlateShare(t *testing.T) {
	near(t, 0.5, plateShare(0.04919), 1e-4)
	near(t, plateShare(0.04), plateShare(0.04+1e-12), 1e-3)
	near(t, 4/math.Sqrt(math.Pi)*0.1, plateShare(0.01), 1e-12)
	near(t, 1, plateShare(3), 1e-9)
	require.Zero(t, plateShare(0))
}

// Water into a plate whose diffusivity grows as exp(βC), by finite volumes of 400 and 800 stretched cells and scipy 1.10's BDF on the
// equation itself (both alike to 1e-5): polyamide 6 with 1.5e-13 m2/s at 25 °C, 55 kJ/mol, β = 25 and 9.82 % takes up 1.7188 % in a
// day at 23 °C through 3.2 mm, with 1.0e-13, 44 kJ/mol, β = 27 and 9.81 % 1.5308 %. A plain mean of D makes 1.52 and 1.35 %.
func TestUptakeIsThatOfTheEquation(t *testing.T) {
	for _, c := range []struct{ dry, activation, beta, content, uptake float64 }{
		{1.5e-13, 55e3, 25, 0.0982, 1.7188e-2}, {1.0e-13, 44e3, 27, 0.0981, 1.5308e-2},
	} {
		d := c.dry * math.Exp(c.activation/8.314462618*(1/298.15-1/296.15)) * sorptionMean(c.beta*c.content)
		near(t, c.uptake, c.content*plateShare(d*86400/(3.2e-3*3.2e-3)), 2e-3)
	}
	near(t, 1, sorptionMean(0), 1e-12)
}

func TestJudge(t *testing.T) {
	p := Prediction{Value: 2, Low: 1, High: 3}
	for _, c := range []struct {
		low, high float64
		want      Verdict
	}{
		{2, 2, Inside}, {1, 3, Inside}, {0.5, 1, Partly}, {2, 9, Partly}, {0.5, 9, Partly}, {3.1, 9, Outside},
		{0.1, 0.9, Outside}, {math.NaN(), math.NaN(), Outside},
	} {
		require.Equal(t, c.want, judge(&Figure{Low: c.low, High: c.high}, p), "%g to %g", c.low, c.high)
	}
	require.Equal(t, Outside, judge(&Figure{Low: 1, High: 1}, Prediction{math.NaN(), math.NaN(), math.NaN(), false}))
	// 3 of one digit is 2.5 to 3.5 and lies inside, 4 of one digit is 3.5 to 4.5 and reaches in no more at 3.4.
	require.Equal(t, Inside, judge(&Figure{Low: 2.5, High: 3.5, Rounded: true}, p))
	require.Equal(t, Partly, judge(&Figure{Low: 2.9, High: 3.9, Rounded: true}, p))
	require.Equal(t, Outside, judge(&Figure{Low: 3.5, High: 4.5, Rounded: true}, p))
}

// Regression only: how the library stands today. A change here is news for the reader, to be said in the
// changelog; it is never a reason to change a property.
func TestStanding(t *testing.T) {
	e := compared(t)
	require.Equal(t, Tally{Inside: 19, Partly: 9, Outside: 5}, e.Independent)
	require.Equal(t, Tally{Inside: 57, Partly: 1}, e.Anchors)
	require.Equal(t, []string{"bvoh", "pa6-66", "pa6-cf20", "pcl", "pla-cryst", "tpu-ether"}, e.Unmeasured)
	require.Equal(t, []string{"peek", "pet", "pom", "pp", "pps", "pva"}, e.AnchoredOnly)
	require.Equal(t, e.Independent.All()+e.Anchors.All(), len(e.Comparisons))
}

// Every material is in one of three: without a figure, with anchors alone, with an independent one.
func TestNoMaterialIsForgotten(t *testing.T) {
	e := compared(t)
	counted := slices.Concat(e.Unmeasured, e.AnchoredOnly)
	for _, c := range e.Comparisons {
		if c.Independent() && !slices.Contains(counted, c.Material) {
			counted = append(counted, c.Material)
		}
	}
	require.ElementsMatch(t, materials.Names(), counted)
}

// A polymer that is its own measurement: a wrong diffusivity is found out.
func TestAWrongLibraryIsFoundOut(t *testing.T) {
	library, err := materials.Library()
	require.NoError(t, err)
	figures, err := Figures()
	require.NoError(t, err)
	for i := range library {
		library[i].Diffusivity.ReferenceValue.Value *= 1000
	}
	e := compare(library, figures, nil)
	require.Greater(t, e.Anchors.Outside, 5)
}

// What lies outside is told of the library's own material, and not of one that was changed.
func TestContradicting(t *testing.T) {
	pa6, err := materials.Lookup("pa6")
	require.NoError(t, err)
	pc, err := materials.Lookup("pc")
	require.NoError(t, err)
	found, err := Contradicting([]materials.Polymer{pc, pa6})
	require.NoError(t, err)
	require.NotEmpty(t, found)
	for _, c := range found {
		require.Equal(t, "pa6", c.Material)
		require.Equal(t, Outside, c.Verdict)
		require.True(t, c.Independent())
	}
	pa6.Origin = "mine.toml"
	found, err = Contradicting([]materials.Polymer{pc, pa6})
	require.NoError(t, err)
	require.Empty(t, found)
}

func TestExtrapolatedIsSaid(t *testing.T) {
	e := compared(t)
	require.True(t, find(t, e, "pva", ActivationEnergy, "(1975)", 291.15).Predicted.Extrapolated) // data from 20 °C, the figure from 18 °C
	require.False(t, find(t, e, "pc", Diffusivity, "Golovoy", 373.15).Predicted.Extrapolated)
}

func TestFaultsOfTheDataAreFound(t *testing.T) {
	const sound = "[[figure]]\nmaterial = \"pc\"\nquantity = \"diffusivity\"\ntemperature = \"20 °C\"\nvalue = \"1e-12 m2/s\"\nkind = \"published\"\nread = \"text\"\nsource = \"x\"\n"
	one, err := readAll("x.toml", []byte(sound), "figure", readFigure)
	require.NoError(t, err)
	require.Len(t, one, 1)
	for from, to := range map[string]string{
		"source = \"x\"":                      "",
		"\"1e-12 m2/s\"":                      "\"1e-12\"",
		"kind = \"published\"":                "kind = \"memory\"",
		"material = \"pc\"":                   "material = \"pcc\"",
		"quantity = \"diffusivity\"":          "quantity = \"speed\"",
		"value = \"1e-12 m2/s\"":              "low = \"2e-12 m2/s\"\nhigh = \"1e-12 m2/s\"",
		"read = \"text\"":                     "read = \"text\"\nthickness = \"1 mm\"",
		"quantity = \"diffusivity\"\n":        "quantity = \"uptake\"\n",
		"temperature = \"20 °C\"\nvalue":      "value",
		"quantity = \"diffusivity\"\ntemp":    "quantity = \"diffusivity ratio\"\nto = \"10 °C\"\ntemp",
		"value = \"1e-12 m2/s\"\nkind = \"pu": "value = \"-1e-12 m2/s\"\nkind = \"pu",
	} {
		require.Contains(t, sound, from)
		_, err := readAll("x.toml", []byte(strings.Replace(sound, from, to, 1)), "figure", readFigure)
		require.Error(t, err, to)
	}
	_, err = readAll("x.toml", []byte("[[figure"), "figure", readFigure)
	require.Error(t, err)
	_, err = readAll("x.toml", []byte("[[aside]]\nmaterials = [\"pcc\"]\nwhat = \"x\"\nwhy = \"x\"\nsource = \"x\"\n"), "aside", readUnusable)
	require.ErrorContains(t, err, "pcc")
	_, err = readAll("x.toml", []byte("[[aside"), "aside", readUnusable)
	require.Error(t, err)
}

func TestWords(t *testing.T) {
	require.Equal(t, "unknown", Quantity(-1).String())
	require.Equal(t, "unknown", Quantity(99).String())
	for q, want := range map[Quantity]string{Equilibrium: "kg/kg", Uptake: "kg/kg", Diffusivity: "m2/s", ActivationEnergy: "J/mol", DiffusivityRatio: "-"} {
		require.Equal(t, want, q.Unit())
	}
	require.Equal(t, []string{"outside", "partly", "inside"}, []string{Outside.String(), Partly.String(), Inside.String()})
}
