package radial_test

import (
	"fmt"

	"strandry/diffusion/radial"
	"strandry/diffusion/rosenbrock"
)

// A cylinder of 1.75 mm diameter stands half an hour in dry surroundings behind
// a film, with D = 2e-11 m²/s at c = 0 and a tenfold diffusivity at c = 1.
func Example() {
	grid, err := radial.NewGrid(0.875e-3, 25, 5)
	if err != nil {
		fmt.Println(err)
		return
	}
	const k = 1e-6 // film coefficient in units of the solid [m/s]
	problem := radial.Problem{
		Conductance: radial.Uniform(2e-11),
		Potential:   radial.Exponential(2.302585),
		Surface:     radial.Exchange(func(t, c, q float64) (j, dc, dq float64) { return k * c, k, 0 }),
	}
	var march radial.March
	march.Start(grid, 1)
	if err := march.Advance(problem, 1800, rosenbrock.Settings{Tolerance: 1e-4}); err != nil {
		fmt.Println(err)
		return
	}
	mean := grid.Mean(march.C)
	lost := 2 * march.Lost / (grid.Radius() * grid.Radius())
	fmt.Printf("mean %.2f, centre %.2f, lost %.2f\n", mean, grid.Centre(march.C), lost)
	fmt.Printf("sum - 1 below 1e-12: %t\n", mean+lost-1 < 1e-12 && mean+lost-1 > -1e-12)
	// Output:
	// mean 0.41, centre 0.65, lost 0.59
	// sum - 1 below 1e-12: true
}

// A surface that follows its surroundings, and a look at every step.
func ExampleMarch_Advance() {
	grid, err := radial.NewGrid(1, 25, 3)
	if err != nil {
		fmt.Println(err)
		return
	}
	march := radial.March{Observe: func(t float64, c []float64) {
		if c[len(c)-1] > t+1e-12 {
			fmt.Println("the surface runs ahead")
		}
	}}
	march.Start(grid, 0)
	ramp := radial.Problem{
		Conductance: radial.Uniform(1), Potential: radial.Linear{},
		Surface: radial.Prescribed(func(t float64) float64 { return t }),
	}
	for range 3 {
		if err := march.Advance(ramp, 0.1, rosenbrock.Settings{Tolerance: 1e-4}); err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("t = %.1f: mean %.3f\n", march.Time, grid.Mean(march.C))
	}
	// Output:
	// t = 0.1: mean 0.042
	// t = 0.2: mean 0.113
	// t = 0.3: mean 0.196
}
