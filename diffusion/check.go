package diffusion

import (
	"fmt"
	"math"
)

// Check tells the first thing that makes a model unfit to run: a value that is not
// finite or not physical. What a scenario allows is narrower.
func (m *Model) Check() error {
	values := []struct {
		name      string
		value     float64
		low, high float64
	}{
		{"radius [m]", m.Radius, 1e-6, 0.1},
		{"speed [m/s]", m.Speed, 1e-9, 10},
		{"starting content [kg/kg]", m.Start, 0, 10},
		{"starting temperature [K]", m.StartTemperature, 213.15, 623.15},
		{"limit [kg/kg]", m.Limit, 1e-9, 10},
		{"nozzle temperature [K]", m.NozzleTemperature, 213.15, 1000},
		{"pressure [Pa]", m.Pressure, 1e3, 1e6},
		{"factor on the diffusivity", m.DiffusivityFactor, 1e-6, 1e6},
	}
	for _, v := range values {
		if err := between(v.name, v.value, v.low, v.high); err != nil {
			return err
		}
	}
	if len(m.Path) == 0 {
		return fmt.Errorf("the path has no zone")
	}
	for i := range m.Storage {
		if err := m.Storage[i].check(m, true); err != nil {
			return fmt.Errorf("storage %d: %w", i+1, err)
		}
	}
	for i := range m.Path {
		if err := m.Path[i].check(m, false); err != nil {
			return fmt.Errorf("zone %q: %w", m.Path[i].Name, err)
		}
	}
	return nil
}

func (z *Zone) check(m *Model, rest bool) error {
	if rest == (z.Duration == 0) || rest == (z.Length > 0) {
		return fmt.Errorf("a storage needs a duration and a zone of the path a length, and neither both")
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
	values := []struct {
		name      string
		value     float64
		low, high float64
	}{
		{"length [m]", z.Length, 0, 1e6},
		{"duration [s]", z.Duration, 0, 1e12},
		{"air temperature [K]", z.Air.Temperature, 213.15, 623.15},
		{"vapour pressure [Pa]", z.Air.VapourPressure, 0, m.Pressure * 0.999},
		{"flow of dry air [kg/s]", z.Air.DryFlow, 0, 1e9},
		{"flow of air [m3/s]", z.Air.VolumeFlow, 0, 1e9},
		{"vapour pressure at the entry [Pa]", z.Air.Relax.From, 0, m.Pressure * 0.999},
		{"time constant of the air [s]", z.Air.Relax.TimeConstant, 0, 1e12},
		{"h [W/(m² K)]", z.Film.Heat, 0, 1e6},
		{"k_m [m/s]", z.Film.Mass, 0, 1e3},
		{"factor on h", z.Film.HeatFactor, 0, 100},
		{"factor on k_m", z.Film.MassFactor, 0, 100},
		{"air speed [m/s]", z.Film.AirSpeed, 0, 1e3},
		{"emissivity", z.Film.Emissivity, 0, 1},
	}
	for _, v := range values {
		if err := between(v.name, v.value, v.low, v.high); err != nil {
			return err
		}
	}
	return nil
}

func between(name string, x, low, high float64) error {
	if !(x >= low && x <= high) || math.IsInf(x, 0) {
		return fmt.Errorf("%s = %g: allowed %g to %g", name, x, low, high)
	}
	return nil
}
