package airstream_test

import (
	"fmt"

	"strandry/diffusion/machine/airstream"
	"strandry/materials/humidair"
)

// A chamber gets dry supply, a leak of room air, and the water of one strand.
func ExampleChamber_Balance() {
	const p, room = humidair.StandardPressure, 296.15
	leak, err := airstream.OfVolume(2e-5, room, humidair.VapourPressureAt(0.5, room), p)
	if err != nil {
		fmt.Println(err)
		return
	}
	supply := airstream.Stream{Dry: 2e-4, Ratio: 0.0005, Temperature: room}
	state, err := airstream.Chamber{Supply: supply, Leak: leak, Strands: []float64{3e-8}}.Balance()
	if err != nil {
		fmt.Println(err)
		return
	}
	out := airstream.Stream{Dry: state.Dry, Ratio: state.Ratio, Temperature: 343.15}
	fmt.Printf("%.2f g/kg, dew point %.0f °C\n", 1e3*state.Ratio, out.DewPoint(p)-273.15)
	// Output: 1.50 g/kg, dew point -11 °C
}
