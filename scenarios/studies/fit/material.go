package fit

import (
	"fmt"
	"math"
	"path/filepath"
	"strconv"
	"strings"

	"strandry/materials"
	"strandry/scenarios"
)

// Material is what was found, for a material file in a folder: of a strand with a name.
func (o *Outcome) Material(name, folder string) materials.Fit {
	w := o.Weighings
	low, high := temperatures(w)
	f := materials.Fit{
		Base: o.base(folder), Name: name,
		Reference: o.Temperature, Temperature: materials.Range{Min: low, Max: high},
		Diffusivity: value(o.Diffusivity),
		Source:      o.source(),
	}
	for _, found := range o.Findings {
		if found.Kind == BetaMatters {
			f.Doubt = fmt.Sprintf("It was found with the beta of %s; with one of %.3g per kg/kg it would be %.2g times as large.", f.Base, found.Amount, found.Factor)
		}
	}
	c := materials.Correlation{}
	if o.Known.Activation {
		e := value(o.Activation)
		f.Activation, c.Activation = &e, within(o.Correlation[0])
	}
	if o.Known.Beta == scenarios.Fitted {
		b := value(o.Beta)
		f.Beta, c.Beta = &b, within(o.Correlation[1])
		if o.Known.Activation {
			c.ActivationBeta = within(o.Correlation[2])
		}
	}
	if !c.Possible() { // by less than the draws tell
		c.ActivationBeta = 0
	}
	f.Correlation = c
	for i := range w.Runs {
		f.Data = append(f.Data, materials.DataFile{Name: w.Runs[i].File, SHA256: w.Runs[i].Sum})
	}
	return f
}

// within is a correlation that a material file can state, in as many digits as the draws tell.
func within(c float64) float64 {
	const most, digits = 0.99, 100
	return math.Round(digits*min(max(c, -most), most)) / digits
}

// value is a number in four digits, which is more than the draws tell.
func value(b Between) materials.Value {
	return materials.Value{Value: rounded(b.Value), Low: rounded(b.Low), High: rounded(b.High), Kind: materials.Fitted}
}

func rounded(x float64) float64 {
	const digits = 4
	y, err := strconv.ParseFloat(strconv.FormatFloat(x, 'e', digits-1, 64), 64)
	if err != nil {
		return x
	}
	return y
}

// base is the material that the strand comes nearest to, as a file in a folder names it.
func (o *Outcome) base(folder string) string {
	name, _ := o.Weighings.Named()
	if !strings.HasSuffix(name, ".toml") {
		return name
	}
	if from, err := filepath.Rel(folder, name); err == nil {
		return filepath.ToSlash(from)
	}
	return name
}

// Base gives the polymer of that name.
func (o *Outcome) Base(string) (materials.Polymer, error) {
	_, p := o.Weighings.Named()
	return p, nil
}

// Restated tells that the file of the weighings states properties of the strand besides its material, which a material file of the fit does not hold.
func (o *Outcome) Restated() bool {
	_, p := o.Weighings.Named()
	return !o.Weighings.Model.Material.Same(&p)
}

// source says how it was found.
func (o *Outcome) source() string {
	points := 0
	for i := range o.Weighings.Runs {
		points += len(o.Weighings.Runs[i].Points)
	}
	said := fmt.Sprintf("fitted to %d weighings of a strand at rest, rounded to %.4g g", points, 1e3*o.Weighings.Scale.Resolution)
	if o.Known.Prior {
		said += "; what the library says counted too"
	}
	return said
}
