package desiccant_test

import (
	"fmt"

	"strandry/diffusion/machine/desiccant"
	"strandry/materials/humidair"
)

// A quarter of a kilogram of silica gel, regenerated at 120 °C with heated room air, dries a box at 25 °C that takes 0.1 g/h off a strand and leaks.
func Example() {
	gel, err := desiccant.Of(desiccant.SilicaGel)
	if err != nil {
		fmt.Println(err)
		return
	}
	room := humidair.VapourPressureAt(0.5, 296.15)
	left, err := gel.Residue(room, 393.15)
	if err != nil {
		fmt.Println(err)
		return
	}
	bed := desiccant.Bed{Isotherm: gel, DryMass: 0.25, Temperature: 298.15, StartLoad: left, Share: 0.7}
	arrives := func(held float64) float64 { return 0.1e-3/3600 + 2e-11*(room-held) }
	life, err := bed.Life(humidair.SaturationPressure(273.15-20), arrives)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("left by regeneration: %.4f kg/kg\n", left)
	fmt.Printf("a dew point of -20 °C is held for %.0f h, by when it has taken up %.1f g\n", life.Seconds/3600, life.Taken*1e3)
	// Output:
	// left by regeneration: 0.0052 kg/kg
	// a dew point of -20 °C is held for 23 h, by when it has taken up 4.6 g
}
