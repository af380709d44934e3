package advised_test

import (
	"fmt"

	"strandry/diffusion"
	"strandry/scenarios"
	"strandry/scenarios/studies/advised"
)

// What would dry the lamp shade's strand, if 90 m of warm box could be built?
func ExampleFind() {
	s, err := scenarios.Demo("lamp-shade")
	if err != nil {
		fmt.Println(err)
		return
	}
	if s, err = s.Set("build.longest = 90 m"); err != nil {
		fmt.Println(err)
		return
	}
	w := diffusion.NewMarch()
	a, err := w.Assess(&s.Design, s.Settings)
	if err != nil {
		fmt.Println(err)
		return
	}
	d, v := advised.Find(w, s, a)
	fmt.Println("held back by", d.Cause)
	for _, set := range advised.Settings(v.Sets[0].Changes) {
		fmt.Println(set.Key, "=", set.Value)
	}
	// Output:
	// held back by air
	// zone.warm box.length = 80 m
	// zone.warm box.air.dew_point = -35 °C
}
