package fit

import (
	"context"

	"strandry/diffusion"
	"strandry/diffusion/parallel"
	"strandry/materials"
	"strandry/scenarios"
)

// DesignPlan is what the weighings would do for the verdict on a design.
type DesignPlan struct {
	Design      *scenarios.Scenario
	Probability float64 // of meeting the limit, as it is known now
	// After are the probabilities that would be known once the strand was weighed, for strands at five places of what the library says that are as likely as one
	// another, slow ones first.
	After []float64
	Sure  int // of them that are nine in ten or more, or one in ten or less
}

// serve asks what a design's verdict would become.
func (p *Plan) serve(s *scenarios.Scenario) (*DesignPlan, error) {
	now, err := diffusion.NewMarch().Odds(&s.Design, s.Settings)
	if err != nil {
		return nil, err
	}
	out := &DesignPlan{Design: s, Probability: now.Probability}
	factor := p.Chosen.Factor
	law := s.Model.Material.Diffusivity
	if !(factor < law.Scatter.Value) {
		out.After = []float64{now.Probability}
		return out, nil
	}
	out.After, err = tryAll(places(), func(_ int, deviate float64) (float64, error) {
		d := s.Design
		d.Material.Diffusivity = law
		d.Material.Diffusivity.ReferenceValue.Value *= law.Factor(deviate)
		d.Material.Diffusivity.Scatter = materials.Value{Value: factor, Low: factor, High: factor, Kind: materials.Fitted}
		o, err := diffusion.NewMarch().Odds(&d, s.Settings)
		return o.Probability, err
	})
	for _, probability := range out.After {
		if probability >= diffusion.NineInTen || probability <= diffusion.OneInTen {
			out.Sure++
		}
	}
	return out, err
}

// places are deviates that are as likely as one another: the 10, 30, 50, 70 and 90 % points.
func places() []float64 { return []float64{-1.2816, -0.5244, 0, 0.5244, 1.2816} }

// tryAll does the same for all places, on all cores.
func tryAll[T any](places []float64, try func(i int, deviate float64) (T, error)) ([]T, error) {
	return parallel.Each(context.Background(), len(places), func(i int) (T, error) { return try(i, places[i]) })
}
