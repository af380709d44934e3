package materials_test

import (
	"fmt"

	"strandry/materials"
)

func ExampleLookup() {
	p, err := materials.Lookup("pc")
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%s: D at 100 °C about %.0e m2/s\n", p.Name, p.Diffusivity.Dry(373.15))
	_, err = materials.Read("mine.toml", []byte("base = \"pc\"\ndensty = \"1.2 g/cm3\"\n"), nil)
	fmt.Println(err != nil)
	// Output:
	// PC: D at 100 °C about 9e-11 m2/s
	// true
}

func ExampleSorption_At() {
	p, err := materials.Lookup("pa6")
	if err != nil {
		fmt.Println(err)
		return
	}
	isotherm := p.Sorption.At(296.15)
	content := isotherm.Content(0.5)
	activity, _ := isotherm.Activity(content)
	fmt.Printf("%.1f %% at activity %.3f\n", 100*content, activity)
	// Output: 2.7 % at activity 0.500
}
