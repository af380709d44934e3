package strict_test

import (
	"fmt"

	"strandry/materials/text/quantity"
	"strandry/materials/text/strict"
)

func ExampleParse() {
	text := []byte("[zone]\nlenght = \"12 m\"\ntemperature = \"900 °C\"\n")
	root, reader, err := strict.Parse("drum.toml", text)
	if err != nil {
		fmt.Println(err)
		return
	}
	zone := root.Table("zone")
	zone.Quantity("length", quantity.Length(), strict.Limits{Min: 0.001, Max: 1000, Unit: "m"})
	zone.Quantity("temperature", quantity.Temperature(), strict.Limits{Min: 173.15, Max: 773.15})
	fmt.Println(reader.Finish())
	// Output:
	// drum.toml:2: zone.lenght = "12 m": unknown key; allowed: length, temperature; did you mean "length"?
	// drum.toml:3: zone.temperature = "900 °C": outside the limits; allowed: -100 °C to 500 °C
}
