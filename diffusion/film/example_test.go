package film_test

import (
	"fmt"

	"strandry/diffusion/film"
)

// A strand at room temperature enters a chamber at 70 °C with air blown across
// it.
func ExampleAt() {
	c, err := film.At(film.Conditions{
		Flow: film.Across, Diameter: 1.75e-3, AirSpeed: 1,
		StrandTemperature: 296.15, AirTemperature: 343.15, VapourPressure: 1405, Pressure: 101325, Emissivity: 0.9,
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("convection %.0f W/(m2 K), radiation %.1f W/(m2 K), mass %.3f m/s, within %.0f %%\n",
		c.Heat, c.Radiation, c.Mass, 100*c.Uncertainty)
	fmt.Println(c.Correlation)
	// Output:
	// convection 82 W/(m2 K), radiation 6.7 W/(m2 K), mass 0.081 m/s, within 20 %
	// Churchill-Bernstein 1977
}
