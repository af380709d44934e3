package materials

import (
	"slices"
	"strings"

	"strandry/materials/text/quantity"
	"strandry/materials/text/strict"
)

// readDiffusivity reads the diffusivity; restated tells that the table states some of the numbers that may go together, and not how they do.
func readDiffusivity(parent *strict.Table, d *Diffusivity, complete bool) (restated bool) {
	if complete {
		parent.Require("diffusivity")
	}
	t := parent.Table("diffusivity")
	if t == nil {
		return false
	}
	if complete {
		t.Require("reference", "temperature", "piece")
	}
	if x, ok := temperature().read(t, "reference"); ok {
		d.Reference = x
	}
	readProperties(t, d.properties(), complete)
	readScatter(t, d)
	readRange(t, "temperature", temperature(), &d.Temperature)
	if t.Has("piece") {
		d.Pieces = readPieces(t)
	}
	readActivation(t, d)
	readCorrelation(t, d)
	return !t.Has("correlation") && slices.ContainsFunc([]string{"reference", "value", "scatter", "activation", "piece", "beta"}, t.Has)
}

// readScatter sets what follows from the range of the value where no scatter is stated: none where its user gives none, who is believed.
func readScatter(t *strict.Table, d *Diffusivity) {
	v := d.ReferenceValue
	switch {
	case t.Has("scatter"):
		d.Lean = 0
	case t.Has("value") && v.Low > 0:
		d.Between(v.Low, v.High)
		d.Scatter = Value{Value: d.Scatter.Value, Low: d.Scatter.Value, High: d.Scatter.Value, Kind: v.Kind, Source: v.Source}
	}
}

// readActivation reads the activation energy of the piece that holds at the reference, the others staying those of the base.
func readActivation(t *strict.Table, d *Diffusivity) {
	e, ok := readValue(t, "activation", activation())
	switch {
	case !t.Has("activation"):
	case t.Has("piece"):
		t.Fault("activation", "the pieces state it", "activation for the piece at the reference, or every piece by [[diffusivity.piece]]")
	case ok && len(d.Pieces) > 0:
		d.Pieces = slices.Clone(d.Pieces)
		d.atReference().Activation = e
	}
}

// readCorrelation reads how the doubts go together.
func readCorrelation(parent *strict.Table, d *Diffusivity) {
	t := parent.Table("correlation")
	if t == nil {
		return
	}
	var c Correlation
	coefficients, sound := number(-mostCorrelated, mostCorrelated), true
	for _, one := range []struct {
		key  string
		into *float64
	}{{"activation", &c.Activation}, {"beta", &c.Beta}, {"activation_beta", &c.ActivationBeta}} {
		x, ok := coefficients.read(t, one.key)
		*one.into, sound = x, sound && (ok || !t.Has(one.key))
	}
	switch {
	case !sound || len(d.Pieces) == 0:
		return
	case !c.Possible():
		parent.Fault("correlation", "no three numbers go together so: the matrix of the three is not positive definite",
			"1 + 2abc - a² - b² - c² above 0, of activation, beta and activation_beta")
		return
	}
	if d.Correlation = c; d.correlated() != c {
		parent.Fault("correlation", "it is of a number that has no range", "low and high of the diffusivity, the activation energy and beta, as far as they go together")
	}
}

func readPieces(parent *strict.Table) []Arrhenius {
	var pieces []Arrhenius
	tables := parent.Tables("piece")
	if tables != nil && len(tables) == 0 {
		parent.Fault("piece", "no piece", "at least one")
	}
	for i, t := range tables {
		piece := Arrhenius{}
		if i == 0 && t.Has("from") {
			t.Fault("from", "the first piece starts at absolute zero", "no from in the first piece")
		}
		if i > 0 {
			t.Require("from")
			from, ok := temperature().read(t, "from")
			if piece.From = from; ok && from <= pieces[i-1].From {
				t.Fault("from", "not above the piece before", "pieces in ascending order of from")
			}
		}
		t.Require("activation")
		piece.Activation, _ = readValue(t, "activation", activation())
		pieces = append(pieces, piece)
	}
	return pieces
}

