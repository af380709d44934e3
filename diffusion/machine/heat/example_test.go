package heat_test

import (
	"fmt"

	"strandry/diffusion/machine/airstream"
	"strandry/diffusion/machine/heat"
	"strandry/materials/humidair"
)

// A box of 70 °C in a room of 23 °C: its wall, the power that holds it, and the time to warm up.
func Example() {
	const room, chamber, p = 296.15, 343.15, humidair.StandardPressure
	wall := heat.Wall{
		Housing: heat.Housing{Shape: heat.Box, Length: 0.6, Width: 0.3, Height: 0.2},
		Shell:   heat.Layer{Thickness: 3e-3, Conductivity: 0.2}, Insulation: []heat.Layer{{Thickness: 25e-3, Conductivity: 0.04}}, Emissivity: 0.9,
	}
	loss, err := wall.Loss(heat.Climate{Inside: chamber, Room: room, Pressure: p})
	if err != nil {
		fmt.Println(err)
		return
	}
	supply, err := airstream.OfVolume(10e-3/60, room, humidair.VapourPressureAt(0.5, room), p)
	if err != nil {
		fmt.Println(err)
		return
	}
	steady, err := heat.Zone{Temperature: chamber, Air: []airstream.Stream{supply}, Wall: loss.Power}.Steady()
	if err != nil {
		fmt.Println(err)
		return
	}
	power, err := steady.Size(1.5)
	if err != nil {
		fmt.Println(err)
		return
	}
	warm, err := heat.Lumped{Masses: []heat.Mass{{Mass: 3, Capacity: 1400}}, Power: power, UA: loss.UA + supply.Capacity(), Room: room}.WarmUp(room, chamber, heat.Settled)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("wall %.0f W (%.0f to %.0f), surface %.0f °C\n", loss.Power, loss.PowerLow, loss.PowerHigh, loss.Surface-273.15)
	fmt.Printf("heater %.0f W, chosen %.0f W, warm after %.0f min\n", steady.Heater, power, warm.Seconds/60)
	// Output:
	// wall 34 W (31 to 36), surface 28 °C
	// heater 44 W, chosen 65 W, warm after 77 min
}
