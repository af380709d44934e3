package sweep

import (
	"context"
	"slices"

	"strandry/diffusion"
	"strandry/diffusion/parallel"
	"strandry/scenarios"
)

// measure finds the numerical error at the corners of the grid and in its middle, and takes it into the verdicts.
func (g *Grid) measure(ctx context.Context, s *scenarios.Scenario) error {
	found, err := parallel.UnlessDone(ctx, func(ctx context.Context) (found Grid, _ error) {
		w := diffusion.NewMarch()
		for _, row := range g.probes() {
			if ctx.Err() != nil {
				break
			}
			found.probe(w, g, s, row)
		}
		return found, ctx.Err()
	})
	if err != nil {
		return err
	}
	g.NumericalError, g.RelativeError, g.Checked = found.NumericalError, found.RelativeError, found.Checked
	if !g.Quick {
		g.judge()
	}
	return nil
}

// probes lists the corners and the middle of the grid, in rising order.
func (g *Grid) probes() []int {
	at := make([]int, len(g.Axes))
	var rows []int
	for corner := range 1 << len(g.Axes) {
		for i, axis := range g.Axes {
			at[i] = (axis.Len() - 1) * (corner >> i & 1)
		}
		rows = append(rows, index(g.Axes, at))
	}
	for i, axis := range g.Axes {
		at[i] = axis.Len() / 2
	}
	rows = append(rows, index(g.Axes, at))
	slices.Sort(rows)
	return slices.Compact(rows)
}

// probe adds the error at one row of a grid, if it has an answer.
func (g *Grid) probe(w *diffusion.March, of *Grid, s *scenarios.Scenario, row int) {
	if of.Rows[row].Failed != "" {
		return
	}
	varied, err := s.With(of.settings(row)...)
	if err != nil {
		return
	}
	mean, off, err := w.NumericalError(&varied.Model, of.Rows[row].Settings)
	if err != nil {
		return
	}
	g.Checked++
	g.NumericalError = max(g.NumericalError, off)
	if mean > 0 {
		g.RelativeError = max(g.RelativeError, off/mean)
	}
}

// judge takes the numerical error into the verdicts, as far as it is known: of each content, what the largest relative one
// that was found makes of it, though no more than the largest absolute one.
func (g *Grid) judge() {
	for i := range g.Rows {
		row := &g.Rows[i]
		if row.Failed != "" {
			continue
		}
		off := g.RelativeError
		if row.Mean > 0 {
			off = min(off, g.NumericalError/row.Mean)
		}
		o := diffusion.Odds{Probability: row.Probability, Density: row.Density}
		row.Verdict = o.Verdict(off, row.Survives())
	}
}
