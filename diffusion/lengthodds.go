package diffusion

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/stat/distuv"

	"strandry/diffusion/surrogate"
)

// LengthOdds is the probability of meeting the limit over the length of one zone. At each length that is asked for far from all that were marched before, six
// marches are made, as for [March.OddsLike]; near one of those the estimate alone tells what the difference makes.
type LengthOdds struct {
	march    *March
	design   Design
	zone     int
	settings Settings
	base     Odds // of which there is the surrogate, the unknowns and the design point
	draws    [][]float64
	places   []lengthPlace
	sketch   *lengthPlace // by the medians alone, before there is a place; nil for none
}

// lengthPlace is a length that was marched.
type lengthPlace struct {
	log         float64 // logarithm of the length
	probability float64
	rises       float64 // by how much its deviate rises with the logarithm
	like        *surrogate.Surrogate
	by          *estimator
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

// Probability at a length; within is how far from it, as a logarithm, what was marched may lie: what lies between is told by the estimate, on the scale of
// standard normal deviates, on which the probability is nearly a straight line.
func (l *LengthOdds) Probability(length, within float64) (float64, error) {
	log := math.Log(length)
	p, err := l.near(log, within)
	if err != nil {
		return 0, err
	}
	if p.log == log {
		return p.probability, nil
	}
	return distuv.UnitNormal.CDF(Deviate(p.probability, tellsApart) + p.rises*(log-p.log)), nil
}

// tellsApart is the probability below which, and that above which, a sample of a few hundred tells nothing apart.
const tellsApart = 1e-3

// Deviate is the standard normal deviate of a probability, which is taken to be no nearer to 0 or 1 than least.
func Deviate(probability, least float64) float64 {
	return distuv.UnitNormal.Quantile(min(max(probability, least), 1-least))
}

// tell finds what a place tells. For a length that is a little longer only the draws whose contents are nearest to the limit are asked.
func (l *LengthOdds) tell(p *lengthPlace) error {
	const step, few = 0.2, 160
	longer, err := l.ensemble(math.Exp(p.log + step))
	if err != nil {
		return err
	}
	logs, limit := l.march.at(p.like, l.draws), l.design.LimitInDoubt()
	p.probability = meets(limit, logs, 0)
	order, off, at := make([]int, len(logs)), make([]float64, len(logs)), math.Log(limit.Value)
	for i, log := range logs {
		order[i], off[i] = i, math.Abs(log-at)
	}
	slices.SortFunc(order, func(i, k int) int { return cmp.Or(cmp.Compare(off[i], off[k]), cmp.Compare(i, k)) })
	order = order[:min(few, len(order))]
	nearest := make([][]float64, len(order))
	for k, i := range order {
		nearest[k] = l.draws[i]
	}
	after := l.march.at(p.like.With(longer.estimated(p.by)), nearest)
	for k, i := range order {
		logs[i] = after[k]
	}
	p.rises = (Deviate(meets(limit, logs, 0), tellsApart) - Deviate(p.probability, tellsApart)) / step
	return nil
}

// AtDesignPoint is the logarithm of the content over the limit at a length, as the estimate has it, at the design point of the first-order reliability method (see
// [DesignPoint]), where all that is in doubt conspires against the strand; about zero or less where the limit is met nine times in ten. Where nothing was marched yet, the medians are.
func (l *LengthOdds) AtDesignPoint(length float64) (float64, error) {
	by, like, err := l.known(length)
	if err != nil {
		return 0, err
	}
	e, err := l.ensemble(length)
	if err != nil {
		return 0, err
	}
	point := &l.base.DesignPoint
	return like.With(e.estimated(by)).At(point.deviates(e.unknowns)) - math.Log(point.Limit), nil
}

// known is the estimator and the surrogate of the nearest place that was marched; where there is none, those of the base with the medians at this length.
func (l *LengthOdds) known(length float64) (*estimator, *surrogate.Surrogate, error) {
	if len(l.places) == 0 && l.sketch == nil && l.base.surrogate != nil {
		e, err := l.ensemble(length)
		if err != nil {
			return nil, nil, err
		}
		e.similarBalances = l.base.DesignPoint.medianBalances
		e.begin()
		if like, err := l.base.surrogate.Shifted(e.drift, e.middle); err == nil {
			l.sketch = &lengthPlace{like: like, by: e.by}
		}
	}
	if len(l.places) == 0 && l.sketch != nil {
		return l.sketch.by, l.sketch.like, nil
	}
	p, err := l.near(math.Log(length), math.Inf(1))
	if err != nil {
		return nil, nil, err
	}
	return p.by, p.like, nil
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
		const off, most = 0.04, 2 // of a surrogate that serves over lengths
		fit, values, err := e.emulate(off, most, e.each)
		if err != nil {
			return nil, fmt.Errorf("the odds over a length: %w", errors.Join(err, e.failed))
		}
		l.take(Odds{surrogate: fit, Unknowns: names(e.unknowns), DesignPoint: e.designPoint(values[:1+2*len(e.unknowns)])})
		p.like = fit
	} else if p.like, err = e.like(&l.base); err != nil {
		return nil, fmt.Errorf("the odds over a length: %w", errors.Join(err, e.failed))
	}
	p.by = e.by
	if err := l.tell(&p); err != nil {
		return nil, err
	}
	l.places = append(l.places, p)
	return &l.places[len(l.places)-1], nil
}
