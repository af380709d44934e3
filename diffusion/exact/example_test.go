package exact_test

import (
	"fmt"
	"math"

	"strandry/diffusion/exact"
)

// How much of the whole exchange has taken place at Fo = 0.1, with the surface
// held and with films that resist more and more.
func ExampleRobinMean() {
	for _, Bi := range []float64{math.Inf(1), 10, 1, 0.1} {
		fmt.Printf("Bi %4g: %.4f\n", Bi, 1-exact.RobinMean(Bi, 0.1))
	}
	// Output:
	// Bi +Inf: 0.6058
	// Bi   10: 0.4900
	// Bi    1: 0.1567
	// Bi  0.1: 0.0195
}

func ExampleConstantProfile() {
	for _, x := range []float64{0, 0.5, 1} {
		fmt.Printf("x %.1f: %.4f\n", x, exact.ConstantProfile(x, 0.2))
	}
	// Output:
	// x 0.0: 0.5015
	// x 0.5: 0.3380
	// x 1.0: 0.0000
}

func ExampleFirstMode() {
	mode, err := exact.FirstMode(1)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("root %.4f, coefficient %.4f\n", mode.Root, mode.Coefficient)
	// Output:
	// root 1.2558, coefficient 1.2071
}

// A diffusivity that doubles half way, with the surface held.
func ExampleReducedTime() {
	Fo := exact.ReducedTime(1e-3, exact.Hold{Duration: 1000, Diffusivity: 2e-11}, exact.Hold{Duration: 1000, Diffusivity: 4e-11})
	fmt.Printf("Fo %.3f, exchanged %.4f\n", Fo, exact.ConstantUptake(Fo))
	// Output:
	// Fo 0.060, exchanged 0.4894
}

// Two stages: out through a weak film, then back in from richer surroundings.
func ExampleProfile_After() {
	profile, err := exact.Uniform(1, 100)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, stage := range []exact.Stage{
		{Biot: 2, Fourier: 0.3, Surroundings: 0},
		{Biot: 50, Fourier: 0.01, Surroundings: 0.8},
	} {
		if profile, err = profile.After(stage); err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("mean %.4f, centre %.4f, surface %.4f\n", profile.Mean(), profile.At(0), profile.At(1))
	}
	// Output:
	// mean 0.4428, centre 0.6193, surface 0.2838
	// mean 0.5292, centre 0.6039, surface 0.7557
}
