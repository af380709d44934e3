package diffusion

import (
	"errors"
	"fmt"
	"math"

	"strandry/materials/humidair"
)

// supply describes the air of a zone as the strand meets it first.
func (l *strand) supply(z *Zone) airSupply {
	m := l.model
	a := airSupply{pressure: z.Air.VapourPressure, total: m.AirPressure(), entered: l.cylinder.Lost}
	if r := z.Air.Relax; r.TimeConstant > 0 {
		a.rate, a.last, a.excess = 1/r.TimeConstant, a.pressure, r.From-a.pressure
		a.pressure = r.From
	}
	if z.Air.Limited() && z.Length > 0 {
		dry, vapour := m.Inflow(z)
		a.limited = true
		a.base = humidair.HumidityRatio(vapour, m.AirPressure())
		a.gain = float64(max(1, z.Air.Strands)) * 2 * math.Pi * m.Radius * m.Radius * m.Material.Density.Value * m.Speed / dry
	}
	return a
}

// marched tells whether one march settles the zone: the air is without limit, or
// meets the strand in the order in which it takes up water.
func (a *airSupply) marched(d Direction) bool { return !a.limited || d == With }

// through marches the zone against its air. Where one march does not settle it, the
// state of the air rests on the total that the zone gives off, which is sought until what it is still off by moves the total
// by no more than a hundredth of the tolerance, of the content at the entry, or a tenth, of that at the exit.
func (l *strand) through(z *Zone, s Settings) error {
	a, c := &l.around, &l.cylinder
	residence := z.Residence(l.model.Speed)
	if a.supply.marched(z.Air.Direction) {
		return l.advance(l.problem(), residence, l.numerics(z, s))
	}
	supply := a.supply
	l.keep()
	time, lost, beside, stats, hottest := c.Time, c.Lost, c.Beside, c.Stats, l.hottest
	var failed error
	given := func(total float64) (float64, error) {
		l.restore()
		l.trace.rewind()
		c.Time, c.Lost, c.Beside, c.Gathered = time, lost, beside, 0
		l.hottest = hottest
		c.Stats = stats // the steps of the march that balances count, those of the search do not
		a.forget()
		a.supply = supply
		a.supply.base += supply.gain * total
		a.supply.gain = 0
		if z.Air.Direction == Against {
			a.supply.gain = -supply.gain
		}
		n := l.numerics(z, s)
		n.MaxSteps = patience(s.Tolerance)
		failed = l.advance(l.problem(), residence, n)
		return c.Lost - lost - total, failed
	}
	found, err := balanceAir(given, l.similar, balanceTolerance{max(c.Grid.Content(l.saved), 1e-6), s.Tolerance, z.Air.Direction == Against})
	l.balance = found
	if err != nil && (failed == nil || z.Air.Direction == Against) {
		return fmt.Errorf("%w; so little air %s the strand has no answer that can be told: "+
			"give it several times as much (in bad cases fifty times), or let it run with the strand", ErrTooLittleAir, preposition(z.Air.Direction))
	}
	// The air takes up what the strand has given.
	a.supply.base = supply.base + supply.gain*(c.Lost-lost)
	return err
}

// patience is the number of steps after which a zone whose air has to agree with the
// strand, or with a cover in its place, counts as having no answer; a hundred are usual. They grow about as the root of the tolerance falls
// where a cold strand enters hot air.
func patience(tolerance float64) int {
	const usual, most = 2000, 100_000
	return int(min(usual*max(1, math.Sqrt(DefaultSettings().Tolerance/tolerance)), most))
}

func preposition(d Direction) string {
	if d == Mixed {
		return "around"
	}
	return d.String()
}

// airBalance is what a zone gives off to air that has to agree with it: the balance of water between the two.
type airBalance struct {
	total float64 // as [radial.March.Lost] counts; zero where nothing had to agree
	slope float64 // how that would change with the total that the air is taken to have taken up
}

// balanceTolerance is how near air and strand have to agree: a content at the entry, and the tolerance of a step.
type balanceTolerance struct {
	entry, tolerance float64
	against          bool // they meet: where so much water soaks the strand, there is an answer soon or none
}

// width of a bracket that is narrow.
func (c balanceTolerance) width() float64 { return 1e-2 * c.tolerance * c.entry }

// met tells whether a total that may be off by so much is near enough.
func (c balanceTolerance) met(total, off float64) bool {
	return off <= max(c.width(), 1e-1*c.tolerance*min(c.entry, c.entry-total))
}

// bracketed tells whether a total that may be off by so much lies in a bracket, as the answer does. Air that is so wet that it wets the strand
// all through does so whatever it has taken up: there nothing changes with the total, which says nothing of how it is far from there.
func (c balanceTolerance) bracketed(total, off, a, b float64) bool {
	slack := 2*off + c.width()
	return total >= min(a, b)-slack && total <= max(a, b)+slack
}

// balanceAir seeks x with f(x) = g(x) - x = 0 for a falling f by the Illinois form of
// regula falsi, from the bracket between a start and the g there, until g(x) lies within the tolerance of where it is at the end: with plenty of air
// g hardly depends on x, and two evaluations do, or one if a similar zone was seen before: its total is the start, zero if there is
// none, and its slope, thrice over for what differs, tells what the first evaluation is off by. Step control may leave small jumps
// in f: in a bracket as narrow as the tolerance a hundred times as much will do, and a
// larger jump means that there is no answer. Package root is not used here: in the middle of a bracket, where it may look, a march may have no
// answer, and of 600 random designs with hardly any air it left three more without one.
func balanceAir(f func(x float64) (float64, error), similar airBalance, within balanceTolerance) (airBalance, error) {
	const cautious, few = 3, 10
	steep := 1.0
	if similar.total != 0 {
		steep = min(1, cautious*math.Abs(similar.slope))
	}
	low := similar.total
	atLow, err := f(low)
	if err != nil || within.met(low+atLow, math.Abs(atLow)*steep) {
		return airBalance{low + atLow, similar.slope}, err
	}
	high := low + atLow
	atHigh, err := f(high)
	slope := (atHigh - atLow) / (high - low) // of f; that of g is one more
	tries := 40
	for step := 0; step < tries; step++ {
		found := airBalance{high + atHigh, 1 + slope}
		off := math.Abs(atHigh) * min(1, math.Abs(found.slope))
		switch met := err == nil && within.met(found.total, off); {
		case err != nil, met && within.bracketed(found.total, off, low, high):
			return found, err
		case met && within.against:
			tries = min(tries, step+few)
		}
		if math.Abs(high-low) <= within.width() {
			if math.Abs(atHigh) <= 100*within.width() {
				return found, nil
			}
			return airBalance{}, ErrTooLittleAir
		}
		x := high - atHigh*(high-low)/(atHigh-atLow)
		var at float64
		at, err = f(x)
		slope = (at - atHigh) / (x - high)
		if (at > 0) == (atHigh > 0) {
			atLow /= 2
		} else {
			low, atLow = high, atHigh
		}
		high, atHigh = x, at
	}
	return airBalance{}, ErrTooLittleAir
}

// ErrTooLittleAir is what becomes of a zone whose air and strand do not agree.
var ErrTooLittleAir = errors.New("the humidity of the air and the water given off do not agree")
