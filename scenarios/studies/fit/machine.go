package fit

import (
	"fmt"
	"math"

	"strandry/diffusion"
	"strandry/diffusion/estimation"
	"strandry/materials"
	"strandry/scenarios"
)

// piece is one of a strand that was weighed at the machine.
type piece struct {
	check *scenarios.Check
	curve *curve // its content before the path, and behind it
	dry   int    // place of its dry mass
}

// ofMachine are the parameters and the readings of the checks of a machine.
func (p *parameters) ofMachine() error {
	s := p.weighings.Machine
	if s == nil {
		return nil
	}
	for i := range s.Checks {
		check := &s.Checks[i]
		if check.After == 0 {
			continue
		}
		then, err := s.At(check)
		if err != nil {
			return fmt.Errorf("%s: %w", check.Title, err)
		}
		model := then.Model
		model.Material = p.weighings.Model.Material
		model.Path = model.Path[:check.Zone+1]
		if model.StartActivity > 0 {
			model.Start = model.Material.Sorption.Content(model.StartActivity, model.StartTemperature)
		}
		c := &piece{check: check, curve: p.behind(&model)}
		most := math.Max(check.Before, math.Max(check.After, check.Dried)) + 2*check.Step
		begin := check.Dried / (1 + check.Left)
		if begin == 0 {
			begin = check.After / (1 + math.Min(model.Start, 0.01))
		}
		c.dry = p.add(most/(1+wettestPiece), most, begin, estimation.Prior{})
		for k, mass := range [...]float64{check.Before, check.After, check.Dried} {
			if mass > 0 {
				p.readings = append(p.readings, place{run: -1, point: k, piece: len(p.pieces)})
				p.problem.Readings = append(p.problem.Readings, estimation.Reading{Value: mass, Resolution: check.Step})
			}
		}
		p.pieces = append(p.pieces, c)
	}
	return nil
}

// wettestPiece bounds the water in a piece [kg/kg dry].
const wettestPiece = 0.6

// behind is the curve of a piece over the diffusivity at the middle temperature, the activation energy and beta.
func (p *parameters) behind(model *diffusion.Model) *curve {
	law := &model.Material.Diffusivity
	c := &curve{nodes: map[[3]int][]float64{}, blended: make([]float64, 2), lattice: [3]axis{ofDiffusivity(law.Dry(p.middle)), {}, ofBeta(law, p.known, model.Start, most(p.weighings))}}
	if p.known.Activation {
		const joules = 4e3 // at the far end of a machine 30 K from the weighings the logarithm moves by 0.1
		c.lattice[1] = axis{origin: p.pieceAt(p.middle).Value, spacing: joules}
	}
	march := diffusion.NewMarch()
	var r diffusion.Result
	c.contents = func(at [3]float64) ([]float64, error) {
		m := *model
		law := &m.Material.Diffusivity
		if p.known.Activation {
			law.Pieces = []materials.Arrhenius{{Activation: materials.Value{Value: at[1], Low: at[1], High: at[1]}}}
			law.Reference, law.ReferenceValue.Value = p.middle, math.Exp(at[0])
		} else {
			law.ReferenceValue.Value *= math.Exp(at[0]) / law.Dry(p.middle)
		}
		law.Beta.Value = at[2]
		if err := march.Run(&m, diffusion.CoarseSettings(), &r); err != nil {
			return nil, err
		}
		return []float64{r.Start.Mean, r.Nozzle.Mean}, nil
	}
	return c
}

// weighed is the mass of a piece before, after, and dried out [kg].
func (p *parameters) weighed(c *piece, which int, x []float64) (float64, error) {
	law := &p.weighings.Model.Material.Diffusivity
	at := [3]float64{x[0], 0, law.Beta.Value}
	if p.activation >= 0 {
		at[1] = x[p.activation]
	}
	if p.beta >= 0 {
		at[2] = x[p.beta]
	}
	contents, err := c.curve.at(at)
	if err != nil {
		return 0, err
	}
	return x[c.dry] * (1 + [...]float64{contents[0], contents[1], c.check.Left}[which]), nil
}
