package diffusion_test

import (
	"fmt"

	"strandry/diffusion"
	"strandry/diffusion/film"
	"strandry/materials"
)

// A strand of PETG out of a room at 23 °C and 50 % runs at 0.5 mm/s through fourteen metres of dry air at 65 °C.
func Example() {
	petg, err := materials.Lookup("petg")
	if err != nil {
		fmt.Println(err)
		return
	}
	d := diffusion.Design{Model: diffusion.Model{
		Radius: 0.875e-3, Speed: 0.5e-3, // [m], [m/s]
		Start: petg.Sorption.Content(0.5, 296.15), StartActivity: 0.5, StartTemperature: 296.15,
		Path: []diffusion.Zone{{
			Name: "oven", Length: 14,
			Air:  diffusion.Air{Temperature: 338.15, VapourPressure: 50}, // [K], [Pa]
			Film: diffusion.Film{Flow: film.Across, AirSpeed: 0.5, Emissivity: 0.9},
		}},
	}}
	d.SetMaterial(&petg) // with its own limit for printing
	march := diffusion.NewMarch()
	var r diffusion.Result
	if err := march.Run(&d.Model, diffusion.Settings{}, &r); err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.2f %% of water at the start, %.2f %% at the nozzle\n", 100*r.Start.Mean, 100*r.Nozzle.Mean)
	a, err := march.Assess(&d, diffusion.Settings{})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.1g to %.1g %%, eight times in ten\n", 100*a.Low, 100*a.High)
	fmt.Printf("within %.2g %% %.0f times in 100: %v\n", 100*d.Limit, 100*a.Probability, a.Verdict)
	// Output:
	// 0.20 % of water at the start, 0.01 % at the nozzle
	// 0.001 to 0.04 %, eight times in ten
	// within 0.1 % 98 times in 100: dry
}
