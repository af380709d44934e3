package shape_test

import (
	"fmt"

	"strandry/diffusion/machine/shape"
)

// Six metres of strand wound on a drum of 160 mm in one layer, and whether that goes into a box.
func Example() {
	const strand = 1.75e-3
	way, err := shape.Winding{Drum: 0.16, Pitch: 3e-3, Layers: 1, Gap: 8e-3, Wall: 2e-3}.ForLength(6, strand)
	if err != nil {
		fmt.Println(err)
		return
	}
	lead, err := way.Lead(strand)
	if err != nil {
		fmt.Println(err)
		return
	}
	box := shape.Box{A: 0.2, B: 0.2, C: 0.1}
	fits, err := shape.Fits(box, lead.Housing)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.1f turns, %.0f mm across, %.0f mm long, bent by %.2f %%\n", way.(shape.Winding).Turns, 1e3*lead.Housing.Diameter, 1e3*lead.Housing.Length, 100*lead.BendStrain)
	fmt.Printf("air passes %.1f cm²; fits: %t\n", 1e4*lead.AirSection, fits)
	// Output:
	// 11.8 turns, 184 mm across, 57 mm long, bent by 1.08 %
	// air passes 43.1 cm²; fits: true
}
