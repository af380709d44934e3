package diffusion

import (
	"errors"
	"fmt"
	"math"
	"slices"
)

// Check tells the first thing that makes a model unfit to run: a value that is not
// finite or not physical. What a scenario allows is narrower.
func (m *Model) Check() error {
	err := first([]bounded{
		{"radius [m]", m.Radius, 1e-6, 0.1},
		{"speed [m/s]", m.Speed, m.slowest(), 10},
		{"starting content [kg/kg]", m.Start, 0, 10},
		{"starting temperature [K]", m.StartTemperature, 213.15, 623.15},
		{"pressure [Pa]", m.AirPressure(), 1e3, 1e6},
	})
	if err != nil {
		return err
	}
	if err := m.checkMaterial(); err != nil {
		return err
	}
	if len(m.Path) == 0 {
		return errors.New("the path has no zone: allowed are one or more")
	}
	for i := range m.Storage {
		if err := m.Storage[i].check(m, true); err != nil {
			return fmt.Errorf("zone %q: %w", m.Storage[i].Name, err)
		}
	}
	for i := range m.Path {
		if err := m.Path[i].check(m, false); err != nil {
			return fmt.Errorf("zone %q: %w", m.Path[i].Name, err)
		}
	}
	return nil
}

// has tells what is wrong with the index of a zone of the path.
func (m *Model) has(zone int) error {
	return between("index of a zone", float64(zone), 0, float64(len(m.Path)-1))
}

// slowest is the least speed that is taken [m/s]: nothing runs through a path of durations.
func (m *Model) slowest() float64 {
	if slices.ContainsFunc(m.Path, func(z Zone) bool { return z.Length != 0 }) {
		return 1e-9
	}
	return 0
}

// checkMaterial tells what no march can do without.
func (m *Model) checkMaterial() error {
	p := &m.Material
	if c := p.Diffusivity.Correlation; !c.Possible() {
		return fmt.Errorf("correlation of the diffusivity = %+v: allowed is what is positive definite, each of -0.999 to 0.999", c)
	}
	return first([]bounded{
		{"density [kg/m³]", p.Density.Value, 1, 1e5},
		{"heat capacity [J/(kg K)]", p.HeatCapacity.Value, 1, 1e6},
		{"conductivity [W/(m K)]", p.Conductivity.Value, 1e-4, 1e6},
		{"diffusivity at the reference [m²/s]", p.Diffusivity.ReferenceValue.Value, 1e-30, 1},
		{"reference of the diffusivity [K]", p.Diffusivity.Reference, 1, 1e4},
		{"pieces of the diffusivity", float64(len(p.Diffusivity.Pieces)), 1, 1e3},
	})
}

// checkExtent tells what is wrong with a length, or with a duration and what it cannot have.
func (z *Zone) checkExtent(rest bool) error {
	switch {
	case z.Duration != 0 && z.Length != 0:
		return fmt.Errorf("length [m] = %g and duration [s] = %g: allowed is one of them", z.Length, z.Duration)
	case z.Duration == 0 && (rest || z.Length == 0):
		return fmt.Errorf("length [m] = %g and duration [s] = 0: allowed is a zone of the path with either, and a storage with a duration", z.Length)
	case z.Duration != 0 && z.Air.Limited():
		return errors.New("a limited flow of air meets a strand that runs: allowed is one in a zone with a length")
	case z.Duration != 0 && z.alongFilm() && !(z.Film.Heat > 0 && z.Film.Mass > 0):
		return errors.New("the film of air along the strand, or on one that hangs, rests on a length: allowed are a zone with one, or both coefficients")
	}
	return nil
}

func (z *Zone) check(m *Model, rest bool) error {
	if err := z.checkExtent(rest); err != nil {
		return err
	}
	if err := z.checkFlow(m); err != nil {
		return err
	}
	if err := z.Air.checkHeld(m); err != nil {
		return err
	}
	if err := z.Contact.check(); err != nil {
		return err
	}
	if z.Air.Limited() && z.Air.Relax.TimeConstant > 0 {
		return fmt.Errorf("air that changes in time cannot be a limited flow")
	}
	return first([]bounded{
		{"length [m]", z.Length, 0, 1e6},
		{"duration [s]", z.Duration, 0, 1e12},
		{"air temperature [K]", z.Air.Temperature, 213.15, 623.15},
		{"vapour pressure [Pa]", z.Air.VapourPressure, 0, m.AirPressure() * 0.999},
		{"flow of dry air [kg/s]", z.Air.DryFlow, 0, 1e9},
		{"flow of air [m3/s]", z.Air.VolumeFlow, 0, 1e9},
		{"leak of air [m3/s]", z.Air.Leak, 0, 1e9},
		{"vapour pressure of the leak [Pa]", z.Air.LeakOf, 0, m.AirPressure() * 0.999},
		{"strands", float64(z.Air.Strands), 0, 1e6},
		{"section of the air [m²]", z.Film.Section, 0, 1e6},
		{"vapour pressure at the entry [Pa]", z.Air.Relax.From, 0, m.AirPressure() * 0.999},
		{"time constant of the air [s]", z.Air.Relax.TimeConstant, 0, 1e12},
		{"h [W/(m² K)]", z.Film.Heat, 0, 1e6},
		{"k_m [m/s]", z.Film.Mass, 0, 1e3},
		{"factor on h", z.Film.HeatFactor, 0, 100},
		{"factor on k_m", z.Film.MassFactor, 0, 100},
		{"air speed [m/s]", z.Film.AirSpeed, 0, 1e3},
		{"emissivity", z.Film.Emissivity, 0, 1},
	})
}

// check tells what is wrong with settings whose zeros are filled in.
func (s Settings) check() error {
	return first([]bounded{
		{"resolution", s.Resolution, 0.1, 1000}, {"tolerance", s.Tolerance, 1e-14, 1}, {"floor [kg/kg]", s.Floor, 0, 10},
	})
}

// bounded is a value and what it may be.
type bounded struct {
	name             string
	value, low, high float64
}

// first tells of the first value that is not within its bounds.
func first(all []bounded) error {
	for _, v := range all {
		if err := between(v.name, v.value, v.low, v.high); err != nil {
			return err
		}
	}
	return nil
}

func between(name string, x, low, high float64) error {
	if !(x >= low && x <= high) || math.IsInf(x, 0) {
		return &RangeError{name, x, low, high}
	}
	return nil
}
