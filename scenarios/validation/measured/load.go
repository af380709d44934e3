package measured

import (
	"embed"
	"errors"
	"fmt"
	"io/fs"
	"slices"

	"strandry/materials"
	"strandry/materials/text/quantity"
	"strandry/materials/text/strict"
)

//go:embed data/*.toml data/figures/*.toml
var data embed.FS

// Figures returns all measured figures, material by material in the order of the library, within it in that of the data.
func Figures() ([]Figure, error) { return figuresOf(materials.Names()...) }

// figuresOf are those of some materials of the library.
func figuresOf(names ...string) ([]Figure, error) {
	var all []Figure
	for _, name := range names {
		own, err := load("figures/"+name+".toml", "figure", readFigure)
		if err != nil && !errors.Is(err, fs.ErrNotExist) { // of some nothing was measured
			return nil, err
		}
		all = append(all, own...)
	}
	return all, nil
}

// UnusableFigures returns what was found and cannot be used.
func UnusableFigures() ([]Unusable, error) { return load("aside.toml", "aside", readUnusable) }

func load[T any](file, key string, read func(*strict.Table) T) ([]T, error) {
	text, err := data.ReadFile("data/" + file)
	if err != nil {
		return nil, err
	}
	return readAll(file, text, key, read)
}

// readAll reads the tables of a text.
func readAll[T any](file string, text []byte, key string, read func(*strict.Table) T) ([]T, error) {
	root, collector, err := strict.Parse(file, text)
	if err != nil {
		return nil, err
	}
	var all []T
	for _, t := range root.Tables(key) {
		all = append(all, read(t))
	}
	return all, collector.Finish()
}

func readFigure(t *strict.Table) Figure {
	t.Require("material", "quantity", "temperature", "kind", "read", "source")
	var f Figure
	f.Material, _ = t.Choice("material", materials.Names())
	f.Read, _ = t.Choice("read", []string{"abstract", "text"})
	for key, into := range map[string]*string{"source": &f.Source, "reckoned": &f.Reckoned, "anchor": &f.Anchor, "remark": &f.Remark} {
		*into, _ = t.Text(key)
	}
	if kind, ok := t.Choice("kind", []string{materials.Published.String(), materials.PublishedWeak.String()}); ok && kind == materials.PublishedWeak.String() {
		f.Kind = materials.PublishedWeak
	}
	name, ok := t.Choice("quantity", quantities())
	if !ok {
		return f
	}
	f.Quantity = Quantity(slices.Index(quantities(), name))
	readConditions(t, &f)
	readStated(t, &f)
	return f
}

// readConditions reads those that the quantity needs; others are unknown keys.
func readConditions(t *strict.Table, f *Figure) {
	positive := strict.Limits{Min: 0, ExclusiveMin: true, Max: 1e9}
	warm := strict.Limits{Min: 200, Max: 600, Unit: "°C"}
	f.At.Temperature, _ = t.Quantity("temperature", quantity.Temperature(), warm)
	humid := strict.Limits{Min: 0, ExclusiveMin: true, Max: 1, Unit: "%"}
	switch f.Quantity {
	case ActivationEnergy, DiffusivityRatio, EquilibriumRatio:
		t.Require("to")
		to, ok := t.Quantity("to", quantity.Temperature(), warm)
		if f.At.To = to; ok && to <= f.At.Temperature {
			t.Fault("to", "not above temperature", "temperature < to")
		}
	}
	switch f.Quantity {
	case Equilibrium, EquilibriumRatio:
		t.Require("humidity")
		f.At.Humidity, _ = t.Quantity("humidity", quantity.Humidity(), humid)
	case Diffusivity:
		f.At.Humidity, _ = t.Quantity("humidity", quantity.Humidity(), humid)
	case Uptake:
		t.Require("thickness", "time")
		f.At.Humidity = 1
		f.At.Thickness, _ = t.Quantity("thickness", quantity.Length(), positive)
		f.At.Time, _ = t.Quantity("time", quantity.Duration(), positive)
	}
}

// readStated reads a value, or low and high.
func readStated(t *strict.Table, f *Figure) {
	if t.OneOf("value", "low") == "value" {
		f.Low, _ = readValue(t, "value", f.Quantity)
		f.High = f.Low
		if f.Rounded = t.Has("rounding"); f.Rounded {
			half, ok := readValue(t, "rounding", f.Quantity)
			if ok && half >= f.Low {
				t.Fault("rounding", "not below value", "half of the last digit that is printed")
			}
			f.Low, f.High = f.Low-half, f.High+half
		}
		return
	}
	t.Require("low", "high")
	low, ok := readValue(t, "low", f.Quantity)
	high, okHigh := readValue(t, "high", f.Quantity)
	if f.Low, f.High = low, high; ok && okHigh && low >= high {
		t.Fault("high", "not above low", "low < high")
	}
}

func readValue(t *strict.Table, key string, q Quantity) (float64, bool) {
	positive := strict.Limits{Min: 0, ExclusiveMin: true, Max: 1e9}
	switch q {
	case Equilibrium, Uptake:
		return t.Quantity(key, quantity.Fraction(), strict.Limits{Min: 0, ExclusiveMin: true, Max: 1, Unit: "%"})
	case Diffusivity:
		return t.Quantity(key, quantity.Diffusivity(), positive)
	case ActivationEnergy:
		return t.Quantity(key, quantity.MolarEnergy(), positive)
	}
	return t.Number(key, positive)
}

func readUnusable(t *strict.Table) (u Unusable) {
	t.Require("materials", "what", "why", "source")
	u.Materials, _ = t.Texts("materials")
	for _, name := range u.Materials {
		if !slices.Contains(materials.Names(), name) {
			t.Fault("materials", fmt.Sprintf("%q is not in the library", name), "")
		}
	}
	u.What, _ = t.Text("what")
	u.Why, _ = t.Text("why")
	u.Source, _ = t.Text("source")
	return u
}
