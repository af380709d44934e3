package scenarios_test

import (
	"fmt"

	"strandry/diffusion"
	"strandry/scenarios"
)

func ExampleRead() {
	_, err := scenarios.Read("drum.toml", []byte(`
[strand]
material = "pa6"
[feed]
speed = 2
[[zone]]
name = "drum"
lenght = "12 m"
`))
	fmt.Println(err)
	// Output:
	// drum.toml:5: feed.speed = 2: a whole number where a speed with its unit belongs; allowed: a text, a number with one of m/s, mm/s, cm/s, mm/min, m/min, m/h, ft/min
	// drum.toml:6: zone[1].length: missing; allowed: a length with one of m, mm, cm, km, µm, in, ft
	// drum.toml:8: zone[1].lenght = "12 m": unknown key; allowed: name, length, temperature, bore, shape, contact, exposed, air, h, k_m, emissivity, vertical, heater, wall; did you mean "length"?
}

// The same demonstration with a longer drum.
func ExampleScenario_With() {
	s, err := scenarios.Demo("winch-drum")
	if err != nil {
		fmt.Println(err)
		return
	}
	march := diffusion.NewMarch()
	for _, length := range []string{"12 m", "200 m"} {
		longer, err := s.With(scenarios.Setting{Key: "zone.drum.length", Value: length})
		if err != nil {
			fmt.Println(err)
			return
		}
		var result diffusion.Result
		if err := march.Run(&longer.Model, longer.Settings, &result); err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("%s: dry enough %v\n", length, result.Nozzle.Mean <= longer.Limit)
	}
	// Output:
	// 12 m: dry enough false
	// 200 m: dry enough true
}
