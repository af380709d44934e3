package size

import (
	"math"

	"strandry/diffusion"
	"strandry/scenarios/studies/reliability"
)

// reliable seeks the values that meet the limit nine times in ten: by odds like those of the value at the medians, and, where the odds of what they find do not bear it
// out, by odds in full.
func (t *task) reliable() (ReliableRange, error) {
	found, err := t.reliableBy(func(m *diffusion.Design, s diffusion.Settings) (diffusion.Odds, error) {
		return t.march.OddsLike(&t.answer.Check.Odds, m, s)
	})
	if err != nil || t.answer.Outcome == Nowhere {
		return found, err
	}
	m, s, err := t.with(found.Value)
	if err != nil {
		return found, err
	}
	o, err := t.march.Odds(m, s)
	if err != nil || found.Outcome != Nowhere && o.Probability < diffusion.NineInTen {
		return t.reliableBy(t.march.Odds)
	}
	found.Probability = o.Probability
	return found, nil
}

// odder finds the odds of a design.
type odder func(m *diffusion.Design, s diffusion.Settings) (diffusion.Odds, error)

// reliableBy seeks from either end of the stretch that meets the limit at the medians.
func (t *task) reliableBy(odds odder) (ReliableRange, error) {
	a := t.answer
	out := ReliableRange{Outcome: a.Outcome, Value: a.Value, Probability: a.Check.Probability, Survives: a.Check.Endurance.Survival}
	if a.Outcome == Nowhere {
		return out, nil
	}
	near, far := a.DryFrom, a.DryTo
	if a.Outcome == Met && a.Value == a.DryTo {
		near, far = far, near
	}
	first, err := t.from(odds, near, far, &out.Asked)
	if err != nil {
		return out, err
	}
	out.Value, out.Probability = t.valueAt(first.Place), first.Probability
	if first.Outcome == reliability.Nowhere {
		out.Outcome = Nowhere
		return out, nil
	}
	other, err := t.from(odds, far, out.Value, &out.Asked)
	if err != nil {
		return out, err
	}
	if other.Outcome == reliability.Nowhere { // the sample alone, where there is hardly a stretch
		other.Place = first.Place
	}
	out.Outcome, out.From, out.To = Met, min(out.Value, t.valueAt(other.Place)), max(out.Value, t.valueAt(other.Place))
	if first.Outcome == reliability.Already {
		if other.Outcome == reliability.Already {
			out.Outcome = Everywhere
		}
		out.Value, out.Probability = t.valueAt(other.Place), other.Probability
	}
	p, err := t.point(out.Value)
	out.Survives = p.Survives
	return out, err
}

// valueAt is the value at a place of the scale; an end of the range is that end, to the bit.
func (t *task) valueAt(u float64) float64 {
	for _, end := range [...]float64{t.answer.From, t.answer.To} {
		if u == t.last.scale(end) {
			return end
		}
	}
	return t.last.value(u)
}

// from seeks between two values, from one that just meets the limit or is an end of the range.
func (t *task) from(odds odder, one, other float64, asked *int) (reliability.Found, error) {
	a, s := t.answer, t.last
	search := reliability.Search{From: s.scale(one), To: s.scale(other), Crossing: one != a.From && one != a.To}
	switch {
	case s.even:
		const parts = 8
		search.Step = math.Abs(s.scale(a.To)-s.scale(a.From)) / parts
	case search.Crossing:
		search.Step = FirstStep(a.Design)
	default:
		search.Step = farStep
	}
	search.At = func(u float64) (float64, error) {
		*asked++
		x := s.value(u)
		switch u { // not through the scale and back, past an end
		case search.From:
			x = one
		case search.To:
			x = other
		}
		m, settings, err := t.with(x)
		if err != nil {
			return 0, err
		}
		o, err := odds(m, settings)
		return o.Probability, err
	}
	return search.Find()
}
