package heat

import (
	"errors"
	"fmt"
	"math"

	"strandry/diffusion/bounds"
)

// Mass is a part that warms up with the chamber.
type Mass struct {
	Mass     float64 // [kg]
	Capacity float64 // [J/(kg K)]
}

// Lumped is a chamber of one temperature.
type Lumped struct {
	Masses []Mass
	Power  float64 // of the heater while it is on, and what else is given [W]
	UA     float64 // of wall and air together, per difference to the room [W/K]
	Room   float64 // [K]
}

// Settled is how near to the set temperature a chamber counts as warm [K]; common practice, no source.
const Settled = 2.0

// Time is when a temperature is reached.
type Time struct {
	Reached bool    // false: never
	Seconds float64 // where Reached [s]
	Final   float64 // temperature that would be reached after a very long time [K]; +Inf without any loss, while the heater is on
}

func (l Lumped) check() error {
	if len(l.Masses) == 0 {
		return errors.New("heat: a chamber without masses has no time to warm up: state at least one")
	}
	for i, m := range l.Masses {
		if err := bounds.First("heat", bounds.Of(fmt.Sprintf("mass %d", i+1), m.Mass, 1e-9, 1e6, "kg"),
			bounds.Of(fmt.Sprintf("heat capacity of mass %d", i+1), m.Capacity, 1, 1e5, "J/(kg K)")); err != nil {
			return err
		}
	}
	return bounds.First("heat", bounds.Of("power", l.Power, 0, mostPower, "W"), bounds.Of("UA", l.UA, 0, mostUA, "W/K"), temperature("room temperature", l.Room))
}

// Capacity is the heat that warms all masses by a kelvin [J/K].
func (l Lumped) Capacity() float64 {
	sum := 0.0
	for _, m := range l.Masses {
		sum += m.Mass * m.Capacity
	}
	return sum
}

// net is the power that warms the masses at T [K], with the heater on [W].
func (l Lumped) net(T float64) float64 { return l.Power - l.UA*(T-l.Room) }

// WarmUp returns when the chamber, from a start [K], is within so many kelvin (see Settled) below the set temperature [K]: at once
// where it is so already, never where the heater is too weak.
func (l Lumped) WarmUp(start, set, below float64) (Time, error) {
	if err := l.check(); err != nil {
		return Time{}, err
	}
	if err := bounds.First("heat", temperature("temperature at the start", start), temperature("set temperature", set), bounds.Of("nearness", below, 0, 100, "K")); err != nil {
		return Time{}, err
	}
	if start >= set-below {
		return Time{Reached: true, Final: l.final(start)}, nil
	}
	return l.when(start, set-below), nil
}

// final is the temperature after a very long time [K] from a start.
func (l Lumped) final(start float64) float64 {
	if l.UA == 0 && l.Power == 0 {
		return start
	}
	return l.Room + l.Power/l.UA
}

// when tells when the temperature passes another one.
//
//	t = C (T1 - T0)/P0 · [-ln(1 - x)/x],  P0 = P - UA (T0 - Tr),  x = UA (T1 - T0)/P0
func (l Lumped) when(from, to float64) Time {
	out := Time{Final: l.final(from)}
	net := l.net(from)
	x := l.UA * (to - from) / net
	if !(net*(to-from) > 0 && x < 1) {
		return out
	}
	stretch := 1.0
	if x > 0 {
		stretch = -math.Log1p(-x) / x
	}
	out.Reached, out.Seconds = true, l.Capacity()*(to-from)/net*stretch
	return out
}
