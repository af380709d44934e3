package advice_test

import (
	"fmt"

	"strandry/diffusion"
	"strandry/diffusion/advice"
	"strandry/diffusion/film"
	"strandry/materials"
)

// What would dry a nylon that leaves four metres of dry air at 60 °C too wet, if up to forty metres at up to 80 °C could be built?
func Example() {
	nylon, err := materials.Lookup("pa6")
	if err != nil {
		fmt.Println(err)
		return
	}
	d := diffusion.Design{Model: diffusion.Model{
		Radius: 0.875e-3, Speed: 1e-3,
		Start: nylon.Sorption.Content(0.3, 296.15), StartActivity: 0.3, StartTemperature: 296.15,
		Path: []diffusion.Zone{{
			Name: "oven", Length: 4,
			Air:  diffusion.Air{Temperature: 333.15, VapourPressure: 50},
			Film: diffusion.Film{Flow: film.Across, AirSpeed: 0.5, Emissivity: 0.9},
		}},
	}}
	d.SetMaterial(&nylon)
	w := diffusion.NewMarch()
	a, err := w.Assess(&d, diffusion.Settings{})
	if err != nil {
		fmt.Println(err)
		return
	}
	diagnosis := advice.Diagnose(w, &d, a)
	fmt.Println(a.Verdict, "for lack of", diagnosis.Cause)
	bounds := advice.Bounds{Longest: []float64{40}, Hottest: 353.15, Driest: 233.15, Slowest: 0.2e-3, Fastest: 1e-3, Room: 296.15}
	would := advice.Find(w, advice.Plain{Design: &d, Room: bounds.Room}, &d, diffusion.Settings{}, a, &diagnosis, bounds)
	for _, set := range would.Sets {
		for _, c := range set.Changes {
			for _, p := range c.Parts {
				fmt.Printf("%s: %s in place of %s\n", p.Key, p.Is, p.Was)
			}
		}
		fmt.Printf("%v, %.0f times in 100\n", set.Verdict, 100*set.Probability)
	}
	// Output:
	// wet for lack of time
	// speed of the feed: 0.000229 m/s in place of 0.001 m/s
	// length of oven: 40 m in place of 4 m
	// temperature of oven: 353.1 K in place of 333.1 K
	// dry, 91 times in 100
}
