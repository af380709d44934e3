package diffusion

import (
	"math"
)

// Numbers are the odds without the surrogate that they rest on, which holds a function and so is equal to no other.
func (o Odds) Numbers() Odds {
	o.surrogate = nil
	return o
}

// Balance is what a zone of the design gives off to its air at deviates of its unknowns: as it is expected of the draw, and as it is; and as it is at the medians.
func (w *March) Balance(d *Design, zone int, deviates []float64) (expected, found, medians float64, err error) {
	e, err := w.ensemble(d, drawSettings(Settings{}))
	if err != nil {
		return 0, 0, 0, err
	}
	e.begin()
	m, _, err := d.drawn(e.unknowns, deviates)
	if err != nil {
		return 0, 0, 0, err
	}
	var r Result
	err = w.run(&m, e.settings, nil, &r)
	return e.balances(&m)[zone].total, r.balances[zone].total, e.medianBalances[zone].total, err
}

// DrawnContent is the content at the nozzle at a draw: as the odds have it, and as it is marched [kg/kg dry].
type DrawnContent struct{ Told, Marched float64 }

// DrawnContents are the first of the draws of the odds of a design, each marched.
func (w *March) DrawnContents(d *Design, o Odds, count int) ([]DrawnContent, error) {
	e, err := w.ensemble(d, drawSettings(Settings{}))
	if err != nil {
		return nil, err
	}
	e.begin()
	var out []DrawnContent
	for _, z := range w.drawsFor(o.surrogate, len(e.unknowns))[:count] {
		log, err := e.tried(z)
		if err != nil {
			return nil, err
		}
		out = append(out, DrawnContent{math.Exp(o.surrogate.At(z)), math.Exp(log)})
	}
	return out, nil
}
