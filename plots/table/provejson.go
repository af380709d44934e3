package table

import (
	"io"
	"math"

	"strandry/scenarios/validation/prove"
)

// proofDocument is the table of checks as JSON, each value in its own unit.
type proofDocument struct {
	Version  string        `json:"version"`
	Checks   int           `json:"checks"`
	Passed   int           `json:"passed"`
	Families []proofFamily `json:"families"`
	Orders   []proofOrder  `json:"orders"`
	Results  []proofResult `json:"results"`
}

type proofFamily struct {
	Name   string   `json:"name"`
	Checks int      `json:"checks"`
	Passed int      `json:"passed"`
	Worst  *float64 `json:"worst_of_tolerance"` // null where something was not computed
}

type proofOrder struct {
	Problem  string    `json:"problem"`
	In       string    `json:"in"` // space or time
	Count    []int     `json:"nodes_or_steps"`
	Error    []float64 `json:"error"`
	Measured float64   `json:"measured"`
	Stated   float64   `json:"stated"`
}

type proofResult struct {
	Family     string   `json:"family"`
	Case       string   `json:"case"`
	Quantity   string   `json:"quantity"`
	Unit       string   `json:"unit"`
	Expected   *float64 `json:"expected"`
	Got        *float64 `json:"got"` // null where nothing was computed
	Difference *float64 `json:"difference"`
	Allowed    *float64 `json:"allowed"`
	Passed     bool     `json:"passed"`
	Kind       string   `json:"kind"`
	Source     string   `json:"source"`
	Reason     string   `json:"reason_of_tolerance"`
	Error      string   `json:"error,omitempty"`
}

// WriteJSON writes the table as indented JSON; what is not a number is null.
func (p *Proof) WriteJSON(out io.Writer) error {
	d := proofDocument{Version: p.Version, Checks: len(p.Results), Passed: p.Passed(), Orders: []proofOrder{}}
	for _, f := range p.Families() {
		d.Families = append(d.Families, proofFamily{f.Name, f.Checks, f.Passed, orNull(f.Worst.Share())})
	}
	for _, o := range p.Orders {
		d.Orders = append(d.Orders, proofOrder{o.Name, refined(o), o.Count, o.Error, o.Measured, o.Stated})
	}
	for i := range p.Results {
		d.Results = append(d.Results, proofOf(&p.Results[i]))
	}
	return encode(out, d)
}

func proofOf(r *prove.Result) proofResult {
	out := proofResult{
		Family: r.Family, Case: r.Name, Quantity: r.Quantity, Unit: r.Unit, Expected: orNull(r.Expected), Got: orNull(r.Got),
		Difference: orNull(r.Difference), Allowed: orNull(r.Within), Passed: r.Passed(), Kind: r.Kind.String(), Source: r.Source,
		Reason: r.Tolerance.Reason,
	}
	if r.Err != nil {
		out.Error = r.Err.Error()
	}
	return out
}

// orNull is nil for what is not a number.
func orNull(x float64) *float64 {
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return nil
	}
	return &x
}
