package table

import (
	"io"
	"math"

	"strandry/diffusion/sensitivity"
)

// doubtDocument is the study as JSON: contents in kg/kg dry, shares and widths as fractions.
type doubtDocument struct {
	Version     string  `json:"version"`
	Title       string  `json:"title"`
	File        string  `json:"file"`
	Material    string  `json:"material"`
	Origin      string  `json:"origin"` // of the material: library, or the file that its values come from
	Verdict     string  `json:"verdict"`
	Survives    string  `json:"survives"`
	Probability float64 `json:"probability"`
	Mean        float64 `json:"mean"`
	Low         float64 `json:"low"`  // 10 % point of the mean
	High        float64 `json:"high"` // 90 % point
	limits
	LimitLow   float64        `json:"limit_low"` // between these nine times in ten
	LimitHigh  float64        `json:"limit_high"`
	RatioLow   float64        `json:"ratio_low"` // 10 % point of the content over the limit
	RatioHigh  float64        `json:"ratio_high"`
	Variance   float64        `json:"variance"` // of the logarithm of that
	Unknowns   []doubtUnknown `json:"unknowns"` // the greatest total share first
	Together   float64        `json:"share_by_acting_together"`
	Measure    []doubtStep    `json:"measure"`         // in this order
	Surrogate  float64        `json:"surrogate_error"` // relative to the content
	Conclusion string         `json:"conclusion"`
	Notes      []string       `json:"notes"`
}

type doubtUnknown struct {
	Name  string    `json:"name"`
	First indexJSON `json:"first_order"`
	Total indexJSON `json:"total"`
	Left  float64   `json:"width_left_if_known"` // share of the width of the logarithm of the content over the limit
}

type indexJSON struct {
	Value    float64 `json:"value"`
	Low      float64 `json:"low"` // between these nine times in ten
	High     float64 `json:"high"`
	Estimate float64 `json:"estimate"` // before it was brought to where an index can lie
}

type doubtStep struct {
	Name string  `json:"name"`
	Left float64 `json:"width_left"`
	How  string  `json:"how"`
}

func indexOf(x sensitivity.Index) indexJSON { return indexJSON{x.Value, x.Low, x.High, x.Estimate} }

// WriteJSON writes the study as indented JSON in SI units. It writes nothing and returns an error if any figure is not finite.
func (d *Doubt) WriteJSON(out io.Writer) error {
	if err := d.check(); err != nil {
		return err
	}
	t, a, m := d.Study, d.Study.Assessment, d.Study.Model
	page := doubtDocument{
		Version: d.Version, Title: d.Title, File: d.File, Material: m.Material.ID, Origin: m.Material.Origin,
		Verdict: a.Verdict.String(), Survives: a.Endurance.Survival.String(), Probability: a.Probability, Mean: a.Nozzle.Mean, Low: a.Low, High: a.High,
		limits: limitsOf(m), LimitLow: t.Limit.Low, LimitHigh: t.Limit.High, RatioLow: math.Exp(t.Spread.Low), RatioHigh: math.Exp(t.Spread.High),
		Variance: t.Variance, Unknowns: []doubtUnknown{}, Together: t.Together, Measure: []doubtStep{}, Surrogate: t.Fit,
		Conclusion: d.Conclusion(), Notes: notNil(d.notes()),
	}
	for _, r := range t.Rows {
		page.Unknowns = append(page.Unknowns, doubtUnknown{r.Unknown, indexOf(r.First), indexOf(r.Total), r.Left})
	}
	for _, s := range t.Order {
		page.Measure = append(page.Measure, doubtStep{s.Unknown, s.Left, measuring(s.Unknown, m)})
	}
	return encode(out, page)
}
