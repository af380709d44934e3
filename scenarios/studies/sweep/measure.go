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
	rows := g.probes()
	found, err := parallel.UnlessDone(ctx, func(ctx context.Context) ([]probe, error) {
		return parallel.Map(ctx, diffusion.Marches(len(rows)), len(rows), func(w *diffusion.March, i int) (probe, error) {
			return g.probe(w, s, rows[i]), nil
		})
	})
	if err != nil {
		return err
	}
	for _, p := range found {
		if !p.answered {
			continue
		}
		g.Checked++
		g.NumericalError = max(g.NumericalError, p.off)
		if p.mean > 0 {
			g.RelativeError = max(g.RelativeError, p.off/p.mean)
		}
	}
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

// probe is the mean content and its numerical error at one row [kg/kg dry], if it has an answer.
type probe struct {
	mean, off float64
	answered  bool
}

func (g *Grid) probe(w *diffusion.March, s *scenarios.Scenario, row int) (p probe) {
	if g.Rows[row].Failed != "" {
		return p
	}
	varied, err := s.With(g.settings(row)...)
	if err != nil {
		return p
	}
	p.mean, p.off, err = w.NumericalError(&varied.Model, g.Rows[row].Settings)
	p.answered = err == nil
	return p
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
