package likely

import (
	"math"

	"strandry/diffusion"
)

// quick finds the place with few marches; false where it cannot, and the stretch has to be walked through.
func (l *lengths) quick() (Found, bool) {
	begin := l.From
	if l.Crossing {
		begin = l.end(l.From + math.Copysign(l.Step, l.To-l.From))
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
	} else if p, err := l.at(begin); err != nil || enough()-deviate(p) <= within {
		return Found{Already, l.From, p}, err == nil
	}
	g, ok := l.guess(begin)
	if !ok {
		return Found{}, false
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
}

// about looks around a guess.
func (l *lengths) about(g guessed) (Found, bool) {
	const part, shifts, hopeless = 0.5, 2, 0.2
	for range shifts {
		w, err := l.open(g.place, part*l.width)
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
		case g.least > 0:
			return Found{}, false
		case w.lacks(near) <= 0:
			g.place = near
		default:
			g.place = far
		}
	}
	return Found{}, false
}

// guess goes through the stretch in the cautious case of a place, and that of the place it finds, until they agree.
func (l *lengths) guess(u float64) (guessed, bool) {
	const rounds = 4
	var g guessed
	for range rounds {
		m := *l.model
		m.Path = append([]diffusion.Zone(nil), m.Path...)
		m.Path[l.zone].Length = math.Exp(u)
		c, err := l.march.Caution(&m, l.settings)
		if err != nil {
			return g, false
		}
		var ok bool
		if g, ok = l.first(&c); !ok {
			return g, false
		}
		if math.Abs(g.place-u) < l.width/2 {
			return g, true
		}
		u = g.place
	}
	return g, false
}

// first is the first place of the stretch at which the limit is met in a cautious case.
func (l *lengths) first(c *diffusion.Caution) (guessed, bool) {
	const step = 0.5
	low, high := math.Min(l.From, l.To), math.Max(l.From, l.To)
	count := 1 + int(math.Ceil((high-low)/step))
	places, lengths := make([]float64, count), make([]float64, count)
	for i := range places {
		places[i] = low + (high-low)*float64(i)/float64(max(1, count-1))
		lengths[i] = math.Exp(places[i])
	}
	over := l.march.CautiousLengths(l.model, l.zone, lengths, c, l.settings)
	least := guessed{least: math.Inf(1)}
	for k := range count {
		i, before := k, k-1
		if l.To < l.From {
			i, before = count-1-k, count-k
		}
		switch {
		case math.IsNaN(over[i]):
			return least, false
		case over[i] <= 0 && k > 0:
			share := over[before] / (over[before] - over[i])
			return guessed{place: places[before] + share*(places[i]-places[before])}, true
		case over[i] < least.least:
			least = guessed{places[i], over[i]}
		}
	}
	return least, true
}
