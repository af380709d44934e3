package doubt_test

import (
	"context"
	"fmt"

	"strandry/scenarios"
	"strandry/scenarios/studies/doubt"
)

// What makes the answer for the winch drum doubtful, and what to measure first?
func ExampleFind() {
	s, err := scenarios.Demo("winch-drum")
	if err != nil {
		fmt.Println(err)
		return
	}
	answer, err := doubt.Find(context.Background(), s)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("the %s makes %.1f of the doubt\n", answer.Rows[0].Unknown, answer.Rows[0].Total.Value)
	for _, step := range answer.Order {
		fmt.Printf("%s: leaves %.1f\n", step.Unknown, step.Left)
	}
	// Output:
	// the limit makes 0.6 of the doubt
	// limit: leaves 0.5
	// diffusivity at the reference: leaves 0.4
	// activation energy: leaves 0.0
}
