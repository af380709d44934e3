package rosenbrock

import (
	"errors"
	"fmt"
	"math"
)

// Settings are the numerical choices of a march. All but the tolerance, which is above 0, may be left at zero.
type Settings struct {
	// Tolerance is the error allowed in a step, as the embedded solution tells it, relative to the root mean square of the field at its end [-]. What is kept
	// is one order better. Of the forty transits of testdata/bench, of some thirty steps each, 38 end within 4e-4, 1.7e-4 and 7e-5 of their mean at a tolerance
	// of 1e-2, 3e-3 and 1e-3, the error of the grid that goes with it counted in (TestFortyTransits of package diffusion). Below 1e-10 rounding is in the way.
	Tolerance float64
	Floor     float64 // smallest size of the field that the error is taken relative to, in its unit, for a field that vanishes; 0 or more
	Steps     int     // when positive: that many even steps and no control
	MaxSteps  int     // most tries in one march; zero means 100000, a thousand times what is usual
	MaxStep   float64 // longest step under control [s]; zero for no bound
}

// Check tells what is wrong with a duration [s] or the settings.
func (s Settings) Check(duration float64) error {
	switch {
	case !(duration >= 0) || math.IsInf(duration, 0):
		return fmt.Errorf("duration %g s: must be finite and not negative", duration)
	case s.Steps <= 0 && (!(s.Tolerance > 0) || math.IsInf(s.Tolerance, 0)):
		return fmt.Errorf("tolerance %g: must be positive and finite", s.Tolerance)
	case !(s.Floor >= 0) || math.IsInf(s.Floor, 0):
		return fmt.Errorf("floor %g: must be finite and not negative", s.Floor)
	}
	return nil
}

// CheckRising tells the same of several durations [s], which must rise from above zero.
func (s Settings) CheckRising(durations []float64) error {
	before := 0.0
	for i, d := range durations {
		if err := s.Check(d); err != nil {
			return err
		}
		if !(d > before) {
			return fmt.Errorf("durations must rise from above zero: %g s at %d", d, i)
		}
		before = d
	}
	return nil
}

// Stats counts the work of a march.
type Stats struct {
	Steps    int // accepted
	Rejected int
}

// ErrStalled is returned when the step shrinks to nothing or the number of
// steps runs out.
var ErrStalled = errors.New("the march stalled: no step, however short, is as exact as its tolerance asks")

// Body is what is marched.
type Body interface {
	// Try computes a step of size h [s] from the present state without taking it, and
	// gives the estimate of its error relative to the size of the field; NaN or Inf
	// where the step has failed.
	Try(h float64) float64
	// Accept takes the step that Try has computed and sets the clock to now [s].
	Accept(h, now float64)
	// Reject counts a step that is not taken.
	Reject()
}

// Even marches in even steps.
func Even(b Body, start, duration float64, steps int) error {
	h := duration / float64(steps)
	for k := range steps {
		if !(b.Try(h) < math.Inf(1)) {
			return ErrStalled
		}
		now := start + duration*float64(k+1)/float64(steps)
		b.Accept(h, now)
	}
	return nil
}

// Pace is how far a controlled march has come.
type Pace struct {
	Start float64 // time at its beginning [s]
	Done  float64 // time gone since [s]
	Step  float64 // next step to try [s]
}

// Lasts tells whether the next step reaches the given duration.
func (p *Pace) Lasts(duration float64) bool {
	return p.Step >= (duration-p.Done)*(1-1e-12)
}

// Nears tells whether the given duration lies within two of the next steps: what is left then depends on it.
func (p *Pace) Nears(duration float64) bool {
	return p.Step*2 > duration-p.Done
}

// share parts what is left until the duration, more than one step and less than two, into two that are about even: most of what a march is off by comes from
// its last long steps, and a whole one with a rest errs more than two halves do. A rest that is small grows from nothing, so that the error does
// not jump where the duration changes.
func (p *Pace) share(duration float64) {
	if left := duration - p.Done; left < 2*p.Step {
		p.Step = max(left/2, 3*p.Step-2*left)
	}
}

// Pursue marches under step control until duration [s] has gone. Before each try it calls
// aside, if there is one, with the pace.
func (p Pace) Pursue(b Body, duration float64, s Settings, aside func(Pace) error) error {
	limit := s.MaxSteps
	if limit == 0 {
		limit = 100000
	}
	for range limit {
		if aside != nil {
			if err := aside(p); err != nil {
				return err
			}
		}
		if s.MaxStep > 0 {
			p.Step = min(p.Step, s.MaxStep)
		}
		last := p.Lasts(duration)
		if last {
			p.Step = duration - p.Done
		} else {
			p.share(duration)
		}
		size := b.Try(p.Step) / s.Tolerance
		grow := growth(size)
		if !(size <= 1) {
			b.Reject()
			p.Step *= min(grow, 0.7)
			if !(p.Done+p.Step > p.Done) {
				return ErrStalled
			}
			continue
		}
		if last {
			b.Accept(p.Step, p.Start+duration)
			return nil
		}
		p.Done += p.Step
		b.Accept(p.Step, p.Start+p.Done)
		p.Step *= grow
	}
	return ErrStalled
}

// growth is the factor from a step whose error is size times what is allowed to the
// next one.
func growth(size float64) float64 {
	const least, most, safety = 0.2, 6, 0.9
	if !(size < math.Inf(1)) { // true for NaN too
		return least
	}
	return max(least, min(safety/math.Sqrt(math.Sqrt(max(size, 1e-4))), most)) // the power is inverse
}

// Through marches for the last of the rising durations [s]; each of the earlier ones is
// handed to aside with the pace from which its own march would take its last two steps.
func (p Pace) Through(b Body, durations []float64, s Settings, aside func(i int, now Pace) error) error {
	next, last := 0, len(durations)-1
	return p.Pursue(b, durations[last], s, func(now Pace) error {
		for next < last && now.Nears(durations[next]) {
			if err := aside(next, now); err != nil {
				return err
			}
			next++
		}
		return nil
	})
}
