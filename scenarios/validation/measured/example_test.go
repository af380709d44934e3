package measured_test

import (
	"fmt"

	"strandry/scenarios/validation/measured"
)

func ExampleCompare() {
	e, err := measured.Compare()
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, c := range e.Comparisons {
		if c.Material == "hips" {
			fmt.Printf("polystyrene at %.0f %% RH: measured %.2f %%, predicted %.2f %% (%.2f to %.2f %%): %s\n",
				100*c.At.Humidity, 100*c.Middle(), 100*c.Predicted.Value, 100*c.Predicted.Low, 100*c.Predicted.High, c.Verdict)
		}
	}
	// Output:
	// polystyrene at 80 % RH: measured 0.05 %, predicted 0.07 % (0.04 to 0.10 %): inside
}