func readSorption(parent *strict.Table, s *Sorption, complete bool) {
	if complete {
		parent.Require("sorption")
	}
	t := parent.Table("sorption")
	if t == nil {
		return
	}
	if complete {
		t.Require("form", "reference", "activity", "temperature", "mixing_enthalpy")
	}
	changed, known := readForm(t, s, complete)
	if x, ok := temperature().read(t, "reference"); ok {
		s.Reference = x
	}
	mixingEnthalpy := property{key: "mixing_enthalpy", measure: mixing(), into: &s.MixingEnthalpy}
	readProperties(t, []property{mixingEnthalpy}, false)
	readRange(t, "activity", number(0, 1), &s.ActivityRange)
	readRange(t, "temperature", temperature(), &s.Temperature)
	if !known { // the form is a fault already; its parameters are not
		passOver(t, "saturation", "monolayer", "c", "k", "linear", "power", "exponent")
		return
	}
	readProperties(t, s.parameters(), complete || changed)
	checkSaturation(t, *s)
}

// passOver marks values as known without judging them.
func passOver(t *strict.Table, keys ...string) {
	for _, key := range keys {
		if t.IsTable(key) {
			inner := t.Table(key)
			for _, part := range []string{"value", "low", "high", "kind", "source"} {
				inner.Has(part)
			}
		}
	}
}

// readForm sets the form; a form other than that of the base clears the parameters.
func readForm(t *strict.Table, s *Sorption, complete bool) (changed, known bool) {
	word, ok := t.Choice("form", forms())
	if !ok {
		return false, !complete && !t.Has("form")
	}
	form := Form(slices.Index(forms(), word))
	if form == s.Form {
		return false, true
	}
	*s = Sorption{Form: form, MixingEnthalpy: s.MixingEnthalpy, Reference: s.Reference,
		ActivityRange: s.ActivityRange, Temperature: s.Temperature}
	return true, true
}

// checkSaturation refuses an isotherm that puts more water than polymer into the
// strand inside its own range of activity.
func checkSaturation(t *strict.Table, s Sorption) {
	if s.Reference == 0 || s.ActivityRange.Max == 0 {
		return
	}
	if top := s.Content(s.ActivityRange.Max, s.Reference); top > 1 {
		t.Report("", strict.Fault{Problem: "the content at the highest activity is " + quantity.Fraction().Format(top, "%", 3),
			Allowed: "up to 100 %"})
	}
}

// checkTemperatures refuses orders of temperatures that no polymer has.
func checkTemperatures(t *strict.Table, p *Polymer) {
	nozzle := p.NozzleTemperature.Value
	order := func(key string, low float64, against string, high float64) {
		if low > 0 && high > 0 && low >= high {
			show := func(x float64) string { return quantity.Temperature().Format(x, "°C", 5) }
			t.Report(key, strict.Fault{Given: show(low), Problem: "not below " + strings.ReplaceAll(against, "_", " "),
				Allowed: "below " + against + ", " + show(high)})
		}
	}
	order("drying_temperature", p.DryingTemperature.Value, "nozzle_temperature", nozzle)
	order("glass_transition", p.GlassTransition.Value, "nozzle_temperature", nozzle)
	order("softening", p.Softening.Value, "nozzle_temperature", nozzle)
	if p.Structure == Semicrystalline && p.Melting == nil && !t.Has("melting") {
		t.Fault("melting", "missing", "the melting temperature of a semicrystalline polymer")
	}
	if p.Melting != nil {
		order("glass_transition", p.GlassTransition.Value, "melting", p.Melting.Value)
		order("drying_temperature", p.DryingTemperature.Value, "melting", p.Melting.Value)
	}
}
