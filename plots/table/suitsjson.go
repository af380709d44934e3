package table

import (
	"io"

	"strandry/diffusion"
	"strandry/scenarios/studies/rest"
	"strandry/scenarios/studies/size"
	"strandry/scenarios/studies/suits"
)

// suitsDocument is the study as JSON: SI units, contents in kg/kg dry.
type suitsDocument struct {
	Version    string     `json:"version"`
	Title      string     `json:"title"`
	File       string     `json:"file"`
	Zone       string     `json:"zone"`              // whose length is sought
	Length     float64    `json:"length"`            // that it has
	Longest    float64    `json:"longest_buildable"` // [build] longest
	Speed      float64    `json:"speed"`
	Lain       float64    `json:"lain"`          // time in the room of the second view
	Soaked     []suitsRow `json:"soaked"`        // in equilibrium with the room
	Opened     []suitsRow `json:"opened"`        // dry, then in the room
	Held       []string   `json:"held_humidity"` // zones whose relative humidity is held
	Conclusion string     `json:"conclusion"`
	Contradict []string   `json:"contradicting_evidence"`
	Assumed    []string   `json:"assumptions"`
}

type suitsRow struct {
	Material       string  `json:"material"`
	Origin         string  `json:"origin"`         // library, or the file that its values come from
	Class          string  `json:"class"`          // at the medians: within its limit as it is, buildable, too long, no answer, no length will do
	AsDrawn        string  `json:"as_drawn"`       // needs no drying, dry as drawn, unsure as drawn, wet as drawn, softens, no answer
	DryIfBuilt     bool    `json:"dry_if_built"`   // not dry as drawn, but nine times in ten at another length that can be built
	FastIsWetter   bool    `json:"fast_is_wetter"` // the greater the diffusivity, the wetter at the nozzle
	Obstacle       string  `json:"obstacle,omitempty"`
	Failed         string  `json:"failed,omitempty"` // why there is no answer; all figures are zero then
	Temperature    float64 `json:"temperature"`
	Limit          float64 `json:"limit"`
	Start          float64 `json:"start"`
	Mean           float64 `json:"mean"`
	NumericalError float64 `json:"numerical_error"`
	oddsJSON
	Verdict      string           `json:"verdict"`
	Survives     string           `json:"survives,omitempty"` // holds, doubtful, softens
	Length       sizeLength       `json:"length"`             // at the medians
	LengthLikely likelyLengthJSON `json:"length_nine_in_ten"`
	Rest         restJSON         `json:"rest"`
	RestLikely   likelyTimeJSON   `json:"rest_nine_in_ten"`
	Floor        float64          `json:"floor"`
}

// oddsJSON is where the content at the nozzle lies, and how likely within the limit.
type oddsJSON struct {
	Low           float64 `json:"low"`  // 10 % point
	High          float64 `json:"high"` // 90 % point
	ByDiffusivity between `json:"by_diffusivity"`
	Probability   float64 `json:"probability"`
}

func oddsOf(o *diffusion.Odds) oddsJSON {
	return oddsJSON{o.Low, o.High, between{o.ByDiffusivity.Low, o.ByDiffusivity.High}, o.Probability}
}

// sizeLength is a length, its error and the dwell in it; absent unless met.
type sizeLength struct {
	Outcome string   `json:"outcome"`     // met, everywhere, nowhere
	None    bool     `json:"none_needed"` // met up to the length
	Length  *float64 `json:"length,omitempty"`
	Error   *float64 `json:"numerical_error,omitempty"` // of the length
	Dwell   *float64 `json:"dwell,omitempty"`
}

// likelyLengthJSON is the length from which on the limit is met nine times in ten.
type likelyLengthJSON struct {
	Outcome     string   `json:"outcome"` // met, everywhere, nowhere
	Length      *float64 `json:"length,omitempty"`
	Dwell       *float64 `json:"dwell,omitempty"`
	Probability *float64 `json:"probability,omitempty"` // there, or the most that was found; absent where no length meets the limit at the medians
}

