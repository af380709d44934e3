package diffusion

import (
	"fmt"
	"math"

	"strandry/materials/humidair"
)

// HeldAt is air at a temperature [K] in which a controller holds a relative humidity [-], here and at any other
// temperature.
func HeldAt(humidity, temperature float64) Air {
	return Air{Temperature: temperature, Held: humidity, VapourPressure: humidair.VapourPressureAt(humidity, temperature)}
}

// At is the same air at another temperature [K], the one rule for all that heats or cools a zone: a humidity that is held
// stays as it is, and vapour that is supplied too, up to saturation.
func (a Air) At(temperature float64) Air {
	a.Temperature = temperature
	if a.Held > 0 {
		a.VapourPressure = humidair.VapourPressureAt(a.Held, temperature)
	} else {
		a.VapourPressure = min(a.VapourPressure, humidair.SaturationPressure(temperature))
	}
	return a
}

// Held lists the zones of the path whose humidity is held.
func (m *Model) Held() []string {
	var names []string
	for i := range m.Path {
		if m.Path[i].Air.Held > 0 {
			names = append(names, m.Path[i].Name)
		}
	}
	return names
}

// MostVapour is the largest share of vapour in air that can carry heat and water by the laws used here.
const MostVapour = 0.99

// checkHeld tells what is wrong with a humidity that is held.
func (a *Air) checkHeld(m *Model) error {
	if a.Held == 0 {
		return nil
	}
	if err := between("humidity that is held", a.Held, 0, 1); err != nil {
		return err
	}
	const slack = 1e-9
	held := humidair.VapourPressureAt(a.Held, a.Temperature)
	switch {
	case !(math.Abs(a.VapourPressure-held) <= slack*held):
		return fmt.Errorf("vapour pressure [Pa] = %g: a relative humidity of %.4g held at %.5g K is %g", a.VapourPressure, a.Held, a.Temperature, held)
	case held > MostVapour*m.AirPressure():
		return fmt.Errorf("a relative humidity of %.4g held at %.5g K is a vapour pressure of %.4g Pa, which leaves no air", a.Held, a.Temperature, held)
	}
	return nil
}
