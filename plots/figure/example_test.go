package figure_test

import (
	"bytes"
	"context"
	"fmt"

	"strandry/plots/canvas"
	"strandry/plots/figure"
)

func ExampleEncodeAll() {
	f := figure.Line{
		X:       figure.Axis{Name: "length of drum", Unit: "m", Values: []float64{1, 10, 100}, Log: true},
		Content: []float64{0.02, 0.004, 0.001}, // [kg/kg dry]
		Limit:   0.002,
		Frame:   figure.Frame{Notes: []string{"An example"}},
	}
	fmt.Println(f.Headline())
	drawn, err := figure.EncodeAll(context.Background(), []figure.Sheet{{Name: "line", Figure: f}}, canvas.SVG)
	fmt.Println(bytes.HasPrefix(drawn[0].Files[0], []byte("<?xml")), err, drawn[0].Err)
	// Output:
	// The limit of 0.2 % asks for a length of drum of at least 31.7 m
	// true <nil> <nil>
}
