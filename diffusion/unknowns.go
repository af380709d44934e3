package diffusion

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/stat/distuv"

	"strandry/diffusion/film"
	"strandry/materials"
)

// Unknown is a thing about a design that is not known for sure. Its deviate is a standard normal one: 0 is the median, -1.645 and 1.645 the
// ends between which the truth lies nine times in ten.
type Unknown struct {
	Name   string
	change func(d *draw, deviate float64)
}

// names of unknowns.
func names(unknowns []Unknown) []string {
	var all []string
	for _, u := range unknowns {
		all = append(all, u.Name)
	}
	return all
}

// Given is an unknown that the one who states the design adds.
type Given struct {
	Name string
	// Change makes of the model at the median that at a standard normal deviate. Its Path and Storage are its own. Called by several goroutines at once.
	Change func(m *Model, deviate float64) error `json:"-"`
}

// The names of the unknowns that a design has by itself.
const (
	UnknownDiffusivity = "diffusivity at the reference"
	UnknownActivation  = "activation energy"
	UnknownBeta        = "growth of the diffusivity with content"
	UnknownIsotherm    = "level of the isotherm"
	UnknownMixing      = "heat of sorption"
	UnknownFilm        = "film coefficients"
	UnknownMouths      = "air through the mouths of a bore"
	UnknownLimit       = "limit"
)

// draw is a model on its way to what it is at some deviates.
type draw struct {
	model    *Model
	material materials.Deviates
	film     float64      // deviate of the films
	films    []filmSpread // what it does to each
	open     float64      // deviate of the mouths
	given    []func(m *Model) error
}

// Unknowns are those that the march depends on; the limit is another one, see [Design.LimitInDoubt]. Left out is what is certain, or does not
// act on this model.
func (d *Design) Unknowns() []Unknown {
	var all []Unknown
	add := func(name string, v materials.Value, change func(d *draw, deviate float64)) {
		if v.Low < v.High {
			all = append(all, Unknown{name, change})
		}
	}
	m, p := &d.Model, &d.Material
	scatter := p.Diffusivity.Scatter.Value
	add(UnknownDiffusivity, materials.Value{Low: 1 / scatter, High: scatter}, func(d *draw, z float64) { d.material.Diffusivity = z })
	if i := slices.IndexFunc(p.Diffusivity.Pieces, func(a materials.Arrhenius) bool { return a.Activation.Low < a.Activation.High }); i >= 0 {
		add(UnknownActivation, p.Diffusivity.Pieces[i].Activation, func(d *draw, z float64) { d.material.Activation = z })
	}
	add(UnknownBeta, p.Diffusivity.Beta, func(d *draw, z float64) { d.material.Beta = z })
	s := &p.Sorption
	levels := [...]materials.Value{s.Saturation, s.Monolayer, s.Linear, s.Power}
	if i := slices.IndexFunc(levels[:], func(v materials.Value) bool { return v.Low < v.High }); i >= 0 {
		add(UnknownIsotherm, levels[i], func(d *draw, z float64) { d.material.Isotherm = z })
	}
	add(UnknownMixing, s.MixingEnthalpy, func(d *draw, z float64) { d.material.Mixing = z })
	if m.guessesFilm() {
		films := m.filmSpreads()
		all = append(all, Unknown{UnknownFilm, func(d *draw, z float64) { d.film, d.films = z, films }})
	}
	if _, hasBores := m.withOpenBores(); hasBores {
		all = append(all, Unknown{UnknownMouths, func(d *draw, z float64) { d.open = z }})
	}
	for _, g := range d.Given {
		all = append(all, Unknown{g.Name, func(d *draw, z float64) { d.given = append(d.given, func(m *Model) error { return g.Change(m, z) }) }})
	}
	return all
}

// guessesFilm tells that a correlation gives the film of a zone.
func (m *Model) guessesFilm() bool {
	guessed := func(z Zone) bool { return !(z.Film.Heat > 0 && z.Film.Mass > 0) }
	return slices.ContainsFunc(m.Path, guessed) || slices.ContainsFunc(m.Storage, guessed)
}

// drawn is the model at deviates of its unknowns, and the share of what could come in through the mouths of its bores.
func (m *Model) drawn(unknowns []Unknown, deviates []float64) (out Model, open float64, err error) {
	var own drawing
	_, open, err = own.of(m, unknowns, deviates)
	return own.model, open, err
}

// drawing is the memory of a drawn model, for many after one another.
type drawing struct {
	model         Model
	path, storage []Zone
	pieces        []materials.Arrhenius
	draw          draw
}

// of makes what [Model.drawn] makes, good until the next one.
func (s *drawing) of(m *Model, unknowns []Unknown, deviates []float64) (out *Model, open float64, err error) {
	s.model, out = *m, &s.model
	s.path, s.storage = append(s.path[:0], m.Path...), append(s.storage[:0], m.Storage...)
	out.Path, out.Storage = s.path, s.storage
	d := &s.draw
	*d = draw{model: out, given: d.given[:0]}
	for i, u := range unknowns {
		u.change(d, deviates[i])
	}
	s.pieces = out.Material.Deviate(d.material, s.pieces)
	if d.film != 0 {
		films := d.films
		for _, zones := range [...][]Zone{out.Path, out.Storage} {
			for i := range zones {
				films[i].deviate(&zones[i].Film, d.film)
			}
			films = films[len(zones):]
		}
	}
	for _, change := range d.given {
		if err := change(out); err != nil {
			return out, 0, err
		}
	}
	if out.StartActivity > 0 {
		out.Start = out.Material.Sorption.Content(out.StartActivity, out.StartTemperature)
	}
	return out, distuv.UnitNormal.CDF(d.open), nil
}

// filmSpread is how far the coefficients of a film may be off: the logarithm of the factor on each at a deviate of one.
type filmSpread struct{ heat, mass float64 }

// filmSpreads are those of the path, then of the storage. The uncertainty of a correlation is that which its source states, taken as what is exceeded one time
// in ten.
func (m *Model) filmSpreads() []filmSpread {
	var all []filmSpread
	for _, zones := range [...][]Zone{m.Path, m.Storage} {
		for i := range zones {
			c, err := filmAt(&zones[i], m, m.StartTemperature)
			if err != nil {
				c = film.Coefficients{} // the march will say so
			}
			all = append(all, filmSpread{math.Log1p(c.Uncertainty) / materials.EndDeviate, math.Log1p(c.MassUncertainty) / materials.EndDeviate})
		}
	}
	return all
}

// deviate changes a film; heat and mass go together.
func (s filmSpread) deviate(f *Film, deviate float64) {
	f.HeatFactor = factor(f.HeatFactor) * math.Exp(deviate*s.heat)
	f.MassFactor = factor(f.MassFactor) * math.Exp(deviate*s.mass)
}
