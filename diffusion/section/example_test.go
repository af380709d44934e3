package section_test

import (
	"fmt"
	"log"

	"strandry/diffusion/radial"
	"strandry/diffusion/rosenbrock"
	"strandry/diffusion/section"
)

// What is left in a cylinder that dries through half of its perimeter, and through all of it.
func Example() {
	r, err := radial.NewGrid(1, 15, 3)
	if err != nil {
		log.Fatal(err)
	}
	problem := radial.Problem{
		Conductance: radial.Uniform(1), // radius one, diffusivity one: time is the Fourier number
		Potential:   radial.Linear{},
		Surface:     radial.Exchange(func(_, c, _ float64) (j, dc, dq float64) { return 1e6 * c, 1e6, 0 }),
	}
	var m section.March
	for _, exposed := range []float64{0.5, 1} {
		g, err := section.NewGrid(r, section.Shape{Exposed: exposed, Arcs: 1}, section.UsualAngles)
		if err != nil {
			log.Fatal(err)
		}
		m.Start(g, 1)
		if err := m.Advance(problem, 0.334, rosenbrock.Settings{Tolerance: 1e-3}); err != nil {
			log.Fatal(err)
		}
		fmt.Printf("%3.0f %% exposed: %.2f left\n", 100*exposed, g.Mean(m.C))
	}
	// Output:
	//  50 % exposed: 0.43 left
	// 100 % exposed: 0.10 left
}
