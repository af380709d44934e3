package table

import (
	"io"

	"strandry/scenarios/validation/measured"
)

// evidenceDocument is the page as JSON, in SI units.
type evidenceDocument struct {
	Version             string           `json:"version"`
	Independent         evidenceTally    `json:"independent"`
	Anchors             evidenceTally    `json:"anchors"`
	Unmeasured          []string         `json:"without_measured_figure"`
	AnchoredOnly        []string         `json:"with_anchors_alone"`
	DiffusivityUntested []string         `json:"without_independent_figure_of_diffusivity"`
	Figures             []evidenceFigure `json:"figures"`
	Asides              []evidenceAside  `json:"not_set_against_a_prediction"`
}

type evidenceTally struct {
	Figures int `json:"figures"`
	Inside  int `json:"inside"`
	Partly  int `json:"partly"`
	Outside int `json:"outside"`
}

type evidenceFigure struct {
	Material      string   `json:"material"`
	Quantity      string   `json:"quantity"`
	Unit          string   `json:"unit"`
	Temperature   float64  `json:"temperature_K"`
	To            *float64 `json:"to_temperature_K"` // null where there is none, as below
	Humidity      *float64 `json:"relative_humidity"`
	Thickness     *float64 `json:"thickness_m"`
	Time          *float64 `json:"time_s"`
	MeasuredLow   float64  `json:"measured_low"`
	MeasuredHigh  float64  `json:"measured_high"`
	Predicted     float64  `json:"predicted"`
	PredictedLow  float64  `json:"predicted_low"`
	PredictedHigh float64  `json:"predicted_high"`
	Ratio         float64  `json:"measured_over_predicted"`
	Verdict       string   `json:"verdict"`
	Independent   bool     `json:"independent"`
	Extrapolated  bool     `json:"extrapolated"`
	Kind          string   `json:"kind"`
	Read          string   `json:"read_in"`
	Source        string   `json:"source"`
	Reckoned      string   `json:"reckoned,omitempty"`
	Anchor        string   `json:"anchor,omitempty"`
	Remark        string   `json:"remark,omitempty"`
}

type evidenceAside struct {
	Materials []string `json:"materials"`
	What      string   `json:"what"`
	Why       string   `json:"why"`
	Source    string   `json:"source"`
}

// WriteJSON writes the page as indented JSON, in SI units.
func (e *Evidence) WriteJSON(out io.Writer) error {
	all := e.Evidence
	d := evidenceDocument{
		Version: e.Version, Independent: tallyOf(all.Independent), Anchors: tallyOf(all.Anchors),
		Unmeasured: notNil(all.Unmeasured), AnchoredOnly: notNil(all.AnchoredOnly), DiffusivityUntested: notNil(all.DiffusivityUntested),
		Figures: []evidenceFigure{}, Asides: []evidenceAside{},
	}
	for i := range all.Comparisons {
		d.Figures = append(d.Figures, figureOf(&all.Comparisons[i]))
	}
	for _, a := range all.Asides {
		d.Asides = append(d.Asides, evidenceAside{notNil(a.Materials), a.What, a.Why, a.Source})
	}
	if err := Finite("evidence", d); err != nil {
		return err
	}
	return encode(out, d)
}

func tallyOf(t measured.Tally) evidenceTally {
	return evidenceTally{t.All(), t.Inside, t.Partly, t.Outside}
}

func figureOf(c *measured.Comparison) evidenceFigure {
	return evidenceFigure{
		Material: c.Material, Quantity: c.Quantity.String(), Unit: c.Quantity.Unit(),
		Temperature: c.At.Temperature, To: unlessZero(c.At.To), Humidity: unlessZero(c.At.Humidity),
		Thickness: unlessZero(c.At.Thickness), Time: unlessZero(c.At.Time),
		MeasuredLow: c.Low, MeasuredHigh: c.High,
		Predicted: c.Predicted.Value, PredictedLow: c.Predicted.Low, PredictedHigh: c.Predicted.High, Ratio: c.Off(),
		Verdict: c.Verdict.String(), Independent: c.Independent(), Extrapolated: c.Predicted.Extrapolated,
		Kind: c.Kind.String(), Read: c.Read, Source: c.Source, Reckoned: c.Reckoned, Anchor: c.Anchor, Remark: c.Remark,
	}
}

// unlessZero is nil for a condition that a quantity does not have.
func unlessZero(x float64) *float64 {
	if x == 0 {
		return nil
	}
	return &x
}
