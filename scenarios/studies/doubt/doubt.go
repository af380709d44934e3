package doubt

import (
	"cmp"
	"context"
	"fmt"
	"slices"

	"strandry/diffusion"
	"strandry/diffusion/parallel"
	"strandry/diffusion/sensitivity"
	"strandry/materials"
	"strandry/scenarios"
)

// Answer is what decides the doubt about a scenario.
type Answer struct {
	Design     *diffusion.Design
	Assessment *diffusion.Assessment // with the odds, those of a run
	Limit      materials.Value       // with its doubt [kg/kg dry]
	Fit        float64               // error of the surrogate where it was tried, relative to the content
	Spread     sensitivity.Range     // of the logarithm of the content over the limit
	Variance   float64               // of that; zero where nothing is in doubt
	Rows       []Row                 // the greatest share with others first
	Together   float64               // share of the variance that no unknown makes alone
	Order      []Step                // in which to measure, until no more than Enough is left
}

// Row is one unknown.
type Row struct {
	Unknown      string
	First, Total sensitivity.Index
	Left         float64 // of the width of the spread, if this one were known; above one by its error, if at all
}

// Step is an unknown to measure.
type Step struct {
	Unknown string
	Left    float64 // of the width of the spread when it and those before are known
}

// Enough is the share of the width from which on there is no more to measure.
const Enough = 0.1

// Find answers for a scenario.
func Find(ctx context.Context, s *scenarios.Scenario) (*Answer, error) {
	march := diffusion.NewMarch()
	a, err := march.Assess(&s.Design, s.Settings)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", s.File, err)
	}
	d, err := march.Doubt(&s.Design, s.Settings)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", s.File, err)
	}
	out := &Answer{Design: &s.Design, Assessment: a, Limit: d.Limit, Fit: d.Fit}
	f := sensitivity.Function{Unknowns: len(d.Unknowns), At: d.At, Off: d.Fit}
	if f.Unknowns == 0 {
		at := d.At(nil)
		out.Spread = sensitivity.Range{Low: at, High: at}
		return out, nil
	}
	return out, out.share(ctx, d.Unknowns, f)
}

// share tells what each unknown does.
func (t *Answer) share(ctx context.Context, names []string, f sensitivity.Function) error {
	t.Spread = sensitivity.Spread(f)
	indices := sensitivity.Sobol(f)
	t.Variance, t.Together = indices.Variance, 1
	left, err := parallel.Each(ctx, f.Unknowns, func(i int) (float64, error) {
		return sensitivity.Left(f, i), nil
	})
	if err != nil || t.Variance == 0 {
		return err
	}
	for i, name := range names {
		t.Rows = append(t.Rows, Row{name, indices.First[i], indices.Total[i], left[i]})
		t.Together -= indices.First[i].Value
	}
	t.Together = max(0, t.Together)
	slices.SortStableFunc(t.Rows, func(a, b Row) int { return cmp.Compare(b.Total.Value, a.Total.Value) })
	for _, step := range sensitivity.Order(f, Enough) {
		t.Order = append(t.Order, Step{names[step.Unknown], step.Left})
	}
	return nil
}

// Decides lists the unknowns of which it cannot be told which has the greatest share with others: one, where the intervals tell.
func (t *Answer) Decides() []Row {
	n := 0
	for n < len(t.Rows) && t.Rows[n].Total.High >= t.Rows[0].Total.Low {
		n++
	}
	return t.Rows[:n]
}

// Narrows is the unknown of which to know it narrows the spread most; there must be one.
func (t *Answer) Narrows() Row {
	return slices.MinFunc(t.Rows, func(a, b Row) int { return cmp.Compare(a.Left, b.Left) })
}
