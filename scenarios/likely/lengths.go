package likely

import (
	"math"

	"gonum.org/v1/gonum/stat/distuv"

	"strandry/diffusion"
)

// lengths gives probabilities over the logarithm of the length of a zone, from surrogates over ranges of lengths.
type lengths struct {
	march    *diffusion.March
	model    *diffusion.Model
	zone     int
	settings diffusion.Settings
	width    float64
	windows  []*window
}

// window is a surrogate over a range of lengths, and what it lacks, as a deviate.
type window struct {
	*diffusion.Around
	off float64
}

// Lengths searches over the logarithm of the length [m] of a zone; At is not used. It mostly takes some sixty marches; where the surrogate
// over the lengths is not quite to be trusted the odds themselves are asked, once; where it is not at all, what they would say changes nothing that can be
// told: the length is good to some tens of per cent.
func (s Search) Lengths(w *diffusion.March, m *diffusion.Model, zone int, n diffusion.Settings) (Found, error) {
	const widest, parts, sound, hopeless = 1.0, 1.6, 0.1, 0.3
	l := lengths{march: w, model: m, zone: zone, settings: n, width: math.Min(s.Step/parts, widest)}
	s.At = l.at
	f, err := s.Find()
	if err != nil || f.Outcome == Already {
		return f, err
	}
	in, err := l.window(f.Place)
	if err != nil || in.Error <= sound || in.Error > hopeless || s.Rough > 0 && math.Exp(f.Place) > s.Rough {
		return f, err
	}
	p, err := l.exact(f.Place)
	if err != nil {
		return f, err
	}
	off := deviate(p) - deviate(f.Probability)
	f.Probability = p
	if enoughOf(f) {
		return f, nil
	}
	in.off += off
	return s.Find()
}

// enoughOf tells that the probability at a place is what its outcome says.
func enoughOf(f Found) bool {
	const near = 0.1
	lacks := enough() - deviate(f.Probability)
	if f.Outcome == Nowhere {
		return lacks > within
	}
	return math.Abs(lacks) <= near && f.Probability >= diffusion.Likely
}

func (l *lengths) at(u float64) (float64, error) {
	in, err := l.window(u)
	if err != nil {
		return 0, err
	}
	return distuv.UnitNormal.CDF(deviate(in.Probability(math.Exp(u))) + in.off), nil
}

// exact asks the odds themselves.
func (l *lengths) exact(u float64) (float64, error) {
	m := *l.model
	m.Path = append([]diffusion.Zone(nil), m.Path...)
	m.Path[l.zone].Length = math.Exp(u)
	o, err := l.march.Odds(&m, l.settings)
	return o.Probability, err
}

// window is one that holds a length.
func (l *lengths) window(u float64) (*window, error) {
	for _, w := range l.windows {
		if w.Holds(math.Exp(u)) {
			return w, nil
		}
	}
	a, err := l.march.OddsAround(l.model, l.zone, math.Exp(u), l.width, l.settings)
	if err != nil {
		return nil, err
	}
	l.windows = append(l.windows, &window{Around: a})
	return l.windows[len(l.windows)-1], nil
}
