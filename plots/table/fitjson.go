package table

import (
	"strandry/scenarios"
	"strandry/scenarios/studies/fit"
)

// json is in SI units; low and high hold the truth nine times in ten.
func (f *Fit) json() any {
	o := f.Outcome
	w := o.Weighings
	out := object{
		{"version", f.Version},
		{"title", w.Title},
		{"file", w.File},
		{"material", w.Model.Material.ID},
		{"told", o.Told},
		{"checks", o.Checks}, // pieces weighed at the machine that count too
		{"answer", f.Answer()},
		{"temperature", o.Temperature}, // at which the diffusivity is told
		{"diffusivity", between(o.Diffusivity)},
		{"library", between(o.Library)},
	}
	if o.Known.Activation {
		out = append(out, member{"activation", between(o.Activation)})
	}
	if o.Known.Beta == scenarios.Fitted {
		out = append(out, member{"beta", between(o.Beta)})
	}
	if o.Drift != (fit.Between{}) {
		out = append(out, member{"drift", between(o.Drift)})
	}
	if o.Known.Prior {
		out = append(out, member{"prior_share", o.PriorShare})
	}
	return append(out,
		member{"correlation", object{{"activation", o.Correlation[0]}, {"beta", o.Correlation[1]}, {"activation_beta", o.Correlation[2]}}},
		member{"resolution", w.Scale.Resolution},
		member{"noise", between(o.Noise)},
		member{"lack_of_fit", object{{"share", o.Lack.Share}, {"probability", o.Lack.Probability}}}, // of the squares that have a shape; that it is so large if the model holds
		member{"runs", f.runObjects()},
		member{"findings", each(o.Findings, func(x *fit.Finding) object {
			return object{{"kind", x.Kind.String()}, {"run", x.Run}, {"line", x.Line}, {"grave", x.Grave()}, {"amount", x.Amount}, {"factor", x.Factor}, {"text", f.say(*x)}}
		})},
		member{"helps", f.helps()},
		member{"notes", f.notes()},
		member{"marches", o.Marches},
	)
}

func (f *Fit) runObjects() []object {
	o := f.Outcome
	var out []object
	for i := range o.Runs {
		run, r := &o.Weighings.Runs[i], &o.Runs[i]
		out = append(out, object{
			{"file", run.File}, {"sha256", run.Sum}, {"temperature", run.Zone.Air.Temperature},
			{"diffusivity", between(r.Diffusivity)}, {"start", between(r.Start)}, {"start_known", run.StartKnown},
			{"dry_mass", between(r.Dry)}, {"dry_mass_known", run.DryMassKnown}, {"equilibrium", r.Equilibrium}, {"end", r.End},
			{"residuals", r.Residuals},
			{"band", each(r.Band, func(b *fit.Between) object { return between(*b) })},
		})
	}
	return out
}

func between(b fit.Between) object {
	return object{{"value", b.Value}, {"low", b.Low}, {"high", b.High}}
}
