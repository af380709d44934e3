package pull_test

import (
	"fmt"
	"math"

	"strandry/diffusion/machine/pull"
)

// A spool that is dragged, an eye, four rollers in a chamber and an eye before the feeder.
func Example() {
	cold, hot := pull.Range{Low: 1.6e9, Value: 1.9e9, High: 2.2e9}, pull.Range{Low: 0.8e9, Value: 1.2e9, High: 1.6e9}
	friction := pull.Range{Low: 0.1, Value: 0.2, High: 0.35}
	stages := []pull.Stage{
		{Name: "spool", Element: pull.Drag{Force: pull.Range{Low: 0.52, Value: 1.04, High: 1.82}}, Temperature: 296, Modulus: cold},
		{Name: "inlet", Element: pull.Guide{Friction: friction, Angle: math.Pi / 6}, Temperature: 296, Modulus: cold},
	}
	for range 4 {
		stages = append(stages, pull.Stage{
			Name: "roller", Temperature: 343, Modulus: hot,
			Element: pull.Roller{
				Angle: math.Pi, Radius: 20.9e-3, Bearing: pull.Range{Low: 0.001, Value: 0.0015, High: 0.003}, Bore: 5e-3, Weight: 0.3,
				Lost: pull.Range{Low: 0.05, Value: 0.2, High: 0.6},
			},
		})
	}
	stages = append(stages, pull.Stage{Name: "outlet", Element: pull.Guide{Friction: friction, Angle: math.Pi / 6}, Temperature: 296, Modulus: cold})
	r, err := pull.Along(pull.Strand{Diameter: 1.75e-3, Density: 1130}, stages)
	if err != nil {
		fmt.Println(err)
		return
	}
	verdict, share, err := pull.Against(r.Pull, pull.Range{Low: 15, Value: 25, High: 40})
	if err != nil {
		fmt.Println(err)
		return
	}
	hottest := r.Points[r.Hottest]
	fmt.Printf("pull %.1f N (%.1f to %.1f): %v, %.0f %% of what the feeder gives\n", r.Pull.Value, r.Pull.Low, r.Pull.High, verdict, 100*share)
	fmt.Printf("where it is hot: %.2f MPa, %.2f %% longer, %.2f %% thinner\n", hottest.Stress.Value/1e6, 100*hottest.Stretch.Strain.Value, 100*hottest.Stretch.Thinner.Value)
	// Output:
	// pull 1.8 N (0.7 to 5.1): holds, 7 % of what the feeder gives
	// where it is hot: 0.69 MPa, 0.06 % longer, 0.02 % thinner
}
