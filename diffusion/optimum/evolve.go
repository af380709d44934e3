package optimum

import (
	"math"
	"math/rand/v2"
	"slices"
)

// guess is a place with what the models say of it.
type guess struct {
	unit  []float64
	cost  float64
	lacks float64
}

// better tells whether a place is better than another, if what they lack counts only beyond so much.
func (g *guess) better(o *guess, allowed float64) bool {
	mine, theirs := max(g.lacks-allowed, 0), max(o.lacks-allowed, 0)
	if mine != theirs {
		return mine < theirs
	}
	return g.cost < o.cost
}

// region is where a model is believed.
type region struct {
	variables []Variable
	low, high []float64 // on the scales
}

// regionAbout reaches so far to either side of a place, of a discrete variable at least to the values beside.
func regionAbout(variables []Variable, centre []float64, radius float64) *region {
	r := &region{variables: variables}
	for i, v := range variables {
		reach := radius
		if v.Values != nil {
			const beyond = 1.01
			reach = max(reach, beyond*v.step())
		}
		r.low, r.high = append(r.low, max(centre[i]-reach, 0)), append(r.high, min(centre[i]+reach, 1))
	}
	return r
}

// place is one in the region, near which the given one lies.
func (r *region) place(i int, u float64) float64 {
	return r.variables[i].near(min(max(u, r.low[i]), r.high[i]))
}

func (r *region) random(rng *rand.Rand) []float64 {
	unit := make([]float64, len(r.low))
	for i := range unit {
		unit[i] = r.place(i, r.low[i]+(r.high[i]-r.low[i])*rng.Float64())
	}
	return unit
}

// evolve finds about the best place of a region by differential evolution, in which each trial starts from its parent, goes towards the best and by a difference of two others. What places lack
// is let pass at first and less and less so, so that ways along a constraint are found (T. Takahama & S. Sakai, IEEE Congr. Evol. Comput. (2006) 1-8, from memory, simplified).
func (r *region) evolve(rng *rand.Rand, from []float64, judge func(unit []float64) guess) guess {
	const each, fewest, generations, crossing = 6, 16, 60, 0.9
	crowd := make([]guess, max(each*len(from), fewest))
	for i := range crowd {
		unit := r.random(rng)
		if i == 0 {
			unit = from
		}
		crowd[i] = judge(unit)
	}
	allowed := slackOf(crowd)
	trial := make([]float64, len(from))
	for generation := range generations {
		const strict = 0.7 // of the generations, from which on nothing is let pass
		let := allowed * math.Pow(max(1-float64(generation)/(strict*generations), 0), 4)
		best := bestOf(crowd, let)
		for i := range crowd {
			a, b := &crowd[rng.IntN(len(crowd))], &crowd[rng.IntN(len(crowd))]
			factor, always := 0.4+0.5*rng.Float64(), rng.IntN(len(trial))
			for k, u := range crowd[i].unit {
				if trial[k] = u; k == always || rng.Float64() < crossing {
					trial[k] = r.place(k, u+factor*(crowd[best].unit[k]-u)+factor*(a.unit[k]-b.unit[k]))
				}
			}
			if g := judge(trial); g.better(&crowd[i], let) {
				g.unit = slices.Clone(trial)
				crowd[i] = g
			}
		}
	}
	return crowd[bestOf(crowd, 0)]
}

// slackOf is what a fifth of a crowd lacks at most.
func slackOf(crowd []guess) float64 {
	lacks := make([]float64, len(crowd))
	for i, g := range crowd {
		lacks[i] = g.lacks
	}
	slices.Sort(lacks)
	return lacks[len(lacks)/5]
}

func bestOf(crowd []guess, allowed float64) int {
	best := 0
	for i := range crowd {
		if crowd[i].better(&crowd[best], allowed) {
			best = i
		}
	}
	return best
}