// likelyTimeJSON is the time from which on, or until which, the limit is met nine times in ten.
type likelyTimeJSON struct {
	Outcome     string   `json:"outcome"`
	Time        *float64 `json:"time,omitempty"`
	Probability *float64 `json:"probability,omitempty"` // then, or the most that was found, or after thirty years
}

// likelyTimeOf names the outcomes: met, or with words for from the beginning and for not in the thirty years that are looked at.
func likelyTimeOf(t rest.Likely, already, never string) likelyTimeJSON {
	out := likelyTimeJSON{Outcome: "met"}
	switch {
	case t.Already:
		out.Outcome = already
	case t.Never:
		out.Outcome = never
	default:
		out.Time = &t.Seconds
	}
	if t.Probability > 0 {
		out.Probability = &t.Probability
	}
	return out
}

// restJSON is a time at the medians; absent where the limit is never passed, or is as the rest begins.
type restJSON struct {
	Already        bool     `json:"already"`
	Never          bool     `json:"never"`
	Time           *float64 `json:"time,omitempty"`
	NumericalError *float64 `json:"numerical_error,omitempty"`
}

func restOf(t rest.Time) restJSON {
	if t.Never || t.Already {
		return restJSON{Never: t.Never, Already: t.Already}
	}
	return restJSON{Time: &t.Seconds, NumericalError: &t.NumericalError}
}

// WriteJSON writes the study as indented JSON in SI units. It writes nothing and returns an error if
// any figure is not finite.
func (s *Suits) WriteJSON(out io.Writer) error {
	if err := Finite("the study", s.Study); err != nil {
		return err
	}
	t := s.Study
	return encode(out, suitsDocument{
		Version: s.Version, Title: s.Title, File: s.File, Zone: t.Zone, Length: t.Length, Longest: t.Longest, Speed: t.Speed, Lain: t.Lain,
		Soaked: s.rows(t.Soaked), Opened: s.rows(t.Opened), Held: notNil(t.Held), Conclusion: s.Conclusion(), Contradict: notNil(Contradictions(s.Contradicting)), Assumed: notNil(s.Assumed),
	})
}

func (s *Suits) rows(rows []suits.Row) []suitsRow {
	lengthOf := func(l size.Length) sizeLength {
		out := sizeLength{Outcome: l.Outcome.String(), None: l.None()}
		if l.Outcome == size.Met {
			dwell := l.Value / s.Study.Speed
			out.Length, out.Error, out.Dwell = &l.Value, &l.NumericalError, &dwell
		}
		return out
	}
	likely := func(l size.LikelyLength) likelyLengthJSON {
		out := likelyLengthJSON{Outcome: l.Outcome.String()}
		if l.Outcome == size.Met {
			dwell := l.Value / s.Study.Speed
			out.Length, out.Dwell = &l.Value, &dwell
		}
		if l.Probability > 0 {
			out.Probability = &l.Probability
		}
		return out
	}
	out := make([]suitsRow, 0, len(rows))
	for i := range rows {
		r := &rows[i]
		d := suitsRow{
			Material: r.Material.ID, Origin: r.Material.Origin, Class: r.Class.String(), AsDrawn: r.Kind().String(), DryIfBuilt: r.Built(s.Study.Longest), FastIsWetter: r.Odds.FastIsWetter, Temperature: r.Heated, Limit: r.Limit, Start: r.Start,
			Mean: r.Mean, NumericalError: r.NumericalError, Verdict: r.Verdict.String(), oddsJSON: oddsOf(&r.Odds),
			Length: lengthOf(r.Needed), LengthLikely: likely(r.Likely),
			Failed: r.Failed, Rest: restOf(r.Rest), RestLikely: likelyTimeOf(r.RestLikely, "from the beginning", "not in 30 years"), Floor: r.Floor,
		}
		if r.Class == suits.Forbidden {
			d.Obstacle = r.Obstacle.String()
		}
		if r.Class != suits.Unanswered {
			d.Survives = r.Survives.String()
		}
		out = append(out, d)
	}
	return out
}
