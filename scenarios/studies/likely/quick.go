package likely

import (
	"math"
	"slices"

	"strandry/diffusion"
)

// quick finds the place with few marches; false where it cannot, and the stretch has to be walked through.
func (l *lengths) quick() (Found, bool) {
	begin := l.end(l.From + math.Copysign(l.Step, l.To-l.From))
	switch {
	case !l.Crossing:
		begin = l.From
	case l.Caution == nil: // a surrogate at the first step mostly holds the place, and takes little more than the cautious case there
		w, err := l.open(begin, l.width)
		if err != nil {
			return Found{}, false
		}
		if f, ok := l.inside(w); ok {
			return f, true
		}
		if _, far := l.edges(w); w.lacks(far) <= 0 {
			return Found{}, false // it is met before
		}
	}
	g, ok := l.guess(begin)
	if !ok {
		return Found{}, false
	}
	if !l.Crossing && g.first <= hopeless {
		if p, err := l.at(l.From); err != nil || enough()-deviate(p) <= within {
			return Found{Already, l.From, p}, err == nil
		}
	}
	return l.about(g)
}

// end is a place, or the end of the stretch before it.
func (l *lengths) end(u float64) float64 {
	if math.Abs(u-l.From) > math.Abs(l.To-l.From) {
		return l.To
	}
	return u
}

// guessed is a place at which the limit is just met in the cautious case; where it is not met at any, that comes nearest to it.
type guessed struct {
	place float64
	least float64 // logarithm of the content over the limit there
	first float64 // the same at the beginning of the stretch
}

// hopeless is how far from enough nothing comes near it: as a deviate, and as the logarithm of a content.
const hopeless = 0.2

// about looks around a guess. Where it finds nothing, the stretch begins where it has looked to.
func (l *lengths) about(g guessed) (Found, bool) {
	const part, shifts = 0.5, 2
	width := part * l.width
	for range shifts {
		w, err := l.open(g.place, width)
		if err != nil {
			return Found{}, false
		}
		if f, ok := l.inside(w); ok {
			return f, true
		}
		near, far := l.edges(w)
		switch {
		case g.least > hopeless && w.lacks(g.place) > hopeless && w.lacks(far) > hopeless:
			return Found{Nowhere, g.place, w.at(g.place)}, true
		case g.least > 0 || near == l.From && w.lacks(near) <= 0:
			return Found{}, false
		case w.lacks(near) <= 0:
			g.place = l.end(2*near - w.middle)
			continue
		}
		before, after := place{w.middle, w.lacks(w.middle)}, place{far, w.lacks(far)}
		if width = l.width; after.lacks > within {
			l.From, l.Crossing = far, false
		}
		g.place = l.end(far + math.Copysign(stride(before, after), l.To-far))
	}
	return Found{}, false
}

// alike are lengths, as logarithms, at which about the same conspires against a strand.
const alike = 1.5

// guess goes through the stretch in the cautious case that is known, or that of a place, and then in that of the place it finds, until they agree.
func (l *lengths) guess(u float64) (guessed, bool) {
	const rounds = 5
	c, own, near := l.Caution, l.known, alike // where the case is that of, and how near to that it holds
	for range rounds {
		if c == nil {
			m := *l.model
			m.Path = append([]diffusion.Zone(nil), m.Path...)
			m.Path[l.zone].Extend(math.Exp(u))
			there, err := l.march.Caution(&m, l.settings)
			if err != nil {
				return guessed{}, false
			}
			c, own, near = &there, u, l.width/2
		}
		g, ok := l.first(c)
		if !ok || math.Abs(g.place-own) < near {
			return g, ok
		}
		u, c = g.place, nil
	}
	return guessed{}, false
}

// first is the first place of the stretch at which the limit is met in a cautious case. It looks at a few places at a time, since those that are far are dear.
func (l *lengths) first(c *diffusion.Caution) (guessed, bool) {
	const step, few = 0.8, 5
	count := 1 + int(math.Ceil(math.Abs(l.To-l.From)/step))
	var places, over []float64
	least := guessed{least: math.Inf(1)}
	for k := range count {
		if k == len(over) {
			for i := k; i < min(k+few, count); i++ {
				places = append(places, l.From+(l.To-l.From)*float64(i)/float64(max(1, count-1)))
			}
			over = append(over, l.over(places[k:], c)...)
		}
		switch {
		case math.IsNaN(over[k]):
			return least, false
		case over[k] <= 0 && k > 0:
			share := 0.0 // where it is met from the beginning
			if over[k-1] > 0 {
				share = over[k-1] / (over[k-1] - over[k])
			}
			return guessed{places[k-1] + share*(places[k]-places[k-1]), 0, over[0]}, true
		case over[k] < least.least:
			least = guessed{places[k], over[k], over[0]}
		}
	}
	return least, true
}

// over is the logarithm of the content over the limit at places that rise or fall.
func (l *lengths) over(places []float64, c *diffusion.Caution) []float64 {
	rising := make([]float64, len(places))
	for i, u := range places {
		rising[i] = math.Exp(u)
	}
	down := l.To < l.From
	if down {
		slices.Reverse(rising)
	}
	out := l.march.CautiousLengths(l.model, l.zone, rising, c, l.settings)
	if down {
		slices.Reverse(out)
	}
	return out
}
