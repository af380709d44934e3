package table

import "io"

// sizeDocument is the answer as JSON; values of the key in its SI unit (unit; 1 for a plain
// number or a fraction), contents in kg/kg dry.
type sizeDocument struct {
	Version        string  `json:"version"`
	Title          string  `json:"title"`
	File           string  `json:"file"`
	Material       string  `json:"material"`
	Origin         string  `json:"origin"` // of the material: library, or the file that its values come from
	Key            string  `json:"key"`
	Outcome        string  `json:"outcome"` // met, everywhere, nowhere
	Value          float64 `json:"value"`   // that meets the limit at the medians, else the driest
	Written        string  `json:"written"` // the value as a file states it
	NumericalError float64 `json:"numerical_error"`
	DryFrom        float64 `json:"limit_met_from"`
	DryTo          float64 `json:"limit_met_to"`
	From           float64 `json:"searched_from"`
	To             float64 `json:"searched_to"`
	Likely         sizeAt  `json:"nine_in_ten"`
	Limit          float64 `json:"limit"`
	limitWords
	Check      moisture    `json:"check"` // the run at the value
	Verdict    string      `json:"verdict"`
	Survives   string      `json:"survives"` // at the value: holds, doubtful, softens
	Heat       endurance   `json:"heat"`
	Cause      string      `json:"cause"` // what stands in the way: nothing, air, flow, rewetting, time
	Floor      float64     `json:"air_floor"`
	Conclusion string      `json:"conclusion"`
	Marches    int         `json:"marches"`
	Points     []sizePoint `json:"points"` // that were tried, rising
	Notes      []string    `json:"notes"`
}

// sizeAt is what meets the limit nine times in ten.
type sizeAt struct {
	Outcome     string  `json:"outcome"` // met, everywhere, nowhere
	Value       float64 `json:"value"`   // next to that at the medians; else the likeliest
	From        float64 `json:"met_from"`
	To          float64 `json:"met_to"`
	Probability float64 `json:"probability"` // of meeting the limit at the value
	Survives    string  `json:"survives"`
}

type sizePoint struct {
	Value    float64 `json:"value"`
	Ratio    float64 `json:"content_over_limit"`
	Survives string  `json:"survives"`
}

// WriteJSON writes the answer as indented JSON in SI units. It writes nothing and returns an
// error if any figure is not finite.
func (s *Size) WriteJSON(out io.Writer) error {
	if err := Finite("the size", s.Answer); err != nil {
		return err
	}
	a, r, l := s.Answer, s.Answer.Check, &s.Answer.Likely
	d := sizeDocument{
		Version: s.Version, Title: s.Title, File: s.File, Material: a.Model.Material.ID, Origin: a.Model.Material.Origin, Key: a.Key.Name,
		Outcome: a.Outcome.String(), Value: a.Value, Written: a.Setting.Value, NumericalError: a.NumericalError,
		DryFrom: a.DryFrom, DryTo: a.DryTo, From: a.From, To: a.To,
		Likely: sizeAt{l.Outcome.String(), l.Value, l.From, l.To, l.Probability, l.Survives.String()},
		Limit:  a.Model.Limit, limitWords: limitWordsOf(a.Model, &r.Odds), Verdict: r.Verdict.String(), Survives: r.Endurance.Survival.String(), Heat: enduranceOf(r.Endurance), Cause: a.Diagnosis.Cause.String(), Floor: a.Diagnosis.Floor,
		Check:      moistureOf(a.Model, r),
		Conclusion: s.Conclusion(), Marches: a.Marches, Notes: notNil(s.notes()),
	}
	for _, p := range a.Points {
		d.Points = append(d.Points, sizePoint{p.X, p.Ratio, p.Survives.String()})
	}
	return encode(out, d)
}
