package quantity_test

import (
	"fmt"

	"strandry/materials/text/quantity"
)

func ExampleDimension_Parse() {
	d, _ := quantity.Diffusivity().Parse("8.7e-11 m²/s")
	_, err := quantity.Length().Parse("12 M")
	fmt.Println(d)
	fmt.Println(err)
	// Output:
	// 8.7e-11
	// "12 M": "M" is not a unit of length; allowed: a number with one of m, mm, cm, km, µm, in, ft; did you mean "m"?
}

func ExampleDimension_Format() {
	fmt.Println(quantity.Temperature().Format(383.15, "°C", 4))
	// Output: 110 °C
}
