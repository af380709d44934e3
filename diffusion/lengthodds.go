package diffusion

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"strandry/diffusion/surrogate"
)

// LengthOdds is the probability of meeting the limit over the length of one zone. At each length that is asked for far from all that were marched before, eight
// marches are made, as for [March.OddsLike]; near one of those the estimate alone tells what the difference makes.
type LengthOdds struct {
	march    *March
	design   Design
	zone     int
	settings Settings
	base     Odds
	draws    [][]float64
	places   []lengthPlace
}

// lengthPlace is a length that was marched.
type lengthPlace struct {
	log  float64 // logarithm of the length
	like *surrogate.Surrogate
	by   *estimator
}

// LengthOdds begins with the odds of a design that has the same unknowns, best of the same one at another length; nil for none, then the first length is asked
// for its odds in full. The lengths are those [m] of the zone with the given index, or durations [s] if it has one.
func (w *March) LengthOdds(d *Design, zone int, base *Odds, s Settings) (*LengthOdds, error) {
	if err := d.has(zone); err != nil {
		return nil, err
	}
	l := &LengthOdds{march: w, design: *d, zone: zone, settings: s}
	l.design.Path = slices.Clone(d.Path)
	if base != nil && base.alike(d.Unknowns()) {
		l.take(*base)
	}
	return l, nil
}

// Base is what they rest on; nil before the first length.
func (l *LengthOdds) Base() *Odds {
	if l.base.surrogate == nil {
		return nil
	}
	return &l.base
}

func (l *LengthOdds) take(base Odds) {
	const enough = 512 // over a wide range of lengths
	l.base = base
	l.draws = l.march.drawsFor(base.surrogate, len(base.Unknowns))[:enough]
}

// Probability at a length; within is how far from it, as a logarithm, what was marched may lie.
func (l *LengthOdds) Probability(length, within float64) (float64, error) {
	p, err := l.near(math.Log(length), within)
	if err != nil {
		return 0, err
	}
	e, err := l.ensemble(length)
	if err != nil {
		return 0, err
	}
	return meets(e.design.LimitInDoubt(), l.march.at(p.like.With(e.estimated(p.by)), l.draws), 0), nil
}

// Cautious is the logarithm of the content over the limit at a length, as the estimate has it, in the case in which all that is in doubt conspires against the strand (see
// [Caution]); about zero or less where it is met nine times in ten.
func (l *LengthOdds) Cautious(length float64) (float64, error) {
	p, err := l.near(math.Log(length), math.Inf(1))
	if err != nil {
		return 0, err
	}
	e, err := l.ensemble(length)
	if err != nil {
		return 0, err
	}
	c := &l.base.Cautious
	return p.like.With(e.estimated(p.by)).At(c.deviates(e.unknowns)) - math.Log(c.Limit), nil
}

// ensemble of the design at a length.
func (l *LengthOdds) ensemble(length float64) (*ensemble, error) {
	varied := l.design
	varied.Path = slices.Clone(l.design.Path)
	varied.Path[l.zone].Extend(length)
	return l.march.ensemble(&varied, drawSettings(l.settings))
}

// near is the nearest place that was marched, or a new one.
func (l *LengthOdds) near(log, within float64) (*lengthPlace, error) {
	off := func(p lengthPlace) float64 { return math.Abs(p.log - log) }
	best := -1
	for i, p := range l.places {
		if off(p) <= within && (best < 0 || off(p) < off(l.places[best])) {
			best = i
		}
	}
	if best >= 0 {
		return &l.places[best], nil
	}
	e, err := l.ensemble(math.Exp(log))
	if err != nil {
		return nil, err
	}
	p := lengthPlace{log: log}
	if l.base.surrogate == nil {
		fit, err := e.fit(e.each)
		if err != nil {
			return nil, err
		}
		l.take(e.odds(e.design, fit))
		p.like = fit.surrogate
	} else if p.like, err = e.like(l.base.surrogate); err != nil {
		return nil, fmt.Errorf("the odds over a length: %w", errors.Join(err, e.failed))
	}
	p.by = e.by
	l.places = append(l.places, p)
	return &l.places[len(l.places)-1], nil
}
