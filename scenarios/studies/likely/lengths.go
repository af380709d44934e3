package likely

import (
	"math"

	"strandry/diffusion"
	"strandry/diffusion/root"
)

// lengths gives probabilities over the logarithm of the length of a zone, from surrogates over ranges of lengths.
type lengths struct {
	Search
	march    *diffusion.March
	model    *diffusion.Design
	zone     int
	settings diffusion.Settings
	width    float64
	known    float64 // logarithm of the length of the model
	windows  []*window
}

// window is a surrogate over a range of lengths, about the middle of it, as a logarithm.
type window struct {
	*diffusion.Around
	middle, width float64
}

// half of a window, in widths: a little less than it holds, so that its edges are inside.
const half = 1.29

// Lengths searches over the logarithm of the length [m] of a zone, or of its duration [s] if it has one; At is not used. It mostly takes some sixty marches, twice as many where the cautious case of the place itself
// has to tell first where to look, or the surrogate over the lengths is not quite to be trusted and another one over fewer of them is asked. Where those find no place, the
// stretch is walked through. Against the odds at the lengths found for 24 materials on two dryers the probability was within 0.01, where the length counts.
func (s Search) Lengths(w *diffusion.March, m *diffusion.Design, zone int, n diffusion.Settings) (Found, error) {
	const widest, parts = 1.0, 1.6
	l := lengths{Search: s, march: w, model: m, zone: zone, settings: n, width: math.Min(s.Step/parts, widest)}
	l.known = math.Log(m.Path[zone].Extent())
	l.At = l.at
	f, ok := l.quick()
	if !ok {
		var err error
		if f, err = l.Find(); err != nil || f.Outcome == Already {
			return f, err
		}
	}
	return l.closer(f), nil
}

// sound is the error of a surrogate over lengths that is to be trusted.
const sound = 0.1

// closer looks again at what was found with a surrogate that is not quite to be trusted, with one over fewer lengths.
func (l *lengths) closer(f Found) Found {
	const part = 0.3
	wide, err := l.window(f.Place)
	if err != nil || f.Outcome == Already || wide.Error <= sound || l.Rough > 0 && math.Exp(f.Place) > l.Rough {
		return f
	}
	in, err := l.open(f.Place, part*wide.width)
	if err != nil || in.Error >= wide.Error {
		return f
	}
	if f.Outcome == Met {
		if again, ok := l.inside(in); ok {
			return again
		}
	}
	f.Probability = in.at(f.Place)
	return f
}

func (l *lengths) at(u float64) (float64, error) {
	in, err := l.window(u)
	if err != nil {
		return 0, err
	}
	return in.at(u), nil
}

func (w *window) at(u float64) float64 { return w.Probability(math.Exp(u)) }

// lacks is what the deviate at a place lacks.
func (w *window) lacks(u float64) float64 { return enough() - deviate(w.at(u)) }

// window is one that holds a length.
func (l *lengths) window(u float64) (*window, error) {
	for _, w := range l.windows {
		if w.Holds(math.Exp(u)) {
			return w, nil
		}
	}
	return l.open(u, l.width)
}

// open makes a window of a width about a place.
func (l *lengths) open(u, width float64) (*window, error) {
	a, err := l.march.OddsAround(l.model, l.zone, math.Exp(u), width, sound, l.settings)
	if err != nil {
		return nil, err
	}
	w := &window{a, u, width}
	l.windows = append(l.windows, w)
	return w, nil
}

// edges of a window, within the stretch that is looked at: that nearer to where the search begins, and the other.
func (l *lengths) edges(w *window) (near, far float64) {
	low, high := math.Min(l.From, l.To), math.Max(l.From, l.To)
	within := func(u float64) float64 { return math.Min(math.Max(u, low), high) }
	toward := math.Copysign(half*w.width, l.To-l.From)
	return within(w.middle - toward), within(w.middle + toward)
}

// inside finds the place where a window has one.
func (l *lengths) inside(w *window) (Found, bool) {
	near, far := l.edges(w)
	b := root.Bracket{A: near, B: w.middle, AtA: w.lacks(near), AtB: w.lacks(w.middle)}
	if !(b.AtB <= 0) { // where it is met in the middle alone, as where the strand is wetted again, that will do
		b.B, b.AtB = far, w.lacks(far)
	}
	if !(b.AtA > 0 && b.AtB <= 0) {
		return Found{}, false
	}
	const nearly, narrow = 0.001, 0.001 // as a deviate, and of what a window holds: it takes no marches
	met := b.B                          // the last place at which it is, where the surrogate jumps
	u, err := root.Find(func(u float64) (float64, error) {
		lacks := w.lacks(u)
		if lacks <= 0 {
			met = u
		}
		return lacks, nil
	}, b, root.Tolerance{Value: nearly, Width: narrow * w.width})
	if err != nil {
		return Found{}, false
	}
	if w.lacks(u) <= nearly {
		met = u
	}
	return Found{Met, met, w.at(met)}, true
}
